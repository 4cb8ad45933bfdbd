// The sheet as text, with what is wrong marked at its line.

import { byId, el, mark } from "./dom.js";

let marks = new Map();

export function start(onInput) {
  const area = byId("sheet-text");
  area.addEventListener("input", () => {
    lines();
    onInput(area.value);
  });
  area.addEventListener("scroll", () => {
    byId("line-numbers").scrollTop = area.scrollTop;
  });
}

export function show(text) {
  const area = byId("sheet-text");
  if (area.value !== text) {
    area.value = text;
  }
  lines();
}

/** Marks lines: from a line number to the worst level there is. */
export function markLines(levels) {
  marks = levels;
  lines();
}

function lines() {
  const area = byId("sheet-text");
  const number = area.value.split("\n").length;
  const column = byId("line-numbers");
  column.replaceChildren(
    ...Array.from({ length: number }, (_, i) => {
      const level = marks.get(i + 1);
      return el("span", { class: level ? `marked ${level}` : undefined }, level ? mark(level) : "", String(i + 1));
    }),
  );
  area.rows = Math.min(Math.max(number + 1, 12), 48);
  column.scrollTop = area.scrollTop;
}

/** Puts the cursor at a line, from 1, and selects it. */
export function goTo(line) {
  const area = byId("sheet-text");
  const all = area.value.split("\n");
  const from = all.slice(0, line - 1).reduce((sum, one) => sum + one.length + 1, 0);
  area.focus();
  area.setSelectionRange(from, from + (all[line - 1] ?? "").length);
  area.scrollTop = Math.max(0, (line - 6) * (area.scrollHeight / Math.max(all.length, 1)));
  area.scrollIntoView({ block: "center" });
}
