// Pictures: switches as they are to stand, a reading on its range, a bar of what is done.
import { say } from "./data.js";
import { draw, make } from "./elements.js";

/** @typedef {import("./data.js").Switch} Switch */

/** @param {Switch} one @returns {HTMLElement} */
export function switchPicture(one) {
  const words = `${one.label}: ${one.words}`;
  const parts = one.kind === "rotary" ? one.at.map((at, place) => dial(one, at, place)) : [one.kind === "dip" ? bank(one) : one.kind === "jumpers" ? pins(one) : keys(one)];
  return make("figure.switch", {}, make("figcaption", {}, make("b", {}, one.label), " ", make("span", {}, one.words)), make("span.dials", { role: "img", "aria-label": words }, ...parts));
}

/** @param {Switch} one @param {number} at @param {number} place */
function dial(one, at, place) {
  const point = (/** @type {number} */ position, /** @type {number} */ radius, /** @type {number} */ turn = 0) => {
    const angle = (2 * Math.PI * position) / one.positions + turn - Math.PI / 2;
    return [50 + radius * Math.cos(angle), 50 + radius * Math.sin(angle)];
  };
  const figures = Array.from({ length: Math.min(one.positions, 16) }, (_, position) => {
    const [x, y] = point(position, 39);
    return draw("text", { x, y: y + 4.4, "text-anchor": "middle", class: position === at ? "chosen" : "" }, position.toString(16).toUpperCase());
  });
  const tip = point(at, 28).join();
  const back = [point(at, 17, 2.5), point(at, 17, -2.5)].map((one) => one.join()).join(" ");
  const weight = one.at.length - 1 - place;
  const below = one.at.length === 1 ? "" : one.positions === 10 ? ["Units", "Tens", "Hundreds"][weight] ?? "" : "";
  const text = `${below ? `${say(below)} ` : ""}${at.toString(16).toUpperCase()}`;
  return draw("svg", { viewBox: "0 0 100 118", width: 132, height: 156, "aria-hidden": "true" },
    draw("rect", { x: 1, y: 1, width: 98, height: 98, rx: 5, class: "body" }), draw("circle", { cx: 50, cy: 50, r: 30, class: "slot" }),
    draw("polygon", { points: `${tip} ${back}`, class: "set" }), ...figures, draw("text", { x: 50, y: 115, "text-anchor": "middle", class: "below" }, text));
}

/** @param {Switch} one */
function bank(one) {
  const width = one.at.length * 26 + 12;
  const slots = one.at.flatMap((on, place) => [
    draw("rect", { x: 12 + place * 26, y: 10, width: 14, height: 52, class: "slot" }),
    draw("rect", { x: 12 + place * 26, y: on ? 10 : 36, width: 14, height: 26, class: "set" }),
    draw("text", { x: 19 + place * 26, y: 78, "text-anchor": "middle" }, String(one.first + place)),
  ]);
  return draw("svg", { viewBox: `0 0 ${width + 34} 88`, width: Math.min(330, (width + 34) * 1.25), height: 110, "aria-hidden": "true" },
    draw("rect", { x: 1, y: 1, width, height: 86, rx: 4, class: "body" }), ...slots, draw("text", { x: width + 6, y: 24 }, "ON"));
}

/** @param {Switch} one */
function pins(one) {
  const marks = one.at.flatMap((fitted, place) => [
    ...(fitted ? [draw("rect", { x: 12 + place * 30, y: 10, width: 18, height: 46, rx: 3, class: "set" })]
      : [20, 46].map((y) => draw("circle", { cx: 21 + place * 30, cy: y, r: 5, class: "slot" }))),
    draw("text", { x: 21 + place * 30, y: 76, "text-anchor": "middle" }, String(one.first + place)),
  ]);
  const width = one.at.length * 30 + 12;
  return draw("svg", { viewBox: `0 0 ${width + 2} 86`, width: Math.min(330, width * 1.3), height: 108, "aria-hidden": "true" }, draw("rect", { x: 1, y: 1, width, height: 84, rx: 4, class: "body" }), ...marks);
}

/** @param {Switch} one */
function keys(one) {
  const digits = [...one.digits];
  return draw("svg", { viewBox: `0 0 ${digits.length * 46} 54`, width: digits.length * 58, height: 68, "aria-hidden": "true" },
    ...digits.flatMap((digit, place) => [draw("rect", { x: 1 + place * 46, y: 1, width: 40, height: 50, rx: 6, class: "body" }), draw("text", { x: 21 + place * 46, y: 36, "text-anchor": "middle", class: "key" }, digit)]));
}

/** A reading on a scale with its range. @param {number | null} lowest @param {number | null} highest @param {number | null} nominal @param {number} value */
export function scale(lowest, highest, nominal, value) {
  const known = [lowest, highest, nominal, value].filter((one) => one !== null && Number.isFinite(one)).map(Number);
  const least = Math.min(...known), most = Math.max(...known);
  const margin = (most - least || Math.abs(most) || 1) * 0.15;
  const across = (/** @type {number} */ one) => 6 + (348 * (one - least + margin)) / (most - least + 2 * margin);
  const from = lowest === null ? 6 : across(lowest), to = highest === null ? 354 : across(highest);
  const at = Number.isFinite(value) ? across(value) : 354;
  const isIn = at >= from && at <= to;
  return draw("svg", { viewBox: "0 0 360 34", width: "100%", "aria-hidden": "true", class: "scale" }, draw("path", { d: "M6 17H354", class: "axis" }),
    draw("rect", { x: from, y: 10, width: Math.max(3, to - from), height: 14, class: "range" }), draw("path", { d: `M${at} 2V32`, class: isIn ? "mark in" : "mark out" }));
}

/** @param {number} done @param {number} all @param {boolean} trouble */
export function bar(done, all, trouble) {
  const share = all === 0 ? 0 : done / all;
  return draw("svg", { viewBox: "0 0 100 6", width: "100%", height: 8, preserveAspectRatio: "none", "aria-hidden": "true", class: "done" }, draw("rect", { x: 0, y: 0, width: 100, height: 6, class: "rest" }), draw("rect", { x: 0, y: 0, width: 100 * share, height: 6, class: trouble ? "part trouble" : "part" }));
}
