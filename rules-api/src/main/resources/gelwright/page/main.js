// The page at work: one sheet, its review, and what is made of both. All that is kept is kept in this browser.

import * as classes from "./class.js";
import * as compare from "./compare.js";
import { byId, download, el, mark, settled } from "./dom.js";
import * as pictures from "./pictures.js";
import * as reviews from "./review.js";
import * as service from "./service.js";
import { EMPTY, Sheet, fromFile } from "./sheet.js";
import * as table from "./table.js";
import * as textView from "./text.js";
import { capital, count, edit } from "./words.js";

const STORE = "gelwright.sheet";
const MOST_UNDO = 100;
const SAME_CHANGE = 900;
const LEFT_ALONE = 900;
const LARGEST = 262_144;

const state = { text: EMPTY, view: "table", kept: "", file: "formula.yaml" };
let sheet = new Sheet(state.text);
let review;
let able = {
  remedies: false,
  headroom: false,
  headroomPicture: false,
  edits: false,
  comparisons: false,
  papers: [],
};
let titles = new Map();
let learned = Promise.resolve();
let applied;

const past = [];
let future = [];
let lastChange = 0;

// ---- the sheet ----

/** Takes a text over. Rows that come or go, and texts from elsewhere, make the table anew. */
function change(text, rebuild) {
  if (text === state.text) {
    return;
  }
  const now = performance.now();
  if (rebuild || now - lastChange > SAME_CHANGE || past.length === 0) {
    past.push(state.text);
    past.splice(0, past.length - MOST_UNDO);
  }
  lastChange = rebuild ? 0 : now;
  future = [];
  take(text, rebuild);
}

function take(text, rebuild) {
  state.text = text;
  sheet = new Sheet(text);
  if (rebuild) {
    render();
  } else if (state.view === "table") {
    table.follow(sheet);
  }
  named();
  save();
  changed();
}

const fromTable = (text, rebuild) => change(text, rebuild);

function render() {
  const readable = sheet.isReadable();
  if (!readable) {
    state.view = "text";
  }
  const asTable = state.view === "table";
  byId("table-view").hidden = !asTable;
  byId("text-view").hidden = asTable;
  byId("as-table").setAttribute("aria-pressed", String(asTable));
  byId("as-text").setAttribute("aria-pressed", String(!asTable));
  if (asTable) {
    table.show(sheet, fromTable);
  } else {
    textView.show(state.text);
  }
  named();
}

function named() {
  const name = sheet.value(["formula"]) || "Formula without a name";
  byId("title").textContent = name;
  document.title = `${name} – Gelwright`;
  byId("undo").disabled = past.length === 0;
  byId("redo").disabled = future.length === 0;
  byId("print-sheet-body").replaceChildren(...paper());
}

function showAs(view) {
  if (view === "table" && !sheet.isReadable()) {
    notice("The text cannot be shown as a table before its mistakes are mended; the review tells where they are.");
    return;
  }
  state.view = view;
  notice("");
  render();
  save();
}

function notice(text) {
  byId("sheet-notice").hidden = text === "";
  byId("sheet-notice").textContent = text;
}

function load(text, file) {
  state.file = file.replace(/\.(json|csv)$/i, ".yaml");
  applied = undefined;
  byId("changes").replaceChildren();
  notice("");
  if (new Sheet(text).isReadable() && state.view !== "text") {
    state.view = "table";
  }
  change(text, true);
}

/** The sheet without fields, for paper. */
function paper() {
  if (!sheet.isReadable()) {
    return [el("pre", {}, state.text)];
  }
  const rows = Array.from({ length: sheet.size(["ingredients"]) }, (_, i) =>
    ["phase", "name", "share"].map((key) => sheet.value(["ingredients", i, key])),
  );
  const brief = ["kind", "use", "area", "users", "texture", "dispensing", "pH", "markets", "shelf-life"]
    .map((key) => [key, sheet.value(["product", key])])
    .filter(([, value]) => value)
    .map(([key, value]) => `${key} ${value}`);
  const batch = sheet.value(["batch"]);
  const steps = Array.from({ length: sheet.size(["method"]) }, (_, i) => compare.stepText(sheet, i));
  return [
    el("p", {}, brief.join("; "), batch ? `; batch ${batch}` : ""),
    el(
      "table",
      { class: "plain" },
      el(
        "thead",
        {},
        el(
          "tr",
          {},
          ["Phase", "Ingredient", "Share"].map((title) => el("th", { scope: "col" }, title)),
        ),
      ),
      el(
        "tbody",
        {},
        rows.map((cells) =>
          el(
            "tr",
            {},
            cells.map((cell) => el("td", {}, cell)),
          ),
        ),
      ),
    ),
    steps.length > 0 &&
      el(
        "ol",
        {},
        steps.map((step) => el("li", {}, capital(step))),
      ),
  ].filter(Boolean);
}

function save() {
  try {
    localStorage.setItem(STORE, JSON.stringify(state));
  } catch {
    notice("This browser keeps nothing: save the sheet as a file before you leave.");
  }
}

function restore() {
  try {
    const stored = JSON.parse(localStorage.getItem(STORE) ?? "{}");
    for (const key of Object.keys(state)) {
      if (typeof stored[key] === "string") {
        state[key] = stored[key];
      }
    }
  } catch {
    // What cannot be read was not written by this page.
  }
  sheet = new Sheet(state.text);
}

function step(from, to) {
  if (from.length === 0) {
    return;
  }
  to.push(state.text);
  lastChange = 0;
  take(from.pop(), true);
}

// ---- the review ----

let turn = 0;
let running = new AbortController();

const changed = settled(250, () => look());

/** Reviews the sheet at hand. An answer that comes after the sheet has changed again is dropped. */
async function look() {
  const mine = ++turn;
  running.abort();
  running = new AbortController();
  const { signal } = running;
  const text = state.text;
  const isCurrent = () => mine === turn;
  byId("review").setAttribute("aria-busy", "true");
  byId("busy").hidden = false;
  byId("more").textContent = "";
  try {
    const fresh = await service.review(text, [], signal);
    if (!isCurrent()) {
      return;
    }
    shown(fresh);
    byId("review").removeAttribute("aria-busy");
    // What takes longer comes behind the words, the dearest last; what does not come leaves the words standing.
    await beside("pictures-body", isCurrent, () => drawn(text, signal, isCurrent));
    await beside("compare-body", isCurrent, () => compared(signal));
    byId("busy").hidden = true;
    await beside("more", isCurrent, () => remedied(text, isCurrent));
  } catch (trouble) {
    if (trouble.name !== "AbortError" && isCurrent()) {
      refused(trouble);
    }
  } finally {
    if (isCurrent()) {
      byId("review").removeAttribute("aria-busy");
      byId("busy").hidden = true;
    }
  }
}

async function beside(place, isCurrent, work) {
  try {
    await work();
  } catch (trouble) {
    if (trouble.name !== "AbortError" && isCurrent()) {
      byId(place).replaceChildren(`This did not come: ${trouble.message}`);
    }
  }
}

let remedying = Promise.resolve();

/**
 * Remedies and room to move cost hundreds of reviews. They are asked for when the sheet has been left alone, and never twice
 * at a time: a question that was called off would still be worked on.
 */
async function remedied(text, isCurrent) {
  await learned;
  const parts = ["remedies", "headroom"].filter((part) => able[part]);
  if (parts.length === 0) {
    return;
  }
  byId("more").textContent = "Looking for what would put it right …";
  await new Promise((resolve) => setTimeout(resolve, LEFT_ALONE));
  await remedying;
  if (!isCurrent()) {
    return;
  }
  const asked = service.review(text, parts);
  remedying = asked.then(
    () => undefined,
    () => undefined,
  );
  const full = await asked;
  if (isCurrent()) {
    byId("more").textContent = "";
    shown(full);
  }
}

function shown(fresh) {
  review = fresh;
  byId("problems").replaceChildren();
  table.markWrong([]);
  reviews.showVerdict(review);
  reviews.show(review, {
    canEdit: able.edits,
    drawHeadroom: able.headroomPicture ? drawHeadroom : undefined,
    apply,
    goTo,
    ruleTitle: (rule) => titles.get(rule) ?? rule,
  });
  const levels = new Map();
  for (const finding of review.findings.filter((one) => !one.accepted && one.where?.pointer)) {
    const level = finding.outcome === "unknown" ? "unknown" : finding.level;
    if (!levels.has(finding.where.line)) {
      levels.set(finding.where.line, level);
    }
  }
  textView.markLines(levels);
  whatChanged();
  performance.mark("reviewed");
}

/** The sheet could not be read, or the service did not answer. */
function refused(trouble) {
  const errors = trouble.errors ?? [];
  byId("verdict").replaceChildren(
    mark("error"),
    el(
      "span",
      {},
      errors.length > 0 ? `The sheet cannot be read: ${count(errors.length, "mistake")}.` : trouble.message,
    ),
  );
  byId("verdict").dataset.level = "error";
  table.markWrong(errors.map((one) => one.pointer ?? ""));
  textView.markLines(new Map(errors.filter((one) => one.line).map((one) => [one.line, "error"])));
  byId("problems").replaceChildren(
    el(
      "section",
      { class: "problems", "aria-labelledby": "problems-title" },
      el(
        "h3",
        { id: "problems-title" },
        errors.length > 0 ? "The sheet cannot be read" : (trouble.problem?.title ?? "No review"),
      ),
      errors.length === 0 && el("p", {}, trouble.message),
      el(
        "ul",
        {},
        errors.map((one) =>
          el(
            "li",
            {},
            one.line
              ? el("button", { type: "button", class: "link", onclick: () => toLine(one.line) }, `Line ${one.line}`)
              : "",
            ` ${one.message}${one.hint ? ` ${one.hint}` : ""}`,
          ),
        ),
      ),
      review && el("p", { class: "quiet" }, "What stands below is the review of the sheet before these mistakes."),
    ),
  );
}

async function drawn(text, signal, isCurrent) {
  const all = await pictures.load(text, signal);
  if (!isCurrent()) {
    return;
  }
  byId("pictures-body").replaceChildren(
    el("div", { class: "gallery" }, all.figures),
    ...(all.figures.length === 0 ? [el("p", {}, "There is nothing to draw: what the curves rest on is missing.")] : []),
    ...all.unknown.map((curve) =>
      el("p", { class: "quiet" }, `Not drawn, since what it rests on is missing: ${curve.title}.`),
    ),
    all.properties,
  );
}

/** The picture of the room to move; it is computed anew for it. */
async function drawHeadroom() {
  const target = byId("headroom-picture");
  target.replaceChildren("Drawing …");
  try {
    target.replaceChildren(
      pictures.figure(pictures.image(await service.headroomPicture(state.text, running.signal), "headroom")),
    );
  } catch (trouble) {
    target.replaceChildren(`There is no picture: ${trouble.message}`);
  }
}

function keptShown() {
  const has = state.kept !== "";
  byId("swap").hidden = !has;
  byId("forget").hidden = !has;
  byId("kept-name").textContent = has ? `Kept is: ${new Sheet(state.kept).value(["formula"])}.` : "Nothing is kept.";
  return has;
}

async function compared(signal) {
  if (!keptShown() || !review) {
    byId("compare-body").replaceChildren();
    return;
  }
  await compare.show(state.kept, state.text, review, able, signal);
}

function goTo(where) {
  if (state.view === "table" && where.pointer) {
    table.goTo(where.pointer);
  } else {
    toLine(where.line);
  }
}

function toLine(line) {
  if (state.view !== "text") {
    showAs("text");
  }
  textView.goTo(line);
}

// ---- remedies ----

async function apply(remedy) {
  const before = review;
  const old = state.text;
  let text;
  try {
    text = await service.edited(old, remedy.edits);
  } catch (trouble) {
    byId("changes").replaceChildren(el("p", { class: "notice" }, `The change was not made: ${trouble.message}`));
    return;
  }
  if (state.text !== old) {
    byId("changes").replaceChildren(
      el("p", { class: "notice" }, "The sheet has changed meanwhile; the remedy was not applied."),
    );
    return;
  }
  applied = { remedy, before, text };
  change(text, true);
  table.touched(remedy.edits);
  whatChanged();
  byId("changes-title")?.focus();
}

/** What a remedy changed on the sheet, and what that did. */
function whatChanged() {
  if (!applied || applied.text !== state.text) {
    applied = undefined;
    byId("changes").replaceChildren();
    return;
  }
  const known = review !== applied.before;
  const focused = document.activeElement?.id;
  const effect = known ? compare.difference(applied.before, review) : undefined;
  byId("changes").replaceChildren(
    el(
      "section",
      { class: "changes", "aria-labelledby": "changes-title" },
      el("h3", { id: "changes-title", tabindex: "-1" }, "Changed on the sheet"),
      el(
        "ul",
        {},
        applied.remedy.edits
          .map(edit)
          .map((one) =>
            el(
              "li",
              {},
              `${one.what}: `,
              one.from && el("del", {}, one.from),
              one.from ? " → " : "",
              el("ins", {}, one.to),
            ),
          ),
      ),
      effect
        ? el(
            "div",
            { class: "columns" },
            compare.findingList("Put right", effect.gone),
            compare.findingList("New", effect.come),
            compare.findingList("Still there", effect.same),
          )
        : el("p", {}, "Looking what that does …"),
      el(
        "p",
        { class: "toolbar" },
        el("button", { type: "button", id: "take-back", onclick: () => step(past, future) }, "Take it back"),
      ),
    ),
  );
  if (focused && byId(focused)) {
    byId(focused).focus({ preventScroll: true });
  }
}

// ---- files ----

async function openFile(file) {
  if (file.size > LARGEST) {
    notice(`${file.name} has more than ${LARGEST} bytes, which is more than a sheet may have.`);
    return;
  }
  load(fromFile(file.name, await file.text()), file.name);
}

function openSeveral(files) {
  byId("class-title").focus();
  byId("class").scrollIntoView();
  classes.review(files, (result) => {
    load(result.text, result.name.replace(/^.*\//, ""));
    byId("sheet-title").focus();
    byId("sheet").scrollIntoView();
  });
}

/** All files of a folder that was dropped, and of the folders in it. */
async function filesOf(entry) {
  if (entry.isFile) {
    return [await new Promise((resolve, reject) => entry.file(resolve, reject))];
  }
  const reader = entry.createReader();
  const files = [];
  for (;;) {
    const entries = await new Promise((resolve, reject) => reader.readEntries(resolve, reject));
    if (entries.length === 0) {
      return files;
    }
    for (const one of entries) {
      files.push(...(await filesOf(one)));
    }
  }
}

function dropping() {
  let depth = 0;
  const note = byId("drop-note");
  const hasFiles = (event) => [...(event.dataTransfer?.types ?? [])].includes("Files");
  document.addEventListener("dragenter", (event) => {
    if (hasFiles(event)) {
      depth += 1;
      note.hidden = false;
    }
  });
  document.addEventListener("dragleave", () => {
    depth = Math.max(0, depth - 1);
    note.hidden = depth === 0;
  });
  document.addEventListener("dragover", (event) => {
    if (hasFiles(event)) {
      event.preventDefault();
    }
  });
  document.addEventListener("drop", async (event) => {
    if (!hasFiles(event)) {
      return;
    }
    event.preventDefault();
    depth = 0;
    note.hidden = true;
    const entries = [...event.dataTransfer.items].map((item) => item.webkitGetAsEntry?.()).filter(Boolean);
    const plain = [...event.dataTransfer.files];
    const files = entries.length > 0 ? (await Promise.all(entries.map(filesOf))).flat() : plain;
    if (files.length === 1 && !entries.some((entry) => entry.isDirectory)) {
      await openFile(files[0]);
    } else {
      openSeveral(files);
    }
  });
}

/** A paper that the service writes, saved as a file: a page of its own, which prints by itself. */
async function savePaper(name) {
  const mass = sheet.value(["batch"]).replaceAll(" ", "");
  if (name === "batch-sheet" && !mass) {
    byId("papers-note").textContent = "A batch sheet needs the mass of the batch: state it on the sheet.";
    return;
  }
  byId("papers-note").textContent = "Writing …";
  try {
    const page = await service.paper(name, state.text, mass);
    download(`${state.file.replace(/\.ya?ml$/i, "")}-${name}.html`, "text/html;charset=utf-8", page);
    byId("papers-note").textContent = "Saved.";
  } catch (trouble) {
    byId("papers-note").textContent = `It was not written: ${trouble.message}`;
  }
}

// ---- the token ----

function askForToken(again) {
  const dialog = byId("token-dialog");
  byId("token-wrong").hidden = !again;
  byId("token").value = "";
  if (!dialog.open) {
    dialog.showModal();
  }
  return new Promise((resolve) => {
    const done = (given) => {
      byId("token-ok").onclick = null;
      byId("token-cancel").onclick = null;
      byId("token").onkeydown = null;
      dialog.oncancel = null;
      dialog.close();
      resolve(given);
    };
    byId("token-ok").onclick = () => done(byId("token").value.trim());
    byId("token").onkeydown = (event) => {
      if (event.key === "Enter") {
        done(byId("token").value.trim());
      }
    };
    byId("token-cancel").onclick = () => done("");
    dialog.oncancel = () => done("");
  });
}

// ---- print ----

function printing() {
  let closed = [];
  window.addEventListener("beforeprint", () => {
    closed = [...document.querySelectorAll("details:not([open])")].filter((details) => !details.closest(".picture"));
    closed.forEach((details) => {
      details.open = true;
    });
  });
  window.addEventListener("afterprint", () => {
    closed.forEach((details) => {
      details.open = false;
    });
  });
}

// ---- begin ----

function buttons() {
  const on = (id, action) => byId(id).addEventListener("click", action);
  on("as-table", () => showAs("table"));
  on("as-text", () => showAs("text"));
  on("new", () => load(EMPTY, "formula.yaml"));
  on("open", () => byId("open-file").click());
  on("undo", () => step(past, future));
  on("redo", () => step(future, past));
  on("save", () => download(state.file, "application/yaml", state.text));
  on("print", () => window.print());
  for (const name of ["report", "batch-sheet", "label-draft", "stability-plan"]) {
    on(name, () => savePaper(name));
  }
  const keep = () => {
    state.kept = state.text;
    save();
    look();
  };
  on("keep", () => {
    keep();
    byId("compare-title").focus();
    byId("compare").scrollIntoView();
  });
  on("keep-here", keep);
  on("swap", () => {
    const kept = state.kept;
    state.kept = state.text;
    change(kept, true);
  });
  on("forget", () => {
    state.kept = "";
    save();
    compared();
    byId("keep-here").focus();
  });
  on("class-files-button", () => byId("class-files").click());
  on("class-folder-button", () => byId("class-folder").click());
  on("class-csv", () => classes.saveCsv());
  on("class-html", () => classes.saveHtml(review?.editions.on ?? ""));
  byId("open-file").addEventListener("change", (event) => {
    const [file] = event.target.files;
    event.target.value = "";
    return file && openFile(file);
  });
  for (const id of ["class-files", "class-folder"]) {
    byId(id).addEventListener("change", (event) => {
      const files = [...event.target.files];
      event.target.value = "";
      return files.length > 0 && openSeveral(files);
    });
  }
  byId("example").addEventListener("change", async (event) => {
    const file = event.target.value;
    event.target.value = "";
    if (file) {
      load(await service.example(file), file);
    }
  });
}

async function learn() {
  const [can, rules, catalogue] = await Promise.all([service.abilities(), service.rules(), service.ingredients()]);
  able = can;
  titles = new Map(rules["rule-sets"].flatMap((set) => set.rules.map((rule) => [rule.id, rule.title])));
  byId("papers").hidden = able.papers.length === 0;
  able.papers.forEach((name) => {
    byId(name).hidden = false;
  });
  // More than a thousand names can wait until the first review stands.
  const fill = () =>
    byId("ingredient-names").replaceChildren(
      ...catalogue.ingredients.flatMap((one) => [
        el("option", { value: one.name }, one.functions.join(", ")),
        ...one.synonyms.map((synonym) => el("option", { value: synonym }, `= ${one.name}`)),
      ]),
    );
  (window.requestIdleCallback ?? setTimeout)(fill, { timeout: 2_000 });
}

function begin() {
  performance.mark("begun");
  service.onTokenNeeded(askForToken);
  restore();
  table.start();
  textView.start((text) => change(text, false));
  buttons();
  dropping();
  printing();
  render();
  keptShown();
  // The words of the review come first; what else the service knows and can do comes beside them.
  learned = learn().catch(() => notice("The service does not answer. The sheet is safe in this browser."));
  look();
}

begin();
