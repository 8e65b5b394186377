// From an edit to the frame that shows its voltages, in Chromium: a cable changed back and forth. Prints milliseconds as JSON.
import { chromium } from "../../checks/browser/node_modules/playwright-core/index.mjs";

const [address, run, ...cables] = process.argv.slice(2);
const TURNS = 40;
const browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: ["--no-sandbox", "--disable-background-networking"] });
const page = await browser.newPage({ viewport: { width: 1440, height: 900 }, reducedMotion: "reduce" });
await page.goto(address);
await page.waitForSelector("#drawing svg");
await page.waitForTimeout(3000);
const times = [];
for (let turn = 0; turn < TURNS; turn += 1) {
  
  await page.fill("#find", run);
  await page.press("#find", "Enter");
  await page.waitForFunction((name) => document.querySelector("#details h2")?.textContent.trim() === name, run);
  const before = await page.evaluate(() => performance.getEntriesByName("latchline-repainted").length);
  await page.selectOption("#d-cable", cables[turn % cables.length]);
  await page.waitForFunction((known) => performance.getEntriesByName("latchline-repainted").length > known, before, { timeout: 60000 });
  times.push(await page.evaluate(() => performance.getEntriesByName("latchline-repainted").at(-1).duration));
}
await browser.close();
times.sort((a, b) => a - b);
console.log(JSON.stringify({ median_ms: times[TURNS / 2], p95_ms: times[Math.floor(TURNS * 0.95)], least_ms: times[0] }));
