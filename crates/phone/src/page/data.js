// What the page was made from, and what happened since: the shapes of both.

/** @typedef {{ label: string, kind: "rotary" | "dip" | "jumpers" | "keyed", positions: number, first: number, at: number[], digits: string, words: string }} Switch */
/** @typedef {{ id: string, number: number, what: string, model: string, floor: number, address: string, class: string, numbers: number[], switches: Switch[], wires: string[][], dwelling: string }} Device */
/** @typedef {{ key: string, number: number, place: string, device: number, what: number, instrument: string, kind: "tick" | "read" | "write" | "tell", unit: string, decimals: number, nominal: number | null, lowest: number | null, highest: number | null, fault: number | null }} Step */
/** @typedef {{ name: string, letter: string, title: string, power: "off" | "on", steps: Step[] }} Stage */
/** @typedef {{ label: string, kind: string, first: number, settings: Record<string, number[]> }} Field */
/** @typedef {{ id: string, from: string, stops: number[] }} Run */
/** @typedef {{ site: string, revision: string, plan: string, language: "en" | "de", verdict: string, errors: string, cautions: string[], notes: string[], floors: string[], devices: Device[], stages: Stage[], texts: string[], symbols: Record<string, string>, handover: { title: string, lines: { key: string, text: string }[] }[], findings: { where: string, text: string }[], classes: Record<string, Field[]>, class_words: Record<string, string>, runs: Run[], latched: string, words: Record<string, string>, faults?: { kinds: Record<string, { words: string, unit: string }> } }} Plan */
/** @typedef {"reading" | "tick" | "note" | "snag" | "closed" | "not-entered" | "exchange" | "installer" | "isolation" | "day-end" | "list" | "handover" | "withdrawn"} Kind */
/** @typedef {{ id: string, device: string, sequence: number, plan: string, revision: string, at: number, by: string, kind: Kind, step?: string, place?: string, value?: number | null, unit?: string, text?: string, done?: boolean, corrects?: string, of?: string, floors?: string[], to?: string, details?: Record<string, string> }} Happening */
/** @typedef {{ kind: Kind, step?: string, place?: string, value?: number | null, unit?: string, text?: string, done?: boolean, corrects?: string, of?: string, floors?: string[], to?: string, details?: Record<string, string> }} Draft */
/** @typedef {Step & { stage: Stage, index: number }} Task */

const sent = /** @type {HTMLElement} */ (document.documentElement.cloneNode(true));
/** The page as it was sent, to be saved as a file. */
export const pageAsSent = () => `<!doctype html>\n${sent.outerHTML}\n`;

const block = document.getElementById("plan");
/** @type {Plan} */
export const plan = JSON.parse(block?.textContent ?? "{}");

/** What is left out of a step where it is nothing. */
const PLAIN = { instrument: "", unit: "", decimals: 1, nominal: null, lowest: null, highest: null, fault: null };
/** Every step in working order. @type {Task[]} */
export const tasks = plan.stages.flatMap((stage) => stage.steps.map((step) => ({ ...PLAIN, ...step, stage, index: 0 })));
tasks.forEach((task, index) => (task.index = index));
/** The steps by their name. @type {Map<string, Task>} */
export const taskOf = new Map(tasks.map((task) => [task.key, task]));

/** A message in the language of the page. @param {string} name @param {Record<string, string | number>} [values] */
export function say(name, values = {}) {
  const text = plan.words[name.replace(/-(.)/g, (_, letter) => letter.toUpperCase())] ?? name;
  return text.replace(/\{(\w+)\}/g, (_, key) => String(values[key] ?? ""));
}

/** The device at which one stands for a step. @param {Step} step @returns {Device | null} */
export const deviceOf = (step) => (step.device < 0 ? null : plan.devices[step.device]);
/** The floor of a step; -1 for the whole site. @param {Step} step */
export const floorOf = (step) => (step.device < 0 ? -1 : plan.devices[step.device].floor);
/** A device by its number or name. @param {string} text @returns {Device | undefined} */
export const deviceNamed = (text) => plan.devices.find((device) => String(device.number) === text || device.id === text);
