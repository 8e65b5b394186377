// The list that the system made of itself, held against the plan.
import { plan } from "./data.js";

/** @typedef {import("./data.js").Device} Device */
/** @typedef {{ class: string, numbers: number[], line: number }} Found */

const MOST_NUMBERS = 16;
const isDigits = (/** @type {string} */ text) => /^[0-9]+$/.test(text);

/** @param {string} text @returns {{ found: Found[], unread: number[] }} */
export function readList(text) {
  /** @type {Found[]} */
  const found = [];
  /** @type {number[]} */
  const unread = [];
  text.split("\n").slice(0, 20_000).forEach((raw, index) => {
    const line = raw.trim();
    if (line === "" || line.startsWith("#")) return;
    const kind = classIn(line);
    const numbers = numbersIn(line);
    if (kind === null || numbers === null || numbers.length === 0) unread.push(index + 1);
    else found.push({ class: kind, numbers, line: index + 1 });
  });
  return { found, unread };
}

/** @param {string} line */
function classIn(line) {
  for (const word of line.split(/[^\p{L}]+/u)) {
    const kind = plan.class_words[word.toLowerCase().replace(/s$/, "")];
    if (kind) return kind;
  }
  return null;
}

/** The numbers of a line; null if something looks like a number and is none. @param {string} line @returns {number[] | null} */
function numbersIn(line) {
  const isJoined = line.split(/\s+/).some((word) => {
    const parts = word.replace(/[,;:]+$/, "").split("/");
    return parts.length > 1 && parts.every(isDigits);
  });
  // A letter among the numbers of "0/a/1" is a slip.
  const hasLetter = line.split(/\s+/).some((word) => {
    const parts = word.replace(/[,;:]+$/, "").split("/");
    const first = parts.findIndex(isDigits);
    return first >= 0 && parts.slice(first).some((part) => /^\p{L}$/u.test(part));
  });
  if (hasLetter) return null;
  /** @type {number[]} */
  const numbers = [];
  for (const raw of line.split(/[\s/;,:|()[\]]+/)) {
    const chunk = raw.replace(/^[.#"']+|[.#"']+$/g, "");
    if (!/[0-9]/.test(chunk)) continue;
    if (isJoined && numbers.length > 0 && /^[vV]?[0-9]+(\.[0-9]+)+$/.test(chunk)) continue;
    for (const word of chunk.split("-")) {
      const value = /^0[xX][0-9a-fA-F]+$/.test(word) ? parseInt(word.slice(2), 16) : isDigits(word) ? Number(word) : NaN;
      if (!(value <= 0xffffffff)) return null;
      numbers.push(value);
    }
  }
  return numbers.length <= MOST_NUMBERS ? numbers : null;
}

/** @typedef {{ device: Device, how: { name: string, field: string, values: Record<string, string | number> }[], cost: number }} Reason */

/** How the switches of a missing device come to say what was found. @param {Device} device @param {number[]} numbers @returns {Reason | null} */
function reason(device, numbers) {
  const fields = plan.classes[device.class] ?? [];
  if (numbers.length !== device.numbers.length) return null;
  /** @type {Reason} */
  const made = { device, how: [], cost: 0 };
  for (const [index, number] of numbers.entries()) {
    if (number === device.numbers[index]) continue;
    const field = fields[index];
    const set = field?.settings[number];
    const should = field?.settings[device.numbers[index]];
    if (!field || !set || !should) return null;
    const slip = slipOf(field.kind, field.first, set, should);
    made.how.push({ name: slip.name, field: field.label, values: slip.values });
    made.cost += slip.cost;
  }
  return made;
}

/** One slip of the hand costs 1. @param {string} kind @param {number} first @param {number[]} set @param {number[]} should @returns {{ name: string, values: Record<string, string | number>, cost: number }} */
function slipOf(kind, first, set, should) {
  const different = set.flatMap((value, at) => (value === should[at] ? [] : [at]));
  const hex = (/** @type {number} */ value) => value.toString(16).toUpperCase();
  if (kind === "rotary" && different.length === 2 && set[different[0]] === should[different[1]] && set[different[1]] === should[different[0]]) return { name: "Exchanged", values: {}, cost: 1 };
  if (different.length === 1) {
    const at = different[0];
    const values = { switch: at + first, set: hex(set[at]), should: hex(should[at]) };
    if (kind === "rotary") return { name: "WrongRotary", values, cost: 1 };
    if (kind === "dip") return { name: should[at] ? "ShouldBeOn" : "ShouldBeOff", values, cost: 1 };
    if (kind === "jumpers") return { name: should[at] ? "JumperMissing" : "JumperTooMuch", values, cost: 1 };
  }
  if (kind === "dip" && different.length === set.length && set.length > 1) return { name: "Inverted", values: {}, cost: 1.5 };
  if (kind === "dip" && set.every((value, at) => value === should[set.length - 1 - at])) return { name: "Reversed", values: {}, cost: 1.5 };
  if (kind === "keyed") return { name: "WrongKeyed", values: {}, cost: 1.5 };
  return { name: "SeveralSwitches", values: { count: different.length }, cost: 1 + different.length };
}

/** The plan held against a list. @param {string} text */
export function reconcile(text) {
  const { found, unread } = readList(text);
  const address = (/** @type {{ class: string, numbers: number[] }} */ one) => `${one.class} ${one.numbers.join("/")}`;
  /** @type {Map<string, Device[]>} */
  const planned = new Map();
  for (const device of plan.devices) if (device.numbers.length > 0) planned.set(address(device), [...(planned.get(address(device)) ?? []), device]);
  /** @type {Map<string, Found[]>} */
  const answered = new Map();
  for (const one of found) answered.set(address(one), [...(answered.get(address(one)) ?? []), one]);
  const present = [...planned].filter(([key]) => answered.has(key)).flatMap(([, devices]) => devices);
  const missing = [...planned].filter(([key]) => !answered.has(key)).flatMap(([, devices]) => devices);
  const surplus = [...answered].flatMap(([key, list]) => {
    const times = planned.get(key)?.length ?? 0;
    return list.length > times ? [{ found: list[0], times: list.length, planned: planned.get(key) ?? [] }] : [];
  });
  // Each missing device explains one surplus address at most: the cheapest pairs first.
  const pairs = surplus.flatMap((one) => missing.filter((device) => device.class === one.found.class).flatMap((device) => {
    const why = reason(device, one.found.numbers);
    return why ? [{ one, why }] : [];
  }));
  pairs.sort((a, b) => a.why.cost - b.why.cost);
  /** @type {Map<unknown, Reason>} */
  const chosen = new Map();
  const taken = new Set();
  for (const { one, why } of pairs) {
    if (chosen.has(one) || taken.has(why.device) || why.cost > 3) continue;
    chosen.set(one, why);
    taken.add(why.device);
  }
  const quiet = missing.filter((device) => !taken.has(device));
  return {
    present, missing, unread,
    unexpected: surplus.filter((one) => one.planned.length === 0).map((one) => ({ ...one, why: chosen.get(one) ?? null })),
    duplicated: surplus.filter((one) => one.planned.length > 0).map((one) => ({ ...one, why: chosen.get(one) ?? null })),
    groups: groups(quiet, present),
  };
}

/** Missing devices by run: all of it, from one on, or single ones. @param {Device[]} missing @param {Device[]} present */
function groups(missing, present) {
  /** @type {{ name: "AllOfRun" | "FromOn" | "Alone", run: string, from: string, last: string, devices: Device[] }[]} */
  const made = [];
  const left = new Set(missing);
  for (const run of plan.runs) {
    const stops = run.stops.map((index) => plan.devices[index]).filter((device) => device.numbers.length > 0);
    const gone = stops.filter((device) => left.has(device));
    if (gone.length === 0) continue;
    const last = stops.filter((device) => present.includes(device)).at(-1);
    const first = stops.indexOf(gone[0]);
    const name = gone.length === stops.length && stops.length > 1 ? "AllOfRun" : last && first > stops.indexOf(last) && gone.length === stops.length - first ? "FromOn" : "Alone";
    made.push({ name, run: run.id, from: run.from, last: last?.id ?? "", devices: gone });
    for (const device of gone) left.delete(device);
  }
  if (left.size > 0) made.push({ name: "Alone", run: "", from: "", last: "", devices: [...left] });
  return made;
}
