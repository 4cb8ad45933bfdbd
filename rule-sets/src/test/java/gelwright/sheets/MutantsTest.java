package gelwright.sheets;

import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.formula.Formula;
import gelwright.ingredient.Catalogue;
import gelwright.ingredient.Source;
import gelwright.profile.Profile;
import gelwright.quantity.Estimate;
import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import gelwright.review.Knowledge;
import gelwright.review.Outcome;
import gelwright.review.Reviewer;
import gelwright.review.Subject;
import gelwright.rule.Comparison;
import gelwright.rule.Compilation;
import gelwright.rule.CompiledRule;
import gelwright.rule.Rule;
import gelwright.rule.RuleBook;
import gelwright.rule.RuleSet;
import gelwright.rule.Table;
import gelwright.rule.Text;
import java.math.BigDecimal;
import java.math.MathContext;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

/**
 * Would the examples of the bundled rules notice a slip of the pen? Every comparison is turned
 * round and every limit moved, one at a time, and the examples of that rule are run again: at least
 * one must come out otherwise.
 *
 * <p>A limit that is compared with an exact number is moved by a tenth of itself either way (a pH
 * and a temperature, whose zero means nothing, by a tenth of their figure too). One that is
 * compared with a number in doubt is moved by that number's own 90 % range, since a smaller slip
 * makes no difference anybody could see. What cannot be moved – zero, a count – is not.
 */
final class MutantsTest {
  private static final LocalDate ON = LocalDate.of(2026, 11, 25);

  /** Share of the mutants that examples must notice. */
  private static final double NOTICED = 0.95;

  private static final Pattern COMPARISON =
      Pattern.compile(
          "<=|>=|!=|(?<![<>!])=|<|>|(?<= )(not in|in|has|within|is known|is unknown)(?= |$)");

  private static final Pattern LIMIT =
      Pattern.compile(
          "(?<![\\w.\"-])(\\d+(?:\\.\\d+)?)( ?)(%|ppm|Pa·s|mPa·s|Pa|°C|K|min|h|/s|mol/kg|mmol/kg|pH|µm|mm|g/mL|g|rpm|g/L)?(?![\\w.\"])");

  private final Library library = Bundled.load();
  private final Set<String> sources =
      library.catalogue().sources().stream().map(Source::id).collect(Collectors.toSet());
  private final Map<Example, Ready> ready = new HashMap<>();

  /** An example that was read. */
  private record Ready(Formula formula, Catalogue catalogue) {}

  /** A slip of the pen in one rule or one row. */
  private record Mutant(String rule, Optional<String> row, String what, RuleSet set) {}

  @Test
  @DisplayName("turned comparisons and moved limits are noticed by the examples")
  void noticed() {
    List<Mutant> mutants = new ArrayList<>();
    Map<String, RuleSheet> sheets = new LinkedHashMap<>();
    for (RuleSheet sheet : library.ruleSheets()) {
      sheets.put(sheet.ruleSet().id(), sheet);
      for (Example example : sheet.examples()) {
        read(example).ifPresent(each -> ready.put(example, each));
      }
    }
    // -Dmutants.sets=acidity,texture looks at these sets alone; empty looks at all of them.
    Set<String> wanted = Set.of(System.getProperty("mutants.sets", "").split(","));
    boolean all = wanted.contains("");
    for (RuleSheet sheet : library.ruleSheets()) {
      if (!all && !wanted.contains(sheet.ruleSet().id())) {
        continue;
      }
      for (Rule rule : sheet.ruleSet().rules()) {
        mutants.addAll(mutants(sheet, rule));
      }
      for (Table table : sheet.ruleSet().tables()) {
        mutants.addAll(mutants(sheet, table));
      }
    }
    Map<Mutant, Boolean> noticed =
        mutants.parallelStream()
            .collect(
                Collectors.toConcurrentMap(
                    mutant -> mutant, mutant -> isNoticed(sheets.get(mutant.set().id()), mutant)));
    List<String> survivors =
        mutants.stream()
            .filter(mutant -> !noticed.get(mutant))
            .map(
                mutant ->
                    mutant.rule()
                        + mutant.row().map(r -> " [" + r + "]").orElse("")
                        + ": "
                        + mutant.what())
            .sorted()
            .toList();
    double share = 1 - (double) survivors.size() / mutants.size();
    String summary =
        mutants.size()
            + " mutants, "
            + survivors.size()
            + " not noticed ("
            + Math.round(1000 * share) / 10.0
            + " % are)";
    if (Boolean.getBoolean("mutants.list")) {
      System.out.println(summary + "\n" + String.join("\n", survivors));
    }
    assertTrue(mutants.size() > (all ? 500 : 0), summary);
    assertTrue(share >= NOTICED, summary + "\n" + String.join("\n", survivors));
  }

  private Optional<Ready> read(Example example) {
    return Optional.ofNullable(library.bases().get(example.base()))
        .flatMap(base -> Overlay.apply(base, example.overlay()).value())
        .flatMap(
            applied ->
                new FormulaReader()
                    .read(applied.formula())
                    .value()
                    .flatMap(
                        formula ->
                            applied
                                .of(library.catalogue())
                                .value()
                                .map(catalogue -> new Ready(formula, catalogue))));
  }

  // --- Making mutants

  private List<Mutant> mutants(RuleSheet sheet, Rule rule) {
    List<Mutant> mutants = new ArrayList<>();
    String id = sheet.ruleSet().id() + "." + rule.id();
    OptionalDouble doubt = doubt(sheet, rule);
    rule.when()
        .ifPresent(
            text -> {
              for (String changed : slips(text.text(), OptionalDouble.empty())) {
                add(
                    mutants,
                    id,
                    text.text(),
                    changed,
                    sheet,
                    with(rule, Optional.of(new Text(changed, text.place())), rule.require()));
              }
            });
    rule.require()
        .ifPresent(
            text -> {
              for (String changed : slips(text.text(), doubt)) {
                add(
                    mutants,
                    id,
                    text.text(),
                    changed,
                    sheet,
                    with(rule, rule.when(), Optional.of(new Text(changed, text.place()))));
              }
            });
    return mutants;
  }

  private void add(
      List<Mutant> mutants, String id, String text, String changed, RuleSheet sheet, Rule rule) {
    RuleSet set = only(sheet.ruleSet(), List.of(rule), sheet.ruleSet().tables());
    if (book(set).isPresent()) {
      mutants.add(new Mutant(id, Optional.empty(), text + "  ->  " + changed, set));
    }
  }

  private List<Mutant> mutants(RuleSheet sheet, Table table) {
    List<Mutant> mutants = new ArrayList<>();
    for (Table.Row row : table.rows()) {
      for (Map.Entry<String, Table.Cell> cell : new TreeMap<>(row.cells()).entrySet()) {
        if (!(cell.getValue() instanceof Table.Cell.Number number) || number.value().value() == 0) {
          continue;
        }
        List<Rule> users =
            sheet.ruleSet().rules().stream()
                .filter(rule -> uses(rule, table.name(), cell.getKey()))
                .toList();
        if (users.isEmpty()) {
          continue;
        }
        OptionalDouble doubt =
            users.stream()
                .map(rule -> doubt(sheet, rule))
                .filter(OptionalDouble::isPresent)
                .findFirst()
                .orElse(OptionalDouble.empty());
        for (double value : moved(number.value(), doubt)) {
          Quantity changed = new Quantity(value, number.value().unit());
          Map<String, Table.Cell> cells = new HashMap<>(row.cells());
          cells.put(cell.getKey(), new Table.Cell.Number(changed));
          Table.Row other = new Table.Row(row.key(), cells, row.sources(), row.place());
          Table with =
              new Table(
                  table.name(),
                  table.columns(),
                  table.rows().stream().map(each -> each == row ? other : each).toList(),
                  table.place());
          RuleSet set =
              only(
                  sheet.ruleSet(),
                  users,
                  sheet.ruleSet().tables().stream()
                      .map(each -> each == table ? with : each)
                      .toList());
          mutants.add(
              new Mutant(
                  sheet.ruleSet().id() + "." + table.name(),
                  Optional.of(row.key()),
                  cell.getKey() + " " + number.value() + "  ->  " + changed,
                  set));
        }
      }
    }
    return mutants;
  }

  private static boolean uses(Rule rule, String table, String column) {
    String all =
        rule.when().map(Text::text).orElse("") + " " + rule.require().map(Text::text).orElse("");
    boolean goes = rule.forEach().map(text -> text.text().contains(table)).orElse(false);
    return (goes && all.contains("row." + column))
        || all.matches("(?s).*\\b" + table + "\\[[^\\]]*\\]\\." + column + "\\b.*");
  }

  private static List<String> slips(String text, OptionalDouble doubt) {
    List<String> slips = new ArrayList<>();
    for (MatchResult match : (Iterable<MatchResult>) COMPARISON.matcher(text).results()::iterator) {
      if (isQuoted(text, match.start())) {
        continue;
      }
      switch (match.group()) {
        case "<=" -> slips.add(replaced(text, match, ">"));
        case ">=" -> slips.add(replaced(text, match, "<"));
        case "<" -> slips.add(replaced(text, match, ">="));
        case ">" -> slips.add(replaced(text, match, "<="));
        case "=" -> slips.add(replaced(text, match, "!="));
        case "!=" -> slips.add(replaced(text, match, "="));
        case "in" -> slips.add(replaced(text, match, "not in"));
        case "not in" -> slips.add(replaced(text, match, "in"));
        case "is known" -> slips.add(replaced(text, match, "is unknown"));
        case "is unknown" -> slips.add(replaced(text, match, "is known"));
        default -> {
          // "a has b" and "a within b .. c" are denied by a word before the a.
          Matcher operand =
              Pattern.compile("[\\w.-]+(\\([^)]*\\)|\\[[^\\]]*\\]\\.[\\w-]+)? $")
                  .matcher(text.substring(0, match.start()));
          if (operand.find()) {
            slips.add(
                text.substring(0, operand.start())
                    + "(not "
                    + text.substring(operand.start(), match.start())
                    + tail(text, match));
          }
        }
      }
    }
    for (MatchResult match : (Iterable<MatchResult>) LIMIT.matcher(text).results()::iterator) {
      double value = Double.parseDouble(match.group(1));
      if (value == 0
          || match.group(3) == null
          || isQuoted(text, match.start())
          || isArgument(text, match)) {
        continue;
      }
      Quantity limit = Quantity.parse(match.group()).orElseThrow();
      for (double moved : moved(limit, doubt)) {
        slips.add(replaced(text, match, plain(moved) + " " + match.group(3)));
      }
    }
    return slips;
  }

  // To ten digits: rounding to three would use up the hair by which a limit is moved too far.
  private static String plain(double value) {
    return new BigDecimal(value).round(new MathContext(10)).stripTrailingZeros().toPlainString();
  }

  private static String tail(String text, MatchResult match) {
    Matcher end = Pattern.compile(" and | or |\\)").matcher(text);
    int close = end.find(match.end()) ? end.start() : text.length();
    return text.substring(match.start(), close) + ")" + text.substring(close);
  }

  private static boolean isQuoted(String text, int at) {
    return text.substring(0, at).chars().filter(c -> c == '"').count() % 2 == 1;
  }

  // The shear rate in gel.viscosity(10 /s) is where to look, not a limit.
  private static boolean isArgument(String text, MatchResult match) {
    return text.substring(0, match.start()).endsWith("viscosity(");
  }

  private static String replaced(String text, MatchResult match, String by) {
    return text.substring(0, match.start()) + by + text.substring(match.end());
  }

  private static double[] moved(Quantity limit, OptionalDouble doubt) {
    double value = limit.value();
    boolean scale =
        limit.unit() == Unit.PH || limit.unit() == Unit.CELSIUS || limit.unit() == Unit.KELVIN;
    if (doubt.isEmpty()) {
      return new double[] {value * 1.1, value * 0.9};
    }
    // A hair more than the range, so that an example right on the limit is past the odds of 95 %.
    double by = 1.02 * doubt.getAsDouble();
    return scale
        ? new double[] {value + by, value - by}
        : new double[] {value * (1 + by), value / (1 + by)};
  }

  // How far the 90 % range of what the rule observes reaches above the likely value, in the
  // examples: in its unit for a pH or a temperature, else relative to the likely value. Empty where
  // it is exact.
  private OptionalDouble doubt(RuleSheet sheet, Rule rule) {
    Optional<RuleBook> book = book(only(sheet.ruleSet(), List.of(rule), sheet.ruleSet().tables()));
    if (book.isEmpty() || rule.require().isEmpty()) {
      return OptionalDouble.empty();
    }
    CompiledRule compiled = book.get().rules().get(0);
    double most = 0;
    for (Example example : sheet.examples()) {
      Ready each = ready.get(example);
      if (each == null || !example.rule().equals(rule.id())) {
        continue;
      }
      Profile profile = Profile.of(each.formula(), each.catalogue());
      for (gelwright.rule.Subject subject : compiled.subjects(profile)) {
        Optional<Comparison> comparison = compiled.require(profile, subject).comparison();
        if (comparison.isPresent()
            && comparison.get().observed().value().isKnown()
            && comparison.get().limit().value().isKnown()) {
          Estimate observed = comparison.get().observed().value().atLeast();
          Estimate limit = comparison.get().limit().value().atLeast();
          Unit unit = comparison.get().observed().unit();
          boolean scale = unit == Unit.PH || unit == Unit.CELSIUS;
          double reach = Math.hypot(reach(observed, scale), reach(limit, scale));
          most = Math.max(most, reach);
        }
      }
    }
    return most > 1e-9 ? OptionalDouble.of(most) : OptionalDouble.empty();
  }

  private static double reach(Estimate estimate, boolean scale) {
    double reach = estimate.high() - estimate.likely();
    return scale || estimate.likely() == 0 ? reach : Math.abs(reach / estimate.likely());
  }

  // --- Running them

  private static Rule with(Rule rule, Optional<Text> when, Optional<Text> require) {
    return new Rule(
        rule.id(),
        rule.title(),
        rule.kind(),
        rule.severity(),
        rule.forEach(),
        when,
        require,
        rule.message(),
        rule.lesson(),
        rule.levers(),
        rule.sources(),
        false,
        rule.mustBeKnown(),
        rule.keepWhenBorderline(),
        rule.mayBeAccepted(),
        rule.aliases(),
        rule.place());
  }

  private static RuleSet only(RuleSet set, List<Rule> rules, List<Table> tables) {
    return new RuleSet(set.id(), set.title(), set.edition(), rules, tables, List.of(), set.place());
  }

  private Optional<RuleBook> book(RuleSet set) {
    List<RuleSet> sets = new ArrayList<>();
    for (RuleSet each : library.ruleSets()) {
      sets.add(each.id().equals(set.id()) ? set : only(each, List.of(), each.tables()));
    }
    Compilation compilation = RuleBook.compile(sets, Profile.vocabulary(), sources);
    return compilation.book();
  }

  private boolean isNoticed(RuleSheet sheet, Mutant mutant) {
    RuleBook book = book(mutant.set()).orElseThrow();
    for (Rule rule : mutant.set().rules()) {
      for (Example example : sheet.examples()) {
        Ready each = ready.get(example);
        if (each != null
            && example.rule().equals(rule.id())
            && !outcome(book, sheet.ruleSet().id() + "." + rule.id(), rule, example, each)
                .equals(example.expected())) {
          return true;
        }
      }
    }
    return false;
  }

  private static String outcome(RuleBook book, String id, Rule rule, Example example, Ready ready) {
    Reviewer reviewer = Reviewer.using(new Knowledge(ready.catalogue(), book));
    Map<Subject, Outcome> outcomes = reviewer.outcomes(ready.formula(), ON, id);
    if (example.row().isPresent()) {
      return outcomes.entrySet().stream()
          .filter(entry -> entry.getKey().name().equals(example.row().get()))
          .map(entry -> entry.getValue().word())
          .findFirst()
          .orElse("");
    }
    return Reviewer.worst(outcomes.values())
        .orElse(rule.kind() == Rule.Kind.DUTY ? Outcome.DOES_NOT_APPLY : Outcome.NOT_APPLICABLE)
        .word();
  }
}
