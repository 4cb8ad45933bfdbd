package gelwright.sheets;

import gelwright.formula.Amount;
import gelwright.formula.Brief;
import gelwright.formula.Edit;
import gelwright.formula.Step;
import gelwright.quantity.Dimension;
import gelwright.quantity.Quantity;
import gelwright.sheets.mapping.Keys;
import gelwright.sheets.mapping.Problems;
import gelwright.sheets.mapping.Reading;
import gelwright.sheets.mapping.Values;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Limits;
import gelwright.sheets.tree.Node;
import gelwright.sheets.tree.Read;
import gelwright.sheets.tree.Words;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * Reads edits as {@link WrittenEdit} has them, and as a review lists them. What is wrong with them
 * is told in one pass, each problem with its place.
 */
public final class EditReader {
  private static final String LINE_NAMED = "an edit of an ingredient";
  private static final List<String> LINE =
      List.of("ingredient", "line", "field", "replace-with", "add-to-phase", "from", "to");
  private static final List<String> STEP = List.of("step", "field", "insert", "from", "to");

  private static final Reading<Quantity> LENGTH = Values.quantity(Dimension.LENGTH);
  private static final Reading<Quantity> MASS = Values.quantity(Dimension.MASS);
  private static final Reading<Double> PH = Values.quantity(Dimension.PH).map(Quantity::value);

  /** A number of a line or a step, from 1 as a person counts, into one from 0. */
  private static final Reading<Integer> COUNTED =
      (node, what, problems) ->
          Values.WHOLE_NUMBER
              .read(written(node), what, problems)
              .filter(
                  number -> {
                    if (number < 1) {
                      problems.add(
                          node.place(),
                          "out-of-range",
                          what + " is " + number + "; lines and steps are counted from 1.");
                    }
                    return number >= 1;
                  })
              .map(number -> number - 1);

  /** The edits of a list. */
  static final Reading<List<Edit>> EDITS = Values.filledListOf(EditReader::edit);

  private EditReader() {}

  /** The edits of a document that is a list of them; at least one. */
  public static Read<List<Edit>> read(Document document) {
    Problems problems = Problems.of(document, Limits.USUAL);
    Optional<List<Edit>> edits = EDITS.read(document.root(), "the list of edits", problems);
    return problems.orElse(edits::orElseThrow);
  }

  private static Node written(Node node) {
    return node instanceof Node.Scalar scalar
            && scalar.kind() == Node.Kind.TEXT
            && scalar.text().matches("[0-9]{1,6}")
        ? new Node.Scalar(scalar.place(), scalar.textPlace(), scalar.text(), Node.Kind.NUMBER)
        : node;
  }

  private static Optional<Edit> edit(Node node, String what, Problems problems) {
    if (!(node instanceof Node.Mapping mapping)) {
      Values.wrongType(node, what, "a mapping with keys", problems);
      return Optional.empty();
    }
    if (mapping.entries().containsKey("ingredient")) {
      return Keys.of(node, LINE_NAMED, problems, LINE).flatMap(EditReader::line);
    }
    if (mapping.entries().containsKey("step")) {
      return Keys.of(node, "an edit of a step", problems, STEP).flatMap(EditReader::step);
    }
    if (mapping.entries().containsKey("pH")) {
      return Keys.of(node, "an edit of the pH", problems, List.of("pH", "from", "to"))
          .flatMap(EditReader::acidity);
    }
    if (mapping.entries().containsKey("product")) {
      return Keys.of(node, "an edit of the product", problems, List.of("product", "from", "to"))
          .flatMap(EditReader::product);
    }
    if (mapping.entries().containsKey("batch")) {
      return Keys.of(node, "an edit of the batch", problems, List.of("batch", "from", "to"))
          .flatMap(EditReader::batch);
    }
    problems.add(
        node.place(),
        "not-an-edit",
        what + " does not say what it changes.",
        "An edit has one of the keys ingredient, step, pH, product and batch.");
    return Optional.empty();
  }

  // Lines

  private static Optional<Edit> line(Keys keys) {
    final Optional<String> ingredient = keys.required("ingredient", Values.TEXT);
    final Optional<Integer> line = keys.required("line", COUNTED);
    if (oneKind(keys, "field", "replace-with", "add-to-phase")) {
      return Optional.empty();
    }
    if (keys.has("field")) {
      return keys.required("field", Values.word(List.of("phase", "size")))
          .flatMap(
              field ->
                  field.equals("phase")
                      ? phase(keys, ingredient, line)
                      : size(keys, ingredient, line));
    }
    if (keys.has("add-to-phase")) {
      refuse(keys, "from", "a new line");
      Optional<String> phase = keys.required("add-to-phase", Values.ANY_TEXT);
      Optional<Amount> to = keys.required("to", FormulaMapping::amount);
      return all(ingredient, line, phase, to)
          ? Optional.of(
              new Edit.Addition(
                  line.orElseThrow(),
                  phase.orElseThrow(),
                  ingredient.orElseThrow(),
                  to.orElseThrow()))
          : Optional.empty();
    }
    Optional<Amount> from = keys.required("from", FormulaMapping::amount);
    if (keys.has("replace-with")) {
      Optional<String> with = keys.required("replace-with", Values.TEXT);
      Optional<Amount> to = keys.required("to", FormulaMapping::amount);
      return all(ingredient, line, with, from, to)
          ? Optional.of(
              new Edit.Substitution(
                  line.orElseThrow(),
                  ingredient.orElseThrow(),
                  with.orElseThrow(),
                  from.orElseThrow(),
                  to.orElseThrow()))
          : Optional.empty();
    }
    if (keys.node("to").filter(to -> Values.isWord(to, "left-out")).isPresent()) {
      return all(ingredient, line, from)
          ? Optional.of(
              new Edit.Removal(line.orElseThrow(), ingredient.orElseThrow(), from.orElseThrow()))
          : Optional.empty();
    }
    Optional<Amount> to = keys.required("to", FormulaMapping::amount);
    return all(ingredient, line, from, to)
        ? Optional.of(
            new Edit.OfAmount(
                line.orElseThrow(), ingredient.orElseThrow(), from.orElseThrow(), to.orElseThrow()))
        : Optional.empty();
  }

  private static Optional<Edit> phase(
      Keys keys, Optional<String> ingredient, Optional<Integer> line) {
    Optional<String> from = keys.required("from", Values.ANY_TEXT);
    Optional<String> to = keys.required("to", Values.TEXT);
    return all(ingredient, line, from, to)
        ? Optional.of(
            new Edit.OfPhase(
                line.orElseThrow(), ingredient.orElseThrow(), from.orElseThrow(), to.orElseThrow()))
        : Optional.empty();
  }

  private static Optional<Edit> size(
      Keys keys, Optional<String> ingredient, Optional<Integer> line) {
    Optional<Quantity> from = keys.optional("from", LENGTH);
    Optional<Quantity> to = keys.required("to", LENGTH);
    return all(ingredient, line, to)
        ? Optional.of(
            new Edit.OfSize(line.orElseThrow(), ingredient.orElseThrow(), from, to.orElseThrow()))
        : Optional.empty();
  }

  // Steps

  private static Optional<Edit> step(Keys keys) {
    Optional<Integer> step = keys.required("step", COUNTED);
    if (oneKind(keys, "field", "insert")) {
      return Optional.empty();
    }
    if (keys.has("insert")) {
      refuse(keys, "from", "a new step");
      refuse(keys, "to", "a new step");
      Optional<Step> done = keys.required("insert", FormulaMapping::stepAlone);
      return all(step, done)
          ? Optional.of(new Edit.Insertion(step.orElseThrow(), done.orElseThrow()))
          : Optional.empty();
    }
    return keys.required("field", Values.word(List.of("to", "at", "for", "stir", "position")))
        .flatMap(
            field -> field.equals("position") ? position(keys, step) : number(keys, step, field));
  }

  private static Optional<Edit> position(Keys keys, Optional<Integer> step) {
    Optional<Integer> from = keys.optional("from", COUNTED);
    if (from.isPresent() && step.isPresent() && !from.equals(step)) {
      keys.problems()
          .add(
              keys.place("from"),
              "not-possible",
              "The step is " + (step.get() + 1) + ", and \"from\" is another.");
      return Optional.empty();
    }
    Optional<Integer> to = keys.required("to", COUNTED);
    return all(step, to)
        ? Optional.of(new Edit.Move(step.orElseThrow(), to.orElseThrow()))
        : Optional.empty();
  }

  private static Optional<Edit> number(Keys keys, Optional<Integer> step, String field) {
    Edit.Part part =
        switch (field) {
          case "for" -> Edit.Part.LASTING;
          case "stir" -> Edit.Part.STIR;
          default -> Edit.Part.TEMPERATURE;
        };
    Reading<Quantity> reading =
        Values.quantity(
            switch (part) {
              case LASTING -> Dimension.TIME;
              case STIR -> Dimension.STIRRING;
              case TEMPERATURE -> Dimension.TEMPERATURE;
            });
    Optional<Quantity> from = keys.optional("from", reading);
    Optional<Quantity> to = keys.required("to", reading);
    return all(step, to)
        ? Optional.of(new Edit.OfStep(step.orElseThrow(), field, part, from, to.orElseThrow()))
        : Optional.empty();
  }

  // The rest

  private static Optional<Edit> acidity(Keys keys) {
    Optional<String> target = keys.required("pH", Values.word(List.of("target")));
    Optional<Double> from = keys.optional("from", PH);
    Optional<Double> to = keys.required("to", PH);
    return all(target, to) ? Optional.of(new Edit.OfPH(from, to.orElseThrow())) : Optional.empty();
  }

  private static Optional<Edit> product(Keys keys) {
    List<String> promises = List.of(Edit.Promise.values()).stream().map(Edit.Promise::key).toList();
    return keys.required("product", Values.word(promises))
        .flatMap(
            word ->
                Stream.of(Edit.Promise.values())
                    .filter(each -> each.key().equals(word))
                    .findFirst())
        .flatMap(
            promise -> {
              Optional<String> from = keys.optional("from", Values.ANY_TEXT);
              Optional<String> to = keys.required("to", promised(promise));
              return to.map(then -> new Edit.OfBrief(promise, from.orElse(""), then));
            });
  }

  private static Reading<String> promised(Edit.Promise promise) {
    return switch (promise) {
      case TEXTURE -> Values.word(Brief.TEXTURES);
      case DISPENSING -> Values.word(Brief.DISPENSING);
      case AREA -> EditReader::areas;
      case PH ->
          (node, what, problems) ->
              FormulaMapping.span(node, what, problems)
                  .map(
                      span -> {
                        String text = ((Node.Scalar) node).text().strip();
                        return text.contains(" to ") ? text : text + " to " + text;
                      });
    };
  }

  private static Optional<String> areas(Node node, String what, Problems problems) {
    return Values.TEXT
        .read(node, what, problems)
        .filter(
            text -> {
              List<String> names = WrittenEdit.listed(text);
              if (Brief.AREAS.containsAll(names)) {
                return true;
              }
              problems.add(
                  node.place(),
                  "unknown-word",
                  what + " is " + Words.quoted(text) + ", which names no areas.",
                  "Write some of these, with commas: " + String.join(", ", Brief.AREAS) + ".");
              return false;
            });
  }

  private static Optional<Edit> batch(Keys keys) {
    Optional<String> mass = keys.required("batch", Values.word(List.of("mass")));
    Optional<Quantity> from = keys.optional("from", MASS);
    Optional<Quantity> to = keys.required("to", MASS);
    return all(mass, to) ? Optional.of(new Edit.OfBatch(from, to.orElseThrow())) : Optional.empty();
  }

  /** Tells of keys that exclude one another. */
  private static boolean oneKind(Keys keys, String... kinds) {
    List<String> given = List.of(kinds).stream().filter(keys::has).toList();
    if (given.size() > 1) {
      keys.problems()
          .add(
              keys.place(given.get(1)),
              "several-edits",
              "The keys " + String.join(" and ", given) + " do not go together.",
              "Write an edit for each.");
    }
    return given.size() > 1;
  }

  private static void refuse(Keys keys, String key, String what) {
    if (keys.has(key)) {
      keys.problems().add(keys.place(key), "unknown-key", what + " has no \"" + key + "\".");
    }
  }

  private static boolean all(Optional<?>... parts) {
    return List.of(parts).stream().allMatch(Optional::isPresent);
  }
}
