// Edits: sent with the revision that they were made on and an id of their own, so that sending twice changes once.

/** @returns {string} */
function token() {
  return document.querySelector('meta[name="latchline-token"]')?.getAttribute("content") ?? "";
}

/** @returns {string} */
export function fresh() {
  const bytes = crypto.getRandomValues(new Uint8Array(12));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** This page's own name, kept while its tab lives: what it did it can take back. */
export const client = (() => {
  const known = sessionStorage.getItem("latchline-client") ?? fresh();
  sessionStorage.setItem("latchline-client", known);
  return known;
})();

/** What was refused, in words for the reader. */
export class Refused extends Error {}

/**
 * @param {string} address
 * @param {BodyInit} body
 * @param {string} kind
 * @returns {Promise<any>}
 */
export async function post(address, body, kind = "application/json") {
  const headers = { "x-latchline-token": token(), "content-type": kind };
  const answer = await fetch(address, { method: "POST", headers, body });
  if (!answer.ok) throw new Refused(await answer.text());
  return answer.json();
}

/**
 * @param {string} site address of the site
 * @param {number} base revision that the page shows
 * @param {Record<string, unknown>} change
 * @returns {Promise<{revision: number}>}
 */
export function edit(site, base, change) {
  return post(`${site}/edit`, JSON.stringify({ id: fresh(), client, base, change }));
}

/**
 * @param {string} site
 * @param {"undo" | "redo"} which
 * @returns {Promise<{revision: number}>}
 */
export function turn(site, which) {
  return post(`${site}/${which}`, JSON.stringify({ id: fresh(), client }));
}

/**
 * @param {string} site
 * @param {number} base
 * @param {Record<string, unknown>} change
 * @returns {Promise<{head: string, says: string, before: string[], after: string[]}>}
 */
export function preview(site, base, change) {
  return post(`${site}/preview`, JSON.stringify({ id: fresh(), client, base, change }));
}
