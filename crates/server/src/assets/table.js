// The table of everything: sorted, filtered, edited by keyboard.

import { mark, marked } from "./typing.js";

/** @typedef {import("./live.js").Row} Row */

export class Table {
  /**
   * @param {HTMLElement} view
   * @param {(change: Record<string, unknown>) => Promise<boolean>} edit
   */
  constructor(view, edit) {
    this.view = view;
    this.edit = edit;
    /** @type {{column: number, up: boolean} | undefined} */
    this.order = undefined;
    view.addEventListener("click", (event) => {
      const target = event.target instanceof Element ? event.target : null;
      const head = target?.closest("th");
      if (target?.closest("[data-sort]") && head) this.sort(head);
      const cell = target?.closest("[data-edit]");
      if (cell instanceof HTMLElement && !cell.querySelector("input")) this.open(cell);
      if (target?.id === "copy-table") this.copy();
    });
    view.addEventListener("input", (event) => {
      if (event.target instanceof HTMLInputElement && event.target.id === "filter") this.filter(event.target.value);
    });
    view.addEventListener("keydown", (event) => {
      const cell = event.target;
      if (!(cell instanceof HTMLElement) || !cell.matches("[data-edit]")) return;
      if (event.key === "Enter" || event.key === "F2") this.open(cell);
      else if (event.key === "ArrowDown" || event.key === "ArrowUp") this.step(cell, event.key === "ArrowDown" ? 1 : -1);
      else return;
      event.preventDefault();
    });
  }

  /**
   * Puts the server's table in place; what is being typed, the focus, the order and the filter stay.
   * @param {string} markup
   */
  show(markup) {
    const filter = this.view.querySelector("#filter");
    const kept = filter instanceof HTMLInputElement ? filter.value : "";
    const top = this.view.querySelector(".scroll")?.scrollTop ?? 0;
    const focus = document.activeElement instanceof HTMLElement && this.view.contains(document.activeElement) ? document.activeElement : null;
    const cell = focus?.closest("[data-edit]");
    const field = focus instanceof HTMLInputElement && cell && !focus.readOnly ? focus : undefined;
    // Browsers may tell a field that it lost the focus while it is taken away; that is not leaving it.
    const was = field && marked(field);
    if (field) field.readOnly = true;
    this.view.replaceChildren(...new DOMParser().parseFromString(markup, "text/html").body.childNodes);
    const scroll = this.view.querySelector(".scroll");
    if (scroll) scroll.scrollTop = top;
    if (this.order) this.sort(this.view.querySelectorAll("thead th")[this.order.column], this.order.up);
    const input = this.view.querySelector("#filter");
    if (kept && input instanceof HTMLInputElement) {
      input.value = kept;
      this.filter(kept);
    }
    if (focus?.id === "filter" && input instanceof HTMLInputElement) input.focus();
    if (!(cell instanceof HTMLElement)) return;
    const again = this.again(cell);
    if (field) this.open(again, field.value, was);
    else again.focus();
  }

  /**
   * The cell that says the same of the same item in the table as it stands now.
   * @param {HTMLElement} cell
   */
  again(cell) {
    const { edit, run, element } = cell.dataset;
    const item = run === undefined ? `[data-element="${CSS.escape(element ?? "")}"]` : `[data-run="${CSS.escape(run)}"]`;
    const found = this.view.querySelector(`[data-edit="${edit}"]${item}`);
    return found instanceof HTMLElement ? found : cell;
  }

  /** @param {Row[]} rows */
  patch(rows) {
    for (const [at, , figure, margin, step, , , trouble] of rows) {
      const row = this.view.querySelector(`tr[data-row="${at}"]`);
      if (!row) continue;
      set(row, ".figure", figure);
      set(row, ".margin", margin);
      row.querySelector(".bar")?.setAttribute("class", step ? `bar step-${step}` : "bar");
      if (!trouble) set(row, ".trouble", "");
    }
  }

  /**
   * @param {Element} head
   * @param {boolean} up
   */
  sort(head, up = head.getAttribute("aria-sort") !== "ascending") {
    const body = this.view.querySelector("tbody");
    if (!body) return;
    const heads = [...(head.parentElement?.children ?? [])];
    const column = heads.indexOf(head);
    this.order = { column, up };
    heads.forEach((other) => other.hasAttribute("aria-sort") && other.setAttribute("aria-sort", "none"));
    head.setAttribute("aria-sort", up ? "ascending" : "descending");
    const number = head.classList.contains("number");
    const value = (/** @type {Element} */ row) => {
      const text = row.children[column]?.textContent?.trim() ?? "";
      return number ? parseFloat(text.replace(",", ".").replace("−", "-").replace("+", "")) : text;
    };
    const rows = [...body.rows].map((row) => /** @type {const} */ ([value(row), row]));
    rows.sort(([a], [b]) => {
      if (typeof a === "number" && typeof b === "number") return Number.isNaN(a) ? 1 : Number.isNaN(b) ? -1 : up ? a - b : b - a;
      return String(a).localeCompare(String(b), undefined, { numeric: true }) * (up ? 1 : -1);
    });
    body.append(...rows.map(([, row]) => row));
  }

  /** @param {string} text */
  filter(text) {
    const wanted = text.trim().toLocaleLowerCase();
    this.view.querySelectorAll("tbody tr").forEach((row) => {
      if (row instanceof HTMLElement) row.hidden = !(row.textContent ?? "").toLocaleLowerCase().includes(wanted);
    });
  }

  /**
   * @param {HTMLElement} cell
   * @param {number} by
   */
  step(cell, by) {
    const cells = [...this.view.querySelectorAll(`[data-edit]`)].filter((other) => other instanceof HTMLElement && !other.closest("tr")?.hidden);
    const next = cells[cells.indexOf(cell) + by];
    if (next instanceof HTMLElement) next.focus();
  }

  /**
   * @param {HTMLElement} cell
   * @param {string} [typed] what stood in the field before the table was drawn anew
   * @param {import("./typing.js").Marked} [was] what was marked there
   */
  open(cell, typed, was) {
    const stood = cell.textContent ?? "";
    const kind = cell.dataset.edit ?? "";
    const input = document.createElement("input");
    input.value = typed ?? stood;
    input.setAttribute("aria-label", cell.closest("tr")?.querySelector("th")?.textContent ?? kind);
    const list = { cable: "cables", model: "models" }[kind];
    if (list) input.setAttribute("list", list);
    cell.replaceChildren(input);
    input.focus();
    if (typed === undefined) input.select();
    else if (was) mark(input, was);
    input.addEventListener("keydown", async (event) => {
      event.stopPropagation();
      if (event.key !== "Escape" && event.key !== "Enter") return;
      event.preventDefault();
      if (event.key === "Escape") input.value = stood;
      const { now, refused } = await this.close(cell, input, stood);
      // Unless somebody went on elsewhere while the server answered.
      if (document.activeElement !== document.body && document.activeElement !== now) return;
      if (refused) this.open(now, input.value);
      else now.focus();
    });
    // A field that is left is done; a window that is left leaves its focus where it was.
    input.addEventListener("blur", () => document.activeElement !== input && input.isConnected && !input.readOnly && void this.close(cell, input, stood));
  }

  /**
   * Hands on what was typed, if it differs, and closes the field.
   * @param {HTMLElement} cell
   * @param {HTMLInputElement} input
   * @param {string} was
   * @returns {Promise<{now: HTMLElement, refused: boolean}>} the cell, which the server may have drawn anew meanwhile
   */
  async close(cell, input, was) {
    const text = input.value.trim();
    const [kind, run, element] = [cell.dataset.edit ?? "", cell.dataset.run ?? "", cell.dataset.element ?? ""];
    /** @type {Record<string, Record<string, unknown>>} */
    const changes = {
      cable: { kind, run, cable: text },
      lengths: { kind, run, lengths: text },
      port: { kind, run, from: text },
      model: { kind, element, model: text },
    };
    input.readOnly = true;
    const changed = text !== was.trim();
    const done = changed && (await this.edit(changes[kind]));
    const now = this.again(cell);
    if (now === cell) cell.replaceChildren(done ? text : was);
    return { now, refused: changed && !done };
  }

  copy() {
    const rows = [...this.view.querySelectorAll("tr")].filter((row) => !row.hidden);
    const lines = rows.map((row) => [...row.children].map((cell) => (cell.textContent ?? "").trim()).join("\t"));
    void navigator.clipboard?.writeText(lines.join("\n"));
  }
}

/**
 * @param {Element} row
 * @param {string} where
 * @param {string} text
 */
function set(row, where, text) {
  const cell = row.querySelector(where);
  if (!cell || cell.textContent === text) return;
  cell.textContent = text;
  cell.classList.remove("changed-now");
  requestAnimationFrame(() => cell.classList.add("changed-now"));
}
