// Questions, sites, history: pages that are forms first.

import { edit, fresh, post, Refused } from "./edits.js";

/** @param {string} text */
function tell(text) {
  const notice = document.getElementById("notice");
  if (!notice) return;
  notice.textContent = text;
  notice.hidden = text === "";
  if (text) notice.focus();
}

// Questions: the answer follows what is asked; without scripts the button asks.
const asked = document.querySelector("form[data-follow]");
if (asked instanceof HTMLFormElement) {
  let turn = 0;
  /** @param {boolean} ofFamily whether the fields that depend on the family are to follow too */
  const follow = async (ofFamily) => {
    const mine = ++turn;
    const words = Array.from(new FormData(asked), ([name, value]) => [name, String(value)]);
    const address = `${asked.getAttribute("action")}?${new URLSearchParams(words)}`;
    const page = await fetch(address);
    if (!page.ok || mine !== turn) return;
    const next = new DOMParser().parseFromString(await page.text(), "text/html");
    for (const id of ofFamily ? ["answer", "more", "of-family"] : ["answer", "more"]) {
      const [now, then] = [document.getElementById(id), next.getElementById(id)];
      if (now && then) now.replaceChildren(...then.childNodes);
    }
    history.replaceState(null, "", address);
  };
  let waiting = 0;
  let ofFamily = false;
  asked.addEventListener("input", (event) => {
    const input = event.target;
    if (input instanceof HTMLInputElement && input.type === "range") {
      const shown = asked.querySelector(`output[for="${input.id}"]`);
      if (shown instanceof HTMLOutputElement) {
        const words = Number(input.value).toLocaleString(document.documentElement.lang, { maximumFractionDigits: 1, useGrouping: false });
        shown.textContent = `${words} ${shown.dataset.symbol}`;
      }
    }
    ofFamily ||= input instanceof HTMLSelectElement && input.id === "family";
    clearTimeout(waiting);
    waiting = setTimeout(() => {
      void follow(ofFamily);
      ofFamily = false;
    }, 120);
  });
  asked.addEventListener("submit", (event) => {
    event.preventDefault();
    void follow(false);
  });
}

// The record of questions.
const keep = document.querySelector("form[data-keep]");
if (keep instanceof HTMLFormElement) {
  keep.addEventListener("submit", async (event) => {
    event.preventDefault();
    const [button, status] = [keep.querySelector("button"), keep.querySelector("[role=status]")];
    if (!button || !status) return;
    button.disabled = true;
    try {
      const who = String(new FormData(keep).get("who") ?? "");
      const kept = await post("/questions/keep", JSON.stringify({ id: fresh(), address: location.pathname + location.search, who }));
      const link = document.createElement("a");
      link.href = kept.record;
      link.textContent = kept.told;
      status.replaceChildren(link);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      status.textContent = error.message;
    } finally {
      button.disabled = false;
    }
  });
}

/** @param {HTMLButtonElement} button */
async function deleteAnswer(button) {
  try {
    await post("/questions/record/delete", JSON.stringify({ number: Number(button.dataset.delete) }));
    const row = button.closest("tr");
    const next = row?.nextElementSibling ?? row?.previousElementSibling;
    if (!row || !next) return location.assign("/questions/record");
    row.remove();
    next.querySelector("button")?.focus();
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    tell(error.message);
  }
}

document.addEventListener("click", (event) => {
  const button = event.target instanceof Element ? event.target.closest("button") : null;
  if (!button) return;
  if (button.dataset.copyLink !== undefined) void navigator.clipboard?.writeText(location.href);
  if (button.dataset.print !== undefined) print();
  if (button.dataset.bringBack) void bringBack(button);
  if (button.dataset.passOver) void passOver(button);
  if (button.dataset.delete) void deleteAnswer(button);
});

/** @param {HTMLButtonElement} button */
async function bringBack(button) {
  const site = `/sites/${encodeURIComponent(button.dataset.site ?? "")}`;
  try {
    await edit(site, Number(button.dataset.base), { kind: "bring-back", number: Number(button.dataset.bringBack) });
    location.assign(site);
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    tell(error.message);
  }
}

/** @param {HTMLButtonElement} button */
async function passOver(button) {
  const site = `/sites/${encodeURIComponent(button.dataset.site ?? "")}`;
  try {
    await post(`${site}/pass-over`, JSON.stringify({ aside: Number(button.dataset.passOver) }));
    location.assign(site);
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    tell(error.message);
  }
}

// New sites.
for (const form of document.querySelectorAll("form[data-new]")) {
  if (!(form instanceof HTMLFormElement)) continue;
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    const kind = form.dataset.new ?? "";
    const filled = new FormData(form);
    const file = filled.get("file");
    const name = file instanceof File ? file.name : "";
    const body = file instanceof File ? await file.arrayBuffer() : JSON.stringify(Object.fromEntries(filled));
    const button = form.querySelector("button[type=submit]");
    if (button instanceof HTMLButtonElement) button.disabled = true;
    try {
      const made = await post(`/sites/new?kind=${kind}&name=${encodeURIComponent(name)}`, body, file ? "application/octet-stream" : "application/json");
      location.assign(made.site);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      tell(error.message);
    } finally {
      if (button instanceof HTMLButtonElement) button.disabled = false;
    }
  });
}

// A blank site, as it will be: floors and flats.
const preview = document.getElementById("preview");
const blank = document.querySelector('form[data-new="blank"]');
if (preview && blank instanceof HTMLFormElement) {
  const draw = () => {
    const filled = new FormData(blank);
    const floors = String(filled.get("floors")).split(/[ ,;]+/).filter(Boolean).slice(0, 40);
    const flats = Math.min(40, Math.max(0, Math.floor(Number(filled.get("flats"))) || 0));
    const stairs = Math.min(26, Math.max(1, Math.floor(Number(filled.get("stairs"))) || 1));
    const [cell, high] = [22, 22];
    const wide = 34 + stairs * (flats * cell + 24);
    const svg = document.createElementNS("http://www.w3.org/2000/svg", "svg");
    const add = (/** @type {string} */ tag, /** @type {Record<string, string | number>} */ marks, text = "") => {
      const made = document.createElementNS("http://www.w3.org/2000/svg", tag);
      for (const [name, value] of Object.entries(marks)) made.setAttribute(name, String(value));
      made.textContent = text;
      svg.append(made);
    };
    svg.setAttribute("viewBox", `0 0 ${wide} ${floors.length * high + 6}`);
    svg.setAttribute("width", String(wide));
    svg.setAttribute("role", "img");
    svg.setAttribute("aria-label", `${floors.length} × ${flats} × ${stairs}`);
    floors.forEach((floor, level) => {
      const top = (floors.length - 1 - level) * high + 3;
      add("text", { x: 0, y: top + 15 }, floor);
      for (let stair = 0; stair < stairs; stair++) {
        for (let flat = 0; flat < flats; flat++) add("rect", { x: 34 + stair * (flats * cell + 24) + flat * cell, y: top, width: cell - 4, height: high - 5 });
      }
    });
    preview.replaceChildren(svg);
  };
  blank.addEventListener("input", draw);
  draw();
}
