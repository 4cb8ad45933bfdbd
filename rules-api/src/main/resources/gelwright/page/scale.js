// A number, its range and its limit on one line. The words beside it say the same.

import { draw } from "./dom.js";
import { number } from "./words.js";

const WIDTH = 280;
const EDGE = 12;
const AXIS = 34;

const finite = (shown) => [shown?.low, shown?.likely, shown?.high].filter((value) => Number.isFinite(value));

/** The picture, or nothing where there is nothing to compare. */
export function scale(observed, limit) {
  const values = [...finite(observed), ...finite(limit)];
  if (
    !observed ||
    !limit ||
    finite(observed).length === 0 ||
    finite(limit).length === 0 ||
    Math.min(...values) === Math.max(...values)
  ) {
    return undefined;
  }
  const logarithmic = Math.min(...values) > 0 && Math.max(...values) / Math.min(...values) > 20;
  const by = logarithmic ? Math.log10 : (value) => value;
  const low = Math.min(...values.map(by));
  const high = Math.max(...values.map(by));
  const margin = (high - low) * 0.12;
  const place = (value) => EDGE + ((by(value) - low + margin) / (high - low + 2 * margin)) * (WIDTH - 2 * EDGE);
  const ends = (shown) => [
    Number.isFinite(shown.low) ? place(shown.low) : EDGE,
    Number.isFinite(shown.high) ? place(shown.high) : WIDTH - EDGE,
  ];
  const [from, to] = ends(observed);
  const [limitFrom, limitTo] = ends(limit);
  const bound = limit.likely ?? limit.low ?? limit.high;
  const parts = [draw("line", { class: "axis", x1: 0, x2: WIDTH, y1: AXIS, y2: AXIS })];
  if (limitTo - limitFrom > 1) {
    parts.push(
      draw("rect", { class: "limit-range", x: limitFrom, y: AXIS - 12, width: limitTo - limitFrom, height: 12 }),
    );
  }
  parts.push(
    draw("line", { class: "limit", x1: place(bound), x2: place(bound), y1: AXIS - 14, y2: AXIS + 14 }),
    draw("rect", { class: "range", x: from, y: AXIS - 4, width: Math.max(to - from, 1), height: 8, rx: 4 }),
  );
  if (!Number.isFinite(observed.low)) {
    parts.push(draw("path", { class: "open-end", d: `M${EDGE} ${AXIS - 6}l-9 6 9 6z` }));
  }
  if (!Number.isFinite(observed.high)) {
    parts.push(draw("path", { class: "open-end", d: `M${WIDTH - EDGE} ${AXIS - 6}l9 6-9 6z` }));
  }
  if (Number.isFinite(observed.likely)) {
    parts.push(draw("circle", { class: "likely", cx: place(observed.likely), cy: AXIS, r: 6 }));
  }
  const label = (x, y, text, kind) =>
    draw("text", { x, y, class: kind, "text-anchor": x < 45 ? "start" : x > WIDTH - 45 ? "end" : "middle" }, text);
  parts.push(label(clamp(place(bound)), AXIS - 19, `limit ${number(bound)}`, "limit-label"));
  if (Number.isFinite(observed.likely)) {
    parts.push(label(clamp(place(observed.likely)), AXIS + 27, `here ${number(observed.likely)}`, "here-label"));
  }
  if (logarithmic) {
    parts.push(
      draw(
        "text",
        { x: WIDTH, y: AXIS + 27, class: "kind-label", "text-anchor": "end" },
        place(observed.likely ?? bound) > WIDTH * 0.6 ? "" : "log scale",
      ),
    );
  }
  return draw(
    "svg",
    { class: "scale", viewBox: `0 0 ${WIDTH} 66`, width: WIDTH, height: 66, "aria-hidden": "true", focusable: "false" },
    parts,
  );
}

function clamp(x) {
  return Math.min(Math.max(x, 2), WIDTH - 2);
}
