// The page: its head, its screens by the fragment of the address, and its beginning.
import { deviceNamed, plan, say, tasks } from "./data.js";
import { link, make } from "./elements.js";
import { deviceScreen } from "./device.js";
import { faultScreen } from "./fault.js";
import { aboutScreen, exportButton, filesScreen, handoverScreen, listScreen, lookScreen, moreScreen, peopleScreen, snagScreen, startLook } from "./more.js";
import { bar } from "./picture.js";
import { freeSnag, notEntered, placeOf, stepScreen, valueOf } from "./step.js";
import { isOpen, keeper, nextTask, progress, refresh, standOf, standingOf, state, tasksOf } from "./state.js";

/** @typedef {import("./data.js").Task} Task */

const MARKS = { open: "", in: "✓", done: "✓", unknown: "✓", out: "!", both: "≠", left: "–", told: "" };
const LOOKS_LIKE = { open: "", in: ".in", done: ".in", unknown: ".in", out: ".out", both: ".both", left: ".left", told: "" };

/** A step as a row of a list. @param {Task} task */
function row(task) {
  const stand = standOf(task);
  const found = standingOf(task).at(-1);
  const value = found && stand !== "both" && found.kind !== "tick" ? valueOf(found, task) : "";
  return link(`#s=${task.index + 1}`, "row", make(`span.mark${LOOKS_LIKE[stand]}`, { "aria-hidden": "true" }, MARKS[stand]), make("span", {}, make("span.visually-hidden", {}, `${say(`Stand-${stand}`)}: `), make("b", {}, task.place || say("WholeSite")), make("small", {}, plan.texts[task.what])), make("span.value", {}, value));
}

/** Whose floor it is. @param {string} floor @returns {HTMLElement[]} */
function whose(floor) {
  const latest = [...new Map(state.job.installers.map((one) => [one.text, one])).values()];
  const names = latest.filter((one) => one.floors?.includes(floor)).map((one) => one.text ?? "");
  return names.length > 0 ? [make("small.hint", {}, names.join(", "))] : [];
}

/** @returns {HTMLElement[]} */
function workScreen() {
  const next = nextTask(-1);
  const { all, done, out, left } = progress(state.floor);
  const floors = plan.floors.map((name, index) => ({ name, index, ...progress(index) })).filter((floor) => floor.all > 0);
  const ended = floors.filter((floor) => floor.done + floor.left === floor.all);
  const parts = [];
  const counts = keeper.counts();
  if (keeper.name === "") parts.push(make("section.stack", {}, make("p", {}, say("WhoFirst")), link("#people", "button", say("WhoAmILink"))));
  if (next) {
    const { name, where } = placeOf(next);
    parts.push(make("section.next", {}, make("h2", {}, say("NextStep")), make("p.place", {}, make("b", {}, name), where), make("p.what", {}, plan.texts[next.what]), link(`#s=${next.index + 1}`, "button.do", say(done === 0 ? "Begin" : "GoOn"))));
  } else parts.push(make("section.next", {}, make("h2", {}, say("AllDone")), make("p", {}, say("AllDoneWords", { left, out }))));
  if (ended.length > 0 && counts.here > 0) parts.push(make("section.stack", {}, make("h2", {}, say("ExportNow", { count: counts.here })), make("p", {}, say("ExportWhy")), exportButton()));
  parts.push(make("section", {}, make("h1", { id: "title" }, say("Progress")), make("p", {}, say("ProgressWords", { done, all, out, left })), bar(done + left, all, out > 0)));
  const every = make("button", { type: "button", "aria-pressed": String(state.floor === null), click: () => { state.floor = null; state.redraw(); } }, say("AllFloors"));
  parts.push(make("section", {}, make("h2", {}, say("ByFloor")), state.floor === null ? null : every, make("ul.list", {}, ...floors.map((floor) => make("li", {}, link(`#f=${floor.index}`, "floor", make("b", {}, floor.name || say("NoFloor")), make("span.value", {}, `${floor.done} / ${floor.all}${floor.out > 0 ? ` · ${say("OutShort", { count: floor.out })}` : ""}`), ...whose(floor.name), bar(floor.done + floor.left, floor.all, floor.out > 0)))))));
  if (plan.errors) parts.push(make("section", {}, make("p.alarm", {}, plan.errors)));
  parts.push(make("section", {}, link("#steps", "button", say("AllSteps"))));
  return parts;
}

/** The steps by stage; of one floor if one is chosen. @returns {HTMLElement[]} */
function stepsScreen() {
  const select = /** @type {HTMLSelectElement} */ (make("select", { id: "floor", change: () => { state.floor = select.value === "" ? null : Number(select.value); state.redraw(); } },
    make("option", { value: "", selected: state.floor === null }, say("AllFloors")), make("option", { value: -1, selected: state.floor === -1 }, say("WholeSite")), ...plan.floors.map((name, index) => make("option", { value: index, selected: state.floor === index }, name || say("NoFloor")))));
  const shown = tasksOf(state.floor);
  const parts = [make("section.stack", {}, make("h1", { id: "title" }, say("Steps")), make("p.field", {}, make("label", { for: "floor" }, say("Floor")), select), make("p", {}, say("ProgressWords", progress(state.floor))))];
  const current = nextTask(-1)?.stage;
  for (const stage of plan.stages) {
    const own = shown.filter((task) => task.stage === stage);
    if (own.length === 0) continue;
    const done = own.filter((task) => !isOpen(task)).length;
    // What is far from being done is drawn when it is opened.
    const list = make("ul.list", {});
    const details = /** @type {HTMLDetailsElement} */ (make("details", { open: stage === current }, make("summary", {}, `${stage.letter}. ${stage.title} (${done} / ${own.length})`), list));
    const fill = () => { if (details.open && list.childElementCount === 0) list.append(...own.map((task) => make("li", {}, row(task)))); };
    details.addEventListener("toggle", fill);
    fill();
    parts.push(make("section", {}, details));
  }
  return parts;
}

/** @returns {HTMLElement[]} */
function devicesScreen() {
  const find = /** @type {HTMLInputElement} */ (make("input", { type: "search", id: "find", autocomplete: "off", autocapitalize: "characters", placeholder: "A-12" }));
  const list = make("ul.list", {});
  const fill = () => {
    const wanted = find.value.trim().toLowerCase();
    const fitting = plan.devices.filter((device) => device.number > 0 && (wanted === "" || device.id.toLowerCase().includes(wanted) || String(device.number) === wanted || (plan.floors[device.floor] ?? "").toLowerCase().includes(wanted)));
    list.replaceChildren(...fitting.slice(0, 400).map((device) => make("li", {}, link(`#d=${device.number}`, "row", make("span.quiet", {}, String(device.number)), make("span", {}, make("b", {}, device.id), make("small", {}, [device.what, plan.floors[device.floor]].filter(Boolean).join(", "))), make("span", {})))));
    if (fitting.length === 0) list.replaceChildren(make("li", {}, say("NoneFits")));
  };
  find.addEventListener("input", fill);
  fill();
  return [make("section.stack", {}, make("h1", { id: "title" }, say("Devices")), make("p.field", {}, make("label", { for: "find" }, say("FindDevice")), find)), make("section", {}, list)];
}

/** @returns {{ parts: HTMLElement[], tab: string, task: Task | null }} */
function screen() {
  const where = decodeURIComponent(location.hash.replace(/^#\/?/, ""));
  const [name, value] = where.includes("=") ? [where.slice(0, where.indexOf("=")), where.slice(where.indexOf("=") + 1).replace(/^\//, "")] : [where, ""];
  if (name === "s") {
    const task = tasks[Number(value) - 1];
    if (task) return { parts: stepScreen(task), tab: "work", task };
  }
  if (name === "d") {
    const device = deviceNamed(value);
    const dwelling = device?.dwelling ?? "";
    if (device) return { parts: deviceScreen(device, row, [make("details", {}, make("summary", {}, say("OtherSnag")), freeSnag(device.id)), ...(dwelling ? [notEntered(dwelling, () => state.redraw())] : [])]), tab: "devices", task: null };
    return { parts: [make("section", {}, make("h1", { id: "title" }, say("NoSuchDevice", { device: value })), link("#devices", "button", say("Devices")))], tab: "devices", task: null };
  }
  if (name === "f") {
    state.floor = plan.floors[Number(value)] === undefined ? null : Number(value);
    return { parts: stepsScreen(), tab: "work", task: null };
  }
  /** @type {Record<string, [() => HTMLElement[], string]>} */
  const screens = { steps: [stepsScreen, "work"], devices: [devicesScreen, "devices"], snags: [snagScreen, "snags"], more: [moreScreen, "more"], files: [filesScreen, "more"], people: [peopleScreen, "more"], list: [listScreen, "more"], handover: [handoverScreen, "more"], fault: [faultScreen, "more"], look: [lookScreen, "more"], about: [aboutScreen, "more"] };
  const [made, tab] = screens[name] ?? [workScreen, "work"];
  return { parts: made(), tab, task: null };
}

/** Job, revision, where the readings are; beside work whether power is to be off or on. @param {HTMLElement | null} [strip] */
function head(strip = document.querySelector("header .power")) {
  const counts = keeper.counts();
  const element = document.querySelector("header");
  const lines = [
    make("p.job", {}, make("b", {}, plan.site), make("span", {}, say("RevisionOf", { revision: plan.revision }))),
    make("p.where", {}, make("span", {}, make("b", {}, String(counts.here)), ` ${say("OnThisPhone")}`), make("span", {}, make("b", {}, String(counts.exported)), ` ${say("Exported")}`), make("span", {}, make("b", {}, String(counts.laptop)), ` ${say("OnTheLaptop")}`)),
    strip,
    ...(keeper.trouble ? [make("div.alarm", { role: "alert" }, say("NotKept", { why: keeper.trouble }), " ", link("#files", "", say("ExportNowLink")))] : []),
  ];
  element?.replaceChildren(...lines.filter((line) => line !== null));
}

/** Whether power is to be off or on here. @param {Task | null} task */
function power(task) {
  const of = task ?? nextTask(-1);
  const held = state.job.isolation?.text ?? "";
  // Who holds the isolation comes before what the step would have.
  const on = of?.stage.power === "on" && held === "";
  const words = held ? say("HeldBy", { name: held }) : say(on ? "PowerOnWords" : "PowerOffWords");
  return of ? make(`div.power${on ? ".on" : held ? ".held" : ""}`, {}, make("strong", {}, say(on ? "PowerOn" : "PowerOff")), make("span", {}, words)) : make("div", { hidden: true });
}

/** @param {boolean} moves whether the user went to another screen */
function paint(moves) {
  const { parts, tab, task } = screen();
  const main = document.querySelector("main");
  const tabs = [["#", "work", "Work"], ["#devices", "devices", "Devices"], ["#snags", "snags", "Snags"], ["#more", "more", "More"]];
  head(tab === "work" ? power(task) : null);
  main?.replaceChildren(...parts);
  const open = state.job.snags.length + state.job.notEntered.length + state.job.conflicts.size;
  document.querySelector("nav")?.replaceChildren(...tabs.map(([where, name, words]) => make("a", { href: where, "aria-current": name === tab ? "page" : false }, `${say(words)}${name === "snags" && open > 0 ? ` (${open})` : ""}`)));
  const title = document.getElementById("title")?.textContent ?? plan.site;
  document.title = `${title} – ${plan.site}`;
  document.documentElement.dataset.at = location.hash || "#";
  if (moves) {
    main?.scrollTo(0, 0);
    const heading = document.getElementById("title");
    heading?.setAttribute("tabindex", "-1");
    heading?.focus({ preventScroll: true });
  }
}

startLook();
document.body.replaceChildren(make("header", {}), make("main", { tabindex: 0 }), make("div", { id: "told", role: "status", "aria-live": "polite" }), make("nav.tabs", { "aria-label": say("Screens") }));
state.redraw = () => paint(false);
state.redrawHead = () => head();
addEventListener("hashchange", () => {
  if (!state.toldNow) document.getElementById("told")?.replaceChildren();
  state.toldNow = false;
  paint(true);
});
addEventListener("beforeunload", (event) => {
  if (keeper.inMemory.size > 0 && [...keeper.inMemory].some((id) => !keeper.sent.has(id))) event.preventDefault();
});
document.addEventListener("visibilitychange", async () => {
  if (document.visibilityState !== "visible") return;
  const before = keeper.events.size;
  await keeper.look();
  refresh();
  if (keeper.events.size !== before) paint(false);
});
await keeper.start();
refresh();
paint(false);
document.documentElement.dataset.readyAt = String(performance.now());
document.documentElement.dataset.ready = "yes";
