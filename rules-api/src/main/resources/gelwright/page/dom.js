// Building the page. Text becomes text nodes and nothing else: no markup is ever read from a string.

const SVG = "http://www.w3.org/2000/svg";

function fill(element, attributes, children) {
  for (const [name, value] of Object.entries(attributes ?? {})) {
    if (value === undefined || value === null || value === false) {
      continue;
    }
    if (name.startsWith("on")) {
      element.addEventListener(name.slice(2), value);
    } else if (name === "value" || name === "checked" || name === "disabled" || name === "open") {
      element[name] = value;
    } else {
      element.setAttribute(name, value === true ? "" : String(value));
    }
  }
  element.append(...children.flat(3).filter((one) => one !== undefined && one !== null && one !== false));
  return element;
}

/** An element with attributes, listeners (onclick, …) and children: elements or texts. */
export function el(tag, attributes, ...children) {
  return fill(document.createElement(tag), attributes, children);
}

/** The same within a picture. */
export function draw(tag, attributes, ...children) {
  return fill(document.createElementNS(SVG, tag), attributes, children);
}

export function byId(id) {
  return document.getElementById(id);
}

/** Shapes tell levels apart without colour. */
const SHAPES = {
  error: () => draw("path", { d: "M1 1h12v12h-12z" }),
  warning: () => draw("path", { d: "M7 1 13.5 13h-13z" }),
  note: () => draw("circle", { cx: 7, cy: 7, r: 5.5 }),
  unknown: () => draw("circle", { cx: 7, cy: 7, r: 5.2, class: "hollow" }),
  holds: () => draw("path", { d: "M1.5 7.5 5.5 11.5 12.5 2.5", class: "stroke" }),
  none: () => draw("path", { d: "M4 7h6", class: "stroke" }),
  duty: () => draw("path", { d: "M1 7h8M6 3l4 4-4 4", class: "stroke" }),
};

/** The shape of a level; the word always stands beside it. */
export function mark(level) {
  return draw(
    "svg",
    { class: `mark ${level}`, viewBox: "0 0 14 14", width: 14, height: 14, "aria-hidden": "true", focusable: "false" },
    SHAPES[level](),
  );
}

/** Calls a function once nothing has happened for a while; the last call counts. */
export function settled(milliseconds, action) {
  let timer = 0;
  return (...given) => {
    clearTimeout(timer);
    timer = setTimeout(() => action(...given), milliseconds);
  };
}

/** Hands a text to the reader as a file. */
export function download(name, type, text) {
  const address = URL.createObjectURL(new Blob([text], { type }));
  const link = el("a", { href: address, download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}
