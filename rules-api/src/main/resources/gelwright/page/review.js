// A review as the teacher reads it: the verdict, what breaks by what she cares about, what was not checked, what is to do.

import { byId, el, mark } from "./dom.js";
import { scale } from "./scale.js";
import {
  GROUPS,
  LEVELS,
  SHORT_STANDINGS,
  STANDINGS,
  capital,
  count,
  edit,
  exactly,
  groupOf,
  key,
  missingWords,
  odds,
  range,
  subject,
  verdict,
  verdictLevel,
} from "./words.js";

const CLOSING = "not a safety assessment";

/** Puts a review into the page. What was open stays open, and what had the focus keeps it. */
export function show(review, actions) {
  const target = byId("review-body");
  const open = new Set([...target.querySelectorAll("details[open]")].map((one) => one.dataset.key));
  const focused = target.contains(document.activeElement) ? document.activeElement.dataset.key : undefined;
  target.replaceChildren(...parts(review, actions).filter(Boolean));
  for (const details of target.querySelectorAll("details")) {
    details.open = open.has(details.dataset.key);
  }
  if (focused) {
    [...target.querySelectorAll("[data-key]")]
      .find((one) => one.dataset.key === focused)
      ?.focus({ preventScroll: true });
  }
}

/** The line of the verdict, which stays in sight. */
export function showVerdict(review) {
  const level = verdictLevel(review);
  byId("verdict").replaceChildren(mark(level), el("a", { href: "#review" }, verdict(review)));
  byId("verdict").dataset.level = level;
}

function parts(review, actions) {
  const open = review.findings.filter((finding) => !finding.accepted);
  const decided = open.filter((finding) => finding.outcome !== "unknown");
  const groups = groupsOf(review);
  const strangers = strangersOf(review);
  return [
    unnamed(strangers),
    glance(review, groups, open),
    ...groups.map((group) => groupSection(group, review, decided, strangers, actions)),
    unchecked(review, open, strangers, actions),
    headroom(review, actions),
    accepted(review, actions),
    switchedOff(review),
    closing(review),
  ];
}

function groupsOf(review) {
  const used = new Set(Object.keys(review.rules).map(groupOf));
  return [...GROUPS, ...[...used].filter((group) => !GROUPS.includes(group))];
}

/** How it is said that something is missing of an ingredient. */
const missingOf = (name) =>
  new RegExp(
    `^(?:.* of |.* binds |what |how |row |)${name.replace(/[\\^$.*+?()[\]{}|]/g, "\\$&")}` +
      "(?: (?:is|dissolves in|takes up .+|does to .+|binds .+|[(].+|against .+|of table .+))?$",
  );

/**
 * Names that the catalogue does not know. Anything may stand behind them, so that most rules ask for all of them: what
 * hangs on them is told together, once.
 */
function strangersOf(review) {
  const missing = [...review.findings, ...review.unchecked, ...review.duties].flatMap((one) => one.missing ?? []);
  const names = [...new Set(missing.map((what) => /^what (.+) is$/.exec(what)?.[1]).filter(Boolean))].sort();
  const tests = names.map(missingOf);
  const hangs = (one) => (one.missing ?? []).some((what) => tests.some((test) => test.test(what)));
  const unlisted = review.unchecked.filter((one) => !review.findings.some((finding) => key(finding) === key(one)));
  const open = [
    ...review.findings.filter((finding) => !finding.accepted && finding.outcome === "unknown"),
    ...unlisted,
  ].filter(hangs);
  const rules = new Set(open.map((one) => one.rule)).size;
  return {
    names,
    hangs,
    title: `${listed(names)} ${names.length === 1 ? "is" : "are"} not in the catalogue`,
    what: `what ${listed(names)} ${names.length === 1 ? "is" : "are"}`,
    because:
      open.length === 0
        ? ""
        : `Because of that ${count(rules, "rule")} could not be checked${open.length > rules ? `, ${count(open.length, "check")} in all` : ""}.`,
  };
}

const listed = (names) =>
  names.length < 2 ? names.join("") : `${names.slice(0, -1).join(", ")} and ${names[names.length - 1]}`;

/** Names that nobody knows, before everything else. */
function unnamed(strangers) {
  return (
    strangers.because &&
    el(
      "p",
      { class: "unnamed" },
      mark("unknown"),
      " ",
      el("b", {}, `${strangers.title}.`),
      ` ${strangers.because} `,
      el("a", { href: "#unchecked", "data-key": "unnamed" }, "Which, and what to do"),
    )
  );
}

/** All groups in a table: where to look first, and where all is well. */
function glance(review, groups, open) {
  const rows = groups.map((group) => {
    const inGroup = open.filter((finding) => groupOf(finding.rule) === group);
    const of = (outcome) => inGroup.filter((finding) => finding.outcome === outcome);
    const holds = Object.entries(review.rules).filter(
      ([rule, outcome]) => outcome === "holds" && groupOf(rule) === group,
    ).length;
    const duties = dutiesOf(review, group).length;
    const worst = of("breaks")[0]?.level ?? of("borderline")[0]?.level;
    const state = worst ?? (of("unknown").length > 0 ? "unknown" : holds > 0 ? "holds" : duties > 0 ? "duty" : "none");
    const cell = (number) =>
      el("td", { class: number === 0 ? "none" : undefined }, number === 0 ? "–" : String(number));
    return el(
      "tr",
      {},
      el(
        "th",
        { scope: "row" },
        mark(state),
        " ",
        el("a", { href: `#group-${group.id}`, "data-key": `glance ${group.id}` }, group.title),
      ),
      cell(of("breaks").length),
      cell(of("borderline").length),
      cell(of("unknown").length),
      cell(holds),
      cell(duties),
    );
  });
  return el(
    "div",
    { class: "scroll", tabindex: "0", role: "region", "aria-label": "The review at a glance" },
    el(
      "table",
      { class: "glance" },
      el("caption", {}, "At a glance"),
      el(
        "thead",
        {},
        el(
          "tr",
          {},
          ...["", "breaks", "borderline", "not checked", "holds", "to do"].map((title) =>
            title ? el("th", { scope: "col" }, title) : el("td", {}),
          ),
        ),
      ),
      el("tbody", {}, rows),
    ),
  );
}

function dutiesOf(review, group) {
  return review.duties.filter((duty) => duty.applies !== "no" && groupOf(duty.rule) === group);
}

function groupSection(group, review, decided, strangers, actions) {
  const findings = decided.filter((finding) => groupOf(finding.rule) === group);
  const duties = dutiesOf(review, group);
  const unknown = review.findings.filter(
    (finding) => !finding.accepted && finding.outcome === "unknown" && groupOf(finding.rule) === group,
  );
  const rules = Object.entries(review.rules).filter(([rule]) => groupOf(rule) === group);
  const holds = rules.filter(([, outcome]) => outcome === "holds").length;
  const notHere = rules.filter(([, outcome]) => outcome === "not-applicable" || outcome === "does-not-apply").length;
  const byRule = new Map();
  for (const finding of findings) {
    const together = `${finding.level} ${finding.outcome} ${finding.rule}`;
    byRule.set(together, [...(byRule.get(together) ?? []), finding]);
  }
  const calm =
    findings.length === 0 && rules.some(([, outcome]) => outcome === "holds")
      ? unknown.length === 0
        ? "Nothing is wrong that was checked. "
        : "Nothing is wrong of what could be checked. "
      : "";
  return el(
    "section",
    { class: "group", id: `group-${group.id}`, "aria-labelledby": `group-${group.id}-title` },
    el("h3", { id: `group-${group.id}-title`, tabindex: "-1" }, group.title),
    el("p", { class: "asks" }, group.asks),
    [...byRule.values()].map((together) => article(together, actions)),
    el(
      "p",
      { class: "tally" },
      calm,
      holds + notHere === rules.length && holds === 0
        ? `None of its ${rules.length} rules concerns this formula`
        : `${holds === 0 ? "No rule holds" : holds === 1 ? "1 rule holds" : `${holds} rules hold`}, ${notHere} ${notHere === 1 ? "does" : "do"} not concern this formula`,
      unknown.length > 0
        ? [", ", el("a", { href: "#unchecked", "data-key": `open ${group.id}` }, `${unknown.length} not checked`)]
        : "",
      ".",
    ),
    duties.length > 0 && dutyList(group, duties, strangers),
  );
}

/** Findings of one rule: what is shared is said once. */
function article(findings, actions) {
  const first = findings[0];
  const name = findings.length === 1 ? subject(first.subject) : "";
  const messages = findings.map((finding) => finding.message);
  const shared = findings.length === 1 ? "" : sharedEnd(messages);
  const titleId = `finding-${first.rule.replace(/\W/g, "-")}-${first.level}-${first.outcome}`;
  const named = name && !first.title.includes(name) && !/^row /.test(name) ? ` – ${name}` : "";
  return el(
    "article",
    { class: `finding ${first.level} ${first.outcome}`, "aria-labelledby": titleId, "data-finding": first.rule },
    el(
      "h4",
      { id: titleId, tabindex: "-1" },
      mark(first.level),
      el("span", { class: "level" }, LEVELS[first.level], first.outcome === "borderline" ? ", borderline" : ""),
      " ",
      el("span", { class: "title" }, first.title, named),
    ),
    findings.map((finding) => oneCase(finding, shared, findings.length > 1, actions)),
    shared && el("p", { class: "message" }, shared),
    settling(findings),
    first.lesson && el("p", { class: "lesson" }, el("b", {}, "Why. "), first.lesson),
    findings.map((finding) => remedies(finding, findings.length > 1, actions)),
    sources(findings),
  );
}

function oneCase(finding, shared, several, actions) {
  const message = finding.message.slice(0, finding.message.length - shared.length).trim();
  const picture = scale(finding.observed, finding.limit);
  return el(
    "div",
    { class: `case${picture ? " with-scale" : ""}` },
    el(
      "div",
      { class: "says" },
      several && subject(finding.subject) && el("p", { class: "subject" }, subject(finding.subject)),
      el("p", { class: "message" }, message, finding.outcome === "borderline" ? ` ${odds(finding.odds)}` : ""),
      place(finding, actions),
    ),
    numbers(finding, picture),
  );
}

/** Number, limit and range: drawn, and in words beneath. */
function numbers(finding, picture) {
  const parts = [];
  if (finding.observed && range(finding.observed) !== "not known") {
    parts.push(`Here ${range(finding.observed)}`);
  }
  if (finding.limit && range(finding.limit) !== "not known") {
    parts.push(`limit ${range(finding.limit)}`);
  }
  if (parts.length === 0) {
    return undefined;
  }
  return el("div", { class: "numbers" }, picture, el("p", {}, `${capital(parts.join("; "))}.`));
}

/** A way from the finding to what it speaks of. */
function place(finding, actions) {
  const where = finding.where;
  if (!where?.pointer || !where.line) {
    return undefined;
  }
  return el(
    "p",
    { class: "place" },
    el(
      "button",
      { type: "button", class: "link", "data-key": `place ${key(finding)}`, onclick: () => actions.goTo(where) },
      `Line ${where.line} of the sheet`,
      el("span", { class: "unseen" }, `: ${subject(finding.subject) || finding.title}`),
    ),
  );
}

function settling(findings) {
  const ways = [...new Set(findings.map((finding) => finding["settled-by"][0]).filter(Boolean))];
  return (
    ways.length > 0 && el("p", { class: "settling" }, el("b", {}, "To settle it. "), `${capital(ways.join("; "))}.`)
  );
}

function sharedEnd(messages) {
  const first = messages[0];
  for (let at = first.indexOf(". "); at >= 0; at = first.indexOf(". ", at + 1)) {
    const end = first.slice(at + 2);
    if (messages.every((message) => message.endsWith(`. ${end}`))) {
      return end;
    }
  }
  return "";
}

function remedies(finding, several, actions) {
  const list = finding.remedies ?? [];
  if (list.length === 0 && !finding["no-remedy"]) {
    return undefined;
  }
  const about = several ? ` – ${subject(finding.subject)}` : "";
  if (list.length === 0) {
    return el("div", { class: "remedies" }, el("h5", {}, `What to change${about}`), el("p", {}, finding["no-remedy"]));
  }
  return el(
    "div",
    { class: "remedies" },
    el("h5", {}, `What to change${about}`),
    el(
      "ul",
      {},
      list.map((remedy, index) => oneRemedy(finding, remedy, index, actions)),
    ),
  );
}

function oneRemedy(finding, remedy, index, actions) {
  const rules = (list) =>
    list
      .map((one) => actions.ruleTitle(one.rule) + (subject(one.subject) ? ` – ${subject(one.subject)}` : ""))
      .join("; ");
  const chance =
    typeof remedy.odds === "number" && remedy.odds < 0.95
      ? ` A chance of ${Math.round(remedy.odds * 100)} % that it is enough.`
      : "";
  return el(
    "li",
    {},
    el("p", {}, remedy.text, chance, remedy.measure ? ` ${remedy.measure}` : ""),
    remedy.reaches === false && el("p", { class: "aside" }, "It helps, but does not get there by itself."),
    remedy.clears?.length > 1 && el("p", { class: "aside" }, `Puts right: ${rules(remedy.clears)}.`),
    remedy.raises?.length > 0 &&
      el("p", { class: "aside raises" }, mark("warning"), ` But raises: ${rules(remedy.raises)}.`),
    remedy.brings?.length > 0 &&
      el("p", { class: "aside brings" }, mark("note"), ` Brings duties: ${rules(remedy.brings)}.`),
    actions.canEdit && remedy.edits?.length > 0
      ? el(
          "p",
          {},
          el(
            "button",
            {
              type: "button",
              class: "apply",
              "data-key": `apply ${key(finding)} ${index}`,
              onclick: () => actions.apply(remedy),
            },
            "Apply",
            el("span", { class: "unseen" }, `: ${remedy.text}`),
          ),
          " ",
          el(
            "span",
            { class: "change" },
            remedy.edits
              .map(edit)
              .map((one) => `${one.what}: ${one.from ? `${one.from} → ` : ""}${one.to}`)
              .join("; "),
          ),
        )
      : undefined,
  );
}

const cited = (items) => new Map(items.flatMap((item) => item.sources).map((source) => [source.id, source]));

const sourceItems = (items) =>
  [...cited(items).values()].map((source) =>
    el(
      "li",
      {},
      source.citation,
      " ",
      el("span", { class: `standing ${source.standing}` }, `(${STANDINGS[source.standing]})`),
    ),
  );

function sources(items) {
  const all = cited(items);
  if (all.size === 0) {
    return undefined;
  }
  const standings = Object.keys(SHORT_STANDINGS)
    .map((standing) => [standing, [...all.values()].filter((source) => source.standing === standing).length])
    .filter(([, number]) => number > 0)
    .map(([standing, number]) => `${number} ${SHORT_STANDINGS[standing]}`);
  const first = items[0];
  return el(
    "details",
    { class: "sources", "data-key": `sources ${key(first)}` },
    el(
      "summary",
      { "data-key": `summary ${key(first)}` },
      `Sources: ${standings.join(", ")}`,
      el("span", { class: "unseen" }, ` – for: ${first.title}`),
    ),
    el("ul", {}, sourceItems(items)),
    el("p", { class: "rule-id" }, "Rule ", el("code", {}, first.rule)),
  );
}

const SHOWN_PERHAPS = 3;

/** What is to be done. What only may apply is folded where there is much of it, but never a caution. */
function dutyList(group, duties, strangers) {
  const said = new Map();
  for (const duty of duties) {
    said.set(duty.message, said.get(duty.message) ?? duty);
  }
  const isCaution = group.id === "caution";
  const hangs = (duty) => duty.applies === "maybe" && strangers.hangs(duty);
  const hanging = [...said.values()].filter(hangs);
  const perhaps = [...said.values()].filter((duty) => duty.applies === "maybe" && !hangs(duty));
  const folds = !isCaution && perhaps.length > SHOWN_PERHAPS;
  const hangingItems = hanging.length > 0 && el("ul", { class: "hanging" }, hanging.map(hangingItem));
  return el(
    "div",
    { class: "duties" },
    el("h4", {}, isCaution ? "Take care" : "To do and to declare"),
    el(
      "ul",
      {},
      [...said.values()].filter((duty) => !hangs(duty) && (!folds || duty.applies !== "maybe")).map(dutyItem),
    ),
    folds &&
      el(
        "details",
        { class: "folded", "data-key": `perhaps ${group.id}` },
        el(
          "summary",
          { "data-key": `perhaps summary ${group.id}` },
          `${perhaps.length} more that may apply`,
          el("span", { class: "unseen" }, ` – ${group.title}`),
        ),
        el("ul", {}, perhaps.map(dutyItem)),
      ),
    isCaution && hangingItems && [el("p", { class: "asks" }, `These may apply, depending on ${strangers.what}:`), hangingItems],
    !isCaution &&
      hangingItems &&
      el(
        "details",
        { class: "folded", "data-key": `hanging ${group.id}` },
        el(
          "summary",
          { "data-key": `hanging summary ${group.id}` },
          `${hanging.length} more may apply, depending on ${strangers.what}`,
          el("span", { class: "unseen" }, ` – ${group.title}`),
        ),
        hangingItems,
      ),
  );
}

/** What may apply because of a name that nobody knows: on what it hangs is said above all of them. */
function hangingItem(duty) {
  return el("li", {}, el("p", {}, duty.message), why(duty, "sources unprinted"));
}

function dutyItem(duty) {
  const state =
    duty.done === true ? " (Done, as the sheet shows.)" : duty.done === false ? " (Not done on the sheet.)" : "";
  return el(
    "li",
    { class: duty.done === true ? "done" : undefined },
    el("p", {}, duty.applies === "maybe" ? "Perhaps: " : "", duty.message, state),
    duty.missing?.length > 0 &&
      el(
        "p",
        { class: "aside" },
        `To be sure that it applies, this is missing: ${missingWords(duty.missing).join("; ")}.`,
      ),
    why(duty, "sources"),
  );
}

const why = (duty, look) =>
  el(
    "details",
    { class: look, "data-key": `duty ${duty.rule} ${duty.message}` },
    el("summary", {}, "Why", el("span", { class: "unseen" }, ` – ${duty.title}`)),
    el("p", {}, duty.lesson),
    el("ul", {}, sourceItems([duty])),
    el("p", { class: "rule-id" }, "Rule ", el("code", {}, duty.rule)),
  );

/** What was not checked, gathered by what is missing. */
function unchecked(review, open, strangers, actions) {
  const byMissing = new Map();
  const hanging = [];
  const add = (missing, entry) => {
    if (strangers.hangs({ missing })) {
      hanging.push(entry);
      return;
    }
    const together = missingWords(missing).join("; ") || "not stated";
    byMissing.set(together, [...(byMissing.get(together) ?? []), entry]);
  };
  const told = new Set();
  for (const finding of open.filter((one) => one.outcome === "unknown")) {
    told.add(key(finding));
    add(finding.missing ?? [], { ...finding, name: subject(finding.subject) });
  }
  for (const one of review.unchecked) {
    if (!told.has(key(one)) && !review.findings.some((finding) => finding.accepted && key(finding) === key(one))) {
      add(one.missing, {
        rule: one.rule,
        title: actions.ruleTitle(one.rule),
        name: subject(one.subject),
        subject: one.subject,
        sources: [],
      });
    }
  }
  const urgent = ([, entries]) => (entries.some((one) => one["must-be-known"]) ? 1e6 : 0) + entries.length;
  const gathered = [...byMissing].sort((a, b) => urgent(b) - urgent(a));
  const measured = review["measure-next"];
  const ofStrangers = new Set(
    measured.filter((one) => strangers.hangs({ missing: [one.what] })).flatMap((one) => one.decides),
  );
  const next = [
    ...(ofStrangers.size > 0 ? [{ what: strangers.what, decides: [...ofStrangers] }] : []),
    ...measured.filter((one) => !strangers.hangs({ missing: [one.what] })),
  ].slice(0, 5);
  const total = [...byMissing.values()].reduce((sum, list) => sum + list.length, hanging.length);
  return el(
    "section",
    { class: "group unchecked", id: "unchecked", "aria-labelledby": "unchecked-title" },
    el("h3", { id: "unchecked-title", tabindex: "-1" }, `Not checked (${total})`),
    el(
      "p",
      { class: "asks" },
      total === 0
        ? "Everything that concerns this formula could be checked."
        : "What is missing here has not passed. It is open.",
    ),
    hanging.length > 0 && hangingChecks(hanging, strangers, actions),
    gathered.map(([missing, entries]) => {
      const demanded = entries.some((one) => one["must-be-known"]);
      return el(
        "article",
        {
          class: "finding unknown",
          "aria-label": `Missing: ${missing}`,
          "data-finding": entries.map((one) => one.rule).join(" "),
        },
        el(
          "h4",
          { tabindex: "-1" },
          mark("unknown"),
          el("span", { class: "level" }, "Missing"),
          " ",
          el("span", { class: "title" }, missing),
        ),
        demanded && el("p", { class: "message" }, "This has to be known: it counts as broken until it is."),
        el(
          "p",
          { class: "settling" },
          entries.length === 1 ? "So this check is open:" : `So ${entries.length} checks are open:`,
        ),
        checks(entries, missing, actions),
        openRules(entries, missing),
      );
    }),
    next.length > 0 &&
      el(
        "div",
        { class: "next" },
        el("h4", {}, "What to find out first"),
        el(
          "ol",
          {},
          next.map((one) =>
            el(
              "li",
              {},
              `${missingWords([one.what])[0]} `,
              el("span", { class: "quiet" }, `(settles ${count(one.decides.length, "rule")})`),
            ),
          ),
        ),
      ),
  );
}

/** What names that nobody knows leave open: how much of each group, which rules, and what to do. */
function hangingChecks(entries, strangers, actions) {
  const demanded = new Set(entries.filter((one) => one["must-be-known"]).map((one) => one.title));
  const byGroup = new Map(GROUPS.map((group) => [group, []]));
  for (const one of entries) {
    const group = groupOf(one.rule);
    byGroup.set(group, [...(byGroup.get(group) ?? []), one]);
  }
  const places = strangers.names
    .map((name) => entries.find((one) => one.name === name && one.where?.pointer))
    .filter(Boolean);
  return el(
    "article",
    {
      class: "finding unknown",
      "aria-label": strangers.title,
      "data-finding": [...new Set(entries.map((one) => one.rule))].join(" "),
    },
    el(
      "h4",
      { tabindex: "-1" },
      mark("unknown"),
      el("span", { class: "level" }, "Not checked"),
      " ",
      el("span", { class: "title" }, strangers.title),
    ),
    el("p", { class: "message" }, strangers.because),
    demanded.size > 0 &&
      el(
        "p",
        { class: "message" },
        `What has to be known counts as broken until it is: ${[...demanded].map((title) => `${title}?`).join(" ")}`,
      ),
    el(
      "p",
      { class: "settling" },
      el("b", {}, "What to do. "),
      "If a name is misspelt, correct it; its finding tells the nearest one known. If it is a raw material of your own, " +
        "whoever runs this service can add an ingredient sheet: what it is used for, its charge and what it dissolves in " +
        "let most of these rules run (docs/guide/house-rules.md, Own ingredients).",
    ),
    places.map((one) => place(one, actions)),
    [...byGroup]
      .filter(([, list]) => list.length > 0)
      .map(([group, list]) => {
        const rules = new Set(list.map((one) => one.rule)).size;
        const checks = list.length > rules ? `, ${count(list.length, "check")}` : "";
        return el(
          "details",
          { class: "sources", "data-key": `hanging checks ${group.id}` },
          el(
            "summary",
            { "data-key": `hanging checks summary ${group.id}` },
            `${group.title}: ${count(rules, "rule")}${checks}`,
          ),
          el("ul", { class: "checks" }, checkLines(list, actions, strangers.names)),
        );
      }),
  );
}

const SHOWN_CHECKS = 8;

/** Checks that are open, those of one rule in one line. Of names that are said above no place is told again. */
function checkLines(entries, actions, said = []) {
  const byRule = new Map();
  for (const one of entries) {
    byRule.set(one.rule, [...(byRule.get(one.rule) ?? []), one]);
  }
  return [...byRule.values()].map((together) => {
    const names = [...new Set(together.map((one) => one.name))].filter(
      (name) => name && !(said.length === 1 && name === said[0]),
    );
    const placed = together.find((one) => one.where?.pointer && !said.includes(one.name));
    return el(
      "li",
      {},
      `${together[0].title}?`,
      names.length > 0 ? ` – ${names.join("; ")}` : "",
      " ",
      el("span", { class: "quiet" }, `(${groupOf(together[0].rule).title})`),
      placed && [" ", place(placed, actions).firstChild],
    );
  });
}

/** The checks that one missing thing leaves open; a long list is folded behind its beginning. */
function checks(entries, missing, actions) {
  const lines = checkLines(entries, actions);
  const first = el("ul", { class: "checks" }, lines.slice(0, SHOWN_CHECKS));
  return lines.length <= SHOWN_CHECKS
    ? first
    : [
        first,
        el(
          "details",
          { class: "sources", "data-key": `checks ${missing}` },
          el(
            "summary",
            { "data-key": `checks summary ${missing}` },
            `and ${count(lines.length - SHOWN_CHECKS, "rule")} more`,
            el("span", { class: "unseen" }, ` – missing: ${missing}`),
          ),
          el("ul", { class: "checks" }, lines.slice(SHOWN_CHECKS)),
        ),
      ];
}

/** Why the open checks matter, and on what they rest. */
function openRules(entries, missing) {
  const rules = new Map(entries.map((one) => [one.rule, one]));
  return el(
    "details",
    { class: "sources", "data-key": `open rules ${missing}` },
    el(
      "summary",
      { "data-key": `open summary ${missing}` },
      rules.size === 1 ? "Why it matters" : "Why they matter",
      el("span", { class: "unseen" }, ` – missing: ${missing}`),
    ),
    el(
      "ul",
      {},
      [...rules.values()].map((one) =>
        el(
          "li",
          {},
          el("b", {}, `${one.title}?`),
          one.lesson ? ` ${one.lesson}` : "",
          el("span", { class: "rule-id" }, " Rule ", el("code", {}, one.rule)),
        ),
      ),
    ),
    sourceItems(entries).length > 0 && [el("p", { class: "quiet" }, "Sources"), el("ul", {}, sourceItems(entries))],
  );
}

function headroom(review, actions) {
  const list = review.headroom ?? [];
  if (list.length === 0) {
    return undefined;
  }
  const bound = (of, unit) => {
    if (!of) {
      return "not known";
    }
    const free = of.free === undefined ? "" : exactly(of.free, unit);
    if (of.open) {
      return free ? `${free}, as far as was looked` : "as far as was looked";
    }
    const about = subject(of.subject ?? {});
    return `${free || exactly(of.at, unit)}; at ${exactly(of.at, unit)}: ${actions.ruleTitle(of.rule)}${about ? ` – ${about}` : ""} (${of.from} → ${of.to})`;
  };
  return el(
    "section",
    { class: "group", id: "headroom", "aria-labelledby": "headroom-title" },
    el("h3", { id: "headroom-title", tabindex: "-1" }, "Room to move"),
    el("p", { class: "asks" }, "How far each may go, alone, before the next rule turns."),
    el(
      "div",
      { id: "headroom-picture" },
      actions.drawHeadroom &&
        el(
          "button",
          { type: "button", class: "screen-only", "data-key": "draw headroom", onclick: actions.drawHeadroom },
          "Draw it",
        ),
    ),
    el(
      "details",
      { class: "folded", "data-key": "headroom" },
      el("summary", { "data-key": "headroom summary" }, `${count(list.length, "number")} with what turns first`),
      el(
        "div",
        { class: "scroll", tabindex: "0", role: "region", "aria-label": "Room to move, as a table" },
        el(
          "table",
          { class: "plain" },
          el(
            "thead",
            {},
            el(
              "tr",
              {},
              ["", "now", "down to", "up to"].map((title) =>
                title ? el("th", { scope: "col" }, title) : el("td", {}),
              ),
            ),
          ),
          el(
            "tbody",
            {},
            list.map((one) =>
              el(
                "tr",
                {},
                el("th", { scope: "row" }, capital(one.text)),
                el("td", {}, exactly(one.now, one.unit)),
                el("td", {}, bound(one.lower, one.unit)),
                el("td", {}, bound(one.upper, one.unit)),
              ),
            ),
          ),
        ),
      ),
    ),
  );
}

function accepted(review, actions) {
  const list = review.findings.filter((finding) => finding.accepted);
  if (list.length === 0) {
    return undefined;
  }
  return el(
    "section",
    { class: "group", id: "accepted", "aria-labelledby": "accepted-title" },
    el("h3", { id: "accepted-title" }, `Accepted (${list.length})`),
    el(
      "details",
      { class: "folded", "data-key": "accepted" },
      el(
        "summary",
        { "data-key": "accepted summary" },
        `${count(list.length, "finding")} somebody has taken responsibility for`,
      ),
      el(
        "ul",
        {},
        list.map((finding) =>
          el(
            "li",
            {},
            el(
              "p",
              {},
              el("b", {}, finding.title),
              subject(finding.subject) ? ` – ${subject(finding.subject)}` : "",
              `: ${finding.message}`,
            ),
            el(
              "p",
              { class: "aside" },
              `Accepted until ${finding.accepted.until}, because: ${finding.accepted.because}`,
            ),
            place(finding, actions),
          ),
        ),
      ),
    ),
  );
}

function switchedOff(review) {
  const list = Object.entries(review["switched-off"]);
  return (
    list.length > 0 &&
    el(
      "section",
      { class: "group", "aria-labelledby": "off-title" },
      el("h3", { id: "off-title" }, `Switched off by the house (${list.length})`),
      el(
        "ul",
        {},
        list.map(([rule, reason]) => el("li", {}, el("code", {}, rule), `: ${reason}`)),
      ),
    )
  );
}

function closing(review) {
  const said = new Set(review.duties.map((duty) => duty.message));
  const more = review.cautions.filter((caution) => !said.has(caution) && !caution.includes(CLOSING));
  const sets = Object.keys(review.editions["rule-sets"]).length;
  return el(
    "footer",
    { class: "closing" },
    more.map((caution) => el("p", {}, caution)),
    el(
      "p",
      {},
      "A prediction with its sources: not a certificate, and not a safety assessment. What could not be checked is not passed. A qualified safety assessor, a preservative challenge test (ISO 11930), stability tests and the law of the place decide.",
    ),
    el(
      "p",
      { class: "quiet" },
      `Reviewed for ${review.editions.on} by Gelwright ${review.editions.engine} with ${count(sets, "rule set")}; sheet ${review.editions["formula-sha256"].slice(0, 12)}.`,
    ),
  );
}
