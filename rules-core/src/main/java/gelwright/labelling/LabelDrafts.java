package gelwright.labelling;

import static java.util.Objects.requireNonNull;

import gelwright.formula.Amount;
import gelwright.formula.Brief;
import gelwright.formula.Formula;
import gelwright.formula.Line;
import gelwright.ingredient.Ingredient;
import gelwright.ingredient.Source;
import gelwright.profile.Profile;
import gelwright.quantity.Bounded;
import gelwright.quantity.Unit;
import gelwright.review.Duty;
import gelwright.review.Editions;
import gelwright.review.Finding;
import gelwright.review.Knowledge;
import gelwright.review.Outcome;
import gelwright.review.Review;
import gelwright.review.Reviewer;
import gelwright.review.Shown;
import gelwright.rule.Severity;
import gelwright.rule.Table;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Drafts labels. Immutable and thread-safe; no input or output, no clock.
 *
 * <p>Cost: that of two reviews of the formula, one with the label on the sheet and one without.
 */
public final class LabelDrafts {
  /** Markets whose law the rules hold. */
  private static final Set<String> COVERED = Set.of("EU", "EEA");

  private static final String ALLERGENS = "label.allergens";
  private static final String BEST_BEFORE = "label.best-before";
  private static final String AFTER_OPENING = "label.period-after-opening";
  private static final String FRAGRANCE = "fragrance";
  private static final String COLOURANT = "colourant";
  private static final String PARFUM = "Parfum";
  private static final String WATER = "Aqua";

  /** Blends of blends end here, as they do in a profile. */
  private static final int DEEPEST = 8;

  /** Of these some are nanomaterials, and only the supplier knows which. */
  private static final Set<String> MAY_BE_NANO = Set.of("particle", "pearl", "powder", COLOURANT);

  private final Knowledge knowledge;
  private final Reviewer reviewer;

  private LabelDrafts(Knowledge knowledge) {
    this.knowledge = knowledge;
    this.reviewer = Reviewer.using(knowledge);
  }

  /**
   * Drafts with this knowledge.
   *
   * @throws IllegalArgumentException when there is no rule
   */
  public static LabelDrafts using(Knowledge knowledge) {
    return new LabelDrafts(requireNonNull(knowledge, "knowledge"));
  }

  /**
   * The draft of a label.
   *
   * @param formula as read; a label on its sheet is held against the recipe, not copied
   * @param on the day the product is to be sold: limits and duties change with it
   */
  public LabelDraft of(Formula formula, LocalDate on) {
    requireNonNull(formula, "formula");
    requireNonNull(on, "on");
    return new Session(formula, on).draft();
  }

  private static Formula withoutLabel(Formula formula) {
    return new Formula(
        formula.name(),
        formula.version(),
        formula.brief(),
        formula.batch(),
        formula.equipment(),
        formula.lines(),
        formula.method(),
        Optional.empty(),
        formula.measured(),
        formula.accepted(),
        formula.places());
  }

  /** One draft in the making. */
  private final class Session {
    private final Formula formula;
    private final LocalDate on;
    private final Profile profile;
    private final Review review;
    private final List<String> remarks = new ArrayList<>();
    private final Set<String> unknown = new LinkedHashSet<>();
    private final Map<String, Set<String>> linesByIngredient = new LinkedHashMap<>();

    Session(Formula formula, LocalDate on) {
      this.formula = formula;
      this.on = on;
      Formula bare = withoutLabel(formula);
      this.profile = Profile.of(bare, knowledge.catalogue(), on);
      this.review = reviewer.review(bare, on);
      for (Line line : formula.lines()) {
        brings(line.name(), line.name(), line.strength().isPresent(), 0);
      }
    }

    private void brings(String name, String line, boolean dissolved, int depth) {
      Optional<Ingredient> found = knowledge.catalogue().find(name);
      if (dissolved) {
        note(WATER, line);
      }
      if (found.isPresent() && !found.get().composition().isEmpty() && depth < DEEPEST) {
        found.get().composition().keySet().forEach(part -> brings(part, line, false, depth + 1));
      } else {
        note(found.map(Ingredient::name).orElse(name), line);
      }
    }

    private void note(String ingredient, String line) {
      linesByIngredient.computeIfAbsent(ingredient, key -> new LinkedHashSet<>()).add(line);
    }

    LabelDraft draft() {
      List<String> markets = formula.brief().markets();
      List<String> covered = markets.stream().filter(COVERED::contains).toList();
      List<String> others = markets.stream().filter(each -> !COVERED.contains(each)).toList();
      if (markets.isEmpty()) {
        unknown.add(
            "Where it is to be sold (product.markets): the draft takes the European Union.");
      } else if (covered.isEmpty()) {
        remarks.add(
            "None of the markets on the sheet is covered: the list below follows the order of the"
                + " European Union, and neither warnings nor scents were checked for "
                + String.join(", ", others)
                + ".");
      } else if (!others.isEmpty()) {
        remarks.add(
            "Drafted for "
                + String.join(", ", covered)
                + " only. Not covered: "
                + String.join(", ", others)
                + ".");
      }
      List<LabelDraft.Entry> entries = Order.sorted(entries());
      usualRemarks(entries);
      return new LabelDraft(
          formula.name(),
          formula.version(),
          Editions.of(knowledge, formula, on),
          covered,
          others,
          entries,
          Order.doubts(entries),
          statements(),
          fields(),
          durability(),
          precautions(),
          concerns(),
          remarks,
          List.copyOf(unknown),
          formula.place(""));
    }

    // --- the ingredient list ---

    private List<LabelDraft.Entry> entries() {
      List<LabelDraft.Entry> entries = new ArrayList<>();
      List<Bounded> scents = new ArrayList<>();
      Set<String> scentNames = new LinkedHashSet<>();
      Set<String> names = new HashSet<>();
      Map<String, Bounded> solvedFor = solvedFor();
      for (Profile.OfItem item : profile.values("ingredient", Set.of("share"))) {
        Bounded share = solvedFor.getOrDefault(item.item(), item.values().get(0).value());
        Shown shown = Shown.of("share", share, Unit.PERCENT);
        if (shown.isKnown() && shown.high() <= 0) {
          continue;
        }
        Optional<Ingredient> known = knowledge.catalogue().find(item.item());
        Optional<Set<String>> functions = known.flatMap(each -> each.functions().toOptional());
        if (functions.equals(Optional.of(Set.of(FRAGRANCE)))) {
          scents.add(share);
          scentNames.add(item.item());
          continue;
        }
        List<String> on = new ArrayList<>();
        if (functions.isPresent() && functions.get().contains(FRAGRANCE)) {
          on.add("scented; if it is there for its scent alone it may stand under Parfum");
        }
        if (known.isEmpty()) {
          on.add("not a name that is known here: check the INCI name, and what it brings along");
        } else if (functions.isEmpty()) {
          on.add("what it is used for is not known: a scent or a colourant would stand elsewhere");
        }
        if (item.item().equals(WATER) && from(WATER).size() > 1) {
          on.add("gathered from " + String.join(", ", from(WATER)));
        }
        boolean colours = functions.isPresent() && functions.get().contains(COLOURANT);
        names.add(item.item().toLowerCase(Locale.ROOT));
        entries.add(
            new LabelDraft.Entry(
                item.item(),
                colours ? LabelDraft.Part.COLOURANT : Order.part(shown),
                shown,
                from(item.item()),
                on));
        if (!shown.isKnown()) {
          unknown.add(
              "How much "
                  + item.item()
                  + " there is: not known without "
                  + String.join(", ", shown.missing())
                  + ".");
        }
      }
      if (!scents.isEmpty()) {
        entries.add(perfume(scents, scentNames));
        names.add(PARFUM.toLowerCase(Locale.ROOT));
      }
      entries.addAll(allergens(names));
      return entries;
    }

    /**
     * Amounts to pH, with the doubt of where the pH starts: what is really added may be twice or
     * half of what is likely, and the place in the list follows from what was added.
     */
    private Map<String, Bounded> solvedFor() {
      Set<String> asked = new HashSet<>();
      for (int i = 0; i < formula.lines().size(); i++) {
        if (formula.lines().get(i).amount() instanceof Amount.ToPH) {
          profile.lines().get(i).brings().ifPresent(asked::add);
        }
      }
      Map<String, Bounded> amounts = new LinkedHashMap<>();
      for (Profile.OfItem item : profile.values("adjuster", Set.of("share-needed"))) {
        if (asked.contains(item.item()) && from(item.item()).size() == 1) {
          amounts.put(item.item(), item.values().get(0).value());
        }
      }
      return amounts;
    }

    private List<String> from(String ingredient) {
      return List.copyOf(linesByIngredient.getOrDefault(ingredient, Set.of()));
    }

    private LabelDraft.Entry perfume(List<Bounded> scents, Set<String> names) {
      Bounded sum = Bounded.exact(0);
      for (Bounded scent : scents) {
        sum = sum.plus(scent);
      }
      Shown shown = Shown.of("share", sum, Unit.PERCENT);
      List<String> on = new ArrayList<>();
      if (!names.equals(Set.of(PARFUM))) {
        on.add(
            "stands for "
                + String.join(", ", names)
                + "; each may also be named by itself in its place");
      }
      Set<String> from = new LinkedHashSet<>();
      names.forEach(name -> from.addAll(from(name)));
      return new LabelDraft.Entry(PARFUM, Order.part(shown), shown, List.copyOf(from), on);
    }

    private List<LabelDraft.Entry> allergens(Set<String> names) {
      Map<String, Profile.OfItem> shares = new LinkedHashMap<>();
      for (Profile.OfItem item : profile.values("allergen", Set.of("share"))) {
        shares.put(item.item(), item);
      }
      List<LabelDraft.Entry> entries = new ArrayList<>();
      for (Duty duty : review.duties()) {
        if (!duty.rule().equals(ALLERGENS)) {
          continue;
        }
        String name = duty.subject().name();
        Profile.OfItem item = shares.get(name);
        boolean silent = item != null && item.membership().low() < 1;
        if (silent) {
          unknown.add(
              "Which scents have to be named: the "
                  + name
                  + " are not known. Ask the supplier for the list of allergens.");
          continue;
        }
        if (item == null || !names.add(name.toLowerCase(Locale.ROOT))) {
          continue;
        }
        List<String> on =
            duty.applies() == Outcome.MAY_APPLY
                ? List.of("may be below the limit: the supplier's list tells the exact share")
                : List.of();
        entries.add(
            new LabelDraft.Entry(
                name,
                LabelDraft.Part.ALLERGEN,
                Shown.of("share", item.values().get(0).value(), Unit.PERCENT),
                List.of(),
                on));
      }
      return entries;
    }

    private void usualRemarks(List<LabelDraft.Entry> entries) {
      remarks.add(
          "Below 1 % the order is free; the draft lists from most to least there too. Colourants"
              + " stand last. Impurities, and aids that are no longer in the product, are not"
              + " listed.");
      List<String> fine =
          entries.stream()
              .map(LabelDraft.Entry::name)
              .filter(
                  name ->
                      knowledge
                          .catalogue()
                          .find(name)
                          .flatMap(found -> found.functions().toOptional())
                          .map(set -> set.stream().anyMatch(MAY_BE_NANO::contains))
                          .orElse(false))
              .toList();
      if (!fine.isEmpty()) {
        unknown.add(
            "Whether a nanomaterial is among "
                + String.join(", ", fine)
                + ": ask the supplier; if so its name is followed by (nano).");
      }
      if (entries.stream().anyMatch(each -> each.part() == LabelDraft.Part.COLOURANT)) {
        remarks.add(
            "A list for several shades of a decorative product may name all colourants after 'may"
                + " contain' or +/-; this draft is for one shade.");
      }
    }

    // --- what has to be said ---

    private List<LabelDraft.Statement> statements() {
      List<LabelDraft.Statement> all = new ArrayList<>();
      for (Duty duty : review.duties()) {
        boolean ofLaw = duty.rule().startsWith("label.") || duty.rule().startsWith("law-eu.");
        if (ofLaw && !duty.rule().equals(ALLERGENS)) {
          all.add(statement(duty));
        }
      }
      return all;
    }

    private LabelDraft.Statement statement(Duty duty) {
      return new LabelDraft.Statement(
          duty.rule(),
          duty.title(),
          words(duty),
          duty.message(),
          duty.applies() != Outcome.MAY_APPLY,
          duty.missing(),
          duty.sources());
    }

    /** The fixed words of a duty that goes through the rows of a table. */
    private List<String> words(Duty duty) {
      return knowledge.rules().tables().values().stream()
          .flatMap(table -> table.rows().stream())
          .filter(row -> row.key().equals(duty.subject().name()) && !row.names("says").isEmpty())
          .findFirst()
          .map(row -> row.names("says"))
          .orElse(List.of());
    }

    /** Cautions that bite while the product is used, not while it is made. */
    private List<LabelDraft.Statement> precautions() {
      Set<String> atWork = new HashSet<>();
      knowledge.rules().rowsOf("cautions-at-steps").forEach(row -> atWork.add(row.key()));
      return review.duties().stream()
          .filter(duty -> duty.rule().startsWith("caution.") && !atWork.contains(duty.rule()))
          .map(this::statement)
          .toList();
    }

    private LabelDraft.Durability durability() {
      boolean date = applies(BEST_BEFORE);
      boolean period = applies(AFTER_OPENING);
      if (date != period) {
        return date ? LabelDraft.Durability.BEST_BEFORE : LabelDraft.Durability.AFTER_OPENING;
      }
      unknown.add(
          "Whether the pack carries a date or a period after opening: not known without the shelf"
              + " life (product.shelf-life).");
      return LabelDraft.Durability.NOT_KNOWN;
    }

    private boolean applies(String rule) {
      return review.duties().stream()
          .anyMatch(duty -> duty.rule().equals(rule) && duty.applies() == Outcome.APPLIES);
    }

    private List<LabelDraft.Field> fields() {
      List<LabelDraft.Field> all = new ArrayList<>();
      if (knowledge.rules().rowsOf("label-fields").isEmpty()) {
        unknown.add("What else stands on the pack: the rule sets at hand have no label-fields.");
      }
      for (Table.Row row : knowledge.rules().rowsOf("label-fields")) {
        List<Source> sources = new ArrayList<>();
        row.sources()
            .forEach(id -> knowledge.catalogue().source(id.text()).ifPresent(sources::add));
        all.add(
            new LabelDraft.Field(
                row.key(),
                row.name("clause").orElse(""),
                told(row.name("told-by").orElse("")),
                row.name("asks").orElse(""),
                sources));
      }
      return all;
    }

    /** What the sheet tells of a field. */
    private Optional<String> told(String by) {
      Brief brief = formula.brief();
      return switch (by) {
        case "name" ->
            Optional.of(
                formula.version().isBlank()
                    ? formula.name()
                    : formula.name() + ", version " + formula.version());
        case "function" ->
            brief
                .kind()
                .map(
                    kind ->
                        kind
                            + (brief.area().isEmpty()
                                ? ""
                                : " for " + String.join(", ", brief.area())));
        case "durability" ->
            switch (durability()) {
              case BEST_BEFORE ->
                  Optional.of("a date of minimum durability, month and year, per batch");
              case AFTER_OPENING -> Optional.of("a period after opening, in months");
              case NOT_KNOWN -> Optional.empty();
            };
        case "ingredients" -> Optional.of("the list of this draft");
        case "precautions" -> Optional.of("the statements of this draft");
        default -> Optional.empty();
      };
    }

    private List<LabelDraft.Concern> concerns() {
      Review asWritten = formula.label().isPresent() ? reviewer.review(formula, on) : review;
      List<LabelDraft.Concern> all = new ArrayList<>();
      for (Finding finding : asWritten.findings()) {
        boolean ofLaw =
            finding.rule().startsWith("label.")
                || finding.rule().startsWith("law-eu.")
                // A name nobody knows and a recipe that does not add up make a wrong list.
                || (finding.rule().startsWith("composition.")
                    && finding.severity() == Severity.ERROR);
        boolean counts = finding.outcome() != Outcome.UNKNOWN || finding.mustBeKnown();
        if (ofLaw && counts && !finding.isAccepted() && finding.level() != Severity.NOTE) {
          all.add(
              new LabelDraft.Concern(
                  finding.rule(),
                  finding.title(),
                  finding.level(),
                  finding.outcome(),
                  finding.message()));
        }
        if (ofLaw && finding.outcome() == Outcome.UNKNOWN) {
          unknown.add(
              finding.title()
                  + ": not checked without "
                  + String.join(", ", finding.missing())
                  + ".");
        }
      }
      return all;
    }
  }
}
