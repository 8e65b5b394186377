// One device: what to set, what to wire, what to measure, and its exchange.
import { plan, say } from "./data.js";
import { button, field, link, make } from "./elements.js";
import { switchPicture } from "./picture.js";
import { note, standOf, state, tasksOf, tell } from "./state.js";

/** @typedef {import("./data.js").Device} Device */

/** @param {Device} device @returns {HTMLElement[]} */
export function deviceSettings(device) {
  if (device.switches.length === 0) return [make("h2", {}, say("Set")), make("p", {}, device.address || say("NothingToSet"))];
  return [make("h2", {}, say("Set")), make("p", {}, device.address), ...device.switches.map(switchPicture), plan.latched ? make("p.hint", {}, plan.latched) : make("span", { hidden: true })];
}

/** Terminal by terminal. @param {Device} device @returns {HTMLElement[]} */
export function deviceWires(device) {
  const rows = device.wires.map(([terminal, leg, cable, type, pair, colour, to, remark]) => {
    const end = [terminal, leg].filter(Boolean).join(" ");
    if (!cable && !to) return make("li", {}, make("span.terminal", {}, end), make("span.free", {}, remark));
    const lead = [cable, type, pair ? say("Pair", { pair }) : ""].filter(Boolean).join(", ");
    return make("li", {}, make("span.terminal", {}, end), make("span", {}, colour ? make("span.colour", {}, colour === "…" ? say("NoteColour") : colour) : null, colour ? " " : null, lead, make("span.to", {}, "→ ", make("b", {}, to)), remark ? make("span.hint", {}, remark) : null));
  });
  return [make("h2", {}, say("Wire")), device.wires.length === 0 ? make("p", {}, say("NothingToWire")) : make("ul.wires", {}, ...rows)];
}

/** @param {Device} device @param {(task: import("./data.js").Task) => HTMLElement} row @param {HTMLElement[]} more */
export function deviceScreen(device, row, more) {
  const own = tasksOf(null).filter((task) => plan.devices[task.device] === device);
  const next = own.find((task) => standOf(task) === "open");
  return [
    make("section", {}, make("p.crumb", {}, make("span", {}, say("DeviceNumber", { number: device.number })), link("#devices", "", say("Devices"))), make("h1", { id: "title" }, device.id),
      make("p", {}, [device.what, plan.floors[device.floor]].filter(Boolean).join(", ")), make("p.quiet", {}, device.model),
      next ? link(`#s=${next.index + 1}`, "button.do", say("DoNextHere")) : make("p", {}, make("b", {}, say("NothingLeftHere")))),
    make("section", {}, ...deviceSettings(device)),
    make("section", {}, ...deviceWires(device)),
    make("section", {}, make("h2", {}, say("Measure")), make("ul.list", {}, ...own.map((task) => make("li", {}, row(task))))),
    make("section.stack", {}, exchange(device), ...more),
  ];
}

/** A unit is exchanged. @param {Device} device */
function exchange(device) {
  const names = ["OldSerial", "NewSerial", "ExchangeWhy", "Before", "After"];
  const inputs = names.map(() => /** @type {HTMLInputElement} */ (make("input", { type: "text", maxlength: 200, autocomplete: "off" })));
  const fault = /** @type {HTMLSelectElement} */ (make("select", {}, ...["FaultGone", "FaultStayed", "FaultMoved", "FaultOpen"].map((name) => make("option", { value: name }, say(name)))));
  const done = state.job.exchanges.filter((one) => one.place === device.id);
  const list = done.map((one) => make("p.hint", {}, say("WasExchanged", { old: one.details?.old_serial ?? "", fresh: one.details?.new_serial ?? "" })));
  return make("details", {}, make("summary", {}, say("Exchange")), make("div.stack", {}, ...list, ...names.map((name, at) => field(say(name), inputs[at])), field(say("Fault"), fault), make("p.hint", {}, say("ExchangeSet", { setting: device.switches.map((one) => `${one.label}: ${one.words}`).join("; ") || "–" })), button(say("KeepExchange"), async () => {
    const [old_serial, new_serial, why, before, after] = inputs.map((input) => input.value.trim());
    if (new_serial === "") return tell(say("SerialWanted"));
    const fate = fault.value.replace("Fault", "").toLowerCase();
    await note({ kind: "exchange", place: device.id, text: why, details: { old_serial, new_serial, before, after, fault: fate } });
    tell(say("ExchangeKept"));
    state.redraw();
  }, "do")));
}
