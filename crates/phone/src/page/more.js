// People, files, the system's own list, snags, handover, and how the page looks.
import { deviceNamed, pageAsSent, plan, say, taskOf } from "./data.js";
import { button, field, handOut, link, make } from "./elements.js";
import { LONGEST_FILE, canonical, readFile } from "./events.js";
import { reconcile } from "./reconcile.js";
import { byWhom, freeSnag, valueOf } from "./step.js";
import { keeper, note, progress, refresh, state, tell } from "./state.js";

/** @typedef {import("./data.js").Happening} Happening */

/** A name for files: letters, figures and dashes. */
const fileName = () => plan.site.normalize("NFKD").replace(/[^A-Za-z0-9]+/g, "-").replace(/^-|-$/g, "").toLowerCase().slice(0, 40) || "site";
const title = (/** @type {string} */ words) => make("h1", { id: "title" }, words);

/** @returns {HTMLElement[]} */
export function moreScreen() {
  const entries = [["#fault", "FindFault", "FindFaultHint"], ["#files", "Files", "FilesHint"], ["#people", "People", "PeopleHint"], ["#list", "DeviceList", "DeviceListHint"], ["#handover", "Handover", "HandoverHint"], ["#look", "LookOfPage", "LookHint"], ["#about", "About", "AboutHint"]];
  return [make("section", {}, title(say("More")), make("ul.list.menu", {}, ...entries.map(([where, name, hint]) => make("li", {}, link(where, "", say(name), make("small", {}, say(hint)))))))];
}

/** @returns {HTMLElement[]} */
export function filesScreen() {
  const counts = keeper.counts();
  const input = /** @type {HTMLInputElement} */ (make("input", { type: "file", accept: ".json,application/json" }));
  const answer = make("div", { role: "status" });
  input.addEventListener("change", async () => {
    const file = input.files?.[0];
    if (!file) return;
    answer.replaceChildren(make("p.judged.unknown", {}, await takeFile(file)));
    input.value = "";
  });
  return [
    make("section", {}, title(say("Files")), make("dl.facts", {}, make("dt", {}, say("OnlyHere")), make("dd", {}, make("b", {}, String(counts.here))), make("dt", {}, say("ExportedOnes")), make("dd", {}, make("b", {}, String(counts.exported))), make("dt", {}, say("OnLaptop")), make("dd", {}, make("b", {}, String(counts.laptop)))), make("p.hint", {}, say("WhereTheyAre"))),
    make("section.stack", {}, make("h2", {}, say("Export")), make("p", {}, say("ExportWords")), exportButton()),
    make("section.stack", {}, make("h2", {}, say("Import")), field(say("ImportWords"), input, say("ImportHint")), answer),
    make("section.stack", {}, make("h2", {}, say("SavePage")), make("p", {}, say("SavePageWords")), button(say("SavePage"), () => handOut(`${fileName()}.html`, "text/html", pageAsSent()))),
  ];
}

/** Hands out all readings; they count as exported once the user says that the file is there. */
export function exportButton() {
  const place = make("div.stack", {});
  place.append(button(say("Export"), () => {
    const { text, ids } = keeper.file();
    const who = keeper.name.normalize("NFKD").replace(/[^A-Za-z0-9]+/g, "-").toLowerCase();
    handOut(`readings-${fileName()}${who ? `-${who}` : ""}-${keeper.device.slice(-4)}.json`, "application/json", text);
    place.replaceChildren(make("p", {}, make("b", {}, say("IsThere"))), button(say("FileThere"), async () => {
      await keeper.exported(ids);
      tell(say("ExportedNow", { count: ids.length }));
      state.redraw();
    }, "do"), button(say("FileNotThere"), () => state.redraw()));
  }, "do"));
  return place;
}

/** Takes a file of another phone or of the laptop. @param {File} file */
async function takeFile(file) {
  if (file.size > LONGEST_FILE) return say("FileTooLarge");
  const found = readFile(await file.text(), plan.site);
  if ("wrong" in found) return say(`File-${found.wrong}`, { detail: found.detail });
  const clash = found.events.filter((event) => {
    const own = keeper.events.get(event.id);
    return own !== undefined && canonical(own) !== canonical(event);
  });
  const fresh = found.events.filter((event) => !keeper.events.has(event.id));
  const before = state.job.conflicts.size;
  await keeper.take(found.events.filter((event) => !clash.includes(event)), found.from === "laptop" ? "laptop" : null);
  refresh();
  const other = fresh.filter((event) => event.plan !== plan.plan).length;
  const parts = [say("Taken", { fresh: fresh.length, known: found.events.length - fresh.length - clash.length })];
  if (clash.length > 0) parts.push(say("Clash", { count: clash.length }));
  if (other > 0) parts.push(say("OtherPlan", { count: other }));
  const more = state.job.conflicts.size - before;
  if (more > 0) parts.push(say("NewConflicts", { count: more }));
  state.redrawHead();
  return parts.join(" ");
}

/** @returns {HTMLElement[]} */
export function peopleScreen() {
  const name = /** @type {HTMLInputElement} */ (make("input", { type: "text", maxlength: 60, autocomplete: "name", value: keeper.name }));
  const own = state.job.installers.filter((one) => one.text === keeper.name && keeper.name !== "").at(-1);
  const floors = plan.floors.map((floor, index) => {
    const box = /** @type {HTMLInputElement} */ (make("input", { type: "checkbox", id: `floor-${index}`, value: floor, checked: own?.floors?.includes(floor) ?? false }));
    return { box, row: make("label.check", { for: `floor-${index}` }, box, floor || say("NoFloor")) };
  });
  const holder = state.job.isolation;
  const held = holder?.text ?? "";
  const to = /** @type {HTMLInputElement} */ (make("input", { type: "text", maxlength: 60, autocomplete: "off" }));
  const words = /** @type {HTMLTextAreaElement} */ (make("textarea", { maxlength: 2000 }));
  const latest = [...new Map(state.job.installers.map((one) => [one.text, one])).values()];
  return [
    make("section.stack", {}, title(say("People")), field(say("WhoAmI"), name), make("fieldset", {}, make("legend", {}, say("MyFloors")), ...floors.map((one) => one.row)), button(say("Keep"), async () => {
      if (name.value.trim() === "") return tell(say("NameWanted"));
      await keeper.setName(name.value.trim());
      await note({ kind: "installer", text: keeper.name, floors: floors.filter((one) => one.box.checked).map((one) => one.box.value) });
      tell(say("Kept"));
      state.redraw();
    }, "do")),
    make("section", {}, make("h2", {}, say("WhoIsWhere")), latest.length === 0 ? make("p.quiet", {}, say("NobodyYet")) : make("ul.list", {}, ...latest.map((one) => make("li", {}, make("span.row.plain", {}, make("span", {}, make("b", {}, one.text ?? ""), make("small", {}, one.floors?.map((floor) => floor || say("NoFloor")).join("; ") || say("NoFloors")))))))),
    make("section.stack", {}, make("h2", {}, say("Isolation")), make("p", {}, held ? say("HeldBy", { name: held }) : say("HeldByNobody")), make("p.hint", {}, say("IsolationHint")),
      held ? button(say("Release"), async () => { await note({ kind: "isolation", text: "" }); state.redraw(); }) : button(say("TakeIsolation"), async () => {
        if (keeper.name === "") return tell(say("NameWanted"));
        await note({ kind: "isolation", text: keeper.name });
        state.redraw();
      }, "do")),
    make("section.stack", {}, make("h2", {}, say("DayEnd")), ...state.job.days.slice(-5).map((one) => make("p.hint", {}, `${byWhom(one)} → ${one.to ?? ""}: ${one.text ?? ""}`)), field(say("DayTo"), to), field(say("DayWords"), words), button(say("KeepDay"), async () => {
      if (words.value.trim() === "" && to.value.trim() === "") return tell(say("EmptyText"));
      const { done, all, out, left } = progress(null);
      await note({ kind: "day-end", to: to.value.trim(), text: words.value.trim(), details: { done: String(done), all: String(all), out: String(out), left: String(left) } });
      tell(say("DayKept"));
      location.hash = "#files";
    }, "do")),
  ];
}

/** @returns {HTMLElement[]} */
export function listScreen() {
  const input = /** @type {HTMLTextAreaElement} */ (make("textarea", { spellcheck: "false", autocapitalize: "off" }));
  input.value = state.job.list?.text ?? "";
  const answer = make("section", { role: "status", hidden: true });
  const hold = () => {
    const text = input.value.trim();
    answer.hidden = false;
    answer.replaceChildren(...(text === "" ? [make("p", {}, say("ListEmpty"))] : reconciled(text)));
  };
  if (input.value !== "") hold();
  return [make("section.stack", {}, title(say("DeviceList")), field(say("ListWords"), input, say("ListHint")), button(say("Compare"), async () => {
    hold();
    const text = input.value.trim();
    if (text !== "" && text !== (state.job.list?.text ?? "")) {
      if (text.length > 20_000) return tell(say("ListTooLong"));
      await note({ kind: "list", text });
      state.redrawHead();
    }
  }, "do")), answer];
}

/** @param {string} text @returns {HTMLElement[]} */
function reconciled(text) {
  const found = reconcile(text);
  const all = found.present.length + found.missing.length;
  const names = (/** @type {import("./data.js").Device[]} */ devices) => devices.map((device) => device.id).join(", ");
  const because = (/** @type {import("./reconcile.js").Reason | null} */ why) => why === null ? make("span", {}, say("NothingExplains")) : make("span", {}, say("ProbablyIs", { device: why.device.id }), " ", why.how.map((how) => `${how.field}: ${say(how.name, how.values)}`).join("; "));
  const item = (/** @type {string} */ head, /** @type {HTMLElement} */ body, /** @type {string} */ where) => make("li", {}, make("div.row.plain", {}, make("span", {}, make("b", {}, head), make("small", {}, body)), where ? link(where, "", say("Show")) : null));
  const differs = found.missing.length + found.unexpected.length + found.duplicated.length + found.unread.length > 0;
  return [
    make(`div.judged${differs ? ".out" : ""}`, {}, make("b", {}, say("Answered", { count: found.present.length, all }))),
    make("ul.list", {},
      ...found.groups.map((group) => item(names(group.devices), make("span", {}, say(group.name === "Alone" && group.devices.length > 1 ? "SeveralSilent" : group.name, { run: group.run || "–", from: group.from, last: group.last })), `#d=${group.devices[0].number}`)),
      ...found.unexpected.map((one) => item(say("Unexpected", { address: `${say(`Class-${one.found.class}`)} ${one.found.numbers.join("/")}`, times: one.times }), because(one.why), one.why ? `#d=${one.why.device.number}` : "")),
      ...found.duplicated.map((one) => item(say("Duplicated", { address: `${say(`Class-${one.found.class}`)} ${one.found.numbers.join("/")}`, times: one.times, devices: names(one.planned) }), because(one.why), one.why ? `#d=${one.why.device.number}` : "")),
      ...(found.unread.length > 0 ? [item(say("Unread", { lines: found.unread.slice(0, 20).join(", ") }), make("span", {}, say("UnreadHint")), "")] : []),
    ),
  ];
}

/** @param {HTMLElement} form @returns {HTMLElement[]} */
function snagList(form) {
  const { snags, notEntered, conflicts, ofOtherPlans } = state.job;
  const entry = (/** @type {Happening} */ one, /** @type {string} */ words, /** @type {string} */ done) => {
    const task = one.step ? taskOf.get(one.step) : undefined;
    const device = deviceNamed(one.place ?? "");
    const reading = one.of ? keeper.events.get(one.of) : undefined;
    return make("li.stack", {}, make("div.row.plain", {}, make("span", {}, make("b", {}, [one.place || say("WholeSite"), reading && task ? valueOf(reading, task) : ""].filter(Boolean).join(": ")), " ", words, make("small", {}, byWhom(one))), task ? link(`#s=${task.index + 1}`, "", say("Show")) : device ? link(`#d=${device.number}`, "", say("Show")) : null), button(done, async () => {
      await note({ kind: "closed", of: one.id, place: one.place ?? "" });
      state.redraw();
    }));
  };
  const block = (/** @type {string} */ name, /** @type {HTMLElement[]} */ entries) => (entries.length === 0 ? [] : [make("section", {}, make("h2", {}, `${say(name)} (${entries.length})`), make("ul.list", {}, ...entries))]);
  return [
    make("section", {}, title(say("Snags")), snags.length + notEntered.length + conflicts.size === 0 ? make("p", {}, say("NoSnags")) : null, make("details", {}, make("summary", {}, say("OtherSnag")), form)),
    ...block("Conflicts", [...conflicts.keys()].flatMap((key) => { const task = taskOf.get(key); return task ? [make("li", {}, link(`#s=${task.index + 1}`, "row.plain", make("span", {}, make("b", {}, task.place), " ", plan.texts[task.what])))] : []; })),
    ...block("OpenSnags", snags.map((one) => entry(one, one.text ?? "", say("Close")))),
    ...block("NotEnteredOnes", notEntered.map((one) => entry(one, one.text ?? "", say("EnteredNow")))),
    ...block("OtherPlans", ofOtherPlans.filter((one) => one.kind === "reading").map((one) => make("li.hint", {}, `${one.place ?? ""}: ${one.text ?? ""} (${say("RevisionOf", { revision: one.revision })})`))),
    ...block("FromCheck", plan.findings.map((one) => make("li", {}, make("span.row.plain", {}, make("span", {}, make("b", {}, one.where), " ", one.text))))),
  ];
}

/** @returns {HTMLElement[]} */
export const snagScreen = () => snagList(freeSnag(""));

/** @returns {HTMLElement[]} */
export function handoverScreen() {
  const { all, done, out, left } = progress(null);
  const of = (/** @type {string} */ key) => state.job.handover.filter((one) => one.step === key);
  const line = (/** @type {{ key: string, text: string }} */ one) => {
    const seen = of(one.key);
    const input = /** @type {HTMLInputElement} */ (make("input", { type: "text", maxlength: 120, autocomplete: "off", value: seen.length === 0 ? keeper.name : "" }));
    return make("li", {}, make("details", {}, make("summary", {}, `${seen.length > 0 ? "✓ " : ""}${one.text}`), make("div.stack", {}, ...seen.map((who) => make("p", {}, say("SeenBy", { name: who.text ?? "" }), " ", make("span.hint", {}, byWhom(who)))), field(say("WhoSaw"), input), button(say("Keep"), async () => {
      if (input.value.trim() === "") return tell(say("NameWanted"));
      await note({ kind: "handover", step: one.key, text: input.value.trim(), done: true });
      state.redraw();
    }, "do"))));
  };
  return [
    make("section", {}, title(say("Handover")), make("p", {}, say("HandoverState", { done, all, out, left, snags: state.job.snags.length })), make("p.hint", {}, say("NoPasswords"))),
    ...plan.handover.map((part) => make("section", {}, make("h2", {}, part.title), make("ul.list", {}, ...part.lines.map(line)))),
  ];
}

const LOOKS = [["", "LookAsPhone"], ["light", "LookLight"], ["dark", "LookDark"], ["sunlight", "LookSunlight"]];
/** What the look is remembered under; some browsers forbid it, and then it holds for this page alone. */
const LOOK = "latchline-look";

/** @param {string} look */
function setLook(look) {
  if (look) document.documentElement.dataset.look = look;
  else delete document.documentElement.dataset.look;
}

/** Takes up the look that was chosen last. */
export function startLook() {
  try {
    setLook(localStorage.getItem(LOOK) ?? "");
    state.showsRange = localStorage.getItem(`${LOOK}-range`) === "yes";
  } catch {
    setLook("");
  }
}

/** @param {string} key @param {string} value */
function remember(key, value) {
  try {
    localStorage.setItem(key, value);
  } catch {
    tell(say("OnlyThisTime"));
  }
}

/** @returns {HTMLElement[]} */
export function lookScreen() {
  const now = document.documentElement.dataset.look ?? "";
  const box = /** @type {HTMLInputElement} */ (make("input", { type: "checkbox", id: "shows-range", checked: state.showsRange, change: () => {
    state.showsRange = box.checked;
    remember(`${LOOK}-range`, box.checked ? "yes" : "no");
  } }));
  return [make("section.stack", {}, title(say("LookOfPage")), ...LOOKS.map(([look, name]) => make(`button${now === look ? ".do" : ""}`, { type: "button", "aria-pressed": String(now === look), click: () => {
    setLook(look);
    remember(LOOK, look);
    state.redraw();
  } }, say(name)))), make("section", {}, make("label.check", { for: "shows-range" }, box, say("AlwaysRange")))];
}

/** @returns {HTMLElement[]} */
export function aboutScreen() {
  return [make("section", {}, title(say("About")), make("dl.facts", {}, ...[["Site", plan.site], ["RevisionWord", plan.revision], ["PlanWord", plan.plan.slice(0, 16)], ["VerdictWord", plan.verdict], ["ThisPhone", keeper.device]].flatMap(([name, text]) => [make("dt", {}, say(name)), make("dd", {}, text)]))),
    make("section.stack", {}, make("h2", {}, say("Cautions")), ...plan.cautions.map((text) => make("p", {}, text))), make("section.stack", {}, make("h2", {}, say("HowToRead")), ...plan.notes.map((text) => make("p", {}, text)))];
}
