// The sheet as a table: the brief, the recipe, the method. Every field stands for one place in the text.

import { byId, el } from "./dom.js";
import { exact } from "./words.js";

const BRIEF = [
  {
    key: "kind",
    title: "Kind",
    words: ["mist", "lotion", "serum", "gel", "gel-cream", "scrub", "mask", "wash", "deodorant"],
  },
  { key: "use", title: "Use", words: ["leave-on", "rinse-off"] },
  { key: "area", title: "Area", hint: "face, hands", list: true, suggestions: "areas" },
  { key: "users", title: "Users", words: ["adults", "children-under-3"] },
  { key: "texture", title: "Texture", words: ["fluid", "light-serum", "serum", "soft-gel", "gel", "firm-gel"] },
  { key: "dispensing", title: "Pack", words: ["pump-spray", "aerosol", "dropper", "pump", "airless", "tube", "jar"] },
  { key: "pH", title: "pH", hint: "4.6 to 5.2" },
  { key: "markets", title: "Markets", hint: "EU", list: true },
  { key: "shelf-life", title: "Shelf life", hint: "12 months" },
];

const BENCH = [
  { path: ["batch"], title: "Batch", hint: "500 g" },
  { path: ["equipment", "balance"], title: "Balance shows", hint: "0.01 g" },
  { path: ["equipment", "vessel", "diameter"], title: "Vessel", hint: "85 mm" },
  { path: ["equipment", "vessel", "cover"], title: "Cover", words: ["open", "loose", "closed"] },
  {
    path: ["equipment", "stirrer", "type"],
    title: "Stirrer",
    words: ["paddle", "propeller", "anchor", "rotor-stator", "whisk"],
  },
  { path: ["equipment", "stirrer", "diameter"], title: "Its diameter", hint: "50 mm" },
  { path: ["equipment", "room", "temperature"], title: "Room", hint: "22 °C" },
  { path: ["equipment", "room", "humidity"], title: "Humidity", hint: "50 %" },
];

const ATTRIBUTES = [
  { key: "strength", title: "Strength", hint: "80 %" },
  { key: "hydrate", title: "Hydrate", hint: "di" },
  { key: "size", title: "Grain size", hint: "300 µm" },
  { key: "grade", title: "Grade", hint: "" },
  { key: "lot", title: "Own lot", hint: "" },
];

const STEPS = {
  heat: ["phase", "to", "over"],
  cool: ["phase", "to", "over"],
  hold: ["phase", "at", "for"],
  disperse: ["phase", "with", "stir"],
  hydrate: ["phase", "at", "for", "stir"],
  add: ["phase", "into", "at", "stir", "for"],
  mix: ["phase", "stir", "for"],
  homogenise: ["phase", "stir", "for"],
  "adjust-pH": ["with", "to"],
  fill: [],
};

const STEP_HINTS = {
  phase: "A",
  with: "Xanthan Gum",
  into: "A",
  to: "38 °C",
  at: "38 °C",
  over: "10 min",
  for: "30 min",
  stir: "400 rpm",
};

const NAMELESS = "?";

const more = new Set();
let sheet;
let change;

/** Shows a sheet; change is called with a new text and whether rows have come or gone. */
export function show(next, onChange) {
  sheet = next;
  change = onChange;
  const kept = document.activeElement?.id;
  byId("brief").replaceChildren(...BRIEF.map((one) => field(["product", one.key], one)));
  byId("bench").replaceChildren(...BENCH.map((one) => field(one.path, one)));
  byId("formula-name").value = sheet.value(["formula"]);
  byId("formula-version").value = sheet.value(["version"]);
  recipe();
  method();
  others();
  if (kept && byId(kept) && document.activeElement !== byId(kept)) {
    byId(kept).focus({ preventScroll: true });
  }
}

/** The same sheet with another value in it: what is computed follows, what has the focus stays. */
export function follow(next) {
  sheet = next;
  sums();
}

export function start() {
  byId("formula-name").addEventListener("input", (event) => set(["formula"], event.target.value || "New formula"));
  byId("formula-version").addEventListener("input", (event) => set(["version"], event.target.value));
  byId("add-line").addEventListener("click", () => addLine(sheet.size(["ingredients"])));
  byId("add-step").addEventListener("click", () => addStep(sheet.size(["method"])));
}

/** Goes to what a pointer of the sheet names. */
export function goTo(pointer) {
  const [list, index] = pointer.split("/").slice(1);
  const at =
    list === "ingredients"
      ? `line-${index}-name`
      : list === "method"
        ? `step-${index}-do`
        : list === "product"
          ? `field-product-${index}`
          : "formula-name";
  const target = byId(at) ?? byId("formula-name");
  target.focus();
  target.scrollIntoView({ block: "center" });
}

/** Marks what edits have changed, until the table is made anew. */
export function touched(edits) {
  for (const edit of edits) {
    const name = edit["replace-with"] ?? edit.ingredient;
    if (edit.step !== undefined) {
      const at = edit.field === "position" ? Number(edit.to) : edit.step;
      byId(`step-${at - 1}-do`)
        ?.closest(".step")
        .classList.add("touched");
    } else if (name !== undefined) {
      for (let i = 0; i < sheet.size(["ingredients"]); i++) {
        if (sheet.value(["ingredients", i, "name"]) === name) {
          byId(`line-${i}-name`)?.closest("tr").classList.add("touched");
        }
      }
    }
  }
}

const FIELD_OF = {
  ingredients: ([index, key]) => `line-${index}-${key ?? "name"}`,
  method: ([index, key]) => `step-${index}-${key ?? "do"}`,
  formula: () => "formula-name",
  version: () => "formula-version",
};

/** Marks the fields in which something cannot be read, by their pointers; all others are in order. */
export function markWrong(pointers) {
  for (const input of byId("table-view").querySelectorAll("[aria-invalid]")) {
    input.removeAttribute("aria-invalid");
  }
  for (const pointer of pointers) {
    const [list, ...rest] = pointer.split("/").slice(1);
    const id = FIELD_OF[list]?.(rest) ?? `field-${[list, ...rest].join("-")}`;
    byId(id)?.setAttribute("aria-invalid", "true");
  }
}

function set(path, value) {
  change(sheet.with(path, value), false);
}

function field(path, { title, words, hint, list, suggestions }) {
  const id = `field-${path.join("-")}`;
  const value = sheet.value(path);
  const control = words
    ? select(id, words, value, (chosen) => set(path, chosen))
    : el("input", {
        id,
        value,
        type: "text",
        autocomplete: "off",
        spellcheck: "false",
        placeholder: hint,
        list: suggestions,
        oninput: (event) => set(path, list ? parts(event.target.value) : event.target.value.trim()),
      });
  return el("div", { class: "field" }, el("label", { for: id }, title), control);
}

/** A word of a closed list; what stands on the sheet is shown even if it is none of them. */
function select(id, words, value, chosen) {
  const all = value && !words.includes(value) ? [value, ...words] : words;
  const control = el(
    "select",
    { id, onchange: (event) => chosen(event.target.value) },
    el("option", { value: "" }, "not stated"),
    all.map((word) => el("option", { value: word }, word)),
  );
  control.value = value;
  return control;
}

const parts = (text) =>
  text
    .split(",")
    .map((one) => one.trim())
    .filter(Boolean);

function recipe() {
  const rows = [];
  for (let i = 0; i < sheet.size(["ingredients"]); i++) {
    rows.push(line(i));
    if (more.has(i) || ATTRIBUTES.some((one) => sheet.has(["ingredients", i, one.key]))) {
      rows.push(attributes(i));
    }
  }
  byId("recipe-lines").replaceChildren(...rows);
  sums();
}

function cell(i, key, title, attributes) {
  return el("input", {
    id: `line-${i}-${key}`,
    type: "text",
    class: key,
    value: shown(sheet.value(["ingredients", i, key])),
    "aria-label": `${title}, line ${i + 1}`,
    autocomplete: "off",
    spellcheck: "false",
    oninput: (event) => setCell(i, key, event.target.value.trim()),
    onkeydown: (event) => onward(event, i),
    ...attributes,
  });
}

/** A line without a name has a question mark in the text. */
const shown = (text) => (text === NAMELESS ? "" : text);

/** A line always has a name and a share, even while one of them is empty. */
function setCell(i, key, value) {
  if (value === "" && key !== "phase") {
    change(sheet.with(["ingredients", i, key], key === "name" ? NAMELESS : "0 %"), false);
  } else {
    set(["ingredients", i, key], value);
  }
}

function line(i) {
  const last = sheet.size(["ingredients"]) - 1;
  const name = shown(sheet.value(["ingredients", i, "name"])) || `line ${i + 1}`;
  const opened = more.has(i) || ATTRIBUTES.some((one) => sheet.has(["ingredients", i, one.key]));
  return el(
    "tr",
    { "data-line": i },
    el("td", {}, cell(i, "phase", "Phase", { size: 2 })),
    el("td", {}, cell(i, "name", "Ingredient", { list: "ingredient-names", placeholder: "INCI name" })),
    el("td", {}, cell(i, "share", "Share", { list: "share-words", placeholder: "2 %", size: 7 })),
    el("td", { class: "computed", id: `line-${i}-mass` }),
    el(
      "td",
      { class: "tools" },
      tool("⋯", `More of ${name}`, () => toggle(i), { "aria-expanded": String(opened), id: `line-${i}-more` }),
      tool("↑", `Move ${name} up`, () => move("ingredients", i, -1, "line"), { disabled: i === 0, id: `line-${i}-up` }),
      tool("↓", `Move ${name} down`, () => move("ingredients", i, 1, "line"), {
        disabled: i === last,
        id: `line-${i}-down`,
      }),
      tool("×", `Take out ${name}`, () => remove("ingredients", i, "line", "name", "add-line"), {
        id: `line-${i}-remove`,
      }),
    ),
  );
}

function tool(sign, title, action, attributes) {
  return el(
    "button",
    { type: "button", class: "tool", "aria-label": title, title, onclick: action, ...attributes },
    sign,
  );
}

function attributes(i) {
  return el(
    "tr",
    { class: "attributes" },
    el("td", {}),
    el(
      "td",
      { colspan: 4 },
      el(
        "div",
        { class: "fields" },
        ATTRIBUTES.map(({ key, title, hint }) => field(["ingredients", i, key], { title, hint })),
      ),
    ),
  );
}

function toggle(i) {
  if (!more.delete(i)) {
    more.add(i);
  }
  recipe();
  byId(`line-${i}-more`).focus();
}

/** Enter goes to the next line, and behind the last one makes a new one. */
function onward(event, i) {
  if (event.key !== "Enter" || event.isComposing) {
    return;
  }
  event.preventDefault();
  if (i + 1 < sheet.size(["ingredients"])) {
    byId(`line-${i + 1}-name`).focus();
  } else {
    addLine(i + 1);
  }
}

function addLine(at) {
  const phase = at > 0 ? sheet.value(["ingredients", at - 1, "phase"]) : "A";
  change(sheet.withItem("ingredients", at, { ...(phase ? { phase } : {}), name: NAMELESS, share: "0 %" }), true);
  const name = byId(`line-${at}-name`);
  name.focus();
  name.select();
}

function addStep(at) {
  const phase = at > 0 ? sheet.value(["method", at - 1, "phase"]) : sheet.value(["ingredients", 0, "phase"]);
  change(sheet.withItem("method", at, { do: "mix", ...(phase ? { phase } : {}) }), true);
  byId(`step-${at}-do`).focus();
}

function move(list, i, by, prefix) {
  more.clear();
  change(sheet.swapped(list, by < 0 ? i - 1 : i), true);
  const same = byId(`${prefix}-${i + by}-${by < 0 ? "up" : "down"}`);
  (same.disabled ? byId(`${prefix}-${i + by}-${by < 0 ? "down" : "up"}`) : same).focus();
}

function remove(list, i, prefix, key, otherwise) {
  more.clear();
  change(sheet.without([list, i]), true);
  const size = sheet.size([list]);
  (size > 0 ? byId(`${prefix}-${Math.min(i, size - 1)}-${key}`) : byId(otherwise)).focus();
}

/** A share in percent, if it is a number. */
export function percent(text) {
  const match = /^\s*(\d+(?:\.\d+)?)\s*(%|percent|% w\/w|ppm|mg\/kg)?\s*$/i.exec(text);
  return match ? Number(match[1]) * (/ppm|mg/i.test(match[2] ?? "") ? 1e-4 : 1) : undefined;
}

function grams(text) {
  const match = /^\s*(\d+(?:\.\d+)?)\s*(g|kg|mg)\s*$/.exec(text);
  return match ? Number(match[1]) * { g: 1, kg: 1000, mg: 0.001 }[match[2]] : undefined;
}

/** The shares of a sheet: what each comes to, the sum, and what is left for the q.s. line. */
function shares(of) {
  const texts = Array.from({ length: of.size(["ingredients"]) }, (_, i) => of.value(["ingredients", i, "share"]));
  const stated = texts.map(percent);
  const sum = stated.reduce((total, one) => total + (one ?? 0), 0);
  const rest = texts.findIndex((text) => text.trim().toLowerCase() === "rest");
  const toPH = texts.some((text) => text.trim().toLowerCase() === "to-ph");
  return { each: stated.map((one, i) => (i === rest ? 100 - sum : one)), sum, rest, toPH, texts };
}

function sums() {
  const { each, sum, rest, toPH, texts } = shares(sheet);
  const batch = grams(sheet.value(["batch"]));
  byId("mass-title").textContent = batch ? `in ${sheet.value(["batch"])}` : "comes to";
  each.forEach((share, i) => {
    const target = byId(`line-${i}-mass`);
    if (!target) {
      return;
    }
    const parts = [];
    if (i === rest) {
      parts.push(`q.s. ${exact(share)} %`);
    }
    if (batch && share !== undefined) {
      parts.push(`${exact((share * batch) / 100)} g`);
    }
    if (/^to-ph$/i.test(texts[i].trim())) {
      parts.push("until the pH is reached");
    }
    target.textContent = parts.join(" · ");
  });
  const off = Math.round((sum - 100) * 1e4) / 1e4;
  const text =
    rest >= 0
      ? sum > 100
        ? `The other lines alone come to ${exact(sum)} %: nothing is left for the q.s. line.`
        : `100 %, with ${exact(100 - sum)} % left for the q.s. line${toPH ? ", less what the pH takes" : ""}.`
      : off === 0
        ? "100 %."
        : `${exact(sum)} %: ${exact(Math.abs(off))} % too ${off > 0 ? "much" : "little"}.`;
  byId("recipe-sum").textContent = `Sum: ${text}`;
  byId("recipe-sum").classList.toggle("wrong", rest >= 0 ? sum > 100 : Math.abs(off) > 0.05);
}

function method() {
  const steps = Array.from({ length: sheet.size(["method"]) }, (_, i) => step(i));
  byId("steps").replaceChildren(...steps);
  byId("no-steps").hidden = steps.length > 0;
}

function step(i) {
  const last = sheet.size(["method"]) - 1;
  const verb = sheet.value(["method", i, "do"]);
  const usual = STEPS[verb] ?? Object.keys(STEP_HINTS);
  const fields = [
    ...usual,
    ...Object.keys(STEP_HINTS).filter((key) => !usual.includes(key) && sheet.has(["method", i, key])),
  ];
  const title = `step ${i + 1}`;
  return el(
    "li",
    { class: "step" },
    el(
      "div",
      { class: "step-fields" },
      el(
        "div",
        { class: "field" },
        el("label", { for: `step-${i}-do` }, `Step ${i + 1}`),
        select(`step-${i}-do`, Object.keys(STEPS), verb, (chosen) => {
          change(sheet.with(["method", i, "do"], chosen || "mix"), true);
          byId(`step-${i}-do`).focus();
        }),
      ),
      fields.map((key) => {
        const id = `step-${i}-${key}`;
        const path = ["method", i, key];
        return el(
          "div",
          { class: `field ${key}` },
          el("label", { for: id }, key, el("span", { class: "unseen" }, `, ${title}`)),
          el("input", {
            id,
            type: "text",
            value: sheet.value(path),
            placeholder: verb === "adjust-pH" && key === "to" ? "5.2" : STEP_HINTS[key],
            autocomplete: "off",
            spellcheck: "false",
            list: key === "with" ? "recipe-names" : undefined,
            oninput: (event) => {
              const value = event.target.value.trim();
              set(path, key === "with" && value.includes(",") ? parts(value) : value);
            },
          }),
        );
      }),
    ),
    el(
      "div",
      { class: "tools" },
      tool("↑", `Move ${title} up`, () => move("method", i, -1, "step"), { disabled: i === 0, id: `step-${i}-up` }),
      tool("↓", `Move ${title} down`, () => move("method", i, 1, "step"), {
        disabled: i === last,
        id: `step-${i}-down`,
      }),
      tool("+", `Put a step behind ${title}`, () => addStep(i + 1), { id: `step-${i}-add` }),
      tool("×", `Take out ${title}`, () => remove("method", i, "step", "do", "add-step"), { id: `step-${i}-remove` }),
    ),
  );
}

/** Parts of the sheet that only its text shows. */
function others() {
  const names = ["label", "measured", "accepted"].filter((key) => sheet.has([key]));
  byId("others").textContent = names.length > 0 ? `This sheet also has ${names.join(", ")}: see its text.` : "";
  const used = Array.from({ length: sheet.size(["ingredients"]) }, (_, i) => sheet.value(["ingredients", i, "name"]));
  byId("recipe-names").replaceChildren(
    ...[...new Set(used)].filter(Boolean).map((name) => el("option", { value: name })),
  );
}
