// Finding a fault without signal: readings keyed in here, or taken over from the steps, ranked from the table on this page.
import { plan, say, tasks } from "./data.js";
import { button, field, make } from "./elements.js";
import { asRead, rankFaults, readTable, unitOfReading } from "./faults.js";
import { number, read, symbol } from "./number.js";
import { standOf, standingOf, state, tell } from "./state.js";

/** @typedef {import("./faults.js").FaultTable} FaultTable */
/** @typedef {import("./faults.js").FaultShare} FaultShare */

/** More readings are not compared at once. */
const MOST_READINGS = 12;
/** So many causes are shown. */
const MOST_SHOWN = 8;
const KINDS_OF_READING = [["V", "FindVolt", ""], ["A", "FindAmpere", "current:"], ["ohm", "FindLoop", "loop:"], ["Mohm", "FindInsulation", "insulation:"]];

/** @type {{ reading: number, value: number }[]} */
const given = [];
/** What is chosen to be read next. */
const chosen = { unit: "V" };
/** The table as it was sent; what is drawn takes the place of its element. */
const packedTable = document.getElementById("faults")?.textContent ?? "";
/** @type {Promise<FaultTable> | null} */
let unpacked = null;

/** The table, unpacked when it is first asked for (RFC 1950). */
function faultTable() {
  unpacked ??= (async () => {
    const packed = Uint8Array.from(atob(packedTable), (sign) => sign.charCodeAt(0));
    const { writable, readable } = new DecompressionStream("deflate");
    const writer = writable.getWriter();
    // What goes wrong in it is told by the reading side.
    writer.write(packed).catch(() => {});
    writer.close().catch(() => {});
    const reader = readable.getReader();
    /** @type {number[]} */
    const bytes = [];
    for (let part = await reader.read(); !part.done; part = await reader.read()) for (const byte of part.value) bytes.push(byte);
    return readTable(Uint8Array.from(bytes));
  })();
  return unpacked;
}

/** A reading in words. @param {string} name */
function nameOf(name) {
  const [, words, head] = KINDS_OF_READING.find(([unit]) => unit === unitOfReading(name)) ?? KINDS_OF_READING[0];
  return { place: name.slice(head.length), words: say(words) };
}

/** A figure of a reading. @param {string} name @param {number} value */
function figureOf(name, value) {
  if (!Number.isFinite(value)) return say("Open");
  const unit = unitOfReading(name);
  return unit === "Mohm" ? `${number(Number((value / 1e6).toPrecision(3)), 0)} ${symbol("Mohm")}` : `${number(value, unit === "A" ? 3 : 2)} ${symbol(unit)}`;
}

/** @param {number} share */
const percent = (share) => `${share >= 1 ? 100 : Math.min(99, Math.max(1, Math.round(100 * share)))} %`;

/** How large a cause is, in words. @param {FaultShare} one */
function sizeOf(one) {
  const unit = plan.faults?.kinds[one.kind]?.unit ?? "";
  if (one.size === null || one.size <= 0) return "";
  if (unit === "along") return say("FindAlong", { size: `${number(Math.round(100 * one.size), 0)} %` });
  if (unit === "plan") return say("FindOfPlan", { size: `${number(Math.round(100 * one.size), 0)} %` });
  return say("FindAbout", { size: `${number(Number(one.size.toPrecision(2)), 0)} ${symbol(unit)}` });
}

/** What the readings say. @param {FaultTable} table @returns {HTMLElement[]} */
function likeliest(table) {
  const { shares, none } = rankFaults(table, given.map((one) => asRead(table, one.reading, one.value)));
  const line = (/** @type {FaultShare} */ one) => {
    const words = plan.faults?.kinds[one.kind]?.words ?? one.kind;
    const where = one.element === "" ? say("FindSomewhere") : one.element;
    return make("li", {}, make("div.row.plain", {}, make("span.value", {}, percent(one.probability)), make("span", {}, make("b", {}, words), make("small", {}, [where, one.element === "" ? "" : sizeOf(one)].filter(Boolean).join(", ")))));
  };
  return [
    make("h2", {}, say("FindLikely")),
    make("p.hint", {}, say("FindFiner")),
    given.length === 0 ? make("p", {}, say("FindEmpty")) : null,
    make("ul.list", { id: "ranked" }, ...shares.slice(0, MOST_SHOWN).map(line), make("li", {}, make("div.row.plain", {}, make("span.value", {}, percent(none)), make("span", {}, say("FindNone"))))),
    table.leftOut > 0 ? make("p.hint", {}, say("FindLeft", { count: table.leftOut, share: percent(table.leftPrior) })) : null,
    make("p.hint", {}, say("FindRates")),
  ].filter((part) => part !== null);
}

/** Takes over what the steps have, what is out of range first. @param {FaultTable} table */
function takeOver(table) {
  const readable = tasks.filter((task) => task.fault !== null && standingOf(task).at(-1)?.kind === "reading");
  const first = (/** @type {import("./data.js").Task} */ task) => (standOf(task) === "out" ? 0 : 1);
  readable.sort((a, b) => first(a) - first(b) || a.index - b.index);
  let count = 0;
  for (const task of readable) {
    const value = standingOf(task).at(-1)?.value ?? Infinity;
    const reading = task.fault ?? -1;
    if (table.readings[reading] === undefined || given.length >= MOST_READINGS || given.some((one) => one.reading === reading)) continue;
    given.push({ reading, value });
    count += 1;
  }
  tell(count === 0 ? say("FindNothing") : say("FindTaken", { count }));
}

/** @param {FaultTable} table @returns {HTMLElement[]} */
function form(table) {
  const [, , head] = KINDS_OF_READING.find(([unit]) => unit === chosen.unit) ?? KINDS_OF_READING[0];
  const names = table.readings.map((one) => one.name).filter((name) => unitOfReading(name) === chosen.unit).map((name) => name.slice(head.length));
  const select = /** @type {HTMLSelectElement} */ (make("select", { change: () => { chosen.unit = select.value; state.redraw(); } }, ...KINDS_OF_READING.map(([unit, words]) => make("option", { value: unit, selected: unit === chosen.unit }, say(words)))));
  const place = /** @type {HTMLInputElement} */ (make("input", { type: "text", list: "fault-places", autocomplete: "off", autocapitalize: "characters", spellcheck: "false" }));
  const value = /** @type {HTMLInputElement} */ (make("input", { type: "text", inputmode: "decimal", autocomplete: "off" }));
  const add = () => {
    const wanted = place.value.trim().toLowerCase();
    const name = names.find((one) => one.toLowerCase() === wanted);
    const found = read(value.value, chosen.unit, chosen.unit);
    if (name === undefined) return tell(say("FindUnknown", { place: place.value.trim() || "–" }));
    if ("wrong" in found || ("open" in found && (chosen.unit === "V" || chosen.unit === "A"))) return tell(say(`Wrong-${"wrong" in found ? found.wrong : "number"}`));
    // More below zero than a meter's offset: its leads are the wrong way round.
    if ("value" in found && found.value < -0.5) return tell(say("LeadsVolt"));
    if (given.length >= MOST_READINGS) return tell(say("FindFull", { most: MOST_READINGS }));
    const reading = table.readings.findIndex((one) => one.name === `${head}${name}`);
    given.push({ reading, value: "open" in found ? Infinity : chosen.unit === "Mohm" ? found.value * 1e6 : found.value });
    state.redraw();
  };
  return [
    field(say("FindWhat"), select),
    field(say("FindPlace"), place),
    make("datalist", { id: "fault-places" }, ...names.map((name) => make("option", { value: name }))),
    field(`${say("Reading")}, ${symbol(chosen.unit)}`, value),
    button(say("FindAdd"), add, "do"),
    button(say("FindTake"), () => { takeOver(table); state.redraw(); }),
  ];
}

/** @param {FaultTable} table @returns {HTMLElement[]} */
function shown(table) {
  const list = given.map((one, index) => {
    const { name } = table.readings[one.reading];
    const { place, words } = nameOf(name);
    return make("li", {}, make("div.row.plain", {}, make("span", {}, make("b", {}, place), make("small", {}, words)), make("span.value", {}, figureOf(name, one.value)), button(say("FindRemove"), () => { given.splice(index, 1); state.redraw(); })));
  });
  return [
    make("section.stack", {}, ...form(table)),
    ...(list.length > 0 ? [make("section", {}, make("ul.list", {}, ...list), make("p.hint", {}, say("FindNotKept")))] : []),
    make("section", { role: "status" }, ...likeliest(table)),
  ];
}

/** @returns {HTMLElement[]} */
export function faultScreen() {
  const place = make("div", {}, make("p", {}, say("FindUnpacking")));
  const head = make("section", {}, make("h1", { id: "title" }, say("FindFault")), make("p.hint", {}, say("FindHow", { most: MOST_READINGS })), plan.errors ? make("p.alarm", {}, say("FindSiteFails")) : null);
  if (!plan.faults) return [head, make("section", {}, make("p.alarm", {}, say("FindNoTable")))];
  faultTable().then((table) => place.replaceChildren(...shown(table)), () => place.replaceChildren(make("section", {}, make("p.alarm", {}, say("FindTooOld")))));
  return [head, place];
}
