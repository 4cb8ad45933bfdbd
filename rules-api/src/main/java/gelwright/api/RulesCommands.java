package gelwright.api;

import gelwright.ingredient.Source;
import gelwright.problem.Spelling;
import gelwright.rule.Rule;
import gelwright.rule.RuleSet;
import gelwright.rule.Text;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** What the rules are, and whether a rule set is sound. */
@Command(
    name = "rules",
    mixinStandardHelpOptions = true,
    description = "Lists rules, shows one, or checks rule sets.")
final class RulesCommands implements Runnable {
  private static final int WIDTH = 92;

  @Spec private CommandSpec spec = CommandSpec.create();

  @Override
  public void run() {
    throw new ParameterException(spec.commandLine(), "Say what to do: list, show or check.");
  }

  private static String kind(Rule rule) {
    return rule.kind() == Rule.Kind.DUTY ? "duty" : rule.severity().word();
  }

  /** All rules. */
  @Command(
      name = "list",
      mixinStandardHelpOptions = true,
      description = "Lists every rule with its level and what it is about.")
  static final class ListThem implements Callable<Integer> {
    private final Engine engine;
    private final Terminal terminal;

    @Mixin private KnowledgeOptions knowledge = new KnowledgeOptions();

    ListThem(Engine engine, Terminal terminal) {
      this.engine = engine;
      this.terminal = terminal;
    }

    @Override
    public Integer call() {
      Optional<Engine.Loaded> loaded = knowledge.load(engine, terminal);
      if (loaded.isEmpty()) {
        return ExitStatus.WRONG;
      }
      StringBuilder text = new StringBuilder();
      for (RuleSet set : loaded.get().ruleSets()) {
        text.append(text.length() == 0 ? "" : "\n")
            .append(
                terminal
                    .ink()
                    .strong(
                        Plain.line(
                            set.title() + " (" + set.id() + ", edition " + set.edition() + ")")))
            .append('\n');
        List<List<String>> rows = new ArrayList<>();
        for (Rule rule : set.rules()) {
          rows.add(
              List.of(
                  "  " + set.id() + "." + rule.id(), kind(rule), Plain.line(rule.title().text())));
        }
        if (!rows.isEmpty()) {
          TextReport.table(text, withHead(rows), 3, Ink.PLAIN);
        }
        for (RuleSet.Change change : set.changes()) {
          text.append("  ").append(Plain.line(changed(change))).append('\n');
        }
      }
      terminal.print(text.toString());
      return loaded.get().ruleSets().stream().allMatch(set -> set.rules().isEmpty())
          ? ExitStatus.WRONG
          : ExitStatus.FINE;
    }

    private static List<List<String>> withHead(List<List<String>> rows) {
      List<List<String>> all = new ArrayList<>();
      all.add(List.of("  rule", "level", "title"));
      all.addAll(rows);
      return all;
    }
  }

  private static String changed(RuleSet.Change change) {
    String how =
        switch (change.how()) {
          case TIGHTEN -> "tightens ";
          case RELAX -> "relaxes ";
          case SWITCH_OFF -> "switches off ";
        };
    return how
        + change.rule().text()
        + change.require().map(text -> ", now: " + text.text()).orElse("")
        + change.when().map(text -> ", now when: " + text.text()).orElse("")
        + change.severity().map(severity -> ", now " + severity.word()).orElse("")
        + "; because: "
        + change.because();
  }

  /** One rule. */
  @Command(
      name = "show",
      mixinStandardHelpOptions = true,
      description = "Shows what a rule asks, why, and on what grounds.")
  static final class Show implements Callable<Integer> {
    private final Engine engine;
    private final Terminal terminal;

    @Mixin private KnowledgeOptions knowledge = new KnowledgeOptions();

    @Spec private CommandSpec spec = CommandSpec.create();

    @Parameters(paramLabel = "ID", description = "Such as oil-load.above-gel-capacity.")
    private String id = "";

    Show(Engine engine, Terminal terminal) {
      this.engine = engine;
      this.terminal = terminal;
    }

    @Override
    public Integer call() {
      Optional<Engine.Loaded> loaded = knowledge.load(engine, terminal);
      if (loaded.isEmpty()) {
        return ExitStatus.WRONG;
      }
      List<String> known = new ArrayList<>();
      for (RuleSet set : loaded.get().ruleSets()) {
        for (Rule rule : set.rules()) {
          String full = set.id() + "." + rule.id();
          known.add(full);
          if (full.equals(id) || rule.aliases().contains(id)) {
            terminal.print(page(full, set, rule, loaded.get()));
            return ExitStatus.FINE;
          }
        }
      }
      throw new ParameterException(
          spec.commandLine(), "There is no rule " + id + ". " + Spelling.hint(id, known));
    }

    private String page(String full, RuleSet set, Rule rule, Engine.Loaded loaded) {
      StringBuilder page = new StringBuilder();
      page.append(terminal.ink().strong(Plain.line(rule.title().text()))).append('\n');
      page.append(full)
          .append(", ")
          .append(kind(rule))
          .append(", edition ")
          .append(Plain.line(set.edition()))
          .append("\n\n");
      rule.forEach().ifPresent(text -> part(page, "For each", text.text()));
      part(page, "When", rule.when().map(Text::text).orElse("always"));
      rule.require().ifPresent(text -> part(page, "Asks that", text.text()));
      part(page, "Says", rule.message().text());
      part(page, "Why", rule.lesson());
      List<String> marks = new ArrayList<>();
      if (rule.alwaysKnown()) {
        marks.add("it can always be checked");
      }
      if (rule.mustBeKnown()) {
        marks.add("it counts as broken until it can be checked");
      }
      if (rule.keepWhenBorderline()) {
        marks.add("a probable break is reported at the full level");
      }
      if (!rule.mayBeAccepted()) {
        marks.add("a finding of it cannot be accepted");
      }
      part(page, "Mind", String.join("; ", marks));
      part(
          page,
          "Can be mended by",
          String.join("; ", rule.levers().stream().map(Text::text).toList()));
      for (Text source : rule.sources()) {
        part(
            page,
            "Source",
            loaded.catalogue().source(source.text()).map(Show::cited).orElse(source.text()));
      }
      part(page, "Examples", Integer.toString(loaded.examplesOf(full)));
      part(page, "Once called", String.join(", ", rule.aliases()));
      for (RuleSet other : loaded.ruleSets()) {
        for (RuleSet.Change change : other.changes()) {
          if (change.rule().text().equals(full)) {
            part(page, "Changed", other.id() + " " + changed(change));
          }
        }
      }
      return page.toString();
    }

    private static String cited(Source source) {
      return source.citation() + " [" + Words.standing(source.standing()) + "]";
    }

    private static void part(StringBuilder page, String head, String words) {
      if (words.isBlank()) {
        return;
      }
      int indent = 18;
      List<String> lines = Plain.wrap(words, WIDTH - indent);
      for (int i = 0; i < lines.size(); i++) {
        page.append(Plain.pad(i == 0 ? head : "", indent)).append(lines.get(i)).append('\n');
      }
    }
  }

  /** Whether a rule set is sound. */
  @Command(
      name = "check",
      mixinStandardHelpOptions = true,
      description = {
        "Checks a folder of rule sets: reads and compiles them, and runs the examples of their rules.",
        "Without a folder, the bundled rule sets. Ends with 1 if an example does not do what it says",
        "or a rule lacks one, with 2 if a rule set cannot be read."
      })
  static final class Check implements Callable<Integer> {
    private final Engine engine;
    private final Terminal terminal;

    @Mixin private KnowledgeOptions knowledge = new KnowledgeOptions();

    @Parameters(paramLabel = "DIR", arity = "0..1", description = "Folder with rule sets.")
    private Optional<Path> folder = Optional.empty();

    @Option(names = "--quiet", description = "Show only what is wrong.")
    private boolean quiet;

    Check(Engine engine, Terminal terminal) {
      this.engine = engine;
      this.terminal = terminal;
    }

    @Override
    public Integer call() {
      Optional<Engine.Loaded> loaded =
          knowledge.load(engine, terminal, folder.map(List::of).orElse(List.of()));
      if (loaded.isEmpty()) {
        return ExitStatus.WRONG;
      }
      List<RuleSet> sets =
          folder.isPresent() || !knowledge.ruleFolders().isEmpty()
              ? loaded.get().added()
              : loaded.get().ruleSets();
      if (sets.stream().allMatch(set -> set.rules().isEmpty() && set.changes().isEmpty())) {
        terminal.complain("No rule was found, so nothing was checked.\n");
        return ExitStatus.WRONG;
      }
      List<Engine.ExampleOutcome> outcomes = loaded.get().runExamples(sets, terminal.today().get());
      Map<String, Set<String>> shown = new LinkedHashMap<>();
      StringBuilder text = new StringBuilder();
      int wrong = 0;
      for (Engine.ExampleOutcome outcome : outcomes) {
        shown.computeIfAbsent(outcome.rule(), rule -> new TreeSet<>()).add(outcome.expected());
        if (!outcome.agrees()) {
          wrong++;
          String place = outcome.place().toString();
          text.append(
                  Plain.line(
                      (place.isEmpty() ? "" : place + ": ")
                          + outcome.rule()
                          + ": this example should be '"
                          + outcome.expected()
                          + "' and is: "
                          + outcome.got()))
              .append('\n');
        }
      }
      int rules = 0;
      int lacking = 0;
      for (RuleSet set : sets) {
        for (Rule rule : set.rules()) {
          rules++;
          String full = set.id() + "." + rule.id();
          List<String> missing = missing(rule, shown.getOrDefault(full, Set.of()));
          if (!missing.isEmpty()) {
            lacking++;
            String place = rule.place().toString();
            text.append(
                    Plain.line(
                        (place.isEmpty() ? "" : place + ": ")
                            + full
                            + ": no example "
                            + String.join(", none ", missing)))
                .append('\n');
          }
        }
      }
      if (!quiet || wrong + lacking > 0) {
        text.append(
            Plain.count(rules, "rule")
                + ", "
                + Plain.count(outcomes.size(), "example")
                + "; "
                + wrong
                + " of them not as said; "
                + Plain.count(lacking, "rule")
                + " without all examples.\n");
      }
      terminal.print(text.toString());
      return wrong + lacking > 0 ? ExitStatus.FINDINGS : ExitStatus.FINE;
    }

    /** Which of the examples that a rule owes it does not have. */
    private static List<String> missing(Rule rule, Set<String> shown) {
      List<String> missing = new ArrayList<>();
      boolean duty = rule.kind() == Rule.Kind.DUTY;
      if (duty) {
        owed(missing, shown, "applies", "where it applies");
        if (rule.when().isPresent()) {
          owed(missing, shown, "does-not-apply", "where it does not apply");
        }
      } else {
        owed(missing, shown, "holds", "that holds");
        owed(missing, shown, "breaks", "that breaks");
        if (!rule.alwaysKnown()) {
          owed(missing, shown, "unknown", "that cannot be checked");
        }
      }
      return missing;
    }

    private static void owed(List<String> missing, Set<String> shown, String kind, String words) {
      if (!shown.contains(kind)) {
        missing.add(words);
      }
    }
  }
}
