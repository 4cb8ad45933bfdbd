// Two sheets side by side: the one that was kept, and the one at hand.

import { byId, el, mark } from "./dom.js";
import { COMPARED, figure, image, propertyText } from "./pictures.js";
import * as service from "./service.js";
import { Sheet } from "./sheet.js";
import { DIFFERENCES, LEVELS, capital, key, range, subject, verdict } from "./words.js";

/** What tells two reviews apart: findings put right, findings new, findings that stay. */
export function difference(before, after) {
  const counts = (review) => review.findings.filter((finding) => !finding.accepted && finding.outcome !== "unknown");
  const keys = (list) => new Set(list.map(key));
  const [old, now] = [counts(before), counts(after)];
  return {
    gone: old.filter((finding) => !keys(now).has(key(finding))),
    come: now.filter((finding) => !keys(old).has(key(finding))),
    same: now
      .filter((finding) => keys(old).has(key(finding)))
      .map((finding) => ({ ...finding, was: old.find((one) => key(one) === key(finding)).level })),
  };
}

export function findingList(title, list, heading = "h4") {
  return el(
    "div",
    {},
    el(heading, { class: "list-title" }, `${title} (${list.length})`),
    list.length === 0
      ? el("p", { class: "quiet" }, "None.")
      : el(
          "ul",
          { class: "marked" },
          list.map((finding) =>
            el(
              "li",
              {},
              mark(finding.level),
              ` ${LEVELS[finding.level]}: ${finding.title}`,
              subject(finding.subject) ? ` – ${subject(finding.subject)}` : "",
              finding.was && finding.was !== finding.level ? ` (was: ${LEVELS[finding.was].toLowerCase()})` : "",
            ),
          ),
        ),
  );
}

/** Lines and steps that differ. */
function sheetDifferences(first, second) {
  const lines = (sheet) =>
    new Map(
      Array.from({ length: sheet.size(["ingredients"]) }, (_, i) => [
        sheet.value(["ingredients", i, "name"]),
        sheet.value(["ingredients", i, "share"]),
      ]),
    );
  const [a, b] = [lines(first), lines(second)];
  const rows = [...new Set([...a.keys(), ...b.keys()])]
    .filter((name) => a.get(name) !== b.get(name))
    .map((name) => [name, a.get(name) ?? "not in it", b.get(name) ?? "not in it"]);
  const steps = (sheet) => Array.from({ length: sheet.size(["method"]) }, (_, i) => stepText(sheet, i));
  const [m, n] = [steps(first), steps(second)];
  for (let i = 0; i < Math.max(m.length, n.length); i++) {
    if (m[i] !== n[i]) {
      rows.push([`Step ${i + 1}`, m[i] ?? "–", n[i] ?? "–"]);
    }
  }
  for (const field of ["kind", "use", "area", "users", "texture", "dispensing", "pH", "markets", "shelf-life"]) {
    const [before, after] = [first.value(["product", field]), second.value(["product", field])];
    if (before !== after) {
      rows.push([`Brief, ${field}`, before || "not stated", after || "not stated"]);
    }
  }
  return rows;
}

export function stepText(sheet, i) {
  const words = {
    phase: "phase",
    with: "with",
    into: "into",
    to: "to",
    at: "at",
    over: "over",
    for: "for",
    stir: "at",
  };
  const verb = sheet.value(["method", i, "do"]);
  return [
    verb,
    ...Object.entries(words).map(([field, word]) => {
      const value = sheet.value(["method", i, field]);
      return !value
        ? ""
        : verb === "adjust-pH" && field === "to"
          ? `to pH ${value}`
          : field === "stir"
            ? `stirred at ${value}`
            : `${word} ${value}`;
    }),
  ]
    .filter(Boolean)
    .join(" ");
}

function table(caption, titles, rows) {
  return el(
    "div",
    { class: "scroll", tabindex: "0", role: "group", "aria-label": caption },
    el(
      "table",
      { class: "plain" },
      el("caption", {}, caption),
      el(
        "thead",
        {},
        el(
          "tr",
          {},
          titles.map((title) => (title ? el("th", { scope: "col" }, title) : el("td", {}))),
        ),
      ),
      el(
        "tbody",
        {},
        rows.map(([name, ...cells]) =>
          el(
            "tr",
            {},
            el("th", { scope: "row" }, name),
            cells.map((one) => el("td", {}, one)),
          ),
        ),
      ),
    ),
  );
}

const OPEN = ["cannot-be-told-apart", "unknown"];

/** What differs, and how surely: doubts that both sheets share have cancelled. */
function surely(comparison) {
  const differ = comparison.properties.filter((one) => one.verdict !== "same");
  if (differ.length === 0) {
    return [el("p", {}, "No number of the one differs from that of the other.")];
  }
  const name = (one) => `${capital(one.meaning)}${"formula" in one.subject ? "" : ` – ${subject(one.subject)}`}`;
  const rows = (list) =>
    list.map((one) => [name(one), range(one.first), range(one.second), DIFFERENCES[one.verdict] ?? one.verdict]);
  const titles = ["", "kept", "at hand", "the one at hand is"];
  const open = differ.filter((one) => OPEN.includes(one.verdict));
  const decided = differ.filter((one) => !OPEN.includes(one.verdict));
  return [
    decided.length > 0 && table("What differs, and how surely", titles, rows(decided)),
    open.length > 0 &&
      el(
        "details",
        { class: "folded", "data-key": "undecided" },
        el("summary", {}, `${open.length} more, of which it cannot be said`),
        table("What cannot be told apart, or is not known", titles, rows(open)),
      ),
  ].filter(Boolean);
}

/** Shows the comparison of the kept text with the one at hand. */
export async function show(kept, text, review, able, signal) {
  const target = byId("compare-body");
  const [first, second] = [new Sheet(kept), new Sheet(text)];
  const before = await service.review(kept, [], signal);
  const { gone, come, same } = difference(before, review);
  const changed = sheetDifferences(first, second);
  const numbers = able.comparisons
    ? surely(await service.comparison(first.tree(), second.tree(), signal))
    : table(
        "What they are like",
        ["", "kept", "at hand"],
        COMPARED.map(([name, title]) => [title, propertyText(before, name), propertyText(review, name)]).filter(
          ([, a, b]) => a !== "–" || b !== "–",
        ),
      );
  const parts = [
    table(
      "The reviews",
      ["", "kept", "at hand"],
      [
        ["Name", before.formula, review.formula],
        ["Verdict", verdict(before), verdict(review)],
      ],
    ),
    changed.length > 0
      ? table("What was changed on the sheet", ["", "kept", "at hand"], changed)
      : el("p", {}, "The two sheets say the same."),
    el(
      "div",
      { class: "columns" },
      findingList("Put right", gone, "h3"),
      findingList("New", come, "h3"),
      findingList("As before", same, "h3"),
    ),
    numbers,
  ];
  if (able.comparisons) {
    try {
      parts.push(figure(image(await service.comparisonPicture(first.tree(), second.tree(), signal), "comparison")));
    } catch (trouble) {
      if (trouble.name === "AbortError") {
        throw trouble;
      }
      parts.push(el("p", { class: "quiet" }, `There is no picture of both: ${trouble.message}`));
    }
  }
  target.replaceChildren(...parts.flat());
}
