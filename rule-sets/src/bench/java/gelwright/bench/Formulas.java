package gelwright.bench;

import gelwright.formula.Formula;
import gelwright.sheets.Bundled;
import gelwright.sheets.FormulaReader;
import gelwright.sheets.Library;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Limits;
import gelwright.sheets.tree.Node;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** What the benchmarks work on. */
final class Formulas {
  /** A gel-cream of twelve lines with a whole procedure. */
  static final String TWELVE_LINES =
      """
      formula: Wind-shelter gel-cream
      product: { kind: gel-cream, use: leave-on, area: [face], users: adults, texture: soft-gel, dispensing: tube, pH: 4.5 to 5.1, markets: [EU], shelf-life: 12 months }
      batch: 500 g
      equipment: { balance: 0.01 g, room: { temperature: 22 °C } }
      ingredients:
        - { phase: A, name: Aqua, share: rest }
        - { phase: A, name: Glycerin, share: 4 % }
        - { phase: A, name: Propanediol, share: 2 % }
        - { phase: A, name: Tetrasodium Glutamate Diacetate, share: 0.1 % }
        - { phase: A, name: Sclerotium Gum, share: 1.2 % }
        - { phase: B, name: Squalane, share: 3 % }
        - { phase: B, name: Caprylic/Capric Triglyceride, share: 2 % }
        - { phase: C, name: Panthenol, share: 1 % }
        - { phase: C, name: Sodium Benzoate, share: 0.4 % }
        - { phase: C, name: Potassium Sorbate, share: 0.2 % }
        - { phase: C, name: Phenoxyethanol, share: 0.6 % }
        - { phase: D, name: Citric Acid, share: to-pH }
      method:
        - { do: heat, phase: A, to: 38 °C, over: 10 min }
        - { do: disperse, phase: A, with: Sclerotium Gum, stir: 800 rpm }
        - { do: hydrate, phase: A, at: 38 °C, for: 35 min, stir: 400 rpm }
        - { do: cool, phase: A, to: 30 °C, over: 20 min }
        - { do: add, phase: B, into: A, at: 25 °C, stir: 1500 rpm, for: 5 min }
        - { do: add, phase: C, into: A, at: 25 °C, stir: 500 rpm, for: 5 min }
        - { do: adjust-pH, with: Citric Acid, to: 4.8 }
        - { do: fill }
      """;

  private Formulas() {}

  static Formula twelveLines() {
    byte[] bytes = TWELVE_LINES.getBytes(StandardCharsets.UTF_8);
    return new FormulaReader().read(bytes, "twelve-lines.yaml").orThrow();
  }

  /** A scrub in a tube of which six rules have something to say. */
  private static final String SIX_FINDINGS =
      """
      formula: Soil-off scrub
      version: "1"
      product:
        kind: scrub
        use: rinse-off
        area: [hands]
        users: adults
        texture: soft-gel
        dispensing: tube
        pH: 4.6 to 5.2
        markets: [EU]
        shelf-life: 12 months
      batch: 800 g
      equipment:
        balance: 0.01 g
        vessel: { diameter: 110 mm, cover: loose }
        stirrer: { type: anchor, diameter: 90 mm }
        room: { temperature: 22 °C, humidity: 50 % }
      ingredients:
        - { phase: A, name: Aqua, share: rest }
        - { phase: A, name: Glycerin, share: 5 % }
        - { phase: A, name: Tetrasodium Glutamate Diacetate, share: 0.1 % }
        - { phase: A, name: Xanthan Gum, share: 0.3 % }
        - { phase: B, name: Decyl Glucoside, share: 4 % }
        - { phase: B, name: Panthenol, share: 0.5 % }
        - { phase: C, name: Pumice, share: 6 %, size: 1000 µm }
        - { phase: C, name: Olea Europaea Seed Powder, share: 3 %, size: 300 µm }
        - { phase: C, name: Jojoba Esters, share: 2 %, size: 300 µm }
        - { phase: D, name: Sodium Benzoate, share: 0.5 % }
        - { phase: E, name: Citric Acid, share: to-pH }
      method:
        - { do: heat, phase: A, to: 60 °C, over: 20 min }
        - { do: disperse, phase: A, with: Xanthan Gum, stir: 800 rpm }
        - { do: hydrate, phase: A, at: 60 °C, for: 25 min, stir: 300 rpm }
        - { do: add, phase: C, into: A, at: 58 °C, stir: 150 rpm, for: 15 min }
        - { do: cool, phase: A, to: 32 °C, over: 45 min }
        - { do: add, phase: B, into: A, at: 32 °C, stir: 100 rpm, for: 10 min }
        - { do: add, phase: D, into: A, at: 32 °C, stir: 100 rpm, for: 10 min }
        - { do: adjust-pH, with: Citric Acid, to: 4.9 }
        - { do: fill }
      """;

  /** A scrub with six findings that break or are borderline. */
  static Formula sixFindings() {
    byte[] bytes = SIX_FINDINGS.getBytes(StandardCharsets.UTF_8);
    return new FormulaReader().read(bytes, "six-findings.yaml").orThrow();
  }

  /** The same sheet as JSON. */
  static String asJson() {
    Document sheet =
        Document.read(
                TWELVE_LINES.getBytes(StandardCharsets.UTF_8),
                "twelve-lines.yaml",
                Document.Format.YAML,
                Limits.USUAL)
            .orThrow();
    StringBuilder json = new StringBuilder();
    write(json, sheet.root());
    return json.toString();
  }

  private static void write(StringBuilder json, Node node) {
    if (node instanceof Node.Mapping mapping) {
      json.append('{');
      String between = "";
      for (Node.Entry entry : mapping.entries().values()) {
        json.append(between).append('"').append(entry.key()).append("\": ");
        write(json, entry.value());
        between = ", ";
      }
      json.append('}');
    } else if (node instanceof Node.Sequence sequence) {
      json.append('[');
      String between = "";
      for (Node each : sequence.items()) {
        json.append(between);
        write(json, each);
        between = ", ";
      }
      json.append(']');
    } else {
      json.append('"').append(((Node.Scalar) node).text()).append('"');
    }
  }

  /** The bundled base formulas: mists and gels, with and without oil. */
  static List<Formula> bases(Library library) {
    FormulaReader reader = new FormulaReader();
    List<Formula> formulas = new ArrayList<>();
    for (Document base : library.bases().values()) {
      formulas.add(reader.read(base).orThrow());
    }
    return formulas;
  }

  static Library library() {
    return Bundled.load();
  }
}
