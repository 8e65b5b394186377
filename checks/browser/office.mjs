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
/** The address of a page. */
const at = (path) => address.replace(/\/$/, "") + path;
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
  await page.goto(at(path));
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
    for (const [path, what] of [["/questions", "questions"], ["/questions/lock", "lock"], ["/questions/battery", "battery"], ["/questions/mix", "mix"], ["/questions/switches", "switches"], ["/questions/record", "record"], ["/sites", "sites"], [`${sitePath}/history`, "history"], [`${sitePath}/documents`, "documents"], [`${sitePath}/fault`, "fault"], [`${sitePath}/fault?given=A-15%3Dcomes-and-goes%0AA-D2.2%3D47.6V%0AA-15%40ringing%3D43.9V`, "fault found"]]) {
      await page.goto(at(path));
      await judge(page, name(what));
    }
    const wider = await page.evaluate(() => document.documentElement.scrollWidth > document.documentElement.clientWidth + 1);
    if (wider) found.errors.push(`${name("fault found")} is wider than the screen`);
    await page.context().close();
  }
}

/** Notes what a step of a journey came to. */
function step(journey, what, holds) {
  found.journeys.push({ journey, what, holds: Boolean(holds) });
}
const verdict = (page) => page.textContent("#verdict-text");
const revision = async (page) => Number(await page.textContent("#revision"));
const settled = (page) => page.waitForFunction(() => !document.getElementById("pending").classList.contains("pending"), null, { timeout: 240000 });
const reaches = (page, number) => page.waitForFunction((wanted) => Number(document.getElementById("revision").textContent) >= wanted, number, { timeout: 60000 });

for (const [size, viewport] of Object.entries(SIZES)) {
  // By mouse or finger: a run, a thinner cable, what it breaks, a remedy seen and taken, undone.
  const touch = size === "phone";
  const name = `mouse ${size}`;
  const page = await open({ viewport, hasTouch: touch, locale: "en-GB" });
  await site(page, sitePath);
  const press = (where) => (touch ? page.tap(where) : page.click(where));
  // Jobs and remedies come in above the drawing and move it, so it is picked once they are there; and again where it moved all the same.
  await settled(page);
  for (let tries = 0; tries < 6; tries++) {
    await page.evaluate(() => document.querySelector('#drawing [data-element="A-R5"] .catch path').scrollIntoView({ block: "center", inline: "center" }));
    const place = await page.evaluate(() => {
      const path = document.querySelector('#drawing [data-element="A-R5"] .catch path');
      const point = path.getPointAtLength(path.getTotalLength() / 3);
      const on = point.matrixTransform(path.getScreenCTM());
      return [on.x, on.y];
    });
    await (touch ? page.touchscreen.tap(place[0], place[1]) : page.mouse.click(place[0], place[1]));
    const picked = await page.waitForSelector("#details h2", { timeout: 5000 }).then(() => true, () => false);
    if (picked) break;
  }
  await page.waitForSelector("#details h2");
  step(name, "a run is picked on the drawing", (await page.textContent("#details h2")).trim() === "A-R5");
  const first = await revision(page);
  const before = await page.textContent('#drawing [data-element="A-45"] .figure');
  await page.selectOption("#d-cable", "pair-0.5");
  await reaches(page, first + 1);
  const after = await page.textContent('#drawing [data-element="A-45"] .figure');
  step(name, "the drawing follows the cable", before !== after && parseFloat(after) < parseFloat(before));
  const [said, pending] = [await verdict(page), await page.textContent("#pending")];
  step(name, "what is pending is not called clean", !(/^Holds/.test(said) && /voltages|short circuit|signal|start-up/.test(pending)));
  await page.fill("#d-lengths", "120 m · 15 m · 15 m · 12 m");
  await page.press("#d-lengths", "Enter");
  await reaches(page, first + 2);
  await settled(page);
  step(name, "it fails and says so", /^Fails/.test(await verdict(page)));
  const remedy = "#jobs [data-remedy]";
  await page.waitForSelector(remedy);
  await press(remedy);
  await page.waitForSelector("#dialog[open]");
  step(name, "a remedy shows what it changes", (await page.textContent("#dialog-body")).includes("+ "));
  if (size === "desktop" && pictures) await page.screenshot({ path: `${pictures}/remedy-desktop-light-en.png` });
  await press("#dialog-apply");
  await reaches(page, first + 3);
  for (let turn = 0; turn < 3; turn += 1) {
    const now = await revision(page);
    await page.waitForSelector("#undo:not([disabled])");
    await press("#undo");
    await reaches(page, now + 1);
  }
  await settled(page);
  step(name, "undo brings the figures back", (await page.textContent('#drawing [data-element="A-45"] .figure')) === before);
  step(name, "undo appends revisions", (await revision(page)) === first + 6);
  await page.context().close();

  // By keyboard alone: from the top of the page to the drawing, along it, into the details, a change, back to the card.
  const keys = await open({ viewport, locale: "en-GB" });
  const journey = `keyboard ${size}`;
  await site(keys, sitePath);
  const focus = () => keys.evaluate(() => document.activeElement.id || document.activeElement.className);
  let tabs = 0;
  while ((await focus()) !== "drawing" && tabs < 200) {
    await keys.keyboard.press("Tab");
    tabs += 1;
  }
  step(journey, "Tab reaches the drawing", (await focus()) === "drawing");
  await keys.keyboard.press("Home");
  await keys.keyboard.press("ArrowRight");
  await keys.keyboard.press("ArrowRight");
  const picked = await keys.textContent("#picked");
  step(journey, "arrows pick and it is said", picked.length > 10);
  await keys.waitForFunction(() => document.querySelector("#details select"));
  await keys.keyboard.press("Enter");
  step(journey, "Enter goes to the details", await keys.evaluate(() => document.getElementById("details").contains(document.activeElement)));
  await keys.keyboard.press("Escape");
  step(journey, "Escape goes back to the drawing", (await focus()) === "drawing");
  await keys.focus("#find");
  await keys.keyboard.type("A-R3");
  await keys.keyboard.press("Enter");
  await keys.waitForSelector("#details h2:has-text('A-R3')");
  await keys.keyboard.press("Enter");
  await keys.waitForFunction(() => document.activeElement.id === "d-cable");
  const number = await revision(keys);
  await keys.keyboard.type("pair-0.5");
  await keys.keyboard.press("Enter");
  await keys.keyboard.press("Tab");
  await reaches(keys, number + 1);
  step(journey, "a cable is changed", true);
  await keys.waitForTimeout(300);
  step(journey, "the focus stays in the details", await keys.evaluate(() => document.getElementById("details").contains(document.activeElement)));
  await keys.evaluate(() => document.activeElement.blur());
  await keys.keyboard.press("Control+z");
  await reaches(keys, number + 2);
  step(journey, "Ctrl-Z takes it back", true);
  await keys.focus("#d-lengths");
  await keys.keyboard.press("Control+a");
  await keys.keyboard.type("8 m · 6");
  await keys.evaluate(() => document.getElementById("redo").click());
  await reaches(keys, number + 3);
  await keys.waitForFunction(() => document.getElementById("d-cable")?.value === "pair-0.5");
  await keys.waitForTimeout(300);
  step(journey, "what is typed stays while the details change", (await keys.evaluate(() => document.activeElement.value)) === "8 m · 6");
  await keys.evaluate(() => document.getElementById("undo").click());
  await reaches(keys, number + 4);
  await keys.evaluate(() => { document.activeElement.value = document.activeElement.defaultValue; document.activeElement.blur(); });
  await keys.focus("#d-lengths");
  await keys.keyboard.press("Control+a");
  await keys.evaluate(() => document.getElementById("redo").click());
  await reaches(keys, number + 5);
  await keys.waitForFunction(() => document.getElementById("d-cable")?.value === "pair-0.5");
  await keys.waitForTimeout(300);
  await keys.keyboard.type("8 m · 6");
  step(journey, "what is marked is typed over while the details change", (await keys.evaluate(() => document.activeElement.value)) === "8 m · 6");
  await keys.evaluate(() => document.getElementById("undo").click());
  await reaches(keys, number + 6);
  await keys.evaluate(() => { document.activeElement.value = document.activeElement.defaultValue; document.activeElement.blur(); });
  await keys.focus("#tab-drawing");
  await keys.keyboard.press("ArrowRight");
  await keys.waitForSelector("#everything");
  const inTable = () => keys.evaluate(() => document.activeElement.closest("[data-edit]")?.dataset.run);
  /** The server's answer to an edit, held back until the page has heard of the new revision by its stream. */
  const late = async (route) => {
    const answer = await route.fetch();
    await keys.waitForTimeout(1500);
    await route.fulfill({ response: answer });
  };
  let made = number + 6;
  for (const [what, lengths] of [["at once", "7 7 7 7 7"], ["late", "8 7 7 7 7"]]) {
    if (what === "late") await keys.route("**/edit", late);
    await keys.focus('[data-edit="lengths"][data-run="A-R3"]');
    await keys.keyboard.press("Enter");
    await keys.keyboard.press("Control+a");
    await keys.keyboard.type(lengths);
    const answered = keys.waitForResponse("**/edit");
    await keys.keyboard.press("Enter");
    await reaches(keys, (made += 1));
    step(journey, `the table is edited, answered ${what}`, true);
    await answered;
    await keys.waitForTimeout(300);
    step(journey, `the focus stays in the table, answered ${what}`, (await inTable()) === "A-R3");
  }
  await keys.unroute("**/edit");
  await keys.keyboard.press("Enter");
  await keys.keyboard.press("Control+a");
  await keys.keyboard.type("9 7");
  await keys.evaluate(() => document.getElementById("undo").click());
  await reaches(keys, (made += 1));
  await keys.waitForTimeout(500);
  step(journey, "what is typed stays while the table changes", (await keys.evaluate(() => document.activeElement.value)) === "9 7");
  await keys.keyboard.press("Control+a");
  await keys.keyboard.type("none");
  await keys.keyboard.press("Enter");
  await keys.waitForFunction(() => !document.getElementById("notice").hidden);
  await keys.waitForTimeout(300);
  step(journey, "what is refused can be put right", (await keys.evaluate(() => document.activeElement.value)) === "none");
  await keys.keyboard.press("Control+a");
  await keys.keyboard.type("6 7 7 7 7");
  await keys.keyboard.press("Tab");
  await reaches(keys, (made += 1));
  step(journey, "a field that is left is an edit", true);
  await settled(keys);
  for (const left of [2, 1]) {
    await keys.click("#undo");
    await reaches(keys, (made += 1));
    step(journey, `undo, ${left} to go`, true);
  }
  await keys.context().close();
}

// A caller's question: slid by keyboard, the answer kept, found, printed, deleted.
for (const [size, viewport] of Object.entries(SIZES)) {
  const name = `questions ${size}`;
  const page = await open({ viewport, locale: "en-US" });
  await page.goto(at("/questions"));
  const sentence = () => page.textContent("#answer .sentence");
  const first = await sentence();
  step(name, "the slider starts at a round length", /on 200 ft of/.test(first));
  const follows = async (act) => {
    const answered = page.waitForResponse(/\/questions(\/\w+)?\?/);
    await act();
    await answered;
    await page.waitForTimeout(200);
  };
  await page.focus("#total");
  await follows(() => page.keyboard.press("ArrowRight"));
  step(name, "an arrow key moves it by a round step", /on 205 ft of/.test(await sentence()));
  await follows(() => page.check('input[name=by][value=spacing]'));
  step(name, "with a spacing it says how far that is in all", /20 ft from one to the next and \d+(\.\d)? ft in all/.test(await sentence()));
  step(name, "one of the two sliders is shown", (await page.isVisible("#spacing")) && !(await page.isVisible("#total")));
  await follows(() => page.selectOption("#family", { index: 0 }));
  const station = await page.inputValue("#station");
  step(name, "the models follow the family", (await sentence()).includes(station));
  await page.goto(at("/questions/battery"));
  await page.fill("#who", "Caller of the test");
  await follows(() => page.fill("#stations", "9"));
  step(name, "who asked stays while the answer follows", (await page.inputValue("#who")) === "Caller of the test");
  await page.click("form[data-keep] button");
  await page.waitForSelector("form[data-keep] a");
  const said = await sentence();
  await page.click("form[data-keep] a");
  await page.waitForSelector(".half");
  step(name, "the answer is kept as it was said", (await page.textContent(".half .sentence")) === said);
  await judge(page, `kept-${size}-light-us`);
  if (pictures && size === "desktop") await page.pdf({ path: `${pictures}/kept.pdf`, preferCSSPageSize: true });
  await page.goto(at("/questions/record?words=caller+test"));
  await judge(page, `found-${size}-light-us`);
  step(name, "it is found by who asked", (await page.locator("tr[data-answer]").count()) === 1);
  step(name, "that the demo keeps it until it ends is said", (await page.textContent("main")).includes("goes when it ends"));
  await page.click("tr[data-answer] button");
  await page.waitForURL(/\/questions\/record$/);
  step(name, "one click deletes it", (await page.locator("tr[data-answer]").count()) === 0);
  await page.context().close();
}

// From nothing to a wired house, by the form.
{
  const page = await open({ viewport: SIZES.desktop, locale: "en-GB" });
  await page.goto(`${address}sites`);
  await page.fill("#n-title", "Twelve flats");
  await page.click('form[data-new="blank"] button[type=submit]');
  await page.waitForURL(/Twelve/, { timeout: 120000 });
  await settled(page);
  const stations = await page.evaluate(() => document.querySelectorAll("#drawing .device").length);
  step("blank site", "twelve flats, a door, supply and boxes are drawn", stations >= 15);
  step("blank site", "it does not fail", !/^Fails/.test(await verdict(page)));
  if (pictures) await page.screenshot({ path: `${pictures}/blank-desktop-light-en.png` });
  const pdf = await page.request.get(`${page.url()}/documents/pack.pdf`, { timeout: 120000 });
  step("blank site", "its pack is a PDF", pdf.ok() && (await pdf.body()).subarray(0, 5).toString() === "%PDF-");
  await page.context().close();
}
await browser.close();
process.stdout.write(JSON.stringify(found));
