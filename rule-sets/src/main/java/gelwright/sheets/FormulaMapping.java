package gelwright.sheets;

import gelwright.formula.Acceptance;
import gelwright.formula.Amount;
import gelwright.formula.Brief;
import gelwright.formula.Equipment;
import gelwright.formula.Formula;
import gelwright.formula.Label;
import gelwright.formula.Line;
import gelwright.formula.Measurement;
import gelwright.formula.Span;
import gelwright.formula.Step;
import gelwright.problem.Place;
import gelwright.quantity.Dimension;
import gelwright.quantity.Quantity;
import gelwright.quantity.Share;
import gelwright.sheets.document.FormulaSheet;
import gelwright.sheets.mapping.Constraints;
import gelwright.sheets.mapping.Keys;
import gelwright.sheets.mapping.Problems;
import gelwright.sheets.mapping.Reading;
import gelwright.sheets.mapping.Values;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Node;
import gelwright.sheets.tree.Words;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * From the tree of a formula sheet to the formula. Every part is read twice over: into the engine's
 * record if it is complete, and into a document record whose constraints are checked at the end,
 * whether or not other parts have problems.
 */
final class FormulaMapping {
  private static final Pattern SPAN =
      Pattern.compile("(\\d{1,2}(?:\\.\\d{1,6})?)(?:\\s+to\\s+(\\d{1,2}(?:\\.\\d{1,6})?))?");

  /** Countries of ISO 3166-1 and the unions and shorthand that laws are made for. */
  private static final Set<String> MARKETS = markets();

  private static final Reading<Quantity> TEMPERATURE = Values.quantity(Dimension.TEMPERATURE);
  private static final Reading<Quantity> TIME = Values.quantity(Dimension.TIME);
  private static final Reading<Quantity> LENGTH = Values.quantity(Dimension.LENGTH);
  private static final Reading<Quantity> MASS = Values.quantity(Dimension.MASS);
  private static final Reading<Quantity> RATE = Values.quantity(Dimension.RATE);
  private static final Reading<Quantity> PH = Values.quantity(Dimension.PH);

  private final Document document;
  private final Problems problems;

  FormulaMapping(Document document, Problems problems) {
    this.document = document;
    this.problems = problems;
  }

  private static Set<String> markets() {
    Set<String> markets = new TreeSet<>(List.of(Locale.getISOCountries()));
    markets.addAll(List.of("EU", "EEA", "UK"));
    return Set.copyOf(markets);
  }

  /** A value as read and the part of it that has constraints. */
  private record Part<T, S>(Optional<T> value, S sheet) {}

  Optional<Formula> read() {
    return Keys.of(document.root(), "a formula sheet", problems, FormulaWords.SHEET)
        .flatMap(this::formula);
  }

  private Optional<Formula> formula(Keys keys) {
    final Optional<String> name = keys.required("formula", Values.TEXT);
    final Optional<String> version = keys.optional("version", Values.ANY_TEXT);
    final Optional<Part<Brief, FormulaSheet.ProductSheet>> product =
        keys.optional("product", this::product);
    final Optional<Quantity> batch = keys.optional("batch", MASS);
    final Optional<Part<Equipment, FormulaSheet.EquipmentSheet>> equipment =
        keys.optional("equipment", this::equipment);
    final List<Part<Line, FormulaSheet.LineSheet>> lines =
        keys.required("ingredients", Values.filledListOf(this::line)).orElse(List.of());
    final List<Part<Step, FormulaSheet.StepSheet>> method =
        keys.list("method", FormulaMapping::step);
    final Optional<Label> label = keys.optional("label", this::label);
    final List<Part<Measurement, FormulaSheet.ReadingSheet>> measured =
        keys.list("measured", this::reading);
    final List<Part<Acceptance, FormulaSheet.AcceptanceSheet>> accepted =
        keys.list("accepted", this::acceptance);

    Map<String, Place> places = document.places(4);
    Constraints.check(
        new FormulaSheet(
            batch.orElse(null),
            product.map(Part::sheet).orElse(null),
            equipment.map(Part::sheet).orElse(null),
            sheets(lines),
            sheets(method),
            sheets(measured),
            sheets(accepted)),
        places,
        problems);
    if (!problems.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        new Formula(
            name.orElseThrow(),
            version.orElse(""),
            product.flatMap(Part::value).orElse(Brief.NONE),
            batch,
            equipment.flatMap(Part::value).orElse(Equipment.NONE),
            values(lines),
            values(method),
            label,
            values(measured),
            values(accepted),
            places));
  }

  private static <T, S> List<S> sheets(List<Part<T, S>> parts) {
    return parts.stream().map(Part::sheet).toList();
  }

  private static <T, S> List<T> values(List<Part<T, S>> parts) {
    return parts.stream().map(part -> part.value().orElseThrow()).toList();
  }

  // The brief and the equipment

  private Optional<Part<Brief, FormulaSheet.ProductSheet>> product(
      Node node, String what, Problems into) {
    return Keys.of(node, "product", into, FormulaWords.PRODUCT)
        .map(
            keys -> {
              Optional<Span> pH = keys.optional("pH", FormulaMapping::span);
              Optional<Quantity> shelfLife = keys.optional("shelf-life", TIME);
              Brief brief =
                  new Brief(
                      keys.optional("kind", Values.word(Brief.KINDS)),
                      keys.optional("use", Values.word(Brief.USES)),
                      keys.optional("area", Values.oneOrMore(Values.word(Brief.AREAS)))
                          .orElse(List.of()),
                      keys.optional("users", Values.word(Brief.USERS)),
                      keys.optional("texture", Values.word(Brief.TEXTURES)),
                      keys.optional("dispensing", Values.word(Brief.DISPENSING)),
                      pH,
                      keys.optional("markets", Values.oneOrMore(FormulaMapping::market))
                          .orElse(List.of()),
                      shelfLife);
              return new Part<>(
                  Optional.of(brief),
                  new FormulaSheet.ProductSheet(
                      pH.map(span -> new FormulaSheet.SpanSheet(span.from(), span.to()))
                          .orElse(null),
                      shelfLife.orElse(null)));
            });
  }

  static Optional<Span> span(Node node, String what, Problems problems) {
    String expected = "a pH such as 5.4 or a range such as 5.0 to 5.8";
    return Values.parsed(FormulaMapping::ends, expected)
        .read(node, what, problems)
        .flatMap(
            ends -> {
              if (ends.get(0) > ends.get(1)) {
                problems.add(
                    node.place(),
                    "reversed-range",
                    what + " runs from " + ends.get(0) + " down to " + ends.get(1) + ".",
                    "Write the lower end first.");
                return Optional.empty();
              }
              return Optional.of(new Span(ends.get(0), ends.get(1)));
            });
  }

  private static Optional<List<Double>> ends(String text) {
    Matcher match = SPAN.matcher(text);
    if (!match.matches()) {
      return Optional.empty();
    }
    double from = Double.parseDouble(match.group(1));
    return Optional.of(
        List.of(from, match.group(2) == null ? from : Double.parseDouble(match.group(2))));
  }

  private static Optional<String> market(Node node, String what, Problems problems) {
    return Values.TEXT
        .read(node, what, problems)
        .filter(
            text -> {
              if (!MARKETS.contains(text)) {
                problems.add(
                    node.place(),
                    "unknown-word",
                    what + " is " + text + ", which is no market.",
                    "Write EU, UK or the two capital letters of a country, such as CH.");
                return false;
              }
              return true;
            });
  }

  private Optional<Part<Equipment, FormulaSheet.EquipmentSheet>> equipment(
      Node node, String what, Problems into) {
    return Keys.of(node, "equipment", into, List.of("balance", "vessel", "stirrer", "room"))
        .map(
            keys -> {
              Optional<Quantity> balance = keys.optional("balance", MASS);
              Optional<Keys> vessel =
                  keys.optional("vessel", mapping("vessel", List.of("diameter", "cover")));
              Optional<Quantity> vesselDiameter =
                  vessel.flatMap(v -> v.optional("diameter", LENGTH));
              Optional<String> cover =
                  vessel.flatMap(v -> v.optional("cover", Values.word(FormulaWords.COVERS)));
              Optional<Keys> stirrer =
                  keys.optional("stirrer", mapping("stirrer", List.of("type", "diameter")));
              Optional<String> type =
                  stirrer.flatMap(s -> s.optional("type", Values.word(FormulaWords.STIRRERS)));
              Optional<Quantity> stirrerDiameter =
                  stirrer.flatMap(s -> s.optional("diameter", LENGTH));
              Optional<Keys> room =
                  keys.optional("room", mapping("room", List.of("temperature", "humidity")));
              Optional<Quantity> temperature =
                  room.flatMap(r -> r.optional("temperature", TEMPERATURE));
              Optional<Quantity> humidity =
                  room.flatMap(r -> r.optional("humidity", Values.quantity(Dimension.SHARE)));
              return new Part<>(
                  Optional.of(
                      new Equipment(
                          balance,
                          vesselDiameter,
                          cover,
                          type,
                          stirrerDiameter,
                          temperature,
                          humidity)),
                  new FormulaSheet.EquipmentSheet(
                      balance.orElse(null),
                      new FormulaSheet.DiameterSheet(vesselDiameter.orElse(null)),
                      new FormulaSheet.DiameterSheet(stirrerDiameter.orElse(null)),
                      new FormulaSheet.RoomSheet(temperature.orElse(null), humidity.orElse(null))));
            });
  }

  private static Reading<Keys> mapping(String what, List<String> known) {
    return (node, key, problems) -> Keys.of(node, what, problems, known);
  }

  // The recipe

  private Optional<Part<Line, FormulaSheet.LineSheet>> line(Node node, String what, Problems into) {
    Optional<Keys> found = Keys.of(node, "an ingredient line", into, FormulaWords.LINE);
    if (found.isEmpty()) {
      // Kept, so that the lines after it keep their numbers.
      return Optional.of(
          new Part<>(Optional.empty(), new FormulaSheet.LineSheet(null, null, null)));
    }
    Keys keys = found.get();
    final Optional<String> phase = keys.optional("phase", Values.TEXT);
    final Optional<String> name = keys.required("name", Values.TEXT);
    Optional<Amount> amount = keys.required("share", FormulaMapping::amount);
    Optional<Share> strength = keys.optional("strength", Values.share("a strength such as 80 %"));
    Optional<String> hydrate = keys.optional("hydrate", Values.TEXT);
    Optional<Quantity> size = keys.optional("size", LENGTH);
    Optional<String> grade = keys.optional("grade", Values.TEXT);
    Optional<String> lot = keys.optional("lot", Values.TEXT);
    Optional<Line> line = Optional.empty();
    if (name.isPresent() && amount.isPresent()) {
      line =
          Optional.of(
              new Line(
                  phase.orElse(""), name.get(), amount.get(), strength, hydrate, size, grade, lot));
    }
    return Optional.of(
        new Part<>(
            line,
            new FormulaSheet.LineSheet(
                amount.map(FormulaMapping::statedShare).orElse(null),
                strength.orElse(null),
                size.orElse(null))));
  }

  private static @Nullable Share statedShare(Amount amount) {
    return amount instanceof Amount.Stated stated ? stated.share() : null;
  }

  static Optional<Amount> amount(Node node, String what, Problems problems) {
    if (Values.isWord(node, "rest")) {
      return Optional.of(new Amount.Rest());
    }
    if (Values.isWord(node, "to-pH")) {
      return Optional.of(new Amount.ToPH());
    }
    return Values.share("a share such as 4 %, 400 ppm or the number 4, or rest, or to-pH")
        .read(node, what, problems)
        .map(Amount.Stated::new);
  }

  // The method

  /** A step that stands in no method. */
  static Optional<Step> stepAlone(Node node, String what, Problems into) {
    return step(node, what, into).flatMap(Part::value);
  }

  private static Optional<Part<Step, FormulaSheet.StepSheet>> step(
      Node node, String what, Problems into) {
    Optional<Keys> found = Keys.of(node, "a step", into, FormulaWords.STEP);
    if (found.isEmpty()) {
      return Optional.of(
          new Part<>(
              Optional.empty(), new FormulaSheet.StepSheet(null, null, null, null, null, null)));
    }
    Keys keys = found.get();
    Optional<Step.Action> action =
        keys.required("do", Values.word(FormulaWords.ACTIONS)).flatMap(Step.Action::of);
    boolean adjusting = action.filter(a -> a == Step.Action.ADJUST_PH).isPresent();
    Optional<Double> target =
        adjusting ? keys.optional("to", PH).map(Quantity::value) : Optional.empty();
    // Where the action is not known, neither is whether "to" is a temperature or a pH.
    Optional<Quantity> to =
        adjusting || action.isEmpty() ? Optional.empty() : keys.optional("to", TEMPERATURE);
    Optional<Quantity> at = keys.optional("at", TEMPERATURE);
    if (to.isPresent() && at.isPresent()) {
      into.add(
          keys.place("at"),
          "two-temperatures",
          "The step has a temperature to reach (\"to\") and one to hold (\"at\").",
          "Write two steps.");
    }
    Optional<Quantity> over = keys.optional("over", TIME);
    Optional<Quantity> lasting = keys.optional("for", TIME);
    Optional<Quantity> stir = keys.optional("stir", Values.quantity(Dimension.STIRRING));
    Optional<String> phase = keys.optional("phase", Values.TEXT);
    List<String> with = keys.optional("with", Values.oneOrMore(Values.TEXT)).orElse(List.of());
    Optional<String> goal = keys.optional("into", Values.TEXT);
    return Optional.of(
        new Part<>(
            action.map(
                a -> new Step(a, phase, with, goal, to.or(() -> at), target, over, lasting, stir)),
            new FormulaSheet.StepSheet(
                to.orElse(null),
                at.orElse(null),
                target.orElse(null),
                over.orElse(null),
                lasting.orElse(null),
                stir.orElse(null))));
  }

  // Label, readings, acceptances

  private Optional<Label> label(Node node, String what, Problems into) {
    return Keys.of(node, "label", into, List.of("ingredients", "warnings"))
        .map(
            keys ->
                new Label(
                    keys.list("ingredients", Values.TEXT), keys.list("warnings", Values.TEXT)));
  }

  private Optional<Part<Measurement, FormulaSheet.ReadingSheet>> reading(
      Node node, String what, Problems into) {
    FormulaSheet.ReadingSheet nothing =
        new FormulaSheet.ReadingSheet(null, null, null, null, List.of());
    Optional<Keys> found = Keys.of(node, "a reading", into, FormulaWords.READING);
    if (found.isEmpty()) {
      return Optional.of(new Part<>(Optional.empty(), nothing));
    }
    Keys keys = found.get();
    Optional<String> kind = keys.required("what", Values.word(FormulaWords.READINGS));
    if (kind.isEmpty()) {
      return Optional.of(new Part<>(Optional.empty(), nothing));
    }
    boolean curve = kind.get().equals("flow-curve");
    boolean viscosity = kind.get().equals("viscosity");
    misplaced(keys, curve, "value", kind.get(), into);
    misplaced(keys, !curve, "points", kind.get(), into);
    misplaced(keys, !viscosity, "shear-rate", kind.get(), into);
    Optional<Quantity> value =
        curve ? Optional.empty() : keys.required("value", Values.quantity(dimension(kind.get())));
    Optional<Quantity> at = keys.optional("at", TEMPERATURE);
    Optional<Quantity> shearRate = viscosity ? keys.required("shear-rate", RATE) : Optional.empty();
    List<Part<Measurement.Point, FormulaSheet.PointSheet>> points =
        curve
            ? keys.required("points", Values.filledListOf(this::point)).orElse(List.of())
            : List.of();
    Optional<Measurement> measurement =
        points.stream().allMatch(point -> point.value().isPresent())
            ? Optional.of(new Measurement(kind.get(), value, at, shearRate, values(points)))
            : Optional.empty();
    boolean pH = kind.get().equals("pH");
    return Optional.of(
        new Part<>(
            measurement,
            new FormulaSheet.ReadingSheet(
                pH ? null : value.orElse(null),
                pH ? value.map(Quantity::value).orElse(null) : null,
                at.orElse(null),
                shearRate.orElse(null),
                sheets(points))));
  }

  private static void misplaced(
      Keys keys, boolean wrong, String key, String kind, Problems problems) {
    if (wrong && keys.has(key)) {
      problems.add(
          keys.place(key),
          "misplaced-key",
          "A reading of " + kind + " has no \"" + key + "\".",
          kind.equals("flow-curve") ? "Write its readings under \"points\"." : "");
    }
  }

  private static Dimension dimension(String kind) {
    return switch (kind) {
      case "pH" -> Dimension.PH;
      case "viscosity" -> Dimension.VISCOSITY;
      case "yield-stress" -> Dimension.STRESS;
      case "drop-size" -> Dimension.LENGTH;
      case "density" -> Dimension.DENSITY;
      default -> Dimension.NUMBER;
    };
  }

  private Optional<Part<Measurement.Point, FormulaSheet.PointSheet>> point(
      Node node, String what, Problems into) {
    Optional<Keys> keys =
        Keys.of(node, "a point of a flow curve", into, List.of("shear-rate", "stress"));
    Optional<Quantity> shearRate = keys.flatMap(k -> k.required("shear-rate", RATE));
    Optional<Quantity> stress =
        keys.flatMap(k -> k.required("stress", Values.quantity(Dimension.STRESS)));
    Optional<Measurement.Point> point = Optional.empty();
    if (shearRate.isPresent() && stress.isPresent()) {
      point = Optional.of(new Measurement.Point(shearRate.get().inBase(), stress.get().inBase()));
    }
    return Optional.of(
        new Part<>(
            point, new FormulaSheet.PointSheet(shearRate.orElse(null), stress.orElse(null))));
  }

  private Optional<Part<Acceptance, FormulaSheet.AcceptanceSheet>> acceptance(
      Node node, String what, Problems into) {
    Optional<Keys> found = Keys.of(node, "an acceptance", into, FormulaWords.ACCEPTANCE);
    if (found.isEmpty()) {
      return Optional.of(new Part<>(Optional.empty(), new FormulaSheet.AcceptanceSheet(null)));
    }
    Keys keys = found.get();
    Optional<String> rule = keys.required("rule", RULE);
    Optional<String> subject = keys.optional("subject", Values.TEXT);
    Optional<Quantity> observed = keys.optional("observed", Values.ANY_QUANTITY);
    Optional<String> because = keys.required("because", Values.ANY_TEXT);
    Optional<LocalDate> until = keys.required("until", Values.DATE);
    Optional<Acceptance> acceptance = Optional.empty();
    if (rule.isPresent()
        && until.isPresent()
        && because.filter(reason -> !reason.isBlank()).isPresent()) {
      acceptance =
          Optional.of(
              new Acceptance(rule.get(), subject.orElse(""), observed, because.get(), until.get()));
    }
    return Optional.of(
        new Part<>(acceptance, new FormulaSheet.AcceptanceSheet(because.orElse(null))));
  }

  private static final Pattern FULL_ID =
      Pattern.compile(Values.KEBAB.pattern() + "\\." + Values.KEBAB.pattern());

  /** The full id of a rule. */
  static final Reading<String> RULE =
      (node, what, problems) ->
          Values.TEXT
              .read(node, what, problems)
              .filter(
                  text -> {
                    boolean good = FULL_ID.matcher(text).matches();
                    if (!good) {
                      problems.add(
                          node.place(),
                          "bad-id",
                          what
                              + " must name a rule by set and id, such as"
                              + " oil-load.above-gel-capacity; it is "
                              + Words.quoted(text)
                              + ".");
                    }
                    return good;
                  });
}
