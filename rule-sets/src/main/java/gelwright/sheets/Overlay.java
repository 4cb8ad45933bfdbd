package gelwright.sheets;

import gelwright.ingredient.Catalogue;
import gelwright.ingredient.Figure;
import gelwright.ingredient.Ingredient;
import gelwright.ingredient.Known;
import gelwright.ingredient.Trait;
import gelwright.problem.Place;
import gelwright.problem.Problem;
import gelwright.problem.Spelling;
import gelwright.sheets.mapping.Problems;
import gelwright.sheets.mapping.Values;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Limits;
import gelwright.sheets.tree.Node;
import gelwright.sheets.tree.Read;
import gelwright.sheets.tree.Words;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Changes a base formula as a rule's example says.
 *
 * <p>A key of a formula sheet merges into it: mappings key by key, everything else replaces, {@code
 * none} removes. {@code step N} merges into a step of the method. {@code without} removes a line, a
 * part of the sheet ("product.texture"), or a piece of knowledge ("density of Glycerin"). {@code
 * on} is the day of the review. Every other key is an ingredient with its share, or with attributes
 * of its line.
 */
public final class Overlay {
  private static final Pattern STEP = Pattern.compile("step\\s+(\\d{1,4})");
  private static final Pattern KNOWLEDGE = Pattern.compile("(\\S+) of (.+)");

  /** What can be forgotten of an ingredient, beside its traits. */
  private static final List<String> FORGETTABLE =
      List.of(
          "functions",
          "charge",
          "dissolves",
          "acid",
          "pKa",
          "heat",
          "gum",
          "hydration",
          "inhibitory",
          "kinetics",
          "binding",
          "grades",
          "hydrates",
          "made-of",
          "allergens",
          "counts-as");

  private final Map<String, Node.Entry> sheet;
  private final List<Removal> removals = new ArrayList<>();
  private Optional<LocalDate> on = Optional.empty();
  private final Problems problems = new Problems(Limits.USUAL);

  private Overlay(Node.Mapping base) {
    this.sheet = new LinkedHashMap<>(base.entries());
  }

  /**
   * A base formula with its changes.
   *
   * @param formula the changed sheet, still to be read
   * @param removals what is to be forgotten of ingredients
   * @param on the day of the review, if the overlay says one
   */
  public record Applied(Document formula, List<Removal> removals, Optional<LocalDate> on) {
    public Applied {
      removals = List.copyOf(removals);
    }

    /** The catalogue without what is to be forgotten. */
    public Read<Catalogue> of(Catalogue catalogue) {
      Catalogue result = catalogue;
      List<Problem> unknown = new ArrayList<>();
      for (Removal removal : removals) {
        Optional<Ingredient> ingredient = result.find(removal.ingredient());
        if (ingredient.isEmpty()) {
          unknown.add(
              new Problem(
                  removal.place(),
                  "unknown-ingredient",
                  "There is no ingredient " + Words.quoted(removal.ingredient()) + ".",
                  Spelling.hint(removal.ingredient(), catalogue.closest(removal.ingredient(), 2))));
        } else {
          result = result.with(List.of(removal.from(ingredient.get())), List.of());
        }
      }
      return unknown.isEmpty() ? Read.ok(result) : Read.failed(unknown);
    }
  }

  /**
   * A piece of knowledge to be forgotten.
   *
   * @param what key of an ingredient sheet
   * @param ingredient name of the ingredient
   * @param place where this is written
   */
  public record Removal(String what, String ingredient, Place place) {
    /** The ingredient without it. */
    public Ingredient from(Ingredient known) {
      Map<Trait, Figure> traits = new EnumMap<>(Trait.class);
      traits.putAll(known.traits());
      Trait.of(what).ifPresent(traits::remove);
      return new Ingredient(
          known.name(),
          known.synonyms(),
          known.cas(),
          keep("functions", known.functions()),
          keep("charge", known.charge()),
          keep("dissolves", known.dissolves()),
          traits,
          what.equals("pKa") ? Known.unknown() : keep("acid", known.acid()),
          keep("heat", known.heat()),
          keep("gum", known.gum()),
          keep("hydration", known.hydration()),
          keep("inhibitory", known.inhibitory()),
          keep("kinetics", known.kinetics()),
          what.equals("binding") ? Map.of() : known.binding(),
          what.equals("hydrates") ? Map.of() : known.hydrates(),
          what.equals("grades") ? Map.of() : known.grades(),
          what.equals("made-of") ? Map.of() : known.composition(),
          keep("allergens", known.allergens()),
          what.equals("counts-as") ? Map.of() : known.countsAs(),
          known.note(),
          known.measured());
    }

    private <T> Known<T> keep(String key, Known<T> value) {
      return what.equals(key) ? Known.unknown() : value;
    }
  }

  /** Applies an overlay to a base formula; a change that changes nothing is a problem. */
  public static Read<Applied> apply(Document base, Node.Mapping overlay) {
    if (!(base.root() instanceof Node.Mapping root)) {
      throw new IllegalArgumentException("base is no formula sheet: " + base.file());
    }
    Overlay changed = new Overlay(root);
    overlay.entries().values().forEach(changed::change);
    return changed.problems.orElse(
        () ->
            new Applied(
                new Document(
                    base.file(),
                    new Node.Mapping(root.place(), changed.sheet, false),
                    base.problems()),
                changed.removals,
                changed.on));
  }

  private void change(Node.Entry entry) {
    String key = entry.key();
    Matcher step = STEP.matcher(key);
    if (key.equals("without")) {
      Values.oneOrMore(Values.PLACED_TEXT)
          .read(entry.value(), "\"without\"", problems)
          .ifPresent(list -> list.forEach(text -> remove(text.text(), entry)));
    } else if (key.equals("on")) {
      on = Values.DATE.read(entry.value(), "\"on\"", problems);
    } else if (FormulaWords.SHEET.contains(key)) {
      merge(sheet, entry);
    } else if (step.matches()) {
      step(Integer.parseInt(step.group(1)), entry);
    } else {
      line(entry);
    }
  }

  /** Puts an entry among others: mappings key by key, everything else in its place. */
  private static void merge(Map<String, Node.Entry> into, Node.Entry entry) {
    if (Values.isWord(entry.value(), "none")) {
      into.remove(entry.key());
      return;
    }
    Node.Entry old = into.get(entry.key());
    if (old != null
        && old.value() instanceof Node.Mapping before
        && entry.value() instanceof Node.Mapping change) {
      into.put(entry.key(), new Node.Entry(entry.key(), entry.keyPlace(), merged(before, change)));
    } else {
      into.put(entry.key(), entry);
    }
  }

  private static Node.Mapping merged(Node.Mapping before, Node.Mapping change) {
    Map<String, Node.Entry> entries = new LinkedHashMap<>(before.entries());
    change.entries().values().forEach(entry -> merge(entries, entry));
    return new Node.Mapping(change.place(), entries, change.flow());
  }

  private List<Node> items(String key) {
    Node.Entry entry = sheet.get(key);
    return entry != null && entry.value() instanceof Node.Sequence sequence
        ? new ArrayList<>(sequence.items())
        : new ArrayList<>();
  }

  private void put(String key, List<Node> items, Node.Entry origin) {
    Node.Entry old = sheet.get(key);
    Node.Entry named = old == null ? origin : old;
    sheet.put(
        key,
        new Node.Entry(key, named.keyPlace(), new Node.Sequence(named.value().place(), items)));
  }

  private void step(int number, Node.Entry entry) {
    List<Node> steps = items("method");
    if (!(entry.value() instanceof Node.Mapping change)) {
      Values.wrongType(entry.value(), Words.quoted(entry.key()), "a mapping with keys", problems);
    } else if (number >= 1
        && number <= steps.size()
        && steps.get(number - 1) instanceof Node.Mapping before) {
      steps.set(number - 1, merged(before, change));
      put("method", steps, entry);
    } else if (number == steps.size() + 1) {
      steps.add(change);
      put("method", steps, entry);
    } else {
      problems.add(
          entry.keyPlace(),
          "no-such-step",
          "The method of the base formula has " + steps.size() + " steps.");
    }
  }

  private void line(Node.Entry entry) {
    Map<String, Node.Entry> attributes = new LinkedHashMap<>();
    if (entry.value() instanceof Node.Mapping mapping) {
      attributes.putAll(mapping.entries());
    } else {
      attributes.put("share", new Node.Entry("share", entry.keyPlace(), entry.value()));
    }
    List<Node> lines = items("ingredients");
    for (int i = 0; i < lines.size(); i++) {
      if (names(lines.get(i), entry.key()) && lines.get(i) instanceof Node.Mapping before) {
        lines.set(i, merged(before, new Node.Mapping(entry.keyPlace(), attributes, before.flow())));
        put("ingredients", lines, entry);
        return;
      }
    }
    attributes.putIfAbsent(
        "name",
        new Node.Entry("name", entry.keyPlace(), Node.Scalar.text(entry.key(), entry.keyPlace())));
    lines.add(new Node.Mapping(entry.keyPlace(), attributes, false));
    put("ingredients", lines, entry);
  }

  private static boolean names(Node line, String name) {
    return line instanceof Node.Mapping mapping
        && mapping.get("name").orElse(null) instanceof Node.Scalar scalar
        && plain(scalar.text()).equals(plain(name));
  }

  /** A name as the catalogue compares names: case, spaces, hyphens and full stops do not count. */
  private static String plain(String name) {
    return name.toLowerCase(Locale.ROOT).replaceAll("[\\s.-]", "");
  }

  private void remove(String what, Node.Entry entry) {
    Matcher knowledge = KNOWLEDGE.matcher(what);
    if (knowledge.matches()
        && (FORGETTABLE.contains(knowledge.group(1)) || Trait.of(knowledge.group(1)).isPresent())) {
      removals.add(
          new Removal(knowledge.group(1), knowledge.group(2).strip(), entry.value().place()));
      return;
    }
    String[] path = what.split("\\.", -1);
    if (FormulaWords.SHEET.contains(path[0])) {
      if (!removePath(sheet, path, 0)) {
        problems.add(
            entry.value().place(),
            "nothing-to-remove",
            "The base formula has no " + Words.quoted(what) + ".");
      }
      return;
    }
    List<Node> lines = items("ingredients");
    if (lines.removeIf(line -> names(line, what))) {
      put("ingredients", lines, entry);
    } else {
      problems.add(
          entry.value().place(),
          "nothing-to-remove",
          "The base formula has no line " + Words.quoted(what) + ".",
          "Write an ingredient, a part such as product.texture, or a figure such as density of"
              + " Glycerin.");
    }
  }

  private static boolean removePath(Map<String, Node.Entry> from, String[] path, int level) {
    Node.Entry entry = from.get(path[level]);
    if (entry == null) {
      return false;
    }
    if (level == path.length - 1) {
      from.remove(path[level]);
      return true;
    }
    if (!(entry.value() instanceof Node.Mapping mapping)) {
      return false;
    }
    Map<String, Node.Entry> inner = new LinkedHashMap<>(mapping.entries());
    boolean removed = removePath(inner, path, level + 1);
    from.put(
        path[level],
        new Node.Entry(
            path[level],
            entry.keyPlace(),
            new Node.Mapping(mapping.place(), inner, mapping.flow())));
    return removed;
  }
}
