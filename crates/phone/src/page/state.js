// The state of the page: what is kept, what is known of the job, and what the user is looking at.
import { deviceOf, floorOf, plan, tasks } from "./data.js";
import { known } from "./events.js";
import { make } from "./elements.js";
import { Keeper } from "./keep.js";
import { judge } from "./number.js";

/** @typedef {import("./data.js").Task} Task */
/** @typedef {import("./data.js").Draft} Draft */
/** @typedef {import("./data.js").Happening} Happening */

export const keeper = new Keeper();
export const state = {
  job: known([], plan.plan),
  /** Which floor is shown: its number, or null for all. @type {number | null} */
  floor: null,
  /** Whether something was just told that outlives a change of screen. */
  toldNow: false,
  /** Shows the range before a figure is keyed in. */
  showsRange: false,
  /** Draws the head of the page anew. @type {() => void} */
  redrawHead: () => {},
  /** Draws the page anew. @type {() => void} */
  redraw: () => {},
};

/** Works out what is known. */
export function refresh() {
  state.job = known([...keeper.events.values()], plan.plan);
}

/** Keeps something that happened here, then shows it. @param {Draft} draft @returns {Promise<Happening>} */
export async function note(draft) {
  const kept = await keeper.add(draft);
  refresh();
  return kept;
}

/** What stands for a step. @param {Task} task @returns {Happening[]} */
export const standingOf = (task) => state.job.bySteps.get(task.key) ?? [];

/** How a step stands. @param {Task} task @returns {"open" | "in" | "out" | "both" | "left" | "done" | "unknown" | "told"} */
export function standOf(task) {
  if (task.kind === "tell") return "told";
  const found = standingOf(task);
  if (found.length === 0) return isLeft(task) ? "left" : "open";
  if (state.job.conflicts.has(task.key)) return "both";
  const last = found[found.length - 1];
  if (last.kind === "reading") {
    const side = judge(task, last.value ?? null);
    return side === "in" ? "in" : side === "unknown" ? "unknown" : "out";
  }
  if (last.kind === "tick" && last.done === false) return "open";
  return "done";
}

/** Whether a step is in a flat that could not be entered. @param {Task} task */
export function isLeft(task) {
  const dwelling = deviceOf(task)?.dwelling;
  return Boolean(dwelling) && state.job.notEntered.some((one) => one.place === dwelling);
}

/** Whether something is left to do. @param {Task} task */
export const isOpen = (task) => standOf(task) === "open";

const toDo = tasks.filter((task) => task.kind !== "tell");
/** @type {Map<number, Task[]>} */
const byFloor = new Map();
for (const task of toDo) {
  const floor = floorOf(task);
  const list = byFloor.get(floor) ?? [];
  if (list.length === 0) byFloor.set(floor, list);
  list.push(task);
}

/** Steps of a floor; null is all. @param {number | null} floor */
export const tasksOf = (floor) => (floor === null ? toDo : (byFloor.get(floor) ?? []));

/** The next step to take from one on. @param {number} from */
export function nextTask(from) {
  const open = tasksOf(state.floor).filter(isOpen);
  return open.find((task) => task.index > from) ?? open[0] ?? null;
}

/** How far a floor is. @param {number | null} floor */
export function progress(floor) {
  const all = tasksOf(floor);
  const stands = all.map(standOf);
  const count = (/** @type {string[]} */ ...names) => stands.filter((one) => names.includes(one)).length;
  return { all: all.length, done: count("in", "done", "unknown", "out", "both"), out: count("out", "both"), left: count("left") };
}

/** Says something for a moment, to eyes and to screen readers. @param {string} words */
export function tell(words) {
  const place = document.getElementById("told");
  if (!place) return;
  state.toldNow = true;
  setTimeout(() => (state.toldNow = false), 300);
  place.replaceChildren(make("p", {}, words));
  clearTimeout(tell.timer);
  tell.timer = setTimeout(() => place.replaceChildren(), 3_500);
}
/** @type {ReturnType<typeof setTimeout> | undefined} */
tell.timer = undefined;

/** Goes to a screen. @param {string} where */
export function go(where) {
  if (location.hash === where) state.redraw();
  else location.hash = where;
}
