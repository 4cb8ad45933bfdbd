package gelwright.reference;

import gelwright.formula.Formula;
import gelwright.ingredient.Catalogue;
import gelwright.ingredient.Figure;
import gelwright.ingredient.Ingredient;
import gelwright.ingredient.Source;
import gelwright.ingredient.Trait;
import gelwright.profile.Profile;
import gelwright.review.Duty;
import gelwright.review.Finding;
import gelwright.review.Knowledge;
import gelwright.review.Outcome;
import gelwright.review.Review;
import gelwright.review.Reviewer;
import gelwright.rule.CompiledRule;
import gelwright.rule.Rule;
import gelwright.rule.RuleBook;
import gelwright.rule.Table;
import gelwright.rule.Text;
import gelwright.rule.Vocabulary;
import gelwright.sheets.Bundled;
import gelwright.sheets.BundledRuleSets;
import gelwright.sheets.Example;
import gelwright.sheets.FormulaReader;
import gelwright.sheets.Library;
import gelwright.sheets.Overlay;
import gelwright.sheets.RuleSheet;
import java.time.LocalDate;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.StringJoiner;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Pattern;

/** The reference pages by their path below {@code docs/reference}. */
final class Reference {
  /** Standings of bundled sources: what was measured in one workshop is in own sheets only. */
  private static final Set<Source.Standing> BUNDLED =
      EnumSet.complementOf(EnumSet.of(Source.Standing.MEASURED));

  private static final LocalDate ON = LocalDate.of(2026, 11, 25);
  private static final String HEAD =
      "<!-- Written by the build from the sheets; do not edit. -->\n\n";

  private final Library library = Bundled.load();
  private final Knowledge knowledge = BundledRuleSets.compile(library).orThrow();
  private final RuleBook book = knowledge.rules();
  private final Map<String, String> pages = new TreeMap<>();

  Map<String, String> pages() {
    for (RuleSheet sheet : library.ruleSheets()) {
      pages.put("rules/" + sheet.ruleSet().id() + ".md", set(sheet));
      for (Rule rule : sheet.ruleSet().rules()) {
        pages.put("rules/" + sheet.ruleSet().id() + "/" + rule.id() + ".md", rule(sheet, rule));
      }
    }
    pages.put("ingredients.md", ingredients());
    pages.put("bibliography.md", bibliography());
    pages.put("coverage.md", coverage());
    pages.put("README.md", index());
    return pages;
  }

  // --- The front page

  private String index() {
    StringBuilder page = new StringBuilder(HEAD);
    int rules = library.ruleSheets().stream().mapToInt(s -> s.ruleSet().rules().size()).sum();
    page.append("# Reference\n\n");
    page.append("What the bundled sheets know: ")
        .append(rules)
        .append(" rules and duties in ")
        .append(library.ruleSheets().size())
        .append(" rule sets, ")
        .append(library.catalogue().ingredients().size())
        .append(
            " [ingredients](ingredients.md), all with their sources in the [bibliography](bibliography.md).\n")
        .append(
            "[Coverage](coverage.md) tells what the examples show, which properties rules read, and which data are missing.\n\n");
    page.append("| rule set | asks about | rules | edition |\n|---|---|---|---|\n");
    for (RuleSheet sheet : library.ruleSheets()) {
      page.append("| [")
          .append(sheet.ruleSet().id())
          .append("](rules/")
          .append(sheet.ruleSet().id())
          .append(".md) | ")
          .append(cell(sheet.ruleSet().title()))
          .append(" | ")
          .append(sheet.ruleSet().rules().size())
          .append(" | ")
          .append(sheet.ruleSet().edition())
          .append(" |\n");
    }
    page.append("\n## Where the numbers come from\n\n");
    page.append("| | published | common practice | from memory |\n|---|---|---|---|\n");
    row(page, "figures of ingredients", figureStandings());
    row(page, "rows of tables", rowStandings());
    row(page, "rules and duties", ruleStandings());
    page.append(
        "\nA figure counts by the weakest of its sources. *Published* can be looked up; *common practice* is a rule of thumb of the trade without a source; *from memory* was recalled or proposed and not checked against a text, and carries a wide range.\n");
    return page.toString();
  }

  private void row(StringBuilder page, String what, Map<Source.Standing, Integer> counts) {
    page.append("| ").append(what);
    for (Source.Standing standing : BUNDLED) {
      page.append(" | ").append(counts.getOrDefault(standing, 0));
    }
    page.append(" |\n");
  }

  private Map<Source.Standing, Integer> figureStandings() {
    Map<Source.Standing, Integer> counts = new EnumMap<>(Source.Standing.class);
    for (Ingredient ingredient : library.catalogue().ingredients()) {
      for (Figure figure : FiguresOf.all(ingredient)) {
        counts.merge(weakest(figure.sources()), 1, Integer::sum);
      }
    }
    return counts;
  }

  private Map<Source.Standing, Integer> rowStandings() {
    Map<Source.Standing, Integer> counts = new EnumMap<>(Source.Standing.class);
    for (RuleSheet sheet : library.ruleSheets()) {
      for (Table table : sheet.ruleSet().tables()) {
        for (Table.Row row : table.rows()) {
          counts.merge(weakest(texts(row.sources())), 1, Integer::sum);
        }
      }
    }
    return counts;
  }

  private Map<Source.Standing, Integer> ruleStandings() {
    Map<Source.Standing, Integer> counts = new EnumMap<>(Source.Standing.class);
    for (RuleSheet sheet : library.ruleSheets()) {
      for (Rule rule : sheet.ruleSet().rules()) {
        counts.merge(weakest(texts(rule.sources())), 1, Integer::sum);
      }
    }
    return counts;
  }

  private Source.Standing weakest(List<String> ids) {
    Source.Standing weakest = Source.Standing.PUBLISHED;
    for (String id : ids) {
      Source.Standing own = library.catalogue().source(id).orElseThrow().standing();
      weakest = own.compareTo(weakest) > 0 ? own : weakest;
    }
    return weakest;
  }

  private static List<String> texts(List<Text> texts) {
    return texts.stream().map(Text::text).toList();
  }

  // --- A rule set

  private String set(RuleSheet sheet) {
    StringBuilder page = new StringBuilder(HEAD);
    page.append("# ").append(sheet.ruleSet().id()).append(": ").append(sheet.ruleSet().title());
    page.append("\n\nEdition ")
        .append(sheet.ruleSet().edition())
        .append(". [All rule sets](../README.md).\n\n");
    page.append("| rule | what it is about | kind | level |\n|---|---|---|---|\n");
    for (Rule rule : sheet.ruleSet().rules()) {
      page.append("| [")
          .append(rule.id())
          .append("](")
          .append(sheet.ruleSet().id())
          .append('/')
          .append(rule.id())
          .append(".md) | ")
          .append(cell(rule.title().text()))
          .append(" | ")
          .append(word(rule.kind()))
          .append(" | ")
          .append(word(rule.severity()))
          .append(" |\n");
    }
    for (Table table : sheet.ruleSet().tables()) {
      page.append("\n## Table ")
          .append(table.name())
          .append("\n\n")
          .append(table(table, table.columns().keySet()));
    }
    return page.toString();
  }

  private String table(Table table, Set<String> wanted) {
    List<String> columns =
        table.rows().stream()
            .flatMap(row -> row.cells().keySet().stream())
            .distinct()
            .filter(wanted::contains)
            .sorted()
            .toList();
    StringBuilder text = new StringBuilder("| row");
    columns.forEach(column -> text.append(" | ").append(column));
    text.append(" | sources |\n|---").append("|---".repeat(columns.size())).append("|---|\n");
    for (Table.Row row : table.rows()) {
      text.append("| ").append(cell(row.key()));
      for (String column : columns) {
        text.append(" | ").append(row.cell(column).map(Reference::cell).orElse(""));
      }
      text.append(" | ").append(sources(texts(row.sources()), "../")).append(" |\n");
    }
    return text.toString();
  }

  private static String cell(Table.Cell cell) {
    if (cell instanceof Table.Cell.Number number) {
      return number.value().toString();
    }
    return cell(String.join(", ", new TreeSet<>(((Table.Cell.Names) cell).names())));
  }

  private static String cell(String text) {
    return text.replace("|", "\\|").replace("\n", " ");
  }

  // --- A rule

  private String rule(RuleSheet sheet, Rule rule) {
    String id = sheet.ruleSet().id() + "." + rule.id();
    StringBuilder page = new StringBuilder(HEAD);
    page.append("# ").append(rule.title().text()).append("\n\n`").append(id).append("` – ");
    page.append(word(rule.kind())).append(", level ").append(word(rule.severity()));
    if (rule.alwaysKnown()) {
      page.append("; never unknown");
    }
    if (rule.mustBeKnown()) {
      page.append("; must be known: what cannot be checked is reported at this level");
    }
    if (!rule.mayBeAccepted()) {
      page.append("; may not be accepted");
    }
    page.append(". [Rule set ")
        .append(sheet.ruleSet().id())
        .append("](../")
        .append(sheet.ruleSet().id())
        .append(".md).\n\n");
    page.append("## What it asks\n\n```yaml\n");
    rule.forEach().ifPresent(text -> page.append("for each: ").append(text.text()).append('\n'));
    rule.when().ifPresent(text -> page.append("when: ").append(text.text()).append('\n'));
    rule.require().ifPresent(text -> page.append("require: ").append(text.text()).append('\n'));
    page.append("```\n\n## Why\n\n").append(rule.lesson().strip()).append("\n");
    if (!rule.levers().isEmpty()) {
      page.append("\nWhat may put it right: ")
          .append(String.join(", ", texts(rule.levers())))
          .append(".\n");
    }
    page.append(limits(sheet, rule));
    page.append(examples(sheet, rule, id));
    page.append("\n## Sources\n\n");
    for (String source : texts(rule.sources())) {
      Source each = library.catalogue().source(source).orElseThrow();
      page.append("- ")
          .append(each.citation())
          .append(" (")
          .append(words(each.standing()))
          .append(")\n");
    }
    if (rule.sources().isEmpty()) {
      page.append("Of each row; see the table.\n");
    }
    return page.toString();
  }

  // The rows a rule goes through or looks up, with the columns it reads.
  private String limits(RuleSheet sheet, Rule rule) {
    String asked =
        rule.when().map(Text::text).orElse("")
            + " "
            + rule.require().map(Text::text).orElse("")
            + " "
            + rule.message().text();
    StringBuilder text = new StringBuilder();
    for (RuleSheet each : library.ruleSheets()) {
      for (Table table : each.ruleSet().tables()) {
        boolean goes =
            each == sheet
                && rule.forEach().map(t -> t.text().equals("row of " + table.name())).orElse(false);
        Set<String> columns = new TreeSet<>();
        for (String column : table.columns().keySet()) {
          boolean looksUp =
              Pattern.compile(
                      "\\b"
                          + Pattern.quote(table.name())
                          + "\\[[^\\]]*\\]\\."
                          + column
                          + "(?![\\w-])")
                  .matcher(asked)
                  .find();
          boolean ofRow =
              goes && Pattern.compile("\\brow\\." + column + "(?![\\w-])").matcher(asked).find();
          if (looksUp || ofRow) {
            columns.add(column);
          }
        }
        if (!columns.isEmpty()) {
          text.append("\nTable `")
              .append(table.name())
              .append("`:\n\n")
              .append(table(table, columns));
        }
      }
    }
    return text.isEmpty() ? "" : "\n## Limits\n" + text;
  }

  // One example of each kind, with what the engine really says.
  private String examples(RuleSheet sheet, Rule rule, String id) {
    StringBuilder text = new StringBuilder();
    Set<String> shown = new LinkedHashSet<>();
    for (Example example : sheet.examples()) {
      if (example.rule().equals(rule.id()) && shown.add(example.expected())) {
        text.append(example(example, rule, id));
      }
    }
    return text.isEmpty() ? "" : "\n## Examples\n" + text;
  }

  private String example(Example example, Rule rule, String id) {
    StringBuilder text = new StringBuilder();
    text.append("\n**").append(example.expected().replace('-', ' ')).append("** – ");
    text.append("*").append(example.base()).append("*");
    String change = Sheets.block(example.overlay());
    text.append(change.isEmpty() ? " as it is\n" : " with\n\n```yaml\n" + change + "\n```\n");
    Overlay.Applied applied =
        Overlay.apply(library.bases().get(example.base()), example.overlay()).orThrow();
    Formula formula = new FormulaReader().read(applied.formula()).orThrow();
    Catalogue catalogue = applied.of(library.catalogue()).orThrow();
    Review review = Reviewer.using(new Knowledge(catalogue, book)).review(formula, ON);
    for (Finding finding : review.findings()) {
      if (finding.rule().equals(id)
          && example.row().map(row -> finding.subject().name().equals(row)).orElse(true)
          && finding.outcome() != Outcome.UNKNOWN == !example.expected().equals("unknown")) {
        text.append("\n> ").append(finding.message().strip().replace("\n", " ")).append("\n");
        break;
      }
    }
    for (Duty duty : review.duties()) {
      if (duty.rule().equals(id) && rule.kind() == Rule.Kind.DUTY) {
        text.append("\n> ").append(duty.message().strip().replace("\n", " ")).append("\n");
        break;
      }
    }
    return text.toString();
  }

  // --- Ingredients

  private String ingredients() {
    StringBuilder page = new StringBuilder(HEAD);
    page.append("# Ingredients\n\n");
    page.append(
        "By INCI name. Figures count by the weakest of their sources: published, common practice, from memory.\n\n");
    page.append(
        "| INCI name | also | CAS | functions | charge | figures (p, c, m) |\n|---|---|---|---|---|---|\n");
    for (Ingredient each : library.catalogue().ingredients()) {
      Map<Source.Standing, Integer> counts = new EnumMap<>(Source.Standing.class);
      FiguresOf.all(each)
          .forEach(figure -> counts.merge(weakest(figure.sources()), 1, Integer::sum));
      StringJoiner figures = new StringJoiner(", ");
      for (Source.Standing standing : BUNDLED) {
        figures.add(String.valueOf(counts.getOrDefault(standing, 0)));
      }
      page.append("| ").append(cell(each.name()));
      page.append(" | ").append(cell(String.join(", ", each.synonyms())));
      page.append(" | ").append(each.cas());
      page.append(" | ")
          .append(String.join(", ", new TreeSet<>(each.functions().toOptional().orElse(Set.of()))));
      page.append(" | ").append(each.charge().fold(charge -> charge, "none", "not known"));
      page.append(" | ").append(figures).append(" |\n");
    }
    return page.toString();
  }

  // --- Sources

  private String bibliography() {
    StringBuilder page = new StringBuilder(HEAD);
    page.append("# Bibliography\n");
    for (Source.Standing standing : BUNDLED) {
      page.append("\n## ").append(capital(words(standing))).append("\n\n");
      for (Source source : library.catalogue().sources()) {
        if (source.standing() == standing) {
          page.append("- `")
              .append(source.id())
              .append("` ")
              .append(source.citation())
              .append('\n');
        }
      }
    }
    return page.toString();
  }

  // --- Coverage

  private String coverage() {
    StringBuilder page = new StringBuilder(HEAD);
    page.append("# Coverage\n\n## Rules and their examples\n\n");
    List<String> kinds =
        List.of(
            "holds",
            "breaks",
            "borderline",
            "unknown",
            "not-applicable",
            "applies",
            "may-apply",
            "does-not-apply");
    page.append("| rule | ")
        .append(String.join(" | ", kinds))
        .append(" |\n|---")
        .append("|---".repeat(kinds.size()))
        .append("|\n");
    for (RuleSheet sheet : library.ruleSheets()) {
      for (Rule rule : sheet.ruleSet().rules()) {
        page.append("| [")
            .append(sheet.ruleSet().id())
            .append('.')
            .append(rule.id())
            .append("](rules/")
            .append(sheet.ruleSet().id())
            .append('/')
            .append(rule.id())
            .append(".md)");
        for (String kind : kinds) {
          long count =
              sheet.examples().stream()
                  .filter(e -> e.rule().equals(rule.id()) && e.expected().equals(kind))
                  .count();
          boolean cannot = sheet.unshowable().getOrDefault(rule.id(), Set.of()).contains(kind);
          page.append(" | ").append(count > 0 ? String.valueOf(count) : cannot ? "–" : "");
        }
        page.append(" |\n");
      }
    }
    page.append(
        "\n– : no sheet can show it.\n\n## Properties and the rules that read them\n\n| property | rules |\n|---|---|\n");
    Map<String, Set<String>> readers = new TreeMap<>();
    for (Vocabulary.Property property : Profile.vocabulary().properties()) {
      readers.put(property.name(), new TreeSet<>());
    }
    for (CompiledRule rule : book.rules()) {
      for (String input : rule.inputs()) {
        readers.computeIfAbsent(input, key -> new TreeSet<>()).add(rule.id());
      }
    }
    readers.forEach(
        (property, rules) ->
            page.append("| `")
                .append(property)
                .append("` | ")
                .append(rules.isEmpty() ? "none yet" : String.join(", ", rules))
                .append(" |\n"));
    page.append("\n## Ingredients and what is not known of them\n\nOf ")
        .append(library.catalogue().ingredients().size())
        .append(" ingredients the sheets do not tell:\n\n| | of how many |\n|---|---|\n");
    Map<String, Integer> missing = new TreeMap<>();
    for (Ingredient each : library.catalogue().ingredients()) {
      count(missing, "functions", each.functions().isUnknown());
      count(missing, "electric charge", each.charge().isUnknown());
      count(missing, "what it dissolves in", each.dissolves().isUnknown());
      count(missing, "acid–base behaviour", each.acid().isUnknown());
      count(missing, "what it bears in the process", each.heat().isUnknown());
      count(missing, "density", each.trait(Trait.DENSITY).isEmpty());
      count(missing, "CAS number", each.cas().isEmpty());
      boolean gum = each.functions().toOptional().orElse(Set.of()).contains("gum");
      count(missing, "flow law (of gums)", gum && each.gum().isUnknown());
      count(missing, "hydration (of gums)", gum && each.hydration().isUnknown());
      boolean preservative =
          each.functions().toOptional().orElse(Set.of()).contains("preservative");
      count(
          missing,
          "inhibitory levels (of preservatives)",
          preservative && each.inhibitory().isUnknown());
    }
    missing.forEach(
        (what, count) -> page.append("| ").append(what).append(" | ").append(count).append(" |\n"));
    return page.toString();
  }

  private static void count(Map<String, Integer> counts, String what, boolean missing) {
    counts.merge(what, missing ? 1 : 0, Integer::sum);
  }

  // --- Words

  private String sources(List<String> ids, String up) {
    StringJoiner text = new StringJoiner("; ");
    for (String id : new LinkedHashSet<>(ids)) {
      Source source = library.catalogue().source(id).orElseThrow();
      text.add(source.id() + " (" + words(source.standing()) + ")");
    }
    return text.toString();
  }

  private static String words(Source.Standing standing) {
    return standing.word().replace('-', ' ');
  }

  private static String word(Enum<?> each) {
    return each.name().toLowerCase(Locale.ROOT);
  }

  private static String capital(String text) {
    return text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
  }
}
