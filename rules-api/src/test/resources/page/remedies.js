// Stands in for a service that offers remedies and room to move, in the form that such a service answers in; the rest
// goes to the service. One finding gets a remedy that raises the gum, all others say that there is none.
const asked = window.fetch;
const json = (value) => new Response(JSON.stringify(value), { headers: { "Content-Type": "application/json" } });
window.fetch = async (path, options = {}) => {
  const address = String(path);
  if (address === "/openapi.json") {
    const description = await (await asked(path, options)).json();
    description.components.parameters.include.schema = {
      type: "string",
      pattern: "^(trace|remedies|headroom)(,(trace|remedies|headroom))*$",
    };
    description.paths["/v1/sheet-edits"] = { post: {} };
    return json(description);
  }
  if (address.startsWith("/v1/reviews?include=")) {
    const answer = await asked("/v1/reviews", options);
    if (!answer.ok) {
      return answer;
    }
    const review = await answer.json();
    for (const finding of review.findings) {
      if (finding.rule === "texture.yields-too-easily") {
        finding.remedies = [
          {
            text: "Raise Xanthan Gum from 0.3 % to 0.9 %.",
            odds: 0.97,
            reaches: true,
            edits: [{ ingredient: "Xanthan Gum", line: 4, from: "0.3 %", to: "0.9 %" }],
            clears: [
              { rule: finding.rule, subject: finding.subject },
              { rule: "suspension.grains-at-risk", subject: { particle: "Pumice" } },
            ],
            raises: [],
            brings: [{ rule: "caution.strong-acid", subject: { formula: review.formula } }],
          },
        ];
      } else if (finding.outcome !== "unknown") {
        finding["no-remedy"] = "No single change puts this right.";
      }
    }
    review.headroom = [
      {
        what: { ingredient: "Xanthan Gum" },
        text: "Xanthan Gum",
        now: 0.3,
        unit: "%",
        lower: {
          free: 0.202,
          gap: 0.03,
          at: 0.2,
          rule: "texture.gum-outside-its-range",
          subject: { gum: "Xanthan Gum" },
          from: "holds",
          to: "breaks",
          others: 0,
        },
        upper: { free: 2, gap: 0.5, open: true },
      },
    ];
    return json(review);
  }
  if (address === "/v1/sheet-edits") {
    const { sheet, edits } = JSON.parse(options.body);
    window.edits = edits;
    return json({ sheet: sheet.replace(/(name: Xanthan Gum, share:) [0-9.]+ %/, `$1 ${edits[0].to}`) });
  }
  return asked(path, options);
};
