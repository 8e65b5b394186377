// One step: where, what, with what, and a box to key in what the meter shows.
import { deviceOf, plan, say, tasks } from "./data.js";
import { button, field, link, make } from "./elements.js";
import { figure, judge, read, shownUnit, slip, symbol, unitsOf } from "./number.js";
import { scale } from "./picture.js";
import { deviceSettings, deviceWires } from "./device.js";
import { go, isLeft, nextTask, note, progress, standOf, standingOf, state, tell } from "./state.js";

/** @typedef {import("./data.js").Task} Task */
/** @typedef {import("./data.js").Happening} Happening */

/** Where a step is done. @param {Task} task */
export function placeOf(task) {
  const device = deviceOf(task);
  const floor = device && device.floor >= 0 ? plan.floors[device.floor] : "";
  const at = task.place && device && device.id !== task.place ? say("At", { place: device.id }) : (device?.what ?? "");
  return { name: task.place || say("WholeSite"), where: [floor, at].filter(Boolean).join(", ") };
}

/** The screen of a step. @param {Task} task @returns {HTMLElement[]} */
export function stepScreen(task) {
  const { name, where } = placeOf(task);
  const device = deviceOf(task);
  const found = standingOf(task);
  const parts = [
    make("section", {},
      make("p.crumb", {}, make("span", {}, say("StepOf", { number: task.index + 1, all: tasks.length })), device ? link(`#d=${device.number}`, "", say("AllOfDevice", { device: device.id })) : null),
      make("p.place", {}, make("b", {}, name), where),
      make("h1", { id: "title" }, plan.texts[task.what]),
      task.instrument ? make("p", {}, say("With"), " ", make("b", {}, task.instrument)) : null,
      task.instrument && task.kind === "read" ? make("p.hint", {}, leads(task)) : null,
      ...tellsOf(task).map((text) => make("p.quiet", {}, text)),
    ),
  ];
  if (device && task.stage.name === "set") parts.push(make("section", {}, ...deviceSettings(device)));
  if (device && task.stage.name === "terminate" && task.place === device.id) parts.push(make("section", {}, ...deviceWires(device)));
  if (state.job.conflicts.has(task.key)) parts.push(conflict(task, found));
  else if (found.length > 0) parts.push(stands(task, found[found.length - 1]));
  else parts.push(make("section", { id: "entry" }, ...entry(task, [])));
  parts.push(others(task));
  return parts;
}

/** What stands near a step and is only to be known. @param {Task} task */
function tellsOf(task) {
  const texts = [];
  for (let at = task.index + 1; at < tasks.length && tasks[at].kind === "tell" && tasks[at].stage === task.stage; at += 1) texts.push(plan.texts[tasks[at].what]);
  return texts;
}

/** Where the leads go. @param {Task} task */
function leads(task) {
  if (task.stage.name === "stations" || task.unit === "V") return say("LeadsVolt");
  if (task.unit === "A") return say("LeadsAmpere");
  if (task.unit === "ohm") return say("LeadsOhm");
  if (task.unit === "Mohm") return say("LeadsInsulation");
  if (task.unit === "nF") return say("LeadsCapacitance");
  return "";
}

/** The range in words. @param {Task} task */
function range(task) {
  const between = task.lowest !== null && task.highest !== null ? say("Between", { least: figure(task.lowest, task), most: figure(task.highest, task) })
    : task.lowest !== null ? say("AtLeast", { least: figure(task.lowest, task) }) : task.highest !== null ? say("AtMost", { most: figure(task.highest, task) }) : say("NoRange");
  return make("p.range-line", {}, task.nominal === null ? null : make("span", {}, say("Expected"), " ", make("b", {}, figure(task.nominal, task))), make("span", {}, between));
}

/** What is keyed in. @param {Task} task @param {Happening[]} corrected what it stands in place of @returns {HTMLElement[]} */
function entry(task, corrected) {
  if (task.kind === "tick") return [button(say("Done"), () => tick(task, corrected), "do")];
  if (task.kind === "write") return writing(task, corrected);
  return metering(task, corrected);
}

/** @param {Task} task @param {Happening[]} corrected */
async function tick(task, corrected) {
  await keep(task, { kind: "tick", step: task.key, place: task.place, done: true }, corrected);
  onward(task);
}

/** Keeps an entry; if several stood, the others are corrected by it as well. @param {Task} task @param {import("./data.js").Draft} draft @param {Happening[]} corrected */
async function keep(task, draft, corrected) {
  const [first, ...rest] = corrected;
  await note(first ? { ...draft, corrects: first.id } : draft);
  for (const other of rest) await note({ kind: "withdrawn", step: task.key, corrects: other.id, text: say("Decided") });
}

/** @param {Task} task */
function onward(task) {
  const next = nextTask(task.index);
  const floor = deviceOf(task)?.floor ?? -1;
  const { all, done, left } = progress(floor);
  if (floor >= 0 && done + left === all) tell(say("FloorDone", { floor: plan.floors[floor] || say("NoFloor") }));
  go(next ? `#s=${next.index + 1}` : "#");
}

/** @param {Task} task @param {Happening[]} corrected @returns {HTMLElement[]} */
function writing(task, corrected) {
  const input = make("input", { type: "text", autocomplete: "off", maxlength: 200 });
  const save = async () => {
    const text = /** @type {HTMLInputElement} */ (input).value.trim();
    if (text === "") return tell(say("EmptyText"));
    await keep(task, { kind: "note", step: task.key, place: task.place, text }, corrected);
    onward(task);
  };
  return [field(say("WriteHere"), input), button(say("Keep"), save, "do")];
}

/** @param {Task} task @param {Happening[]} corrected @returns {HTMLElement[]} */
function metering(task, corrected) {
  let unit = shownUnit(task);
  const label = say("Reading");
  const input = /** @type {HTMLInputElement} */ (make("input", { id: "reading", inputmode: "none", autocomplete: "off", autocapitalize: "off", enterkeyhint: "done", "aria-label": label, "aria-describedby": "reading-unit reading-answer", maxlength: 20 }));
  const beside = make("span", { id: "reading-unit" }, symbol(unit));
  const answer = make("div", { id: "reading-answer", role: "status" });
  const put = (/** @type {string} */ key) => {
    input.value = key === "back" ? input.value.slice(0, -1) : key === "open" ? say("Open") : input.value === say("Open") ? key : (input.value + key).slice(0, 20);
    answer.replaceChildren();
  };
  const key = (/** @type {string} */ text, /** @type {() => void} */ act, look = "", name = "") => make(`button${look}`, { type: "button", "aria-label": name || false, click: act }, text);
  const units = unitsOf(task);
  const unitKeys = units.map((one) => make("button.small", { type: "button", "aria-pressed": String(one === unit), click: () => {
    unit = one;
    beside.textContent = symbol(one);
    unitKeys.forEach((key, at) => key.setAttribute("aria-pressed", String(units[at] === one)));
    answer.replaceChildren();
  } }, symbol(one)));
  const point = plan.language === "de" ? "," : ".";
  const digit = (/** @type {string} */ text) => key(text, () => put(text));
  const side = [key("⌫", () => put("back"), "", say("Back")), ...(units.length > 1 ? unitKeys : [make("span", {})]),
    task.unit === "ohm" || task.unit === "Mohm" ? key(say("Open"), () => put("open"), ".small") : key("−", () => put("-"), "", say("Minus"))];
  while (side.length < 4) side.splice(side.length - 1, 0, make("span", {}));
  const pad = [["1", "2", "3"], ["4", "5", "6"], ["7", "8", "9"]].flatMap((row, at) => [...row.map(digit), side[at]]);
  pad.push(key(point, () => put(point), "", say("Point")), digit("0"), key("C", () => { input.value = ""; answer.replaceChildren(); }, "", say("Clear")), side[3]);
  const take = async (/** @type {number | null} */ value) => {
    const text = input.value.trim();
    await keep(task, { kind: "reading", step: task.key, place: task.place, value, unit: task.unit, text: text === "" ? "" : `${text} ${unit}` }, corrected);
    state.redraw();
  };
  const judgeNow = async () => {
    const found = read(input.value, task.unit, unit);
    if ("wrong" in found) {
      answer.replaceChildren(make("p.judged.out", {}, say(`Wrong-${found.wrong}`)));
      input.focus();
      return;
    }
    const value = "open" in found ? null : found.value;
    const other = value === null ? null : slip(task, value);
    if (value !== null && other !== null) {
      answer.replaceChildren(make("div.judged.unknown.stack", {}, make("p", {}, make("b", {}, say("WasIt", { read: figure(value, task), meant: figure(other, task) }))),
        button(say("Yes", { value: figure(other, task) }), () => take(other), "do"), button(say("No", { value: figure(value, task) }), () => take(value))));
      return;
    }
    await take(value);
  };
  input.addEventListener("keydown", (event) => {
    if (event.key === "Enter") void judgeNow();
  });
  const shown = make("div", {}, state.showsRange ? range(task) : button(say("ShowRange"), () => shown.replaceChildren(range(task))));
  return [make("div.reading", {}, input, beside), answer, make("div.keys", { role: "group", "aria-label": say("Keys") }, ...pad), button(say("Judge"), judgeNow, "do judge"), shown];
}

/** @param {Happening} one @param {Task} task */
export const valueOf = (one, task) => (one.kind === "reading" ? (one.value === null || one.value === undefined ? say("Open") : figure(one.value, task)) : one.kind === "note" ? (one.text ?? "") : say("DoneShort"));

/** Who noted it and when by the phone's own clock. @param {Happening} one */
export function byWhom(one) {
  const time = new Date(one.at).toLocaleString(plan.language === "de" ? "de-DE" : "en-GB", { dateStyle: "short", timeStyle: "short" });
  return say("ByAt", { by: one.by || say("Nobody"), time });
}

/** What stands, judged. @param {Task} task @param {Happening} one */
function stands(task, one) {
  const section = make("section", { id: "stands" });
  const again = () => section.replaceChildren(...entry(task, [one]));
  if (one.kind !== "reading") {
    section.append(make("div.judged", {}, make("b", {}, valueOf(one, task))), make("p.hint", {}, byWhom(one)), button(say("Next"), () => onward(task), "do"), button(say("Correct"), again));
    return section;
  }
  const value = one.value ?? null;
  const side = judge(task, value);
  const words = side === "in" ? say("InRange") : side === "unknown" ? say("NoRangeJudged") : side === "low" ? say("TooLow") : say("TooHigh");
  const judged = make(`div.judged${side === "in" ? "" : side === "unknown" ? ".unknown" : ".out"}`, { role: "status" }, make("b", {}, words), make("p.big", {}, valueOf(one, task)), side === "low" || side === "high" ? make("p", {}, whatNext(task, side)) : null);
  const picture = side === "unknown" ? null : scale(task.lowest, task.highest, task.nominal, value ?? Infinity);
  section.append(judged, picture ?? "", range(task), make("p.hint", {}, byWhom(one)));
  if (side === "in" || side === "unknown") {
    section.append(button(say("Next"), () => onward(task), "do"), button(say("Again"), again));
    return section;
  }
  const snagged = state.job.snags.some((snag) => snag.step === task.key);
  section.append(make("div.stack", {}, button(task.stage.power === "on" ? say("SwitchOff") : say("LookNow"), () => look(task, section, again), "look"),
    snagged ? make("p", {}, make("b", {}, say("IsSnag"))) : button(say("AsSnag"), () => section.append(snagForm(task, one))), snagged ? button(say("Next"), () => onward(task)) : null, button(say("Again"), again)));
  return section;
}

/** @param {Task} task @param {HTMLElement} section @param {() => void} again */
function look(task, section, again) {
  section.replaceChildren(make("h2", {}, task.stage.power === "on" ? say("OffFirst") : say("Look")), make("ol.stack", {}, ...["LookOne", "LookTwo", "LookThree"].map((name) => make("li", {}, say(name)))), button(say("ReadAgain"), again, "do"));
}

/** What to try next. @param {Task} task @param {"low" | "high"} side */
function whatNext(task, side) {
  const low = side === "low";
  if (task.unit === "V") return say(low ? "TryVoltLow" : "TryVoltHigh");
  if (task.unit === "A") return say(low ? "TryAmpereLow" : "TryAmpereHigh");
  if (task.unit === "ohm") return say(low ? "TryOhmLow" : "TryOhmHigh");
  if (task.unit === "Mohm") return say("TryInsulation");
  if (task.unit === "nF") return say(low ? "TryFaradLow" : "TryFaradHigh");
  return say("TryOther");
}

/** @param {Task} task @param {Happening} one */
function snagForm(task, one) {
  const input = make("textarea", { maxlength: 2000 });
  return make("div.stack", {}, field(say("SnagReason"), input), button(say("KeepSnag"), async () => {
    const text = /** @type {HTMLTextAreaElement} */ (input).value.trim();
    if (text === "") return tell(say("ReasonWanted"));
    await note({ kind: "snag", step: task.key, place: task.place, of: one.id, text });
    onward(task);
  }, "do"));
}

/** Two readings of one thing: both are shown. @param {Task} task @param {Happening[]} found */
function conflict(task, found) {
  const section = make("section.stack", {}, make("h2", {}, say("Conflict")), make("ul.list", {}, ...found.map((one) => make("li", {}, make("span.row.plain", {}, make("span", {}, make("b", {}, valueOf(one, task)), make("small", {}, byWhom(one))), button(say("TakeThis"), async () => {
    for (const other of found) if (other !== one) await note({ kind: "withdrawn", step: task.key, corrects: other.id, text: say("Decided") });
    state.redraw();
  }))))));
  section.append(button(say("ReadAnew"), () => section.replaceChildren(...entry(task, found)), "do"));
  return section;
}

/** Everything else that can be said at a step. @param {Task} task */
function others(task) {
  const device = deviceOf(task);
  const next = nextTask(task.index);
  const section = make("section.stack", {});
  if (standOf(task) === "open" && next && next !== task) section.append(link(`#s=${next.index + 1}`, "button", say("Later")));
  if (device?.dwelling && !isLeft(task)) section.append(notEntered(device.dwelling, () => onward(task)));
  if (isLeft(task)) section.append(make("p", {}, make("b", {}, say("IsNotEntered", { flat: device?.dwelling ?? "" }))));
  section.append(make("details", {}, make("summary", {}, say("OtherSnag")), freeSnag(task.place, task.key)));
  return section;
}

/** A flat that does not open. @param {string} flat @param {() => void} then */
export function notEntered(flat, then) {
  const select = make("select", {}, ...["NobodyHome", "Refused", "KeyMissing", "OtherReason"].map((name) => make("option", {}, say(name))));
  const more = make("input", { type: "text", maxlength: 200, autocomplete: "off" });
  return make("details", {}, make("summary", {}, say("NotEntered", { flat })), make("div.stack", {}, field(say("Why"), select), field(say("NoteMore"), more), button(say("KeepNotEntered"), async () => {
    const text = [/** @type {HTMLSelectElement} */ (select).value, /** @type {HTMLInputElement} */ (more).value.trim()].filter(Boolean).join(": ");
    await note({ kind: "not-entered", place: flat, text });
    then();
  }, "do")));
}

/** Something that was found. @param {string} place @param {string} [step] */
export function freeSnag(place, step) {
  const input = make("textarea", { maxlength: 2000 });
  return make("div.stack", {}, field(say("SnagWhat"), input), button(say("KeepSnag"), async () => {
    const text = /** @type {HTMLTextAreaElement} */ (input).value.trim();
    if (text === "") return tell(say("EmptyText"));
    await note(step ? { kind: "snag", place, step, text } : { kind: "snag", place, text });
    tell(say("SnagKept"));
    state.redraw();
  }, "do"));
}

