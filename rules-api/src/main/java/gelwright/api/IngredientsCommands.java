package gelwright.api;

import gelwright.api.html.Words;
import gelwright.ingredient.Acid;
import gelwright.ingredient.Catalogue;
import gelwright.ingredient.Figure;
import gelwright.ingredient.Gum;
import gelwright.ingredient.HeatLimit;
import gelwright.ingredient.Ingredient;
import gelwright.ingredient.InhibitoryLevel;
import gelwright.ingredient.Known;
import gelwright.ingredient.Lot;
import gelwright.ingredient.Source;
import gelwright.ingredient.Trait;
import gelwright.quantity.Estimate;
import gelwright.quantity.Numbers;
import gelwright.quantity.Quantity;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import java.util.function.Function;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** What is known of ingredients. */
@Command(
    name = "ingredients",
    mixinStandardHelpOptions = true,
    description = "Finds ingredients, or shows what is known of one.")
final class IngredientsCommands implements Runnable {
  private static final int WIDTH = 92;

  @Spec private CommandSpec spec = CommandSpec.create();

  @Override
  public void run() {
    throw new ParameterException(spec.commandLine(), "Say what to do: find or show.");
  }

  /** Ingredients by a part of a name or of a function. */
  @Command(
      name = "find",
      mixinStandardHelpOptions = true,
      description =
          "Finds ingredients by a part of the INCI name, a synonym, a function or the CAS number.")
  static final class Find implements Callable<Integer> {
    private final Engine engine;
    private final Terminal terminal;

    @Mixin private KnowledgeOptions knowledge = new KnowledgeOptions();

    @Parameters(paramLabel = "TEXT", arity = "1..*", description = "What to look for.")
    private List<String> words = new ArrayList<>();

    Find(Engine engine, Terminal terminal) {
      this.engine = engine;
      this.terminal = terminal;
    }

    @Override
    public Integer call() {
      Optional<Engine.Loaded> loaded = knowledge.load(engine, terminal);
      if (loaded.isEmpty()) {
        return ExitStatus.WRONG;
      }
      Catalogue catalogue = loaded.get().catalogue();
      String text = String.join(" ", words);
      String wanted = text.toLowerCase(Locale.ROOT);
      List<List<String>> rows = new ArrayList<>();
      rows.add(List.of("ingredient", "functions", "also called"));
      for (Ingredient ingredient : catalogue.ingredients()) {
        Set<String> functions = ingredient.functions().toOptional().orElse(Set.of());
        boolean hit =
            ingredient.name().toLowerCase(Locale.ROOT).contains(wanted)
                || ingredient.synonyms().stream()
                    .anyMatch(name -> name.toLowerCase(Locale.ROOT).contains(wanted))
                || functions.contains(wanted)
                || (!ingredient.cas().isEmpty() && ingredient.cas().equals(wanted));
        if (hit) {
          rows.add(
              List.of(
                  Plain.line(ingredient.name()),
                  ingredient.functions().isUnknown()
                      ? "not known"
                      : String.join(", ", new TreeSet<>(functions)),
                  Plain.line(String.join(", ", ingredient.synonyms()))));
        }
      }
      if (rows.size() == 1) {
        List<String> closest = catalogue.closest(text, 5);
        terminal.complain(
            "No ingredient is called "
                + Plain.line(text)
                + (closest.isEmpty() ? "." : ". Nearest: " + String.join(", ", closest) + ".")
                + "\n");
        return ExitStatus.FINDINGS;
      }
      StringBuilder out = new StringBuilder();
      TextReport.table(out, rows, 3, terminal.ink());
      terminal.print(out.toString());
      return ExitStatus.FINE;
    }
  }

  /** One ingredient. */
  @Command(
      name = "show",
      mixinStandardHelpOptions = true,
      description =
          "Shows what is known of an ingredient, each figure with its source, and what is not known.")
  static final class Show implements Callable<Integer> {
    private final Engine engine;
    private final Terminal terminal;

    @Mixin private KnowledgeOptions knowledge = new KnowledgeOptions();

    @Spec private CommandSpec spec = CommandSpec.create();

    @Parameters(paramLabel = "NAME", arity = "1..*", description = "INCI name or synonym.")
    private List<String> words = new ArrayList<>();

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
      Catalogue catalogue = loaded.get().catalogue();
      String name = String.join(" ", words);
      Optional<Ingredient> found = catalogue.find(name);
      if (found.isEmpty()) {
        List<String> closest = catalogue.closest(name, 3);
        throw new ParameterException(
            spec.commandLine(),
            "No ingredient is called "
                + name
                + "."
                + (closest.isEmpty() ? "" : " Did you mean " + String.join(" or ", closest) + "?"));
      }
      terminal.print(new Page(catalogue, terminal.ink()).of(found.get()));
      return ExitStatus.FINE;
    }
  }

  /** What is known of one ingredient; figures cite by number, the sources stand below. */
  private static final class Page {
    private static final int INDENT = 22;

    private final Catalogue catalogue;
    private final Ink ink;
    private final Set<String> cited = new LinkedHashSet<>();
    private final StringBuilder page = new StringBuilder();

    Page(Catalogue catalogue, Ink ink) {
      this.catalogue = catalogue;
      this.ink = ink;
    }

    String of(Ingredient ingredient) {
      page.append(ink.strong(Plain.line(ingredient.name()))).append('\n');
      part("Also called", String.join(", ", ingredient.synonyms()));
      part("CAS", ingredient.cas());
      part(
          "Functions", known(ingredient.functions(), set -> String.join(", ", new TreeSet<>(set))));
      part("Charge", known(ingredient.charge(), Function.identity()));
      part("Dissolves in", known(ingredient.dissolves(), Function.identity()));
      for (Trait trait : Trait.values()) {
        ingredient.trait(trait).ifPresent(figure -> part(trait.key(), figure(figure)));
      }
      part("Acid or base", known(ingredient.acid(), this::acid));
      part("Bears", known(ingredient.heat(), this::heat));
      part("Thickens", known(ingredient.gum(), this::gum));
      part(
          "Hydrates",
          known(
              ingredient.hydration(),
              data ->
                  "rate at 25 °C "
                      + figure(data.rate())
                      + "; activation energy "
                      + figure(data.activationEnergy())));
      part("Stops growth from", known(ingredient.inhibitory(), this::inhibitory));
      part("Forms sold", figures(ingredient.hydrates()));
      part("Grades", String.join(", ", ingredient.grades().keySet()));
      for (Lot lot : catalogue.lots()) {
        if (catalogue.lot(ingredient.name(), lot.name()).filter(lot::equals).isPresent()) {
          part("Lot " + Plain.line(lot.name()), lot(lot));
        }
      }
      List<String> parts = new ArrayList<>();
      ingredient.composition().forEach((name, share) -> parts.add(name + " " + share));
      part("Made of", String.join(", ", parts));
      part("Note", ingredient.note());
      int number = 0;
      for (String id : cited) {
        number++;
        part("[" + number + "]", catalogue.source(id).map(Page::source).orElse(id));
      }
      return page.toString();
    }

    private static String source(Source source) {
      return source.citation() + " [" + Words.standing(source.standing()) + "]";
    }

    private static <T> String known(Known<T> known, Function<T, String> words) {
      return known.<String>fold(words, "none", "not known");
    }

    private String figure(Figure figure) {
      StringBuilder words =
          new StringBuilder(Quantity.print(figure.unit().fromBase(figure.likely()), figure.unit()));
      if (figure.scale() == Estimate.Scale.FACTOR && figure.spread() > 1) {
        words.append(" within ×").append(Numbers.plain(figure.spread()));
      } else if (figure.scale() == Estimate.Scale.LINEAR && figure.spread() > 0) {
        words.append(" ± ").append(Numbers.plain(figure.unit().fromBase(figure.spread())));
      }
      for (String id : figure.sources()) {
        cited.add(id);
        words.append(" [").append(List.copyOf(cited).indexOf(id) + 1).append(']');
      }
      return words.toString();
    }

    private String figures(Map<String, Figure> figures) {
      List<String> parts = new ArrayList<>();
      figures.forEach((name, figure) -> parts.add(name + " " + figure(figure)));
      return String.join("; ", parts);
    }

    private String acid(Acid acid) {
      List<String> parts = new ArrayList<>();
      acid.pKa().forEach(pKa -> parts.add("pKa " + figure(pKa)));
      if (parts.isEmpty()) {
        parts.add("salt of strong ions");
      }
      if (!acid.parent().isEmpty()) {
        parts.add("counts as " + acid.parent());
      }
      return String.join("; ", parts);
    }

    private String heat(List<HeatLimit> limits) {
      List<String> parts = new ArrayList<>();
      for (HeatLimit limit : limits) {
        parts.add(
            "up to "
                + figure(limit.atMost())
                + ", "
                + limit.kind().word()
                + (limit.note().isEmpty() ? "" : ": " + limit.note()));
      }
      return String.join("; ", parts);
    }

    private String lot(Lot lot) {
      List<String> parts = new ArrayList<>();
      lot.gum().toOptional().ifPresent(gum -> parts.add(gum(gum)));
      lot.hydration()
          .toOptional()
          .ifPresent(data -> parts.add("hydrates at 25 °C with " + figure(data.rate())));
      if (!lot.note().isEmpty()) {
        parts.add(lot.note());
      }
      return parts.isEmpty() ? "as usual" : String.join("; ", parts);
    }

    private String gum(Gum gum) {
      return gum.law()
          + (gum.at() == 1 ? "" : " at " + Numbers.plain(gum.at()) + " %, known")
          + " from "
          + Numbers.plain(gum.from())
          + " % to "
          + Numbers.plain(gum.to())
          + " %: "
          + figures(new TreeMap<>(gum.parameters()))
          + gum.strength().map(figure -> "; strength " + figure(figure)).orElse("");
    }

    private String inhibitory(List<InhibitoryLevel> levels) {
      List<String> parts = new ArrayList<>();
      for (InhibitoryLevel level : levels) {
        parts.add(
            level.group()
                + " "
                + figure(level.level())
                + (level.basis() == InhibitoryLevel.Basis.UNDISSOCIATED
                    ? " undissociated"
                    : level.atPH().map(pH -> " at pH " + Numbers.plain(pH)).orElse("")));
      }
      return String.join("; ", parts);
    }

    private void part(String head, String words) {
      if (words.isBlank()) {
        return;
      }
      List<String> lines = Plain.wrap(words, WIDTH - INDENT);
      for (int i = 0; i < lines.size(); i++) {
        page.append(Plain.pad(i == 0 ? head : "", INDENT)).append(lines.get(i)).append('\n');
      }
    }
  }
}
