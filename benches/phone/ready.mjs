// From opening the file to the page being ready (its readings read, its first screen drawn), 11 times, with the processor throttled six times.
import { createRequire } from "node:module";
import { pathToFileURL } from "node:url";
const { chromium } = createRequire(new URL("../../checks/browser/package.json", import.meta.url))("playwright-core");
const browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: ["--no-sandbox", "--disable-background-networking"] });
const times = [];
for (let round = 0; round < 11; round += 1) {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
  const page = await context.newPage();
  const session = await context.newCDPSession(page);
  await session.send("Emulation.setCPUThrottlingRate", { rate: 6 });
  await page.goto(pathToFileURL(process.argv[2]).href, { waitUntil: "commit" });
  await page.waitForSelector("html[data-ready]");
  times.push(await page.evaluate(() => Number(document.documentElement.dataset.readyAt)));
  await context.close();
}
times.sort((a, b) => a - b);
console.log(`ready after ${Math.round(times[5])} ms (median of 11), ${Math.round(times[10])} ms at most`);
await browser.close();
