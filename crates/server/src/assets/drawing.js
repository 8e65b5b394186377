// The drawing: picked by mouse, finger, arrow keys or search; patched where a figure has changed.

/** @typedef {import("./live.js").Row} Row */

/** Pixels of a millimetre of the drawing: the smallest lettering, 2.5 mm, is 12 px high then. */
const PIXELS = 4.8;
const SEVERITIES = ["is-error", "is-warning", "is-advice"];

export class Drawing {
  /**
   * @param {HTMLElement} frame
   * @param {(name: string) => void} picked
   * @param {() => void} entered
   */
  constructor(frame, picked, entered) {
    this.frame = frame;
    this.tell = picked;
    /** @type {Map<string, SVGGElement>} */
    this.groups = new Map();
    this.picked = "";
    this.structure = 0;
    this.said = document.getElementById("picked");
    frame.addEventListener("click", (event) => {
      const group = event.target instanceof Element ? event.target.closest("[data-element]") : null;
      const name = group?.getAttribute("data-element");
      if (name) this.pick(name);
    });
    frame.addEventListener("keydown", (event) => {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      if (event.key === "Enter" && this.picked) entered();
      else if (!this.go(event.key)) return;
      event.preventDefault();
    });
    this.adopt();
  }

  /** Takes the drawing that stands in the frame as it is. */
  adopt() {
    const elevation = this.frame.querySelector(".elevation");
    const svg = elevation?.querySelector("svg");
    this.groups.clear();
    if (!(elevation instanceof HTMLElement) || !svg) return;
    const [width, height] = [Number(elevation.dataset.width), Number(elevation.dataset.height)];
    svg.setAttribute("width", String(Math.round(width * PIXELS)));
    svg.setAttribute("height", String(Math.round(height * PIXELS)));
    svg.setAttribute("aria-hidden", "true");
    // The titles of the parts would hide the hint of what can be done behind the browser's own.
    svg.querySelectorAll("g[data-element]").forEach((group) => {
      if (group instanceof SVGGElement) this.groups.set(group.dataset.element ?? "", group);
    });
    this.structure = Number(elevation.dataset.structure);
    this.mark();
  }

  /** @param {string} name */
  has(name) {
    return this.groups.has(name);
  }

  /**
   * @param {string} name
   * @param {boolean} [quietly]
   */
  pick(name, quietly) {
    if (!this.groups.has(name)) return;
    this.groups.get(this.picked)?.classList.remove("is-picked");
    this.picked = name;
    this.mark();
    const group = this.groups.get(name);
    if (this.said) this.said.textContent = group?.querySelector("title")?.textContent ?? name;
    if (!quietly) this.tell(name);
  }

  mark() {
    const group = this.groups.get(this.picked);
    if (!group) return;
    group.classList.add("is-picked");
    const [part, frame] = [group.getBoundingClientRect(), this.frame.getBoundingClientRect()];
    const outside = part.left < frame.left || part.right > frame.right || part.top < frame.top || part.bottom > frame.bottom;
    if (outside && part.width > 0 && group.classList.contains("device")) {
      this.frame.scrollBy(part.left + part.width / 2 - frame.left - frame.width / 2, part.top + part.height / 2 - frame.top - frame.height / 2);
    }
  }

  /**
   * Goes to the nearest card in a direction.
   * @param {string} key
   * @returns {boolean}
   */
  go(key) {
    /** @type {Record<string, [number, number]>} */
    const ways = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
    const way = ways[key];
    const cards = [...this.groups].filter(([, group]) => group.classList.contains("device"));
    if (key === "Home" || (way && !this.groups.has(this.picked))) {
      if (cards[0]) this.pick(cards[0][0]);
      return true;
    }
    if (key === "End") {
      const last = cards[cards.length - 1];
      if (last) this.pick(last[0]);
      return true;
    }
    if (!way) return false;
    const middle = (/** @type {SVGGElement} */ group) => {
      const box = (group.querySelector(".card") ?? group).getBoundingClientRect();
      return [box.left + box.width / 2, box.top + box.height / 2];
    };
    const [x, y] = middle(/** @type {SVGGElement} */ (this.groups.get(this.picked)));
    let best = "";
    let least = Infinity;
    for (const [name, group] of cards) {
      if (name === this.picked) continue;
      const [cx, cy] = middle(group);
      const along = (cx - x) * way[0] + (cy - y) * way[1];
      const across = Math.abs((cx - x) * way[1]) + Math.abs((cy - y) * way[0]);
      // Along a row only cards of the row; to another floor the one that is nearest.
      if (along < 4 || (way[0] !== 0 && across > 20)) continue;
      const far = along + across * (way[0] === 0 ? 0.5 : 4);
      if (far < least) [least, best] = [far, name];
    }
    if (best) this.pick(best);
    return true;
  }

  /**
   * Changes what has changed; nothing else is touched.
   * @param {Row[]} rows
   * @param {boolean} mark whether what changes is marked
   */
  patch(rows, mark) {
    if (mark) this.frame.querySelectorAll(".has-changed").forEach((group) => group.classList.remove("has-changed"));
    for (const [, name, figure, margin, step, run, severity, trouble, title] of rows) {
      const group = this.groups.get(name);
      if (!group) continue;
      const isRun = group.classList.contains("run");
      const changed = write(group, ".figure text", figure);
      if (changed && mark) group.classList.add("has-changed");
      write(group, ".margin text", margin);
      write(group, isRun ? ".run-label text" : ".fed text", run);
      write(group, ".trouble text", trouble);
      const own = group.querySelector(":scope > title");
      if (own && own.textContent !== title) own.textContent = title;
      group.classList.remove(...SEVERITIES);
      if (severity) group.classList.add(`is-${severity}`);
      const gauge = group.querySelector(".gauge");
      if (gauge) gauge.setAttribute("class", step ? `gauge step-${step}` : "gauge");
    }
  }

  /** @param {string} markup from the server, names in it escaped there */
  replace(markup) {
    const parsed = new DOMParser().parseFromString(markup, "text/html");
    const [left, top] = [this.frame.scrollLeft, this.frame.scrollTop];
    this.frame.replaceChildren(...parsed.body.childNodes);
    this.adopt();
    this.frame.scrollTo(left, top);
  }
}

/**
 * @param {Element} group
 * @param {string} where
 * @param {string} text
 */
function write(group, where, text) {
  const node = group.querySelector(where);
  if (!node || (node.textContent ?? "").replace("\u2060", "") === text) return false;
  node.textContent = text || "\u2060";
  return true;
}
