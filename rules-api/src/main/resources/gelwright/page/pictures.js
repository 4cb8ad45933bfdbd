// Curves as the service draws them. A picture goes in as an image, which can run nothing; its description, which the
// service writes into it, becomes the text beside it, and the numbers stand in a table.

import { el } from "./dom.js";
import * as service from "./service.js";
import { CURVES, capital, missingWords, number, range } from "./words.js";

const MOST_ROWS = 9;
const addresses = new Map();

/** An SVG text as an image with its own description. */
export function image(svg, slot) {
  const read = new DOMParser().parseFromString(svg, "image/svg+xml");
  const title = read.querySelector("title")?.textContent ?? "";
  const words = read.querySelector("desc")?.textContent ?? "";
  const address = URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" }));
  URL.revokeObjectURL(addresses.get(slot));
  addresses.set(slot, address);
  const [, , width, height] = (read.documentElement.getAttribute("viewBox") ?? "0 0 788 529").split(/\s+/);
  return { title, words, picture: el("img", { src: address, alt: `${title}. ${words}`, width, height }) };
}

/** All curves there are of a sheet, one after the other. */
export async function load(sheet, signal) {
  const prediction = await service.prediction(sheet, signal);
  const curves = CURVES.map((name) => prediction.curves.find((curve) => curve.name === name)).filter(
    (curve) => curve?.known,
  );
  const figures = [];
  for (const curve of curves) {
    const drawn = image(await service.curve(sheet, curve.name, signal), curve.name);
    figures.push(figure(drawn, curve));
  }
  if (prediction.properties.some((one) => one.name === "total.share" && one.likely > 0)) {
    figures.push(figure(image(await service.curve(sheet, "composition", signal), "composition")));
  }
  const unknown = prediction.curves.filter((curve) => !curve.known);
  return { figures, properties: properties(prediction), unknown };
}

/** A picture with its words and its numbers. */
export function figure(drawn, curve) {
  return el(
    "figure",
    { class: "picture" },
    el("figcaption", { class: "unseen" }, drawn.title),
    el("div", { class: "scroll", tabindex: "0", role: "group", "aria-label": drawn.title }, drawn.picture),
    el(
      "details",
      { "data-key": `figures ${curve?.name ?? drawn.title}` },
      el("summary", {}, "The same in words and numbers", el("span", { class: "unseen" }, `: ${drawn.title}`)),
      el("p", {}, drawn.words),
      curve ? curve.series.map((series) => table(curve, series)) : undefined,
    ),
  );
}

function table(curve, series) {
  const step = Math.max(1, Math.ceil(series.points.length / MOST_ROWS));
  const points = series.points.filter((_, i) => i % step === 0 || i === series.points.length - 1);
  const unit = (axis) => (axis.unit === "1" || !axis.unit ? "" : `, ${axis.unit}`);
  return el(
    "div",
    { class: "scroll", tabindex: "0", role: "group", "aria-label": `Numbers: ${series.name}` },
    el(
      "table",
      { class: "plain" },
      el("caption", {}, capital(series.name)),
      el(
        "thead",
        {},
        el(
          "tr",
          {},
          [`${curve.x.quantity}${unit(curve.x)}`, "low", "likely", "high"].map((title) =>
            el("th", { scope: "col" }, title),
          ),
        ),
      ),
      el(
        "tbody",
        {},
        points.map((point) =>
          el(
            "tr",
            {},
            el("th", { scope: "row" }, number(point.x)),
            [point.low, point.likely, point.high].map((value) =>
              el("td", {}, value === undefined ? "–" : number(value)),
            ),
          ),
        ),
      ),
    ),
  );
}

/** What the whole formula is like, each number with its meaning and range. */
function properties(prediction) {
  const whole = prediction.properties.filter(
    (one) => "formula" in one.subject && one.origin !== "stated" && one.unit !== "text",
  );
  return el(
    "details",
    { class: "folded", "data-key": "properties" },
    el("summary", {}, `What it is like, in ${whole.length} numbers`),
    el(
      "div",
      { class: "scroll", tabindex: "0", role: "group", "aria-label": "Properties" },
      el(
        "table",
        { class: "plain" },
        el(
          "thead",
          {},
          el(
            "tr",
            {},
            el("th", { scope: "col" }, "what"),
            el("th", { scope: "col" }, "likely, with its range"),
            el("th", { scope: "col" }, "known from"),
          ),
        ),
        el(
          "tbody",
          {},
          whole.map((one) =>
            el(
              "tr",
              {},
              el("th", { scope: "row" }, capital(one.meaning)),
              el("td", {}, range(one)),
              el("td", {}, one.missing?.length > 0 ? `missing: ${missingWords(one.missing).join("; ")}` : one.origin),
            ),
          ),
        ),
      ),
    ),
  );
}

/** The properties that two sheets are held against each other by. */
export const COMPARED = [
  ["gel.yield-stress", "Yield stress"],
  ["gel.viscosity-at-rest", "Viscosity at rest"],
  ["gel.viscosity-pouring", "Viscosity when poured"],
  ["gel.viscosity-rubbing", "Viscosity when rubbed in"],
  ["gel.hydration", "Hydration of the slowest gum"],
  ["gel.oil-capacity", "Oil the gel carries"],
  ["oil.share", "Oil"],
  ["gum.share", "Gum"],
  ["water-phase.pH", "pH of the water phase"],
  ["water-phase.water-activity", "Water activity"],
  ["process.peak-temperature", "Hottest moment of the method"],
];

export const propertyText = (review, name) => {
  const one = review.properties[name];
  return one ? range(one) : "–";
};
