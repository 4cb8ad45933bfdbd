// A class's submissions: many sheets at once, who has what wrong, and which mistakes are commonest.

import { byId, download, el, mark } from "./dom.js";
import * as service from "./service.js";
import { fromFile } from "./sheet.js";
import { LEVELS, capital, count, counts, groupOf, subject, verdict, verdictLevel } from "./words.js";

const AT_ONCE = 3;
const READ = /\.(ya?ml|json|csv)$/i;
const LARGEST = 262_144;

let results = [];
let running;

/** Reviews many files. Those that are no sheets by their name are counted, not read. */
export async function review(files, open) {
  running?.abort();
  running = new AbortController();
  const { signal } = running;
  const sheets = files
    .filter((file) => READ.test(file.name))
    .sort((a, b) => a.name.localeCompare(b.name, "en", { numeric: true }));
  const passedOver = files.length - sheets.length;
  const progress = byId("class-progress");
  progress.max = sheets.length;
  progress.value = 0;
  progress.hidden = false;
  const found = new Array(sheets.length);
  const queue = sheets.map((file, i) => [file, i]);
  const work = async () => {
    for (let next = queue.shift(); next; next = queue.shift()) {
      const [file, i] = next;
      found[i] = await one(file, signal);
      progress.value += 1;
      byId("class-status").textContent = `${progress.value} of ${sheets.length} read.`;
    }
  };
  try {
    await Promise.all(Array.from({ length: AT_ONCE }, work));
  } catch (trouble) {
    if (trouble.name !== "AbortError") {
      byId("class-status").textContent = trouble.message;
    }
    return;
  } finally {
    progress.hidden = true;
  }
  results = found;
  byId("class-status").textContent =
    `${count(results.length, "sheet")} reviewed.` +
    (passedOver > 0 ? ` ${count(passedOver, "file")} passed over: only YAML, JSON and CSV are read.` : "");
  show(open);
}

async function one(file, signal) {
  const name = file.webkitRelativePath || file.name;
  if (file.size > LARGEST) {
    return { name, text: "", problems: [{ message: `The file has more than ${LARGEST} bytes.` }] };
  }
  const text = fromFile(file.name, await file.text());
  try {
    return { name, text, review: await service.review(text, [], signal) };
  } catch (trouble) {
    if (trouble.name === "AbortError" || trouble.status === 0 || trouble.status === 401) {
      throw trouble;
    }
    return { name, text, problems: trouble.errors.length > 0 ? trouble.errors : [{ message: trouble.message }] };
  }
}

const wrong = (review) => review.findings.filter(counts);
const at = (review, level) => wrong(review).filter((finding) => finding.level === level).length;
const open = (review) => review.findings.filter((finding) => !finding.accepted && finding.outcome === "unknown").length;
const problemText = (problem) =>
  `${problem.line ? `Line ${problem.line}: ` : ""}${problem.message}${problem.hint ? ` ${problem.hint}` : ""}`;

/** Mistakes by how many sheets have them. */
function commonest() {
  const rules = new Map();
  for (const { name, review } of results.filter((one) => one.review)) {
    for (const finding of wrong(review)) {
      const entry = rules.get(finding.rule) ?? { finding, sheets: new Set() };
      entry.sheets.add(name);
      rules.set(finding.rule, entry);
    }
  }
  const rank = { error: 0, warning: 1, note: 2 };
  return [...rules.values()].sort(
    (a, b) =>
      b.sheets.size - a.sheets.size ||
      rank[a.finding.level] - rank[b.finding.level] ||
      a.finding.rule.localeCompare(b.finding.rule),
  );
}

function show(openSheet) {
  const mistakes = commonest();
  byId("class-body").replaceChildren(overview(openSheet), lessons(mistakes));
  byId("class-tools").hidden = results.length === 0;
  byId("class-kept").hidden = results.length === 0;
}

function overview(openSheet) {
  return el(
    "div",
    { class: "scroll", tabindex: "0", role: "region", "aria-label": "The class's sheets" },
    el(
      "table",
      { class: "plain class-table" },
      el("caption", {}, "Who has what wrong"),
      el(
        "thead",
        {},
        el(
          "tr",
          {},
          ["Sheet", "Formula", "Errors", "Warnings", "Notes", "Not checked", "What is wrong"].map((title, i) =>
            el("th", { scope: "col", class: i > 1 && i < 6 ? "figure" : undefined }, title),
          ),
        ),
      ),
      el(
        "tbody",
        {},
        results.map((result) => row(result, openSheet)),
      ),
    ),
  );
}

function row(result, openSheet) {
  const { name, review, problems } = result;
  const button = openSheet && el("button", { type: "button", class: "link", onclick: () => openSheet(result) }, name);
  if (!review) {
    return el(
      "tr",
      {},
      el("th", { scope: "row" }, button || name),
      el("td", {}, "–"),
      el("td", { colspan: 4 }, mark("error"), " cannot be read"),
      el(
        "td",
        {},
        el(
          "ul",
          {},
          problems.map((problem) => el("li", {}, problemText(problem))),
        ),
      ),
    );
  }
  const titles = new Map();
  for (const finding of wrong(review)) {
    const title = finding.title;
    titles.set(title, {
      level: finding.level,
      names: [...(titles.get(title)?.names ?? []), subject(finding.subject)].filter(Boolean),
    });
  }
  return el(
    "tr",
    {},
    el("th", { scope: "row" }, mark(verdictLevel(review)), " ", button || name),
    el("td", {}, review.formula),
    ["error", "warning", "note"].map((level) => el("td", { class: "figure" }, String(at(review, level)))),
    el("td", { class: "figure" }, String(open(review))),
    el(
      "td",
      {},
      titles.size === 0
        ? "Nothing that was checked."
        : el(
            "details",
            {},
            el(
              "summary",
              {},
              [...titles.keys()][0],
              titles.size > 1 ? `, and ${titles.size - 1} more` : "",
              el("span", { class: "unseen" }, ` in ${name}`),
            ),
            el(
              "ul",
              { class: "marked" },
              [...titles].map(([title, { level, names }]) =>
                el(
                  "li",
                  {},
                  mark(level),
                  ` ${LEVELS[level]}: ${title}`,
                  names.length > 0 ? ` – ${names.join(", ")}` : "",
                ),
              ),
            ),
          ),
    ),
  );
}

function lessons(mistakes) {
  return el(
    "section",
    { "aria-labelledby": "commonest-title" },
    el("h3", { id: "commonest-title" }, "The commonest mistakes"),
    mistakes.length === 0
      ? el("p", {}, "No sheet breaks a rule that could be checked.")
      : el(
          "ol",
          { class: "commonest" },
          mistakes.map(({ finding, sheets }) =>
            el(
              "li",
              {},
              el(
                "h4",
                {},
                mark(finding.level),
                ` ${finding.title} `,
                el(
                  "span",
                  { class: "quiet" },
                  `– ${sheets.size} of ${results.length} (${groupOf(finding.rule).title})`,
                ),
              ),
              el("p", { class: "lesson" }, finding.lesson),
              el("p", { class: "quiet" }, [...sheets].join(", ")),
            ),
          ),
        ),
  );
}

/** A cell that a spreadsheet takes for text, never for a formula. */
function csvCell(value) {
  const text = String(value);
  const safe = /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
  return `"${safe.replaceAll('"', '""')}"`;
}

export function saveCsv() {
  const lines = [
    [
      "sheet",
      "formula",
      "verdict",
      "errors",
      "warnings",
      "notes",
      "not checked",
      "level",
      "outcome",
      "group",
      "rule",
      "about",
      "message",
    ],
  ];
  for (const { name, review, problems } of results) {
    if (!review) {
      problems.forEach((problem) =>
        lines.push([
          name,
          "",
          "cannot be read",
          "",
          "",
          "",
          "",
          "error",
          "",
          "",
          problem.code ?? "",
          problem.pointer ?? "",
          problemText(problem),
        ]),
      );
      continue;
    }
    const first = [
      name,
      review.formula,
      verdict(review),
      at(review, "error"),
      at(review, "warning"),
      at(review, "note"),
      open(review),
    ];
    const findings = review.findings.filter((finding) => !finding.accepted);
    if (findings.length === 0) {
      lines.push([...first, "", "", "", "", "", ""]);
    }
    for (const finding of findings) {
      const message =
        finding.outcome === "unknown" ? `not checked; missing: ${(finding.missing ?? []).join("; ")}` : finding.message;
      lines.push([
        ...first,
        finding.level,
        finding.outcome,
        groupOf(finding.rule).title,
        finding.rule,
        subject(finding.subject),
        message,
      ]);
    }
  }
  download(
    "class-reviews.csv",
    "text/csv;charset=utf-8",
    `\uFEFF${lines.map((cells) => cells.map(csvCell).join(",")).join("\r\n")}\r\n`,
  );
}

const STYLE = `body{font:1.05rem/1.5 Palatino,"Palatino Linotype",Georgia,serif;max-width:70rem;margin:2rem auto;padding:0 1rem;color:#1f2529}
table{border-collapse:collapse;width:100%}th,td{text-align:left;vertical-align:top;padding:.35rem .6rem;border-bottom:1px solid #b9b3a4}
caption{text-align:left;font-weight:bold;font-size:1.2rem;margin:.6rem 0}.mark{width:.75rem;height:.75rem}.stroke,.hollow{fill:none;stroke:currentColor;stroke-width:2}
.unseen{display:none}button{all:unset}.quiet{color:#4c565d}ul{padding-left:1.2rem;margin:.2rem 0}`;

/** All in one file without scripts. It is built as a document, so that names in a sheet stay text. */
export function saveHtml(today) {
  const page = document.implementation.createHTMLDocument(`Reviews of a class, ${today}`);
  page.documentElement.lang = "en";
  page.head.prepend(
    Object.assign(page.createElement("meta"), { name: "viewport", content: "width=device-width, initial-scale=1" }),
  );
  const charset = page.createElement("meta");
  charset.setAttribute("charset", "utf-8");
  page.head.prepend(charset);
  page.body.append(
    el("h1", {}, "Reviews of a class"),
    el(
      "p",
      {},
      `${capital(count(results.length, "sheet"))}, ${today}. A prediction with its sources: not a certificate, and not a safety assessment. What could not be checked is not passed.`,
    ),
    overview(undefined),
    lessons(commonest()),
  );
  page.querySelectorAll("details").forEach((details) => details.setAttribute("open", ""));
  page.querySelectorAll("[tabindex]").forEach((one) => one.removeAttribute("tabindex"));
  download(
    "class-reviews.html",
    "text/html;charset=utf-8",
    `<!doctype html>\n${page.documentElement.outerHTML.replace("</head>", `<style>${STYLE}</style></head>`)}`,
  );
}
