// Readings as people key them in, and what they are worth against the plan.
import { plan } from "./data.js";

/** @typedef {import("./data.js").Step} Step */

/** What a prefix is worth. @type {Record<string, number>} */
const PREFIX = { m: 1e-3, u: 1e-6, "µ": 1e-6, n: 1e-9, p: 1e-12, k: 1e3, M: 1e6, "": 1 };
/** Units without a prefix, by how they are written. @type {Record<string, string>} */
const UNITS = { v: "V", a: "A", ohm: "ohm", "ω": "ohm", "Ω": "ohm", f: "F", s: "s" };
/** Units of the plan that have a prefix themselves. @type {Record<string, [string, number]>} */
const OF_PLAN = { nF: ["F", 1e-9], Mohm: ["ohm", 1e6], V: ["V", 1], A: ["A", 1], ohm: ["ohm", 1], s: ["s", 1] };

/**
 * Reads a figure with decimal comma or point, with or without a unit, in the unit of the step.
 * @param {string} text @param {string} unit unit of the plan @param {string} shown unit that stands beside the box
 * @returns {{ value: number } | { open: true } | { wrong: "empty" | "number" | "both" | "unit" }}
 */
export function read(text, unit, shown) {
  const clean = text.trim().replace("−", "-").replace(/\s+/g, " ");
  if (clean === "") return { wrong: "empty" };
  if (/^(open|ol|offen|∞)$/i.test(clean)) return { open: true };
  const found = /^([-+]?[0-9.,]+) ?([a-zA-ZµΩω]*)$/.exec(clean);
  if (!found) return { wrong: "number" };
  const [, digits, written] = found;
  if (digits.includes(",") && digits.includes(".")) return { wrong: "both" };
  const plain = digits.replace(",", ".");
  if (!/^[-+]?(\d+\.?\d*|\.\d+)$/.test(plain) || plain.length > 16) return { wrong: "number" };
  const scale = scaleOf(written === "" ? shown : written);
  const [base, factor] = OF_PLAN[unit] ?? [unit, 1];
  if (!scale || scale.base !== base) return { wrong: "unit" };
  // The factors are powers of ten: what is left of a double's last digit is rounded away.
  return { value: Number(((Number(plain) * scale.factor) / factor).toPrecision(12)) };
}

/** @param {string} text @returns {{ base: string, factor: number } | null} */
function scaleOf(text) {
  const bare = UNITS[text] ?? UNITS[text.toLowerCase()];
  if (bare && text !== "M" && text !== "m") return { base: bare, factor: 1 };
  const prefix = text.slice(0, 1);
  const rest = text.slice(1);
  const base = UNITS[rest] ?? UNITS[rest.toLowerCase()];
  return base && prefix in PREFIX ? { base, factor: PREFIX[prefix] } : null;
}

/** The unit in which a step is keyed in and shown: a current below an ampere in mA. @param {Step} step */
export function shownUnit(step) {
  const most = step.highest ?? step.nominal ?? step.lowest;
  return step.unit === "A" && most !== null && Math.abs(most) < 1 ? "mA" : step.unit;
}

/** Units to choose from. @param {Step} step @returns {string[]} */
export function unitsOf(step) {
  if (step.unit === "V") return ["V", "mV"];
  if (step.unit === "A") return ["mA", "A"];
  if (step.unit === "ohm") return ["ohm", "kohm"];
  if (step.unit === "Mohm") return ["Mohm", "kohm"];
  return [step.unit];
}

/** A unit as the reader is used to it. @param {string} unit */
export const symbol = (unit) => (plan.language === "de" ? unit.replace("Mohm", "MΩ").replace("kohm", "kΩ").replace("ohm", "Ω") : unit);

/** A figure of a step with its unit. @param {number} value @param {Step} step */
export function figure(value, step) {
  const unit = shownUnit(step);
  const milli = unit === "mA";
  const decimals = milli ? Math.max(0, step.decimals - 3) : step.decimals;
  return `${number(milli ? value * 1e3 : value, decimals)} ${symbol(unit)}`;
}

/** A number with at least these decimals, and none that was keyed in lost. @param {number} value @param {number} decimals */
export function number(value, decimals) {
  const fixed = value.toFixed(decimals);
  const text = Number(fixed) === value || Math.abs(value) >= 1e15 ? fixed : String(Number(value.toPrecision(12)));
  return plan.language === "de" ? text.replace(".", ",") : text;
}

/** How a value stands to what is predicted. @param {Step} step @param {number | null} value null is open @returns {"in" | "low" | "high" | "unknown"} */
export function judge(step, value) {
  if (step.lowest === null && step.highest === null) return "unknown";
  const read = value ?? Infinity;
  if (step.lowest !== null && read < step.lowest) return "low";
  if (step.highest !== null && read > step.highest) return "high";
  return "in";
}

/**
 * Another unit that would explain a figure a thousand times off, with the value it would give.
 * @param {Step} step @param {number} value @returns {number | null}
 */
export function slip(step, value) {
  const near = step.nominal ?? step.lowest;
  if (near === null || near === 0 || judge(step, value) === "in") return null;
  for (const factor of [1e3, 1e-3]) {
    const other = Number((value * factor).toPrecision(12));
    const isNear = Math.abs(other / near - 1) < 0.3 || (judge(step, other) === "in" && step.highest !== null && step.lowest !== null);
    if (isNear) return other;
  }
  return null;
}
