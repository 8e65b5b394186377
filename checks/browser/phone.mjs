// The page for the site at phone size, with the network off: from a file and from a server, a day's work on two phones, one of them killed in
// the middle. Reads {"file": ..., "german": ..., "address": ..., "list": ..., "folder": ..., "pictures": folder or null} from standard input
// and prints what it found as JSON.
import { chromium } from "playwright-core";
import { createRequire } from "node:module";
import { execFileSync } from "node:child_process";
import { mkdirSync, readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";

const require = createRequire(import.meta.url);
const axe = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");
const { file, german, address, list, folder, pictures, program, site } = JSON.parse(readFileSync(0, "utf8"));
if (pictures) mkdirSync(pictures, { recursive: true });
const viewport = { width: 390, height: 844 };
const options = { executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: ["--no-sandbox", "--disable-background-networking"], viewport, hasTouch: true, acceptDownloads: true };
const found = { errors: [], violations: [], steps: [], acknowledged: {}, kept: {}, small: [] };
const home = pathToFileURL(file).href;

/** Notes what a step of the day came to. */
const step = (what, holds, more) => found.steps.push({ what, holds: Boolean(holds), more: holds ? undefined : String(more ?? "") });

/** A phone: its storage lives in a folder of its own, so that it can die and come back. */
async function phone(name, where, locale = "en-GB", scheme = "light") {
  const context = await chromium.launchPersistentContext(`${folder}/${name}`, { ...options, locale, colorScheme: scheme, reducedMotion: "reduce" });
  const page = context.pages()[0] ?? (await context.newPage());
  watch(page, where);
  await page.goto(where);
  await page.waitForSelector("html[data-ready]");
  await context.setOffline(true);
  return { context, page };
}

/** Tells of every mistake and of every request beyond the page itself. */
function watch(page, where) {
  page.on("pageerror", (error) => found.errors.push(String(error)));
  page.on("console", (message) => message.type() === "error" && found.errors.push(message.text()));
  page.on("request", (request) => {
    const url = request.url();
    if (url !== where && !url.startsWith(`${where}#`) && !url.startsWith("blob:") && !url.endsWith("/favicon.ico")) found.errors.push(`asks for ${url}`);
  });
}

const go = async (page, where) => {
  await page.evaluate((hash) => { location.hash = hash; }, where);
  await page.waitForFunction((hash) => document.documentElement.dataset.at === hash, where).catch(() => {});
};
const counts = (page) => page.evaluate(() => [...document.querySelectorAll("header .where b")].map((one) => Number(one.textContent)));

/** Keys in a reading by the keys of the page; answers whether it was shown as kept. */
async function keyIn(page, number, text) {
  await go(page, `#s=${number}`);
  await page.waitForSelector("#reading");
  for (const sign of text) await page.tap(sign === "-" ? '.keys button[aria-label="Minus"]' : sign === "." || sign === "," ? '.keys button[aria-label="Decimal point"]' : `.keys button:text-is("${sign}")`);
  await page.tap("button.judge");
  await page.waitForSelector("#stands, .judged.unknown .stack, .judged.unknown button");
  return page.isVisible("#stands");
}

async function judge(page, name) {
  await page.waitForTimeout(60);
  await page.evaluate(axe);
  const result = await page.evaluate(() => window.axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] }));
  for (const one of result.violations) found.violations.push({ page: name, rule: one.id, nodes: one.nodes.slice(0, 3).map((node) => `${node.html.slice(0, 160)} ${node.any[0]?.message ?? ""}`) });
  const small = await page.evaluate(() => [...document.querySelectorAll("a, button, select, summary, input:not([type=checkbox]), label.check")].filter((one) => one.checkVisibility()).map((one) => ({ text: one.textContent?.slice(0, 30) || one.outerHTML.slice(0, 60), size: one.closest(".reading") ? one.closest(".reading").getBoundingClientRect() : one.getBoundingClientRect() })).filter(({ size }) => size.height < 47.5 || size.width < 47.5).map(({ text, size }) => `${text} ${Math.round(size.width)}x${Math.round(size.height)}`));
  for (const one of small) found.small.push(`${name}: ${one}`);
  const wider = await page.evaluate(() => document.documentElement.scrollWidth > document.documentElement.clientWidth + 1);
  if (wider) found.errors.push(`${name} is wider than the screen`);
  if (pictures) await page.screenshot({ path: `${pictures}/${name}.png` });
}

/** What the page was made from. */
const text = readFileSync(file, "utf8");
const plan = JSON.parse(text.split('id="plan">')[1].split("</script>")[0]);
const tasks = plan.stages.flatMap((stage) => stage.steps.map((one) => ({ lowest: null, highest: null, ...one, stage: stage.name }))).map((one, index) => ({ ...one, number: index + 1 }));
const volts = tasks.filter((one) => one.stage === "stations" && one.unit === "V" && one.lowest !== null && one.highest !== null);
const digits = (one) => one.nominal.toFixed(2);

// First phone: from the file, thirty readings, killed after fifteen.
let kim = await phone("kim", home);
await go(kim.page, "#people");
await kim.page.fill("input[autocomplete=name]", "Kim");
await kim.page.tap("label[for=floor-1]");
await kim.page.tap("fieldset + button");
await kim.page.waitForFunction(() => document.querySelector("header .where b")?.textContent === "1");
found.acknowledged.kim = 0;
const noted = {};
for (const [index, one] of volts.slice(0, 30).entries()) {
  if (await keyIn(kim.page, one.number, digits(one))) {
    found.acknowledged.kim += 1;
    noted[one.key] = one.nominal;
  }
  if (index === 14) {
    // No farewell: the process of the browser is gone.
    const before = await counts(kim.page);
    await kim.context.close();
    kim = await phone("kim", home);
    const after = await counts(kim.page);
    step("all that was shown as kept is there after the page died", before[0] === after[0] && after[0] === found.acknowledged.kim + 1, `${before} ${after}`);
  }
}
step("thirty readings are kept on one phone", found.acknowledged.kim === 30, found.acknowledged.kim);

// A slip of the unit is asked about, a comma is a point, a wrong figure is said.
const slipped = volts[30];
await go(kim.page, `#s=${slipped.number}`);
await kim.page.fill("#reading", `${slipped.nominal.toFixed(1).replace(".", ",")} mV`);
await kim.page.tap("button.judge");
await kim.page.waitForSelector(".judged.unknown button");
step("47 mV for 47 V is asked about", (await kim.page.textContent(".judged.unknown"))?.includes("was it"));
await kim.page.tap(".judged.unknown button >> nth=0");
await kim.page.waitForSelector("#stands");
step("what was meant is kept", (await kim.page.textContent("#stands .big"))?.startsWith(slipped.nominal.toFixed(1)));
await go(kim.page, `#s=${volts[31].number}`);
for (const [bad, says] of [["1.234,5", "comma"], ["", "shows"], ["4..7", "not a number"], ["47 A", "does not fit"], ["eggs", "not a number"]]) {
  await kim.page.fill("#reading", bad);
  await kim.page.tap("button.judge");
  step(`"${bad}" is refused`, (await kim.page.textContent("#reading-answer"))?.includes(says), await kim.page.textContent("#reading-answer"));
}
step("the range is not shown before the figure is keyed in", !(await kim.page.isVisible(".range-line")));

// Out of range: first look, then the snag with a reason.
const low = volts[32];
await keyIn(kim.page, low.number, "31.5");
step("too low is said, and switching off comes first", (await kim.page.textContent("#stands"))?.includes("Too low") && (await kim.page.textContent("#stands .stack button >> nth=0"))?.includes("Switch off"));
await judge(kim.page, "out-of-range");
await kim.page.tap('button:has-text("Keep as a snag")');
await kim.page.tap('button:text-is("Keep the snag")');
step("a snag wants a reason", (await kim.page.textContent("#told"))?.includes("reason"));
await kim.page.fill("#stands textarea", "joint behind plaster, opened tomorrow");
await kim.page.tap('button:text-is("Keep the snag")');
await kim.page.waitForFunction((hash) => location.hash !== hash, `#s=${low.number}`);

// A flat that does not open.
const flat = volts[33];
await go(kim.page, `#s=${flat.number}`);
await kim.page.tap('summary:has-text("cannot be entered")');
await judge(kim.page, "not-entered");
await kim.page.tap('button:text-is("Keep as not entered")');
await kim.page.waitForFunction((hash) => location.hash !== hash, `#s=${flat.number}`);
await go(kim.page, "#snags");
step("snag and flat stand on the list", (await kim.page.textContent("main"))?.includes("joint behind plaster") && (await kim.page.textContent("main"))?.includes("Nobody at home"));
await judge(kim.page, "snags");

// A unit is exchanged, the isolation is held, the day ends.
const device = plan.devices[flat.device];
await go(kim.page, `#d=${device.number}`);
await judge(kim.page, "device");
await kim.page.tap('summary:text-is("Exchange this unit")');
await kim.page.fill('label:text-is("Serial of the new unit") + input', "N-2041");
await kim.page.tap('button:text-is("Keep the exchange")');
await go(kim.page, "#people");
await kim.page.tap('button:text-is("I hold the isolation")');
await go(kim.page, `#s=${flat.number}`);
step("who holds the isolation is said at the steps", (await kim.page.textContent("header .power"))?.startsWith("Power offKim holds the isolation"));
await go(kim.page, "#people");
await judge(kim.page, "people");
await kim.page.fill('label:text-is("Handed over to") + input', "Robin");
await kim.page.fill("main section:last-of-type textarea", "A-D2 port 3 is off");
await kim.page.tap('button:text-is("Keep the hand-over")');
await kim.page.waitForFunction(() => location.hash === "#files");

// The system's own list.
await go(kim.page, "#list");
await kim.page.fill("main textarea", list.text);
await kim.page.tap('button:text-is("Compare with the plan")');
await kim.page.waitForSelector(".judged");
found.list = await kim.page.evaluate(() => document.querySelector("main section:last-of-type")?.textContent ?? "");
await judge(kim.page, "list");

// Second phone: from the server, thirty readings; the first ten are of steps that Kim read as well, one of them otherwise.
const robin = await phone("robin", address);
await go(robin.page, "#people");
await robin.page.fill("input[autocomplete=name]", "Robin");
await robin.page.tap("fieldset + button");
await robin.page.waitForFunction(() => document.querySelector("header .where b")?.textContent === "1");
found.acknowledged.robin = 0;
const other = volts[0];
if (await keyIn(robin.page, other.number, (other.nominal - 0.5).toFixed(2))) found.acknowledged.robin += 1;
for (const one of [...volts.slice(21, 30), ...volts.slice(34, 54)]) {
  if (await keyIn(robin.page, one.number, digits(one))) found.acknowledged.robin += 1;
}
step("thirty readings are kept on the other phone", found.acknowledged.robin === 30, found.acknowledged.robin);

/** Exports, and says that the file is there. */
async function exported({ page }, name) {
  await go(page, "#files");
  const [download] = await Promise.all([page.waitForEvent("download"), page.tap('button:text-is("Export readings")')]);
  const path = `${folder}/${name}.json`;
  await download.saveAs(path);
  const before = await counts(page);
  await page.tap('button:text-is("The file is there")');
  await page.waitForFunction(() => document.querySelector("header .where b")?.textContent === "0");
  const after = await counts(page);
  step(`${name}: exported counts only when said to be there`, before[0] > 0 && after[1] === before[0] + before[1], `${before} ${after}`);
  return path;
}
found.files = [await exported(kim, "readings-kim"), await exported(robin, "readings-robin")];

/** Imports a file; what the page says of it. */
async function imported(page, path) {
  await go(page, "#files");
  await page.setInputFiles("input[type=file]", path);
  await page.waitForFunction(() => (document.querySelector("main [role=status]")?.textContent ?? "") !== "");
  const words = await page.textContent("main [role=status]");
  await page.evaluate(() => document.querySelector("main [role=status]")?.replaceChildren());
  return words;
}
const first = await imported(robin.page, found.files[0]);
step("another phone's file is taken, and the conflict said", /Taken: [1-9]/.test(first ?? "") && (first ?? "").includes("1 steps now have two readings"), first);
const again = await imported(robin.page, found.files[0]);
step("taking it again changes nothing", (again ?? "").includes("Taken: 0 new"), again);
await go(robin.page, `#s=${other.number}`);
const both = await robin.page.textContent("main");
step("a conflict shows both", both?.includes("Kim") && both?.includes("Robin") && both?.includes(other.nominal.toFixed(2)) && both?.includes((other.nominal - 0.5).toFixed(2)));
await judge(robin.page, "conflict");
for (const [name, says] of [["half", "cut off"], ["kind", "no file of readings"], ["site", "another site"], ["entry", "entry 1"]]) {
  const told = await imported(robin.page, `${folder}/bad-${name}.json`);
  step(`a bad file (${name}) is refused`, told?.startsWith("Not taken") && told.includes(says), told);
}
step("bad files changed nothing", (await counts(robin.page)).join() === (await (async () => { await robin.page.evaluate(() => dispatchEvent(new Event("hashchange"))); return counts(robin.page); })()).join());

// The laptop gives back what it has: only that counts as on the laptop.
try {
  execFileSync(program, ["readings", site, found.files[1], "--merged", `${folder}/laptop.json`], { stdio: "ignore" });
} catch {
  // Its status says that much is missing.
}
const [, , none] = await counts(robin.page);
const confirmed = await imported(robin.page, `${folder}/laptop.json`);
const [here, , laptop] = await counts(robin.page);
step("what the laptop gave back is shown as on the laptop", none === 0 && here > 0 && laptop === JSON.parse(readFileSync(found.files[1], "utf8")).events.length, `${none} ${here} ${laptop} ${confirmed}`);

// Readings are ranked on the page, without signal: one keyed in here, then those of the steps.
await go(kim.page, "#fault");
await kim.page.waitForSelector("#ranked");
step("without a reading the page says what the ranking is", (await kim.page.textContent("main"))?.includes("the laptop's answer is finer"));
const last = plan.devices[plan.runs.find((run) => run.id === "A-R1").stops.at(-1)].id;
await kim.page.fill('input[list="fault-places"]', last);
await kim.page.fill('main input[inputmode="decimal"]', "0.0");
await kim.page.tap('button:text-is("Add this reading")');
await kim.page.waitForFunction((name) => document.querySelector("main ul.list b")?.textContent === name, last);
found.ranked = await kim.page.$$eval("#ranked li", (lines) => lines.map((line) => line.textContent));
step("a dead station is a break or the station on its run", found.ranked.slice(0, 8).some((line) => line?.includes("A-R1") || line?.includes(last)), found.ranked.join("; "));
await kim.page.tap('button:text-is("Take over the readings of the steps")');
await kim.page.waitForFunction(() => document.querySelectorAll("main ul.list:not(#ranked) li").length > 1).catch(() => {});
step("readings of the steps are taken over", (await kim.page.$$("main ul.list:not(#ranked) li")).length > 1);
await judge(kim.page, "fault-found");

// The page saves itself, and the saved file is the same page.
const [saved] = await Promise.all([kim.page.waitForEvent("download"), (async () => { await go(kim.page, "#files"); await kim.page.tap('button:text-is("Save this page as a file")'); })()]);
await saved.saveAs(`${folder}/saved.html`);
const before = await counts(kim.page);
await kim.context.setOffline(false);
await kim.context.close();
const reopened = await phone("kim", pathToFileURL(`${folder}/saved.html`).href);
step("the saved page opens and finds what was kept", (await counts(reopened.page)).join() === before.join(), `${await counts(reopened.page)} ${before}`);
found.saved = readFileSync(`${folder}/saved.html`, "utf8").length;
await reopened.context.close();
await robin.context.close();

// Where the browser keeps nothing it is said on top, and the readings can still be exported.
{
  const browser = await chromium.launch(options);
  const context = await browser.newContext({ viewport, hasTouch: true, acceptDownloads: true });
  await context.addInitScript(() => Object.defineProperty(window, "indexedDB", { value: { open() { throw new DOMException("not here", "SecurityError"); } } }));
  const page = await context.newPage();
  watch(page, home);
  await page.goto(home);
  await page.waitForSelector("html[data-ready]");
  step("a page that keeps nothing says so on top", (await page.textContent("header [role=alert]"))?.includes("Nothing is kept on this phone"));
  await keyIn(page, volts[0].number, digits(volts[0]));
  await judge(page, "nothing-kept");
  await exported({ page }, "readings-unkept");
  await context.close();
  await browser.close();
}

// Every screen in every look and both languages, with axe.
for (const [look, where, locale] of [["light", home, "en-GB"], ["dark", home, "en-GB"], ["sunlight", home, "en-GB"], ["light", pathToFileURL(german).href, "de-DE"]]) {
  const name = `${look}-${locale.slice(0, 2)}`;
  const { context, page } = await phone(`look-${name}`, where, locale);
  await page.evaluate((look) => { document.documentElement.dataset.look = look; }, look);
  // The longest words on the narrowest phone.
  if (locale === "de-DE") await page.setViewportSize({ width: 360, height: 740 });
  const set = tasks.find((one) => one.stage === "set");
  for (const [what, hash] of [["work", "#"], ["steps", "#steps"], ["floor", "#f=1"], ["tick", "#s=5"], ["write", "#s=1"], ["set", `#s=${set.number}`], ["read", `#s=${volts[2].number}`], ["devices", "#devices"], ["device", `#d=${device.number}`], ["none", "#d=9999"], ["snags", "#snags"], ["more", "#more"], ["files", "#files"], ["people", "#people"], ["list", "#list"], ["handover", "#handover"], ["look", "#look"], ["fault", "#fault"], ["about", "#about"]]) {
    await go(page, hash);
    await judge(page, `${what}-${name}`);
  }
  await context.close();
}
console.log(JSON.stringify(found));
