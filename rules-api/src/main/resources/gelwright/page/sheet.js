// The formula sheet. Its text is the one truth: the table shows it and changes it in place, so that comments, order and
// spacing of everything else stay as they were typed.

import { Document, isMap, isScalar, isSeq, parseDocument, visit } from "./yaml-2.3.1/index.js";

/** Keys in the order in which a sheet has them; a new key goes behind those that stand before it here. */
const ORDER = {
  "": ["formula", "version", "product", "batch", "equipment", "ingredients", "method", "label", "measured", "accepted"],
  product: ["kind", "use", "area", "users", "texture", "dispensing", "pH", "markets", "shelf-life"],
  equipment: ["balance", "vessel", "stirrer", "room"],
  ingredients: ["phase", "name", "share", "strength", "hydrate", "size", "grade", "lot"],
  method: ["do", "phase", "with", "into", "to", "at", "over", "for", "stir"],
};

const PLAIN_NUMBER = /^[+-]?\d+(\.\d+)?$/;
const STYLE = { lineWidth: 0, flowCollectionPadding: true };

export const EMPTY = `formula: New formula
product:
  use: leave-on
  users: adults
ingredients:
  - { phase: A, name: Aqua, share: rest }
`;

/** A value as it stands inside { … }; a typed number stays the number that was typed. */
function written(value) {
  if (Array.isArray(value)) {
    return `[${value.map(written).join(", ")}]`;
  }
  if (typeof value === "object") {
    return `{ ${Object.entries(value)
      .map(([key, one]) => `${key}: ${written(one)}`)
      .join(", ")} }`;
  }
  if (PLAIN_NUMBER.test(value)) {
    return value;
  }
  const document = new Document([String(value)]);
  document.contents.flow = true;
  const text = document.toString(STYLE).trim();
  return text.slice(1, -1).trim();
}

const READING = { prettyErrors: false, logLevel: "silent", uniqueKeys: false };

/** A document, with its errors; one of what is nested too deep to be read has nothing in it. */
function parsed(text) {
  try {
    return parseDocument(text, READING);
  } catch (trouble) {
    const nothing = parseDocument("", READING);
    nothing.errors.push(trouble);
    return nothing;
  }
}

/** A sheet as read from its text. Changing it gives a new text; the sheet itself stays as it is. */
export class Sheet {
  constructor(text) {
    this.text = text;
    this.document = parsed(text);
    this.root = this.document.contents;
  }

  /** Whether there is a tree that can be shown as a table. */
  isReadable() {
    return this.document.errors.length === 0 && isMap(this.root) && this.hasPlainLists();
  }

  hasPlainLists() {
    return ["ingredients", "method"].every((key) => {
      const node = this.node([key]);
      return !node || (isScalar(node) && node.value === null) || (isSeq(node) && node.items.every(isMap));
    });
  }

  node(path) {
    return path.length === 0 ? this.root : this.document.getIn(path, true);
  }

  has(path) {
    return isMap(this.root) && this.document.hasIn(path);
  }

  /** A value as text: what stands in the sheet, lists with commas; empty where there is nothing. */
  value(path) {
    const node = isMap(this.root) ? this.node(path) : undefined;
    if (!node) {
      return "";
    }
    if (isSeq(node)) {
      return node.items.map((one) => (isScalar(one) ? this.scalar(one) : "")).join(", ");
    }
    return isScalar(node) ? this.scalar(node) : "";
  }

  scalar(node) {
    if (node.value === null) {
      return "";
    }
    // A number keeps its digits: 0.40 is not turned into 0.4.
    return typeof node.value === "string" ? node.value : this.text.slice(node.range[0], node.range[1]);
  }

  /** The number of items of a list. */
  size(path) {
    const node = isMap(this.root) ? this.node(path) : undefined;
    return isSeq(node) ? node.items.length : 0;
  }

  /** The whole as plain values, for those who send it as JSON. */
  tree() {
    return this.document.toJS({ maxAliasCount: 0 });
  }

  /** From 1. */
  lineOf(path) {
    const node = this.node(path);
    return node?.range ? this.text.slice(0, node.range[0]).split("\n").length : 0;
  }

  /** The text with a value at a path; an empty text takes the key out. A list is given as one. */
  with(path, value) {
    if (value === "" || (Array.isArray(value) && value.length === 0)) {
      return this.has(path) ? this.without(path) : this.text;
    }
    const node = this.node(path);
    const parent = this.node(path.slice(0, -1));
    if (path.length > 1 && !isMap(parent) && typeof path[path.length - 2] === "string") {
      return this.with(path.slice(0, -1), { [path[path.length - 1]]: value });
    }
    let changed;
    if (node?.range && (isScalar(node) || node.flow)) {
      const gap = node.range[0] === node.range[1] && !/\s$/.test(this.text.slice(0, node.range[0])) ? " " : "";
      changed = this.spliced(node.range[0], node.range[1], gap + written(value));
    } else if (!node && isMap(parent) && parent.items.length > 0) {
      changed = this.withPair(parent, path, value);
    }
    return this.checked(changed, () => {
      this.document.setIn(path, this.document.createNode(typed(value), { flow: true }));
    });
  }

  withPair(map, path, value) {
    const key = path[path.length - 1];
    const order = ORDER[path.length === 1 ? "" : String(path[0])] ?? [];
    const rank = (name) => (order.includes(name) ? order.indexOf(name) : order.length);
    const before = map.items.filter((pair) => rank(String(pair.key)) < rank(key)).pop();
    const pair = `${key}: ${written(value)}`;
    if (map.flow) {
      return before
        ? this.spliced(end(before), end(before), `, ${pair}`)
        : this.spliced(map.items[0].key.range[0], map.items[0].key.range[0], `${pair}, `);
    }
    const first = map.items[0].key.range[0];
    const indent = " ".repeat(first - this.lineStart(first));
    if (!before) {
      return this.spliced(first, first, `${pair}\n${indent}`);
    }
    const at = this.lineEnd(end(before));
    return this.spliced(at, at, `\n${indent}${pair}`);
  }

  /** The text without a key or an item. A mapping that would be left empty goes with it. */
  without(path) {
    const parent = this.node(path.slice(0, -1));
    const key = path[path.length - 1];
    if (isMap(parent) && parent.items.length === 1 && path.length > 1 && typeof path[path.length - 2] === "string") {
      return this.without(path.slice(0, -1));
    }
    let changed;
    if (isMap(parent) && parent.range) {
      const index = parent.items.findIndex((pair) => String(pair.key) === key);
      const pair = parent.items[index];
      const next = parent.items[index + 1];
      const before = parent.items[index - 1];
      if (parent.flow && next) {
        changed = this.spliced(pair.key.range[0], next.key.range[0], "");
      } else if (parent.flow && before) {
        changed = this.spliced(end(before), end(pair), "");
      } else if (!parent.flow && parent.items.length > 1) {
        const [from, to] = [this.lineStart(pair.key.range[0]), this.lineEnd(end(pair))];
        if (/^\s*$/.test(this.text.slice(from, pair.key.range[0]))) {
          changed = this.spliced(from, Math.min(to + 1, this.text.length), "");
        }
      }
    } else if (this.isLines(parent) && parent.items.length > 1) {
      const [from, to] = this.lines(parent.items[key]);
      changed = this.spliced(from, Math.min(to + 1, this.text.length), "");
    }
    return this.checked(changed, () => this.document.deleteIn(path));
  }

  /** The text with one more item in a list, at a place. */
  withItem(list, at, item) {
    const node = this.node([list]);
    let changed;
    if (this.isLines(node) && node.items.length > 0) {
      const neighbour = node.items[Math.min(at, node.items.length - 1)];
      const [from, to] = this.lines(neighbour);
      const lead = this.text.slice(from, neighbour.range[0]);
      const line = `${lead}${written(item)}`;
      changed = at < node.items.length ? this.spliced(from, from, `${line}\n`) : this.spliced(to, to, `\n${line}`);
    } else if (!node) {
      const lines = `${list}:\n  - ${written(item)}\n`;
      const before = this.root.items
        .filter((pair) => ORDER[""].indexOf(String(pair.key)) < ORDER[""].indexOf(list))
        .pop();
      if (before && !this.root.flow) {
        const stop = this.lineEnd(end(before));
        changed = this.spliced(stop, Math.min(stop + 1, this.text.length), `\n${lines}`);
      }
    }
    return this.checked(changed, () => {
      if (!isSeq(this.node([list]))) {
        this.document.set(list, this.document.createNode([]));
      }
      const created = this.document.createNode(typedItem(item), { flow: true });
      created.flow = true;
      this.node([list]).items.splice(at, 0, created);
    });
  }

  /** The text with an item and the one behind it changed over. */
  swapped(list, first) {
    const node = this.node([list]);
    let changed;
    if (this.isLines(node)) {
      const [from, to] = this.lines(node.items[first]);
      const [nextFrom, nextTo] = this.lines(node.items[first + 1]);
      changed =
        this.text.slice(0, from) +
        this.text.slice(nextFrom, nextTo) +
        this.text.slice(to, nextFrom) +
        this.text.slice(from, to) +
        this.text.slice(nextTo);
    }
    return this.checked(changed, () => {
      const [one] = node.items.splice(first, 1);
      node.items.splice(first + 1, 0, one);
    });
  }

  /** Whether each item of a list has lines of its own. */
  isLines(node) {
    return (
      isSeq(node) &&
      !node.flow &&
      node.items.every(
        (item) => item.range && /^\s*-\s+$/.test(this.text.slice(this.lineStart(item.range[0]), item.range[0])),
      )
    );
  }

  lines(item) {
    return [this.lineStart(item.range[0]), this.lineEnd(item.range[1])];
  }

  lineStart(at) {
    return this.text.lastIndexOf("\n", at - 1) + 1;
  }

  lineEnd(at) {
    // A block that ends at the start of a line ends with the line before it.
    const from = at > 0 && this.text[at - 1] === "\n" ? at - 1 : at;
    const stop = this.text.indexOf("\n", from);
    return stop < 0 ? this.text.length : stop;
  }

  spliced(from, to, text) {
    return this.text.slice(0, from) + text + this.text.slice(to);
  }

  /**
   * A text changed in place, if it can still be read; else the library writes the whole anew, which keeps comments and
   * order, but not every space.
   */
  checked(changed, byTheLibrary) {
    if (changed !== undefined && new Sheet(changed).document.errors.length === 0) {
      return changed;
    }
    byTheLibrary();
    return this.document.toString(STYLE);
  }
}

function end(pair) {
  return (pair.value?.range ?? pair.key.range)[1];
}

function typed(value) {
  if (typeof value === "object") {
    return value;
  }
  return PLAIN_NUMBER.test(value) ? Number(value) : value;
}

function typedItem(item) {
  return Object.fromEntries(Object.entries(item).map(([key, value]) => [key, typed(value)]));
}

/** JSON as a sheet in the usual layout: a line for each ingredient and step. */
function fromJson(text) {
  const document = parsed(text);
  if (document.errors.length > 0 || !isMap(document.contents)) {
    return text;
  }
  visit(document, {
    Collection(key, node, path) {
      const depth = path.filter((one) => isMap(one) || isSeq(one)).length;
      node.flow = depth >= 2 || (depth === 1 && isSeq(node) && node.items.every(isScalar));
    },
    Scalar(key, node) {
      if (node.type === "QUOTE_DOUBLE") {
        node.type = "PLAIN";
      }
    },
  });
  return document.toString(STYLE);
}

const COLUMNS = { phase: "phase", name: "name", inci: "name", ingredient: "name", share: "share", "%": "share" };
const MORE_COLUMNS = ["strength", "hydrate", "size", "grade", "lot"];

/** Rows of a table whose cells are parted by a character; quotes as in RFC 4180. */
function rows(text, separator) {
  const all = [];
  let row = [];
  let cell = "";
  let quoted = false;
  for (let i = 0; i < text.length; i++) {
    const character = text[i];
    if (quoted) {
      if (character === '"' && text[i + 1] === '"') {
        cell += '"';
        i++;
      } else if (character === '"') {
        quoted = false;
      } else {
        cell += character;
      }
    } else if (character === '"' && cell === "") {
      quoted = true;
    } else if (character === separator) {
      row.push(cell);
      cell = "";
    } else if (character === "\n") {
      all.push([...row, cell]);
      row = [];
      cell = "";
    } else if (character !== "\r") {
      cell += character;
    }
  }
  if (cell !== "" || row.length > 0) {
    all.push([...row, cell]);
  }
  return all.filter((one) => one.some((text) => text.trim() !== ""));
}

/**
 * A recipe as a table turned into a sheet with the file's name. A number that could mean two things stays as it was
 * written, so that the service says so. Nothing is guessed.
 */
function fromCsv(text, fileName) {
  const head = text.split("\n", 1)[0];
  const separator = [";", "\t", ","].find((one) => head.includes(one)) ?? ";";
  const [titles = [], ...lines] = rows(text.replace(/^\uFEFF/, ""), separator);
  const keys = titles.map((title) => {
    const key = title.trim().toLowerCase();
    return COLUMNS[key] ?? (MORE_COLUMNS.includes(key) ? key : title.trim());
  });
  const items = lines.map((cells) => {
    const item = {};
    cells.forEach((cell, column) => {
      const value = cell.trim();
      if (value !== "" && keys[column]) {
        item[keys[column]] = keys[column] === "share" ? share(value, separator) : value;
      }
    });
    return `  - ${written(item)}\n`;
  });
  const name = fileName.replace(/\.[^.]*$/, "");
  return `formula: ${written(name)}\ningredients:\n${items.join("")}`;
}

function share(text, separator) {
  if (/^(q\.?\s*s\.?|ad\s*100\s*%?|rest)$/i.test(text)) {
    return "rest";
  }
  // 0,4 can be nothing but four tenths; 1,250 could be two things.
  return separator !== "," && /^\d+,(\d{1,2}|\d{4,})(\s*(%|ppm))?$/.test(text) ? text.replace(",", ".") : text;
}

/** A file's text as a sheet, by the ending of its name. */
export function fromFile(name, text) {
  const ending = name.toLowerCase().replace(/^.*\./, "");
  return ending === "csv" ? fromCsv(text, name) : ending === "json" ? fromJson(text) : text.replace(/^\uFEFF/, "");
}
