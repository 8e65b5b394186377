// Measures drawings in headless Chromium: reads names of SVG files, one a line, from standard input and
// prints, for each, the boxes of its texts, devices and lines as the browser itself lays them out.
import { readFileSync } from "node:fs";
import { chromium } from "playwright-core";

const flags = [
  "--headless",
  "--no-sandbox",
  "--disable-gpu",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
  "--no-first-run",
];

function measure() {
  const svg = document.querySelector("svg");
  const view = svg.viewBox.baseVal;
  // Large, since the browser rounds the height of a font to whole pixels.
  svg.setAttribute("width", view.width * 16);
  svg.setAttribute("height", view.height * 16);
  const toSheet = svg.getScreenCTM().inverse();
  // The box of an element in millimetres of the sheet, whatever turns it.
  const box = (element) => {
    const inner = element.getBBox();
    const matrix = toSheet.multiply(element.getScreenCTM());
    const corners = [
      [inner.x, inner.y],
      [inner.x + inner.width, inner.y],
      [inner.x, inner.y + inner.height],
      [inner.x + inner.width, inner.y + inner.height],
    ].map(([x, y]) => new DOMPoint(x, y).matrixTransform(matrix));
    const [xs, ys] = [corners.map((p) => p.x), corners.map((p) => p.y)];
    return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
  };
  const texts = [...svg.querySelectorAll("text")].map((element) => {
    const stated = parseFloat(element.getAttribute("textLength"));
    const pinned = box(element);
    // Without the pin: what the font itself gives.
    element.removeAttribute("textLength");
    const natural = element.getComputedTextLength();
    element.setAttribute("textLength", stated);
    return { text: element.textContent, box: pinned, stated, natural };
  });
  const cards = [...svg.querySelectorAll("g.device")].map((element) => ({
    element: element.dataset.element,
    box: box(element.querySelector("rect")),
  }));
  const lines = [...svg.querySelectorAll("path.layer-wiring")].flatMap((element) => {
    const corners = [...element.getAttribute("d").matchAll(/[ML](\S+) ([^ML]+)/g)].map((m) => [+m[1], +m[2]]);
    return corners.slice(1).map((b, at) => {
      const a = corners[at];
      return [Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.max(a[0], b[0]), Math.max(a[1], b[1])];
    });
  });
  const elements = [...svg.querySelectorAll("[data-element]")].map((element) => element.dataset.element);
  return { sheet: [view.width, view.height], texts, cards, lines, elements };
}

const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: flags,
});
try {
  const page = await browser.newPage();
  const results = [];
  for (const name of readFileSync(0, "utf8").split("\n").filter(Boolean)) {
    await page.setContent(`<!doctype html><body style="margin:0">${readFileSync(name, "utf8")}</body>`);
    results.push(await page.evaluate(measure));
  }
  process.stdout.write(JSON.stringify(results));
} finally {
  await browser.close();
}
