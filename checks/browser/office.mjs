// Walks through the office page in a browser: by mouse and by keyboard, at phone and desktop size, and looks at each page with axe.
// Reads {"address": ..., "pictures": folder or null} from standard input and prints what it found as JSON.
import { chromium } from "playwright-core";
import { createRequire } from "node:module";
import { mkdirSync, readFileSync } from "node:fs";

const require = createRequire(import.meta.url);
const axe = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");
const { address, pictures } = JSON.parse(readFileSync(0, "utf8"));
if (pictures) mkdirSync(pictures, { recursive: true });
const SIZES = { desktop: { width: 1440, height: 900 }, phone: { width: 390, height: 844 } };
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: ["--no-sandbox", "--disable-background-networking"],
});
const found = { violations: [], incomplete: [], errors: [], journeys: [], html: {} };

/** A page that tells of every mistake of its scripts and of every request that leaves the machine. */
async function open(options) {
  const context = await browser.newContext({ reducedMotion: "reduce", ...options });
  const page = await context.newPage();
  page.on("pageerror", (error) => found.errors.push(String(error)));
  page.on("console", (message) => message.type() === "error" && !/status of (4|5)\d\d/.test(message.text()) && found.errors.push(message.text()));
  page.on("request", (request) => {
    if (!request.url().startsWith(address) && !request.url().startsWith("data:")) found.errors.push(`asks elsewhere: ${request.url()}`);
  });
  return page;
}

/** The site's page with everything worked out. */
async function site(page, path) {
  await page.goto(address + path);
  await page.waitForFunction(() => document.getElementById("pending")?.classList.contains("pending") === false, null, { timeout: 240000 });
}

async function judge(page, name) {
  await page.evaluate(axe);
  const result = await page.evaluate(() => window.axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] }));
  for (const [list, into] of [[result.violations, found.violations], [result.incomplete, found.incomplete]]) {
    for (const one of list) into.push({ page: name, rule: one.id, nodes: one.nodes.slice(0, 4).map((node) => `${node.html.slice(0, 160)} ${node.any[0]?.message ?? ""}`) });
  }
  found.html[name] = await page.content();
  if (pictures) await page.screenshot({ path: `${pictures}/${name}.png` });
}

const sitePath = await (async () => {
  const page = await open({});
  await page.goto(address);
  const path = new URL(page.url()).pathname;
  await page.context().close();
  return path;
})();

for (const [size, viewport] of Object.entries(SIZES)) {
  for (const [scheme, locale] of [["light", "en"], ["dark", "en"], ["light", "de"]]) {
    const name = (what) => `${what}-${size}-${scheme}-${locale}`;
    const page = await open({ viewport, colorScheme: scheme, locale: locale === "de" ? "de-DE" : "en-GB" });
    await site(page, sitePath);
    await judge(page, name("site"));
    await page.fill("#find", "A-45");
    await page.press("#find", "Enter");
    await page.waitForSelector("#details h2:has-text('A-45')");
    await judge(page, name("station"));
    await page.evaluate(() => document.querySelector('#details [data-pick="A-R5"]')?.click());
    await page.waitForSelector("#details h2:has-text('A-R5')");
    await judge(page, name("run"));
    await page.click("#tab-table");
    await page.waitForSelector("#everything tbody tr");
    await judge(page, name("table"));
    await page.click("#tab-text");
    await page.waitForSelector("#text");
    await judge(page, name("text"));
    for (const [path, what] of [["/questions", "questions"], ["/questions/lock", "lock"], ["/questions/switches", "switches"], ["/sites", "sites"], [`${sitePath}/history`, "history"], [`${sitePath}/documents`, "documents"]]) {
      await page.goto(address + path.replace(/^\//, "/"));
      await judge(page, name(what));
    }
    const wider = await page.evaluate(() => document.documentElement.scrollWidth > document.documentElement.clientWidth + 1);
    if (wider) found.errors.push(`${name("documents")} is wider than the screen`);
    await page.context().close();
  }
}
await browser.close();
process.stdout.write(JSON.stringify(found));
