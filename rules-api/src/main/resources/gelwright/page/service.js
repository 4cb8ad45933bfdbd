// Talking to the service that the page came from, and to nobody else.

const TOKEN = "gelwright.token";

/** What may be had as a page of its own, and from where. */
const PAPERS = {
  report: "/v1/reviews",
  "batch-sheet": "/v1/batch-sheets",
  "label-draft": "/v1/label-drafts",
  "stability-plan": "/v1/stability-plans",
};

/** Kept until the tab is closed; where the browser keeps nothing, until the page is left. */
const tokens = {
  value: null,
  get() {
    try {
      return sessionStorage.getItem(TOKEN) ?? this.value;
    } catch {
      return this.value;
    }
  },
  set(token) {
    this.value = token;
    try {
      sessionStorage.setItem(TOKEN, token);
    } catch {
      // It stays in this page.
    }
  },
};

let asking;
let askForToken = () => Promise.resolve("");

/** What the service answered instead of what was asked for: a problem document (RFC 9457). */
class Refusal extends Error {
  constructor(problem) {
    super(problem.detail ?? problem.title ?? "The service gave no answer.");
    this.problem = problem;
    this.errors = problem.errors ?? [];
    this.status = problem.status ?? 0;
  }
}

/** Says how the reader is asked for a token, for a service that wants one. */
export function onTokenNeeded(ask) {
  askForToken = ask;
}

/** Whether there is another token than the one that was not taken. However many calls ask, the reader is asked once. */
async function hasOther(refused) {
  if (tokens.get() === refused) {
    asking ??= askForToken(refused !== null).finally(() => {
      asking = undefined;
    });
    const given = await asking;
    if (!given) {
      return false;
    }
    tokens.set(given);
  }
  return true;
}

async function call(path, options = {}) {
  for (;;) {
    const headers = new Headers(options.headers);
    const token = tokens.get();
    if (token) {
      headers.set("Authorization", `Bearer ${token}`);
    }
    let answer;
    try {
      answer = await fetch(path, { ...options, headers, credentials: "same-origin", referrerPolicy: "no-referrer" });
    } catch (trouble) {
      if (trouble.name === "AbortError") {
        throw trouble;
      }
      throw new Refusal({
        title: "The service cannot be reached",
        detail: "The service cannot be reached. The sheet is safe in this browser.",
      });
    }
    if (answer.ok) {
      return answer;
    }
    if (answer.status === 401 && (await hasOther(token))) {
      continue;
    }
    throw new Refusal(
      await answer.json().catch(() => ({ status: answer.status, title: "The service gave no answer." })),
    );
  }
}

function post(path, body, accept, signal, type = "application/yaml") {
  return call(path, { method: "POST", body, signal, headers: { "Content-Type": type, Accept: accept } });
}

const json = async (answer) => (await answer).json();
const text = async (answer) => (await answer).text();

/** What this service can do beyond the least, by its own description. */
export async function abilities() {
  const description = await json(call("/openapi.json"));
  const paths = description.paths ?? {};
  const takes = (path, name) =>
    (paths[path]?.post?.parameters ?? [])
      .map((one) => (one.$ref ? description.components.parameters[one.$ref.split("/").pop()] : one))
      .find((one) => one.name === name);
  const include = JSON.stringify(takes("/v1/reviews", "include")?.schema ?? "");
  const asPage = (path) => "text/html" in (paths[path]?.post?.responses?.["200"]?.content ?? {});
  return {
    remedies: include.includes("remedies"),
    headroom: include.includes("headroom"),
    headroomPicture: "image/svg+xml" in (paths["/v1/headroom"]?.post?.responses?.["200"]?.content ?? {}),
    edits: "/v1/sheet-edits" in paths,
    comparisons: "/v1/comparisons" in paths,
    papers: Object.keys(PAPERS).filter((name) => asPage(PAPERS[name])),
  };
}

export const ingredients = () => json(call("/v1/ingredients"));
export const rules = () => json(call("/v1/rules"));
export const example = (file) => text(call(`/page/examples/${file}`));

/** A review; further parts come on demand, since they take longer. */
export const review = (sheet, include, signal) =>
  json(
    post(`/v1/reviews${include.length > 0 ? `?include=${include.join(",")}` : ""}`, sheet, "application/json", signal),
  );

/** A paper as one HTML page; a batch sheet needs the mass of the batch. */
export const paper = (name, sheet, mass) =>
  text(post(PAPERS[name] + (name === "batch-sheet" ? `?make=${encodeURIComponent(mass)}` : ""), sheet, "text/html"));

export const prediction = (sheet, signal) => json(post("/v1/predictions", sheet, "application/json", signal));

export const curve = (sheet, name, signal) =>
  text(post(`/v1/predictions?curve=${encodeURIComponent(name)}`, sheet, "image/svg+xml", signal));

export const headroomPicture = (sheet, signal) => text(post("/v1/headroom", sheet, "image/svg+xml", signal));

export const comparisonPicture = (first, second, signal) =>
  text(
    post("/v1/comparisons?curve=flow", JSON.stringify({ first, second }), "image/svg+xml", signal, "application/json"),
  );

/** Two formulas laid side by side: each number of both, and how surely they differ. */
export const comparison = (first, second, signal) =>
  json(post("/v1/comparisons", JSON.stringify({ first, second }), "application/json", signal, "application/json"));

/** The text of a sheet after changes; comments and order stay. */
export const edited = async (sheet, edits) =>
  (
    await json(
      post(
        "/v1/sheet-edits",
        JSON.stringify({ sheet, type: "application/yaml", edits }),
        "application/json",
        undefined,
        "application/json",
      ),
    )
  ).sheet;
