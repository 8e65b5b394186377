// What is known of the site, as it comes in: one stream a page.

/**
 * A row as it stands on the drawing and in the table: its place, designation, figure, margin, step, what leads there, severity, finding, sentence.
 * @typedef {[number, string, string, string, string, string, string, string, string]} Row
 */

/**
 * @typedef {object} State
 * @property {number} revision
 * @property {number} structure
 * @property {boolean} whole
 * @property {Row[]} rows
 * @property {{tone: string, text: string, detail: string, step: string}} verdict
 * @property {string} note
 * @property {string} price
 * @property {string} priceChange
 * @property {string} pending
 * @property {boolean} undo
 * @property {boolean} redo
 * @property {number} differing
 * @property {string} files
 * @property {boolean} filesTrouble
 * @property {string} [jobs]
 * @property {string} [changed]
 */

/**
 * Listens to a site; the browser connects again by itself, and the first message after that is whole.
 * @param {string} address of the stream
 * @param {(state: State) => void} told
 * @param {(here: boolean) => void} reached
 */
export function listen(address, told, reached) {
  const source = new EventSource(address);
  source.addEventListener("state", (event) => {
    reached(true);
    told(/** @type {State} */ (JSON.parse(event.data)));
  });
  source.addEventListener("error", () => reached(false));
  addEventListener("pagehide", () => source.close());
}
