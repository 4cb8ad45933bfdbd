package gelwright.review;

import static java.util.Objects.requireNonNull;

import gelwright.formula.Edit;
import gelwright.formula.Formula;
import gelwright.profile.Profile;
import gelwright.rule.CompiledRule;
import gelwright.rule.Severity;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;

/** Looks for what puts the findings of one formula right. */
final class RemedySearch {
  // For each finding the rule's levers are turned one at a time until the odds reach the aim. A
  // knob
  // is bracketed – one step, two, then an eighth more each time – and the bracket halved, so that
  // the step before the one found does not reach the aim; what is not monotone is looked at step by
  // step. While a knob is turned only the rule at hand is asked. The few smallest changes that
  // reach
  // the aim are then made in earnest: all rules are asked of the changed formula, and what that
  // clears and raises is told with the offer.
  //
  // Where no single lever does it, two are tried together: one is put to its best or half-way
  // there, the other is turned as before.

  /** So many offers a finding. */
  private static final int OFFERS = 3;

  /** So many offers with substitutes, and with another promise. */
  private static final int ALIKE = 2;

  /** So many changes of a kind, of those that reach the aim, are reviewed as a whole. */
  private static final int REVIEWED = 12;

  /** So many of those with another promise. */
  private static final int PROMISES = 8;

  /** So many levers, those that help most, are tried in pairs. */
  private static final int PAIRED = 3;

  /**
   * An offer that does not reach the aim must make the odds better by this much. Engine value,
   * common practice, no source.
   */
  private static final double WORTHWHILE = 0.05;

  /** Changed formulas kept with what is known of them. */
  private static final int KEPT = 64;

  private final Reviewer reviewer;
  private final Profile profile;
  private final Levers levers;
  private final Map<Concern, Judge.Judged> before;
  private final Map<List<Edit>, Profile> trials =
      new LinkedHashMap<>(KEPT, 0.75f, true) {
        @Override
        protected boolean removeEldestEntry(Map.Entry<List<Edit>, Profile> eldest) {
          return size() > KEPT;
        }
      };
  private final Map<List<Edit>, Map<Concern, Judge.Judged>> reviewed = new HashMap<>();

  /** A change and the odds it leads to. */
  private record Tried(List<Edit> edits, double effort, double odds, boolean reaches) {}

  RemedySearch(Reviewer reviewer, Profile profile) {
    this.reviewer = reviewer;
    this.profile = profile;
    this.levers = new Levers(profile, reviewer.knowledge());
    this.before = reviewer.concerns(profile);
  }

  /** Whether there is anything to be put right. */
  static boolean isTrouble(Judge.Judged judged) {
    return judged.outcome() == Outcome.BREAKS
        || (judged.outcome() == Outcome.BORDERLINE && judged.odds().low() < Remedy.AIM);
  }

  /** What can be done about a finding. */
  Remedies of(Finding finding) {
    CompiledRule rule = reviewer.knowledge().rules().rule(finding.rule()).orElseThrow();
    Subject subject = finding.subject();
    if (finding.odds().low() >= Remedy.AIM) {
      return none(finding, "The odds that it holds reach four in five already.");
    }
    Levers.Found found = levers.of(rule, subject);
    List<Tried> reaching = new ArrayList<>();
    List<Tried> short_ = new ArrayList<>();
    Map<Knob, Tried> best = new LinkedHashMap<>();
    for (Knob knob : found.knobs()) {
      Tried tried = solve(rule, subject, List.of(), 0, knob);
      (tried.reaches() ? reaching : short_).add(tried);
      best.put(knob, tried);
    }
    for (Levers.Choice choice : found.choices()) {
      Tried tried = attempt(rule, subject, choice.edits(), choice.effort());
      (tried.reaches() ? reaching : short_).add(tried);
    }
    if (reaching.isEmpty()) {
      reaching.addAll(pairs(rule, subject, best, short_));
    }
    List<Remedy> offers = offers(rule, subject, reaching);
    if (offers.isEmpty()) {
      offers = farthest(rule, subject, short_, finding);
    }
    if (!offers.isEmpty()) {
      return new Remedies(finding.rule(), subject, offers, Optional.empty());
    }
    return none(
        finding,
        found.knobs().isEmpty() && found.choices().isEmpty()
            ? "There is nothing here that a number could be turned for; the finding says what to do."
            : "Nothing within limits helps: every lever of this rule was turned as far as it goes.");
  }

  private static Remedies none(Finding finding, String why) {
    return new Remedies(finding.rule(), finding.subject(), List.of(), Optional.of(why));
  }

  // --- Single levers
  // ---------------------------------------------------------------------------------

  private Tried solve(
      CompiledRule rule, Subject subject, List<Edit> first, double effort, Knob knob) {
    long failed = 0;
    long steps = 1;
    Optional<Tried> best = Optional.empty();
    while (steps <= knob.most()) {
      Tried tried = attempt(rule, subject, first, effort, knob, steps);
      if (tried.reaches()) {
        return knob.isMonotone()
            ? halve(rule, subject, first, effort, knob, failed, steps, tried)
            : tried;
      }
      if (best.isEmpty() || tried.odds() > best.get().odds()) {
        best = Optional.of(tried);
      }
      failed = steps;
      long next = knob.after(steps);
      steps = steps < knob.most() && next > knob.most() ? knob.most() : next;
    }
    return best.orElseThrow();
  }

  private Tried halve(
      CompiledRule rule,
      Subject subject,
      List<Edit> first,
      double effort,
      Knob knob,
      long failed,
      long reached,
      Tried there) {
    long low = failed;
    long high = reached;
    Tried tried = there;
    while (high - low > 1) {
      long middle = low + (high - low) / 2;
      Tried half = attempt(rule, subject, first, effort, knob, middle);
      if (half.reaches()) {
        high = middle;
        tried = half;
      } else {
        low = middle;
      }
    }
    return tried;
  }

  private Tried attempt(
      CompiledRule rule, Subject subject, List<Edit> first, double effort, Knob knob, long steps) {
    List<Edit> edits = new ArrayList<>(first);
    edits.addAll(knob.edits(steps));
    return attempt(rule, subject, List.copyOf(edits), effort + knob.effort(steps));
  }

  private Tried attempt(CompiledRule rule, Subject subject, List<Edit> edits, double effort) {
    Optional<Judge.Judged> judged = reviewer.judged(rule, changed(edits), then(edits, subject));
    // Where the subject is gone, there is nothing left to find fault with.
    double odds = judged.map(RemedySearch::odds).orElse(1.0);
    return new Tried(edits, effort, odds, odds >= Remedy.AIM);
  }

  // What the subject is called in the changed formula: a step may have another number, and what is
  // asked of an ingredient is asked of the one in its place.
  private Subject then(List<Edit> edits, Subject subject) {
    return inPlaceOf(edits, subject)
        .orElseGet(() -> Steps.of(profile.formula(), edits).then(subject));
  }

  private Optional<Subject> inPlaceOf(List<Edit> edits, Subject subject) {
    for (Edit edit : edits) {
      if (edit instanceof Edit.Substitution each
          && levers.inci(each.ingredient()).equals(subject.name())) {
        return Optional.of(new Subject(subject.kind(), levers.inci(each.with())));
      }
    }
    return Optional.empty();
  }

  private static double odds(Judge.Judged judged) {
    return switch (judged.outcome()) {
      case HOLDS, NOT_APPLICABLE, DOES_NOT_APPLY -> 1;
      case UNKNOWN -> 0;
      default -> judged.odds().low();
    };
  }

  private Profile changed(List<Edit> edits) {
    Patience.check();
    Profile known = trials.get(edits);
    if (known == null) {
      Formula formula = Edit.all(edits, profile.formula());
      known = profile.with(formula);
      trials.put(edits, known);
    }
    return known;
  }

  // --- Pairs
  // ----------------------------------------------------------------------------------------

  private List<Tried> pairs(
      CompiledRule rule, Subject subject, Map<Knob, Tried> knobs, List<Tried> alone) {
    List<Tried> reaching = new ArrayList<>();
    List<Tried> firsts =
        alone.stream()
            .sorted(Comparator.comparingDouble(each -> -each.odds()))
            .limit(PAIRED)
            .toList();
    for (Tried first : firsts) {
      for (Map.Entry<Knob, Tried> second : knobs.entrySet()) {
        boolean apart = !touches(first.edits(), second.getValue().edits());
        if (apart && second.getValue().odds() > 0) {
          Tried tried = solve(rule, subject, first.edits(), first.effort(), second.getKey());
          if (tried.reaches()) {
            reaching.add(tried);
          }
        }
      }
    }
    return reaching;
  }

  // Whether two changes turn the same thing; water that both move counts too, since the second
  // would not know what the first has left.
  private static boolean touches(List<Edit> some, List<Edit> others) {
    for (Edit one : some) {
      for (Edit other : others) {
        if (place(one).equals(place(other)) || isStructural(one) || isStructural(other)) {
          return true;
        }
      }
    }
    return false;
  }

  private static boolean isStructural(Edit edit) {
    return edit instanceof Edit.Addition
        || edit instanceof Edit.Removal
        || edit instanceof Edit.Move
        || edit instanceof Edit.Insertion;
  }

  private static String place(Edit edit) {
    if (edit instanceof Edit.OfAmount each) {
      return "line " + each.line();
    }
    if (edit instanceof Edit.Substitution each) {
      return "line " + each.line();
    }
    if (edit instanceof Edit.OfStep each) {
      return "step " + each.step() + each.part();
    }
    if (edit instanceof Edit.OfBrief each) {
      return "brief " + each.promise();
    }
    return edit.getClass().getSimpleName();
  }

  // --- Offers
  // ---------------------------------------------------------------------------------------

  private List<Remedy> offers(CompiledRule rule, Subject subject, List<Tried> reaching) {
    List<Tried> smallest = smallest(reaching);
    record Ranked(Remedy remedy, long errors, double effort, Class<?> kind) {}
    List<Ranked> all = new ArrayList<>();
    Set<String> told = new HashSet<>();
    for (Tried tried : smallest) {
      Remedy remedy = remedy(rule, subject, tried);
      if (told.add(remedy.text())) {
        all.add(new Ranked(remedy, errors(remedy), tried.effort(), kind(tried)));
      }
    }
    OptionalInt harmless =
        all.stream()
            .map(Ranked::remedy)
            .filter(each -> !canHarm(each))
            .mapToInt(each -> each.raises().size())
            .min();
    List<Ranked> ranked =
        all.stream()
            .filter(
                each ->
                    !canHarm(each.remedy())
                        || harmless.isEmpty()
                        || each.remedy().raises().size() < harmless.getAsInt())
            .sorted(
                Comparator.comparingLong(Ranked::errors)
                    .thenComparingLong(each -> price(each.remedy()))
                    .thenComparingInt(each -> each.remedy().brings().size())
                    .thenComparingDouble(Ranked::effort))
            .toList();
    List<Remedy> offers = new ArrayList<>();
    Map<Class<?>, Integer> ofKind = new HashMap<>();
    for (Ranked each : ranked) {
      // Of substitutes and promises the best two, so that another way out is seen too.
      boolean listed =
          each.kind() != Edit.class && ofKind.merge(each.kind(), 1, Integer::sum) > ALIKE;
      if (!listed && offers.size() < OFFERS) {
        offers.add(each.remedy());
      }
    }
    return offers;
  }

  // New findings that are reported as errors: what the law forbids stands behind what it allows.
  private long errors(Remedy remedy) {
    Map<Concern, Judge.Judged> after = concerns(remedy.edits());
    return remedy.raises().stream()
        .filter(each -> level(each, requireNonNull(after.get(each))) == Severity.ERROR)
        .count();
  }

  // New findings, and new duties graver than a note: those of a note are hints and tests, such as
  // to
  // read the pH again, and must not put a change of the pH behind a preservative with a warning.
  private long price(Remedy remedy) {
    return remedy.raises().size()
        + remedy.brings().stream().filter(each -> severity(each) != Severity.NOTE).count();
  }

  // A finding that is raised can be put right in turn; what can burn or blind stays in the beaker.
  private boolean canHarm(Remedy remedy) {
    return remedy.brings().stream()
        .anyMatch(each -> Reviewer.isCaution(each.rule()) && severity(each) == Severity.ERROR);
  }

  private Severity severity(Concern concern) {
    return rule(concern).severity();
  }

  private Severity level(Concern concern, Judge.Judged judged) {
    CompiledRule rule = rule(concern);
    return Judge.level(
        judged.outcome(),
        judged.odds(),
        rule.severity(),
        rule.rule().mustBeKnown(),
        rule.rule().keepWhenBorderline());
  }

  private CompiledRule rule(Concern concern) {
    return reviewer.knowledge().rules().rule(concern.rule()).orElseThrow();
  }

  // The smallest changes, substitutes and promises by themselves: there are many of them, and they
  // must not crowd out one another or the rest.
  private static List<Tried> smallest(List<Tried> reaching) {
    Map<Class<?>, List<Tried>> byKind = new LinkedHashMap<>();
    reaching.stream()
        .sorted(Comparator.comparingDouble(Tried::effort))
        .forEach(each -> byKind.computeIfAbsent(kind(each), key -> new ArrayList<>()).add(each));
    List<Tried> smallest = new ArrayList<>();
    byKind.forEach(
        (kind, tried) ->
            smallest.addAll(
                tried.subList(
                    0, Math.min(tried.size(), kind == Edit.OfBrief.class ? PROMISES : REVIEWED))));
    return smallest;
  }

  private static Class<?> kind(Tried tried) {
    Edit first = tried.edits().get(0);
    return first instanceof Edit.Substitution || first instanceof Edit.OfBrief
        ? first.getClass()
        : Edit.class;
  }

  private List<Remedy> farthest(
      CompiledRule rule, Subject subject, List<Tried> short_, Finding finding) {
    return short_.stream()
        .filter(each -> each.odds() >= finding.odds().low() + WORTHWHILE)
        .max(
            Comparator.comparingDouble(Tried::odds)
                .thenComparing(Comparator.comparingDouble(Tried::effort).reversed()))
        .map(each -> List.of(remedy(rule, subject, each)))
        .orElse(List.of());
  }

  private Remedy remedy(CompiledRule rule, Subject subject, Tried tried) {
    Map<Concern, Judge.Judged> after = concerns(tried.edits());
    Optional<String> measure =
        tried.reaches()
            ? Optional.empty()
            : reviewer.settledBy(rule, changed(tried.edits()), then(tried.edits(), subject));
    return new Remedy(
        tried.edits(),
        tried.odds(),
        tried.reaches(),
        measure,
        sorted(clears(after)),
        sorted(raises(after)),
        sorted(brings(after, tried.edits())));
  }

  // What there is to be concerned about in the changed formula, its steps called as they are now.
  private Map<Concern, Judge.Judged> concerns(List<Edit> edits) {
    return reviewed.computeIfAbsent(edits, this::review);
  }

  private Map<Concern, Judge.Judged> review(List<Edit> edits) {
    Map<Concern, Judge.Judged> then = reviewer.concerns(changed(edits));
    Steps steps = Steps.of(profile.formula(), edits);
    if (steps.areInOrder()) {
      return then;
    }
    Map<Concern, Judge.Judged> now = new HashMap<>();
    then.forEach(
        (concern, judged) ->
            now.put(new Concern(concern.rule(), steps.now(concern.subject())), judged));
    return now;
  }

  private List<Concern> clears(Map<Concern, Judge.Judged> after) {
    List<Concern> clears = new ArrayList<>();
    before.forEach(
        (concern, was) -> {
          Judge.Judged is = after.get(concern);
          boolean settled = is == null || (!isTrouble(is) && is.outcome() != Outcome.UNKNOWN);
          if (settled && (isTrouble(was) || was.outcome() == Outcome.UNKNOWN)) {
            clears.add(concern);
          }
        });
    return clears;
  }

  private List<Concern> raises(Map<Concern, Judge.Judged> after) {
    List<Concern> raises = new ArrayList<>();
    after.forEach(
        (concern, is) -> {
          Judge.Judged was = before.get(concern);
          boolean wasTrouble = was != null && isTrouble(was);
          boolean wasOpen = was != null && was.outcome() == Outcome.UNKNOWN;
          boolean broke = was != null && was.outcome() == Outcome.BREAKS;
          boolean worse =
              isTrouble(is)
                  ? !wasTrouble || (is.outcome() == Outcome.BREAKS && !broke)
                  : is.outcome() == Outcome.UNKNOWN && !wasOpen && !wasTrouble;
          if (worse) {
            raises.add(concern);
          }
        });
    return raises;
  }

  // A duty of the ingredient that another takes the place of is not new when it is asked of that
  // one.
  private List<Concern> brings(Map<Concern, Judge.Judged> after, List<Edit> edits) {
    Set<Concern> now = new HashSet<>();
    before
        .keySet()
        .forEach(
            concern -> {
              now.add(concern);
              inPlaceOf(edits, concern.subject())
                  .ifPresent(subject -> now.add(new Concern(concern.rule(), subject)));
            });
    List<Concern> brings = new ArrayList<>();
    after.forEach(
        (concern, is) -> {
          if (isDuty(is) && !now.contains(concern)) {
            brings.add(concern);
          }
        });
    return brings;
  }

  /** Whether it is something that has to be done. */
  static boolean isDuty(Judge.Judged judged) {
    return judged.outcome() == Outcome.APPLIES || judged.outcome() == Outcome.MAY_APPLY;
  }

  private static List<Concern> sorted(List<Concern> concerns) {
    return concerns.stream()
        .sorted(
            Comparator.comparing(Concern::rule)
                .thenComparing(each -> each.subject().kind())
                .thenComparing(each -> each.subject().name()))
        .toList();
  }
}
