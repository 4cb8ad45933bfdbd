package gelwright.api;

import gelwright.api.html.Words;
import gelwright.ingredient.Source;
import gelwright.problem.Place;
import gelwright.problem.Spelling;
import gelwright.rule.Rule;
import gelwright.rule.RuleSet;
import gelwright.rule.Text;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
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
        "Checks a folder of rule sets: reads and compiles them, and runs the examples of their"
            + " rules.",
        "Without a folder, the bundled rule sets. All that is wrong is shown at once. Ends with 1"
            + " if an",
        "example does not do what it says or a rule lacks one, with 2 if anything cannot be read."
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
      List<Path> folders = new ArrayList<>(knowledge.ruleFolders());
      folder.ifPresent(folders::add);
      Engine.Checked checked =
          engine.check(folders, knowledge.ingredientFolders(), terminal.today().get());
      terminal.complain(TextReport.problems(checked.problems()));
      if (checked.problems().isEmpty() && checked.rules() + checked.changes() == 0) {
        terminal.complain("No rule was found, so nothing was checked.\n");
        return ExitStatus.WRONG;
      }
      StringBuilder text = new StringBuilder();
      int wrong = 0;
      for (Engine.ExampleOutcome outcome : checked.examples()) {
        if (!outcome.agrees()) {
          wrong++;
          line(
              text,
              outcome.place(),
              outcome.rule()
                  + ": this example should be '"
                  + outcome.expected()
                  + "' and is: "
                  + outcome.got());
        }
      }
      for (Engine.Lacking lacking : checked.lacking()) {
        line(
            text,
            lacking.place(),
            lacking.rule()
                + ": no example "
                + String.join(", none ", lacking.kinds().stream().map(Check::words).toList()));
      }
      int amiss = checked.problems().size() + wrong + checked.lacking().size();
      if (!quiet || amiss > 0) {
        text.append(sum(checked, wrong));
      }
      terminal.print(text.toString());
      if (!checked.problems().isEmpty()) {
        return ExitStatus.WRONG;
      }
      return amiss > 0 ? ExitStatus.FINDINGS : ExitStatus.FINE;
    }

    private static String sum(Engine.Checked checked, int wrong) {
      StringBuilder sum = new StringBuilder();
      if (!checked.problems().isEmpty()) {
        sum.append(Plain.count(checked.problems().size(), "problem"))
            .append("; only the examples of rules without one were run.\n");
      }
      if (!checked.examplesRun()) {
        sum.append(
            "Examples were not run: an ingredient or a base formula, on which they may rest,"
                + " cannot be read.\n");
      }
      sum.append(Plain.count(checked.rules(), "rule"))
          .append(", ")
          .append(Plain.count(checked.examples().size(), "example"))
          .append("; ")
          .append(wrong)
          .append(" of them not as said; ")
          .append(Plain.count(checked.lacking().size(), "rule"))
          .append(" without all examples.\n");
      if (checked.unshown() > 0) {
        sum.append(Plain.count(checked.unshown(), "kind"))
            .append(" of example 'none', because no sheet can show it.\n");
      }
      return sum.toString();
    }

    private static void line(StringBuilder text, Place place, String words) {
      String where = place.toString();
      text.append(Plain.line((where.isEmpty() ? "" : where + ": ") + words)).append('\n');
    }

    private static String words(String kind) {
      return switch (kind) {
        case "applies" -> "where it applies";
        case "does-not-apply" -> "where it does not apply";
        case "unknown" -> "that cannot be checked";
        default -> "that " + kind;
      };
    }
  }
}
