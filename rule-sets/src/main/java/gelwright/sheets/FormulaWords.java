package gelwright.sheets;

import gelwright.formula.Step;
import java.util.Arrays;
import java.util.List;

/** The keys and closed words of a formula sheet. */
final class FormulaWords {
  static final List<String> SHEET =
      List.of(
          "formula",
          "version",
          "product",
          "batch",
          "equipment",
          "ingredients",
          "method",
          "label",
          "measured",
          "accepted");
  static final List<String> PRODUCT =
      List.of(
          "kind", "use", "area", "users", "texture", "dispensing", "pH", "markets", "shelf-life");
  static final List<String> LINE =
      List.of("phase", "name", "share", "strength", "hydrate", "size", "grade", "lot");

  /** What is said of one raw material and not of another in its place. */
  static final List<String> OF_ONE_MATERIAL =
      List.of("strength", "hydrate", "size", "grade", "lot");

  static final List<String> STEP =
      List.of("do", "phase", "with", "into", "to", "at", "over", "for", "stir");
  static final List<String> READING = List.of("what", "value", "at", "shear-rate", "points");
  static final List<String> ACCEPTANCE = List.of("rule", "subject", "observed", "because", "until");

  static final List<String> COVERS = List.of("open", "loose", "closed");
  static final List<String> STIRRERS =
      List.of("paddle", "propeller", "anchor", "rotor-stator", "whisk");
  static final List<String> ACTIONS =
      Arrays.stream(Step.Action.values()).map(Step.Action::word).toList();
  static final List<String> READINGS =
      List.of(
          "pH",
          "viscosity",
          "yield-stress",
          "flow-curve",
          "drop-size",
          "density",
          "water-activity");

  private FormulaWords() {}
}
