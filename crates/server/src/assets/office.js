// The page of a site: title block, jobs, drawing, table, text and details, each changed where it has changed.

import { Drawing } from "./drawing.js";
import { client, edit, preview, Refused, turn as turnSite } from "./edits.js";
import { listen } from "./live.js";
import { Table } from "./table.js";
import { mark, marked } from "./typing.js";

/** @typedef {import("./live.js").State} State */

/**
 * @param {string} id
 * @returns {HTMLElement}
 */
function part(id) {
  const found = document.getElementById(id);
  if (!found) throw new Error(`the page has no ${id}`);
  return found;
}

const page = part("site");
const site = `/sites/${encodeURIComponent(page.dataset.name ?? "")}`;
const details = part("details");
const notice = part("notice");
const dialog = /** @type {HTMLDialogElement} */ (part("dialog"));
let revision = Number(page.dataset.revision);
/** Moment at which the last edit was made, for the measurement of how soon it is seen. */
let edited = 0;
/** @type {State | undefined} */
let known;

const drawing = new Drawing(part("drawing"), (name) => void show(name), () => focusDetails());
const table = new Table(part("view-table"), (change) => make(change));

/** @param {string} text */
function tell(text) {
  notice.textContent = text;
  notice.hidden = text === "";
}

/**
 * Makes an edit; says so if it is refused.
 * @param {Record<string, unknown>} change
 */
async function make(change) {
  edited = performance.now();
  performance.mark("latchline-edit");
  try {
    await edit(site, revision, change);
    tell("");
    return true;
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    tell(error.message);
    return false;
  }
}

/** @param {"undo" | "redo"} which */
async function turn(which) {
  edited = performance.now();
  try {
    await turnSite(site, which);
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
  }
}

/**
 * Puts markup of the server in place and keeps the focus, and what is being typed there, where it was.
 * @param {HTMLElement} into
 * @param {string} markup
 */
function put(into, markup) {
  const active = document.activeElement;
  const inside = active instanceof HTMLElement && into.contains(active) ? active : null;
  const [id, pick] = [inside?.id, inside?.dataset.pick];
  const field = inside instanceof HTMLInputElement ? inside : undefined;
  const typed = field && field.value !== field.defaultValue;
  const was = field && marked(field);
  const open = [...into.querySelectorAll("details")].map((one) => one.open);
  into.replaceChildren(...new DOMParser().parseFromString(markup, "text/html").body.childNodes);
  into.querySelectorAll("details").forEach((one, at) => (one.open = open[at] ?? one.open));
  if (!inside) return;
  const again = id ? document.getElementById(id) : pick ? into.querySelector(`[data-pick="${CSS.escape(pick)}"]`) : null;
  (again instanceof HTMLElement ? again : into.closest(".panel") instanceof HTMLElement ? /** @type {HTMLElement} */ (into.closest(".panel")) : into).focus({ preventScroll: true });
  if (!field || !was || !(again instanceof HTMLInputElement)) return;
  if (typed) again.value = field.value;
  mark(again, was);
}

/** How many times details, and the table, were asked for: an answer that a newer one has overtaken is not shown. */
let [asked, askedTable] = [0, 0];

/** @param {string} name */
async function show(name) {
  const turn = (asked += 1);
  const answer = await fetch(`${site}/element?id=${encodeURIComponent(name)}`);
  const markup = answer.ok ? await answer.text() : "";
  if (!answer.ok || drawing.picked !== name || turn !== asked) return;
  put(details, markup);
}

function focusDetails() {
  const first = details.querySelector("select, input, button");
  (first instanceof HTMLElement ? first : details).focus();
}

/**
 * @param {string} id
 * @param {string} text
 */
function write(id, text) {
  const node = part(id);
  if (node.textContent !== text) node.textContent = text;
}

/** @param {State} state */
function seen(state) {
  const newer = state.revision !== revision;
  revision = state.revision;
  if (!state.whole) {
    drawing.patch(state.rows, newer);
    if (!part("view-table").hidden) table.patch(state.rows);
  }
  write("verdict-text", state.verdict.text);
  write("verdict-detail", state.verdict.detail);
  part("verdict").className = `cell verdict tone-${state.verdict.tone}`;
  part("verdict").querySelector(".bar")?.setAttribute("class", state.verdict.step ? `bar step-${state.verdict.step}` : "bar");
  write("pending", state.pending || (page.dataset.verdict ?? ""));
  part("pending").classList.toggle("pending", state.pending !== "");
  write("price", state.price);
  write("price-change", state.priceChange);
  write("revision", String(state.revision));
  write("files", state.files);
  part("files").className = state.filesTrouble ? "trouble" : "quiet";
  /** @type {HTMLButtonElement} */ (part("undo")).disabled = !state.undo;
  /** @type {HTMLButtonElement} */ (part("redo")).disabled = !state.redo;
  if (state.jobs !== undefined) put(part("jobs"), state.jobs);
  if (state.changed !== undefined) put(part("changed"), state.changed);
  if (newer) write("announcement", `${state.note}. ${state.verdict.text}. ${state.verdict.detail}`);
  if (edited) {
    const since = edited;
    edited = 0;
    // Two frames: the first is drawn with the new figures, the second proves that it was.
    requestAnimationFrame(() => requestAnimationFrame(() => performance.measure("latchline-repainted", { start: since, end: performance.now() })));
  }
  if (state.structure !== drawing.structure) void redraw();
  else if (newer && !part("view-table").hidden) void showTable();
  if (newer && !part("view-text").hidden) void showText(false);
  if (newer || (known && known.pending !== state.pending)) {
    if (drawing.picked) void show(drawing.picked);
  }
  known = state;
}

function across() {
  const millimetres = part("drawing").clientWidth / 4.8;
  return millimetres < 120 ? 62 : millimetres < 170 ? 96 : 190;
}

async function redraw() {
  const answer = await fetch(`${site}/drawing?across=${across()}`);
  if (!answer.ok) return;
  drawing.replace(await answer.text());
  const names = [...drawing.groups.keys()].map((name) => {
    const option = document.createElement("option");
    option.value = name;
    return option;
  });
  part("elements").replaceChildren(...names);
  if (!part("view-table").hidden) void showTable();
}

async function showTable() {
  const turn = (askedTable += 1);
  const answer = await fetch(`${site}/table`);
  const markup = answer.ok ? await answer.text() : "";
  if (answer.ok && turn === askedTable) table.show(markup);
}

/** @param {boolean} force */
async function showText(force) {
  // What is being typed is not taken away, nor what is begun while the server answers.
  const begun = () => {
    const area = document.getElementById("text");
    return area instanceof HTMLTextAreaElement && area.value !== area.defaultValue;
  };
  if (!force && begun()) return;
  const answer = await fetch(`${site}/text`);
  const markup = answer.ok ? await answer.text() : "";
  if (!answer.ok || (!force && begun())) return;
  put(part("view-text"), markup);
  const form = /** @type {HTMLFormElement | null} */ (document.getElementById("text-form"));
  const text = /** @type {HTMLTextAreaElement | null} */ (document.getElementById("text"));
  form?.addEventListener("submit", async (event) => {
    event.preventDefault();
    if (!text) return;
    const typed = text.value;
    if (await make({ kind: "text", text: typed })) text.defaultValue = typed;
  });
}

const tabs = ["drawing", "table", "text"];

/** @param {string} chosen */
function turnTo(chosen) {
  for (const name of tabs) {
    const tab = part(`tab-${name}`);
    tab.setAttribute("aria-selected", String(name === chosen));
    tab.tabIndex = name === chosen ? 0 : -1;
    part(`view-${name}`).hidden = name !== chosen;
  }
  if (chosen === "table") void showTable();
  if (chosen === "text") void showText(true);
}

for (const name of tabs) {
  part(`tab-${name}`).addEventListener("click", () => turnTo(name));
  part(`tab-${name}`).addEventListener("keydown", (event) => {
    const by = event.key === "ArrowRight" ? 1 : event.key === "ArrowLeft" ? -1 : 0;
    if (!by) return;
    const next = tabs[(tabs.indexOf(name) + by + tabs.length) % tabs.length];
    turnTo(next);
    part(`tab-${next}`).focus();
  });
}

/**
 * Asks in a dialogue; gives what was filled in, or nothing.
 * @param {string} head
 * @param {Node[]} body
 * @returns {Promise<FormData | undefined>}
 */
function ask(head, body) {
  part("dialog-head").textContent = head;
  part("dialog-body").replaceChildren(...body);
  dialog.returnValue = "";
  dialog.showModal();
  const first = part("dialog-body").querySelector("input, select") ?? part("dialog-apply");
  if (first instanceof HTMLElement) first.focus();
  return new Promise((answer) => {
    dialog.addEventListener("close", () => {
      const form = dialog.querySelector("form");
      answer(dialog.returnValue === "apply" && form ? new FormData(form) : undefined);
    }, { once: true });
  });
}

/**
 * @template {keyof HTMLElementTagNameMap} Tag
 * @param {Tag} tag
 * @param {string} text
 * @param {string} [name]
 */
function node(tag, text, name = "") {
  const made = document.createElement(tag);
  made.textContent = text;
  if (name) made.className = name;
  return made;
}

/**
 * @param {string} label
 * @param {string} name
 * @param {string} value
 */
function field(label, name, value) {
  const [around, input] = [node("div", "", "field"), document.createElement("input")];
  const says = document.createElement("label");
  says.htmlFor = `ask-${name}`;
  says.textContent = label;
  Object.assign(input, { id: `ask-${name}`, name, value, required: true, autocomplete: "off" });
  around.append(says, input);
  return around;
}

/**
 * Shows what a change would do before it does it.
 * @param {Record<string, unknown>} change
 * @param {Node[]} more
 */
async function consider(change, more = []) {
  try {
    const told = await preview(site, revision, change);
    const body = [...more];
    if (told.says) body.unshift(node("p", told.says));
    if (told.before.length + told.after.length > 0) {
      body.push(node("h3", page.dataset.preview ?? ""));
      const lines = document.createElement("pre");
      lines.tabIndex = 0;
      lines.append(...told.before.map((line) => node("code", `− ${line}\n`, "gone")), ...told.after.map((line) => node("code", `+ ${line}\n`, "come")));
      body.push(lines);
    }
    const answer = await ask(told.head, body);
    if (answer) await make(change);
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    tell(error.message);
  }
}

document.addEventListener("click", async (event) => {
  const target = event.target instanceof Element ? event.target.closest("button") : null;
  if (!target) return;
  const data = target.dataset;
  if (data.pick) {
    const name = drawing.has(data.pick) ? data.pick : data.pick.replace(/\.[^.]*$/, "");
    drawing.pick(name);
    if (innerWidth <= 760) details.scrollIntoView();
  } else if (data.remedy) {
    const { code, element } = data;
    await consider(data.remedy === "job" ? { kind: "job", code, element } : { kind: "remedy", code, element, remedy: Number(data.remedy) });
  } else if (data.accept) {
    const answer = await ask(page.dataset.accept ?? "", [field(page.dataset.reason ?? "", "reason", "")]);
    const date = new Date().toISOString().slice(0, 10);
    if (answer) await make({ kind: "accept", code: data.accept, element: data.element ?? "", reason: String(answer.get("reason")), date });
  } else if (data.addDwelling) {
    const body = ["name", "place", "length"].map((name) => field(labelOf(name), name, name === "place" ? data.place ?? "" : name === "length" ? "8 m" : ""));
    const answer = await ask(target.textContent ?? "", body);
    if (answer) await make({ kind: "add-dwelling", run: data.addDwelling, ...Object.fromEntries(answer) });
  } else if (data.addExtension) {
    const answer = await ask(target.textContent ?? "", [field(labelOf("length"), "length", "4 m")]);
    if (answer) await make({ kind: "add-extension", dwelling: data.addExtension, model: data.model, length: String(answer.get("length")) });
  } else if (data.remove) {
    await consider({ kind: "remove", dwelling: data.remove });
  } else if (data.line) {
    toLine(Number(data.line));
  }
});

/** @param {string} name */
function labelOf(name) {
  return page.dataset[`label${name.charAt(0).toUpperCase()}${name.slice(1)}`] ?? name;
}

/** @param {number} line */
function toLine(line) {
  const text = document.getElementById("text");
  if (!(text instanceof HTMLTextAreaElement)) return;
  const lines = text.value.split("\n");
  const start = lines.slice(0, line - 1).reduce((sum, one) => sum + one.length + 1, 0);
  text.focus();
  text.setSelectionRange(start, start + (lines[line - 1]?.length ?? 0));
  text.scrollTop = (text.scrollHeight / lines.length) * (line - 4);
}

/** @param {HTMLFormElement} form */
async function submitted(form) {
  const filled = Object.fromEntries(new FormData(form));
  const { kind, run, element, station } = form.dataset;
  const typed = [...form.querySelectorAll("input")].map((input) => /** @type {const} */ ([input, input.defaultValue]));
  // What is on its way is not being typed any more, unless it comes back.
  typed.forEach(([input]) => (input.defaultValue = input.value));
  const done = await make({ kind, ...(run ? { run } : {}), ...(element ? { element } : {}), ...(station ? { station } : {}), ...filled });
  if (!done) typed.forEach(([input, was]) => (input.defaultValue = was));
}

details.addEventListener("submit", (event) => {
  event.preventDefault();
  if (event.target instanceof HTMLFormElement) void submitted(event.target);
});
details.addEventListener("change", (event) => {
  const field = event.target;
  const form = field instanceof HTMLElement ? field.closest("form") : null;
  if (form instanceof HTMLFormElement && !form.classList.contains("row")) void submitted(form);
});
details.addEventListener("keydown", (event) => {
  if (event.key !== "Escape") return;
  part("drawing").focus();
});

part("undo").addEventListener("click", () => void turn("undo"));
part("redo").addEventListener("click", () => void turn("redo"));
document.addEventListener("keydown", (event) => {
  const typing = event.target instanceof HTMLInputElement || event.target instanceof HTMLTextAreaElement;
  if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== "z" || typing || dialog.open) return;
  event.preventDefault();
  void turn(event.shiftKey ? "redo" : "undo");
});

const find = /** @type {HTMLInputElement} */ (part("find"));
find.addEventListener("change", () => look());
find.addEventListener("keydown", (event) => {
  if (event.key === "Enter") look();
});
function look() {
  const wanted = find.value.trim().toLocaleLowerCase();
  if (!wanted) return;
  const names = [...drawing.groups.keys()];
  const name = names.find((one) => one.toLocaleLowerCase() === wanted) ?? names.find((one) => one.toLocaleLowerCase().includes(wanted));
  if (!name) return tell(page.dataset.nothing ?? "");
  tell("");
  turnTo("drawing");
  drawing.pick(name);
  part("drawing").focus();
}

let lost = false;
listen(`${site}/live?client=${client}`, seen, (here) => {
  if (here === !lost) return;
  lost = !here;
  tell(lost ? page.dataset.conflict ?? "" : "");
});
if (across() !== 190) void redraw();
