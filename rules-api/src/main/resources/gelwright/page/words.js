// What the page says, and how it writes numbers. Words and groups are for the teacher; ids stay the engine's.

/** What a teacher cares about, by the rule sets that ask after it. */
export const GROUPS = [
  {
    id: "texture",
    title: "Texture",
    asks: "Does it feel, flow and leave the pack as promised?",
    sets: ["texture", "dispensing", "feel"],
  },
  {
    id: "carrying",
    title: "Carrying",
    asks: "Does the gel hold its oil and its grains?",
    sets: ["oil-load", "suspension"],
  },
  {
    id: "preservation",
    title: "Preservation",
    asks: "Do the preservatives work in this product?",
    sets: ["preservation"],
  },
  { id: "acidity", title: "pH", asks: "Where does the pH land, and does it stay there?", sets: ["acidity"] },
  {
    id: "making",
    title: "Making",
    asks: "Does the method swell the gum and spare what heat harms?",
    sets: ["hydration", "heat", "procedure"],
  },
  {
    id: "together",
    title: "Ingredients together",
    asks: "Do the ingredients bear each other, and stay dissolved?",
    sets: ["compatibility", "solubility"],
  },
  {
    id: "law",
    title: "Law and label",
    asks: "Is it lawful, and does the label say what it must?",
    sets: ["law-eu", "label"],
  },
  {
    id: "weighing",
    title: "Sum and weighing",
    asks: "Does it add up, and can it be weighed?",
    sets: ["composition", "weighing"],
  },
  { id: "caution", title: "Caution", asks: "What can hurt the maker or the user?", sets: ["caution"] },
];

const HOUSE = { id: "house", title: "House rules", asks: "What does the house ask besides?", sets: [] };

export function groupOf(rule) {
  const set = rule.slice(0, rule.indexOf("."));
  return GROUPS.find((group) => group.sets.includes(set)) ?? HOUSE;
}

export const LEVELS = { error: "Error", warning: "Warning", note: "Note" };

export const STANDINGS = {
  published: "published",
  "common-practice": "common practice, no source",
  "from-memory": "from memory, not checked against a text",
};

export const SHORT_STANDINGS = {
  published: "published",
  "common-practice": "common practice",
  "from-memory": "from memory",
};

export const CURVES = ["flow", "preservatives", "temperature", "water-activity"];

export const count = (number, one, many = `${one}s`) => `${number} ${number === 1 ? one : many}`;

export const capital = (text) => (/^pH/.test(text) ? text : text.charAt(0).toUpperCase() + text.slice(1));

/** Three to four digits, as on a lab sheet; never 1e-7. */
export function number(value) {
  if (value === 0) {
    return "0";
  }
  const size = Math.abs(value);
  if (size >= 1e6 || size < 1e-4) {
    const power = Math.floor(Math.log10(size));
    return `${Number((value / 10 ** power).toPrecision(3))} × 10${[...String(power)].map((digit) => SUPERSCRIPTS[digit]).join("")}`;
  }
  return String(Number(value.toPrecision(size >= 1000 ? 4 : 3)));
}

/** A sum or a mass as it has to be weighed: no digit is dropped that counts. */
export const exact = (value) => String(Math.round(value * 1e4) / 1e4);

const SUPERSCRIPTS = { "-": "⁻", 0: "⁰", 1: "¹", 2: "²", 3: "³", 4: "⁴", 5: "⁵", 6: "⁶", 7: "⁷", 8: "⁸", 9: "⁹" };

const withUnit = (text, unit) => (unit === "1" ? text : unit === "pH" ? `pH ${text}` : `${text}\u00a0${unit}`);

export const quantity = (value, unit) => withUnit(number(value), unit);

export const exactly = (value, unit) => withUnit(exact(value), unit);

/** A number with its range, as far as it is known. */
export function range(shown) {
  const { low, likely, high, unit } = shown;
  if (likely === undefined) {
    if (low !== undefined && high !== undefined) {
      return `between ${number(low)} and ${quantity(high, unit)}`;
    }
    return low !== undefined
      ? `at least ${quantity(low, unit)}`
      : high !== undefined
        ? `at most ${quantity(high, unit)}`
        : "not known";
  }
  const text = quantity(likely, unit);
  if (low === undefined || high === undefined) {
    return `${text} (${low === undefined ? "anything" : number(low)} to ${high === undefined ? "anything" : number(high)})`;
  }
  return number(low) === number(likely) && number(high) === number(likely)
    ? text
    : `${text} (${number(low)} to ${number(high)})`;
}

export function subject(of) {
  const [kind, name] = Object.entries(of ?? {})[0] ?? ["formula", ""];
  return kind === "formula" ? "" : name;
}

const OF_NAME = /^(\S+|[^A-Z]+) of (\p{Lu}.*)$/u;

/** What is missing, gathered by the ingredient it is missing of. */
export function missingWords(missing) {
  const byName = new Map();
  const others = [];
  for (const what of missing) {
    const of = OF_NAME.exec(what);
    const dissolves = /^what (.+) dissolves in$/.exec(what);
    if (dissolves) {
      byName.set(dissolves[1], [...(byName.get(dissolves[1]) ?? []), "what it dissolves in"]);
    } else if (of) {
      byName.set(of[2], [...(byName.get(of[2]) ?? []), of[1].replace(/-(?=[a-z])/g, " ")]);
    } else {
      // A property by its bare name; anything else may have a name in it, which stays as it is.
      others.push(/^[a-zA-Z.-]+$/.test(what) ? what.replaceAll(".", ", ").replaceAll("-", " ") : what);
    }
  }
  return [...[...byName].map(([name, words]) => `${name}: ${words.join(", ")}`), ...others];
}

/** What tells one finding from another, whatever its numbers are. */
export const key = (finding) => `${finding.rule}\u0000${Object.values(finding.subject)[0] ?? ""}`;

const percent = (odds) => `${Math.round(odds * 100)} %`;

/** Odds of a borderline finding as a sentence. */
export function odds(of) {
  if (typeof of === "object") {
    return of.low === 0 && of.high === 1
      ? "Nothing is known of the odds."
      : `The chance that it holds lies between ${percent(of.low)} and ${percent(of.high)}.`;
  }
  return `It probably ${of < 0.5 ? "fails" : "holds"}: a chance of ${percent(of)} that it holds.`;
}

/** The whole review in one sentence. */
export function verdict(review) {
  const open = review.findings.filter((finding) => !finding.accepted);
  const of = (outcome) => open.filter((finding) => finding.outcome === outcome).length;
  const [breaks, borderline, unknown] = [of("breaks"), of("borderline"), of("unknown")];
  const demanded = open.filter((finding) => finding.outcome === "unknown" && finding["must-be-known"]).length;
  const accepted = review.findings.length - open.length;
  if (Object.keys(review.rules).length === 0) {
    return "No rule was run.";
  }
  const parts = [breaks > 0 ? `breaks ${count(breaks, "rule")}` : "breaks no rule that could be checked"];
  if (borderline > 0) {
    parts.push(`${borderline} ${borderline === 1 ? "is" : "are"} borderline`);
  }
  if (unknown > 0) {
    parts.push(`${unknown} could not be checked${demanded === 0 ? "" : `, ${demanded} of which must be known`}`);
  }
  if (accepted > 0) {
    parts.push(`${accepted} ${accepted === 1 ? "is" : "are"} accepted`);
  }
  return `${capital(parts.join("; "))}.`;
}

/** Whether a finding counts: what has to be known counts as broken until it is. */
export const counts = (finding) => !finding.accepted && (finding.outcome !== "unknown" || finding["must-be-known"]);

/** How bad the whole is: the mark beside the verdict. */
export function verdictLevel(review) {
  const worst = review.findings.filter(counts)[0];
  return worst ? worst.level : review.unchecked.length > 0 ? "unknown" : "holds";
}

const LEFT_OUT = "left-out";

/** A step as it reads: its keys and values in the order they have. */
const stepWords = (step) =>
  Object.entries(step)
    .map(([field, value]) => (field === "do" ? value : `${field} ${[value].flat().join(", ")}`))
    .join(" ");

/** How an edit reads: what, from, to. */
export function edit(of) {
  const from = of.from === undefined ? "" : String(of.from);
  const to = of.to === undefined ? "" : String(of.to);
  if (of["replace-with"]) {
    return {
      what: `Line ${of.line}`,
      from: `${of.ingredient}${from ? `, ${from}` : ""}`,
      to: `${of["replace-with"]}${to ? `, ${to}` : ""}`,
    };
  }
  if (of["add-to-phase"] !== undefined) {
    return { what: `New line in phase ${of["add-to-phase"]}`, from, to: `${of.ingredient}, ${to}` };
  }
  if (of.insert) {
    return { what: `New step ${of.step}`, from, to: stepWords(of.insert) };
  }
  if (of.step !== undefined) {
    return of.field === "position"
      ? { what: `Step ${of.step}`, from: "", to: `becomes step ${to}` }
      : { what: `Step ${of.step}, ${of.field}`, from, to };
  }
  if (of.ingredient !== undefined) {
    return {
      what: of.field ? `${of.ingredient}, ${of.field}` : of.ingredient,
      from,
      to: to === LEFT_OUT ? "left out" : to,
    };
  }
  if (of.pH !== undefined) {
    return { what: "pH aimed at", from, to };
  }
  return of.batch !== undefined ? { what: "Batch", from, to } : { what: `Brief, ${of.product}`, from, to };
}

/** How sure it is that two numbers differ, in words. */
export const DIFFERENCES = {
  same: "the same",
  "certainly-higher": "certainly higher",
  "clearly-higher": "clearly higher",
  "probably-higher": "probably higher",
  "cannot-be-told-apart": "cannot be told apart",
  "probably-lower": "probably lower",
  "clearly-lower": "clearly lower",
  "certainly-lower": "certainly lower",
  unknown: "not known",
};
