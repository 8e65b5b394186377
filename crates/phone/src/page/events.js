// What happened, as a list that only grows; what stands of it is worked out from the list alone.

/** @typedef {import("./data.js").Happening} Happening */

/** A name of 128 bits that no other phone makes: time of this phone's clock, then chance (RFC 9562, version 7). */
export function newId() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  let time = Date.now();
  for (let at = 5; at >= 0; at -= 1) {
    bytes[at] = time % 256;
    time = Math.floor(time / 256);
  }
  bytes[6] = (bytes[6] & 0x0f) | 0x70;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const text = Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
  return `${text.slice(0, 8)}-${text.slice(8, 12)}-${text.slice(12, 16)}-${text.slice(16, 20)}-${text.slice(20)}`;
}

/** What is left once corrections and withdrawals are taken: those that nothing points at. @param {Happening[]} all @returns {Happening[]} */
export function standing(all) {
  const gone = new Set(all.map((one) => one.corrects).filter((id) => id !== undefined));
  return all.filter((one) => !gone.has(one.id) && one.kind !== "withdrawn");
}

/** The order in which things are listed: by phone and its own sequence; clocks are not trusted. @param {Happening} a @param {Happening} b */
export const inOrder = (a, b) => (a.device === b.device ? a.sequence - b.sequence : a.at - b.at || (a.id < b.id ? -1 : 1));

/** @param {Happening} one */
const worth = (one) => JSON.stringify([one.value ?? null, one.unit ?? "", one.value === undefined || one.value === null ? (one.text ?? "") : "", one.done ?? null]);

/** What is known of the job. @param {Happening[]} all @param {string} plan hash of the plan of this page */
export function known(all, plan) {
  const left = standing(all).sort(inOrder);
  /** @type {Map<string, Happening[]>} */
  const bySteps = new Map();
  for (const one of left) {
    if (one.step === undefined || !["reading", "tick", "note"].includes(one.kind) || one.plan !== plan) continue;
    bySteps.set(one.step, [...(bySteps.get(one.step) ?? []), one]);
  }
  const conflicts = [...bySteps].filter(([, list]) => new Set(list.map(worth)).size > 1);
  const closed = new Set(left.filter((one) => one.kind === "closed").map((one) => one.of));
  const open = (/** @type {string} */ kind) => left.filter((one) => one.kind === kind && !closed.has(one.id));
  const last = (/** @type {string} */ kind) => left.filter((one) => one.kind === kind).at(-1);
  return {
    bySteps,
    conflicts: new Map(conflicts),
    snags: open("snag"),
    notEntered: open("not-entered"),
    exchanges: left.filter((one) => one.kind === "exchange"),
    installers: left.filter((one) => one.kind === "installer"),
    isolation: last("isolation"),
    isolations: left.filter((one) => one.kind === "isolation"),
    days: left.filter((one) => one.kind === "day-end"),
    list: last("list"),
    handover: left.filter((one) => one.kind === "handover"),
    ofOtherPlans: left.filter((one) => one.plan !== plan),
  };
}

/** @typedef {ReturnType<typeof known>} Known */

/** Longest file that is taken, in characters. */
export const LONGEST_FILE = 40_000_000;
const ID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;

/**
 * Reads a file of another phone or of the laptop. Nothing of it is taken unless all of it can be.
 * @param {string} text @param {string} site
 * @returns {{ events: Happening[], from: string } | { wrong: "half" | "kind" | "newer" | "site" | "event", detail: string }}
 */
export function readFile(text, site) {
  let file;
  try {
    file = JSON.parse(text);
  } catch (error) {
    return { wrong: "half", detail: error instanceof Error ? error.message : "" };
  }
  if (typeof file !== "object" || file === null || file.format !== "latchline-readings") return { wrong: "kind", detail: "" };
  if (file.version !== 1) return { wrong: "newer", detail: String(file.version).slice(0, 20) };
  if (file.site !== site) return { wrong: "site", detail: String(file.site).slice(0, 80) };
  if (!Array.isArray(file.events)) return { wrong: "half", detail: "" };
  for (const [index, one] of file.events.entries()) {
    const fits = typeof one === "object" && one !== null && ID.test(one.id) && ID.test(one.device) && Number.isSafeInteger(one.sequence)
      && Number.isFinite(one.at) && ["plan", "revision", "by", "kind"].every((key) => typeof one[key] === "string")
      && ["step", "place", "unit", "text", "corrects", "of", "to"].every((key) => one[key] === undefined || (typeof one[key] === "string" && one[key].length <= 20_000))
      && (one.value === undefined || one.value === null || (Number.isFinite(one.value) && Math.abs(one.value) <= 1e12))
      && (one.kind !== "reading" || (one.value !== undefined && typeof one.step === "string"))
      && (one.done === undefined || typeof one.done === "boolean")
      && (one.floors === undefined || (Array.isArray(one.floors) && one.floors.every((/** @type {unknown} */ floor) => typeof floor === "string")))
      && (one.details === undefined || (typeof one.details === "object" && one.details !== null && Object.values(one.details).every((value) => typeof value === "string")));
    if (!fits) return { wrong: "event", detail: String(index + 1) };
  }
  return { events: file.events, from: file.from === "laptop" ? "laptop" : "phone" };
}

/** The same whatever the order of its keys. @param {unknown} value @returns {string} */
export function canonical(value) {
  if (Array.isArray(value)) return `[${value.map(canonical).join(",")}]`;
  if (typeof value === "object" && value !== null) {
    const entries = Object.entries(value).filter(([, inner]) => inner !== undefined).sort(([a], [b]) => (a < b ? -1 : 1));
    return `{${entries.map(([key, inner]) => `${JSON.stringify(key)}:${canonical(inner)}`).join(",")}}`;
  }
  return JSON.stringify(value);
}
