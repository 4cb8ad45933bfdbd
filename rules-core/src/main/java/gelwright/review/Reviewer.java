package gelwright.review;

import static java.util.Objects.requireNonNull;

import gelwright.formula.Acceptance;
import gelwright.formula.Formula;
import gelwright.ingredient.Source;
import gelwright.problem.Place;
import gelwright.profile.AcceptanceState;
import gelwright.profile.Profile;
import gelwright.profile.Profiler;
import gelwright.quantity.Bounded;
import gelwright.quantity.Odds;
import gelwright.rule.Assessment;
import gelwright.rule.Comparison;
import gelwright.rule.CompiledRule;
import gelwright.rule.Named;
import gelwright.rule.Rule;
import gelwright.rule.Severity;
import gelwright.rule.Truth;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;

/**
 * Reviews formulas. Immutable and thread-safe; no input or output, no clock.
 *
 * <p>Cost: one pass over the rules; each property of the formula is computed once, when the first
 * rule asks for it.
 */
public final class Reviewer {
  /** Rules that go through the acceptances are asked last, when it is known what became of each. */
  private static final String ACCEPTANCE = "acceptance";

  /** Set whose duties are cautions. */
  private static final String CAUTION_SET = "caution";

  private static final String STANDING =
      "This is a prediction with its sources, not a certificate and not a safety assessment: a"
          + " qualified safety assessor decides, local law comes first, and preservation and"
          + " stability are shown by a challenge test (ISO 11930) and by storage tests.";

  private final Knowledge knowledge;
  private final Profiler profiler;
  private final List<CompiledRule> aboutFormula;
  private final List<CompiledRule> aboutAcceptances;
  private final Rows rows;
  // Every rule's id, to be filled in with outcomes, and the place of each rule among them.
  private final SortedMap<String, Outcome> blank = new TreeMap<>();
  private final Map<CompiledRule, Integer> places = new HashMap<>();

  private Reviewer(Knowledge knowledge) {
    this.knowledge = knowledge;
    this.profiler = Profiler.using(knowledge.catalogue());
    Map<Boolean, List<CompiledRule>> parts =
        knowledge.rules().rules().stream()
            .collect(Collectors.partitioningBy(rule -> kind(rule).equals(ACCEPTANCE)));
    this.aboutFormula = List.copyOf(parts.get(false));
    this.aboutAcceptances = List.copyOf(parts.get(true));
    this.rows = new Rows(knowledge.rules().rules(), knowledge.catalogue());
    SortedMap<String, CompiledRule> sorted = new TreeMap<>();
    knowledge.rules().rules().forEach(rule -> sorted.put(rule.id(), rule));
    sorted.values().forEach(rule -> places.put(rule, places.size()));
    sorted.keySet().forEach(id -> blank.put(id, Outcome.NOT_APPLICABLE));
  }

  /**
   * A reviewer with this knowledge.
   *
   * @throws IllegalArgumentException when there is no rule: a review that checks nothing is no
   *     review
   */
  public static Reviewer using(Knowledge knowledge) {
    requireNonNull(knowledge, "knowledge");
    if (knowledge.rules().rules().isEmpty()) {
      throw new IllegalArgumentException("knowledge has no rules: nothing would be checked");
    }
    return new Reviewer(knowledge);
  }

  /** Reviews a formula for a date. */
  public Review review(Formula formula, LocalDate on) {
    return review(formula, on, Set.of());
  }

  /** Reviews a formula for a date, with what is asked for besides. */
  public Review review(Formula formula, LocalDate on, Set<Include> include) {
    requireNonNull(formula, "formula");
    requireNonNull(on, "on");
    return new Session(profiler.profile(formula, on), on, include).run();
  }

  /**
   * What becomes of one rule for each of its subjects, in their order, without reviewing the rest.
   *
   * @param rule full id
   * @throws IllegalArgumentException when there is no such rule or it is switched off
   */
  public Map<Subject, Outcome> outcomes(Formula formula, LocalDate on, String rule) {
    Map<Subject, Outcome> outcomes = new LinkedHashMap<>();
    verdicts(formula, on, rule)
        .forEach((subject, verdict) -> outcomes.put(subject, verdict.outcome()));
    return outcomes;
  }

  /** The same with what is missing. */
  public Map<Subject, Verdict> verdicts(Formula formula, LocalDate on, String rule) {
    CompiledRule compiled =
        knowledge.rules().rules().stream()
            .filter(each -> each.id().equals(rule))
            .findFirst()
            .orElseThrow(() -> new IllegalArgumentException("no such rule: " + rule));
    return new Session(profiler.profile(formula, on), on, Set.of()).only(compiled);
  }

  /**
   * What becomes of every rule for each of its subjects, in their order, without the findings. A
   * rule without any subject in this formula has an empty map.
   *
   * @return by the full id of the rule
   */
  public SortedMap<String, Map<Subject, Verdict>> verdicts(Formula formula, LocalDate on) {
    requireNonNull(formula, "formula");
    requireNonNull(on, "on");
    return new Session(profiler.profile(formula, on), on, Set.of()).all();
  }

  /** The worst of several outcomes of one rule, as {@link Review#rules} gives it. */
  public static Optional<Outcome> worst(Iterable<Outcome> outcomes) {
    Optional<Outcome> worst = Optional.empty();
    for (Outcome outcome : outcomes) {
      if (worst.isEmpty() || Judge.rank(outcome) < Judge.rank(worst.get())) {
        worst = Optional.of(outcome);
      }
    }
    return worst;
  }

  /** The kind a rule goes through: a kind of item, or the name of a table. */
  private static String kind(CompiledRule rule) {
    String text = rule.rule().forEach().map(each -> each.text().strip()).orElse("");
    return text.startsWith("row of ") ? text.substring("row of ".length()).strip() : text;
  }

  /** What becomes of a rule for a subject. */
  static Judge.Judged judged(CompiledRule rule, Profile facts, gelwright.rule.Subject subject) {
    Truth member = new Truth(subject.membership(), subject.membershipMissing());
    Truth applies = member.and(rule.when(facts, subject));
    boolean duty = rule.rule().kind() == Rule.Kind.DUTY;
    if (duty && !rule.hasRequirement()) {
      return Judge.duty(applies);
    }
    if (applies.odds().verdict() == Odds.Verdict.BREAKS) {
      return duty ? Judge.DOES_NOT_APPLY : Judge.NOT_APPLICABLE;
    }
    Judge.Judged judged = Judge.requirement(applies, rule.met(facts, subject));
    // Where the sheet carries nothing to check a duty against, it applies all the same.
    return duty && judged.outcome() == Outcome.UNKNOWN ? Judge.duty(applies) : judged;
  }

  /** Whether a duty is a caution: what can hurt the maker or the user. */
  static boolean isCaution(String rule) {
    return rule.startsWith(CAUTION_SET + ".");
  }

  private static Subject about(CompiledRule rule, gelwright.rule.Subject subject) {
    return subject.name().isEmpty() ? Subject.FORMULA : new Subject(kind(rule), subject.name());
  }

  /** What becomes of one rule for one subject; empty when the formula has no such subject. */
  Optional<Judge.Judged> judged(CompiledRule rule, Profile facts, Subject about) {
    for (gelwright.rule.Subject subject : rule.subjects(facts)) {
      if (subject.name().equals(about.name())) {
        return Optional.of(judged(rule, facts, subject));
      }
    }
    return Optional.empty();
  }

  /** What would settle a rule for a subject that is borderline, the most useful first. */
  Optional<String> settledBy(CompiledRule rule, Profile facts, Subject about) {
    for (gelwright.rule.Subject subject : rule.subjects(facts)) {
      if (subject.name().equals(about.name())) {
        return rule.require(facts, subject).comparison().stream()
            .flatMap(comparison -> comparison.undecidedBy().stream())
            .map(contribution -> contribution.doubt().settledBy())
            .filter(text -> !text.isEmpty())
            .findFirst();
      }
    }
    return Optional.empty();
  }

  /**
   * What becomes of all rules but those about acceptances, without those that hold or do not apply;
   * duties that apply or may apply are among them.
   */
  Map<Concern, Judge.Judged> concerns(Profile facts) {
    Map<Concern, Judge.Judged> concerns = new HashMap<>();
    Rows.Asking asking = rows.of(facts);
    for (CompiledRule rule : aboutFormula) {
      Rows.OfRule each = asking.of(rule, facts);
      int number = 0;
      for (gelwright.rule.Subject subject : rule.subjects(facts)) {
        Judge.Judged judged = each.judged(number++, subject);
        switch (judged.outcome()) {
          case BREAKS, BORDERLINE, UNKNOWN, APPLIES, MAY_APPLY ->
              concerns.put(new Concern(rule.id(), about(rule, subject)), judged);
          default -> {
            // Nothing to be concerned about.
          }
        }
      }
    }
    return concerns;
  }

  /** What would put the findings of a formula right; see {@link Include#REMEDIES}. */
  public List<Remedies> remedies(Formula formula, LocalDate on) {
    return review(formula, on, Set.of(Include.REMEDIES)).remedies().orElseThrow();
  }

  /** How far each number of a formula can move; see {@link Include#HEADROOM}. */
  public List<Headroom> headroom(Formula formula, LocalDate on) {
    requireNonNull(formula, "formula");
    requireNonNull(on, "on");
    return new HeadroomSearch(this, profiler.profile(formula, on)).all();
  }

  Knowledge knowledge() {
    return knowledge;
  }

  /** One review under way. */
  private final class Session {
    private final Profile profile;
    private final Formula formula;
    private final LocalDate on;
    private final boolean trace;
    private final boolean remedies;
    private final boolean headroom;
    private final List<Candidate> candidates = new ArrayList<>();
    private final List<Duty> duties = new ArrayList<>();
    private final Rows.Asking asking;
    // By the rank of the outcome.
    private final int[] counts = new int[Outcome.values().length];
    // By the place of the rule.
    private final Outcome[] outcomes = new Outcome[places.size()];

    /** Whether outcomes alone are asked for, without findings and duties. */
    private boolean bare;

    /** A finding with what is needed to match it with an acceptance. */
    private record Candidate(Finding finding, Optional<Comparison> comparison, int order) {}

    Session(Profile profile, LocalDate on, Set<Include> include) {
      this.profile = profile;
      this.formula = profile.formula();
      this.on = on;
      this.trace = include.contains(Include.TRACE);
      this.remedies = include.contains(Include.REMEDIES);
      this.headroom = include.contains(Include.HEADROOM);
      this.asking = rows.of(profile);
    }

    Map<Subject, Verdict> only(CompiledRule rule) {
      Profile facts = profile;
      if (aboutAcceptances.contains(rule)) {
        askAllButAcceptances();
        List<AcceptanceState> states = new ArrayList<>();
        match(states);
        facts = profile.with(states);
      }
      return verdicts(rule, facts);
    }

    SortedMap<String, Map<Subject, Verdict>> all() {
      SortedMap<String, Map<Subject, Verdict>> all = new TreeMap<>();
      // What became of an acceptance is only known from the findings it may cover.
      bare = formula.accepted().isEmpty();
      for (CompiledRule rule : aboutFormula) {
        all.put(rule.id(), verdicts(rule, profile));
      }
      List<AcceptanceState> states = new ArrayList<>();
      match(states);
      Profile withAcceptances = profile.with(states);
      for (CompiledRule rule : aboutAcceptances) {
        all.put(rule.id(), verdicts(rule, withAcceptances));
      }
      return all;
    }

    private Map<Subject, Verdict> verdicts(CompiledRule rule, Profile facts) {
      Map<Subject, Verdict> verdicts = new LinkedHashMap<>();
      Rows.OfRule each = asking.of(rule, facts);
      int number = 0;
      for (gelwright.rule.Subject subject : rule.subjects(facts)) {
        verdicts.put(
            about(rule, subject),
            tell(rule, facts, subject, each.judged(number++, subject)).verdict());
      }
      return verdicts;
    }

    private void askAllButAcceptances() {
      for (CompiledRule rule : aboutFormula) {
        ask(rule, profile);
      }
    }

    Review run() {
      askAllButAcceptances();
      List<AcceptanceState> states = new ArrayList<>();
      Map<Integer, Acceptance> accepted = match(states);
      Profile withAcceptances = profile.with(states);
      for (CompiledRule rule : aboutAcceptances) {
        ask(rule, withAcceptances);
      }
      return assemble(accepted);
    }

    private void ask(CompiledRule rule, Profile facts) {
      Outcome worst =
          rule.rule().kind() == Rule.Kind.DUTY ? Outcome.DOES_NOT_APPLY : Outcome.NOT_APPLICABLE;
      Rows.OfRule each = asking.of(rule, facts);
      int number = 0;
      for (gelwright.rule.Subject subject : rule.subjects(facts)) {
        Judge.Judged judged = each.judged(number++, subject);
        Outcome outcome = tell(rule, facts, subject, judged).outcome();
        counts[Judge.rank(outcome)]++;
        if (Judge.rank(outcome) < Judge.rank(worst)) {
          worst = outcome;
        }
      }
      outcomes[requireNonNull(places.get(rule))] = worst;
    }

    /** Keeps the finding or the duty that comes of it. */
    private Judge.Judged tell(
        CompiledRule rule, Profile facts, gelwright.rule.Subject subject, Judge.Judged judged) {
      switch (judged.outcome()) {
        case HOLDS, NOT_APPLICABLE, DOES_NOT_APPLY -> {
          // Nothing to tell.
        }
        case APPLIES, MAY_APPLY -> duty(rule, facts, subject, judged);
        default -> {
          if (!bare) {
            candidates.add(candidate(rule, facts, subject, judged, rule.require(facts, subject)));
          }
        }
      }
      return judged;
    }

    private void duty(
        CompiledRule rule, Profile facts, gelwright.rule.Subject subject, Judge.Judged judged) {
      if (!bare) {
        duties.add(
            new Duty(
                rule.id(),
                rule.rule().title().text(),
                judged.outcome(),
                rule.severity(),
                about(rule, subject),
                rule.message(facts, subject),
                rule.rule().lesson(),
                judged.verdict().missing(),
                sources(rule.sources(subject))));
      }
    }

    private Candidate candidate(
        CompiledRule rule,
        Profile facts,
        gelwright.rule.Subject subject,
        Judge.Judged verdict,
        Assessment assessment) {
      Optional<Comparison> comparison = assessment.comparison();
      Severity level =
          Judge.level(
              verdict.outcome(),
              verdict.odds(),
              rule.severity(),
              rule.rule().mustBeKnown(),
              rule.rule().keepWhenBorderline());
      Set<String> settledBy = new LinkedHashSet<>();
      if (verdict.outcome() == Outcome.BORDERLINE && comparison.isPresent()) {
        comparison.get().undecidedBy().stream()
            .map(contribution -> contribution.doubt().settledBy())
            .filter(text -> !text.isEmpty())
            .limit(3)
            .forEach(settledBy::add);
      }
      Set<String> sources = new LinkedHashSet<>(rule.sources(subject));
      comparison.ifPresent(
          each -> {
            sources.addAll(sourcesOf(facts, each.observed(), subject));
            sources.addAll(sourcesOf(facts, each.limit(), subject));
          });
      Finding finding =
          new Finding(
              rule.id(),
              rule.rule().title().text(),
              rule.severity(),
              verdict.outcome(),
              verdict.odds(),
              level,
              about(rule, subject),
              comparison.map(each -> shown(each.observed())),
              comparison.map(this::nearestLimit),
              verdict.outcome() == Outcome.UNKNOWN
                  ? notChecked(verdict.missing())
                  : rule.message(facts, subject),
              rule.rule().lesson(),
              sources(sources),
              verdict.verdict().missing(),
              List.copyOf(settledBy),
              place(facts, rule, subject),
              rule.rule().mustBeKnown(),
              Optional.empty(),
              trace ? Optional.of(rule.trace(facts, subject)) : Optional.empty());
      return new Candidate(finding, comparison, candidates.size());
    }

    // A rule's message tells what is wrong; where nobody knows whether anything is, it must not be
    // said.
    private String notChecked(Set<String> missing) {
      return "Not checked, because this is not known: "
          + String.join("; ", new TreeSet<>(missing))
          + ".";
    }

    private Shown nearestLimit(Comparison comparison) {
      if (comparison.upperLimit().isEmpty()) {
        return shown(comparison.limit());
      }
      Bounded observed = comparison.observed().value();
      Bounded lower = comparison.limit().value();
      boolean below = observed.atMost().likely() < lower.atLeast().likely();
      return shown(
          below || isNearer(observed, lower, comparison.upperLimit().get().value())
              ? comparison.limit()
              : comparison.upperLimit().get());
    }

    private boolean isNearer(Bounded observed, Bounded lower, Bounded upper) {
      if (!observed.isKnown() || !lower.isKnown() || !upper.isKnown()) {
        return true;
      }
      double value = observed.atLeast().likely();
      return Math.abs(value - lower.atLeast().likely())
          <= Math.abs(value - upper.atLeast().likely());
    }

    private Shown shown(Named named) {
      return Shown.of(named.name(), named.value(), named.unit());
    }

    private Set<String> sourcesOf(Profile facts, Named named, gelwright.rule.Subject subject) {
      String name = named.name();
      int dot = name.indexOf('.');
      if (subject.item().isPresent() && dot > 0) {
        List<String> own =
            facts.sourcesOf(name.substring(0, dot), subject.name(), name.substring(dot + 1));
        if (!own.isEmpty()) {
          return new LinkedHashSet<>(own);
        }
      }
      return new LinkedHashSet<>(facts.sourcesOf(name));
    }

    private List<Source> sources(Iterable<String> ids) {
      List<Source> sources = new ArrayList<>();
      for (String id : ids) {
        knowledge.catalogue().source(id).ifPresent(sources::add);
      }
      return sources;
    }

    private Place place(Profile facts, CompiledRule rule, gelwright.rule.Subject subject) {
      if (subject.item().isPresent()) {
        return facts.place(kind(rule), subject.name());
      }
      return formula.place("");
    }

    // --- Acceptances
    // -------------------------------------------------------------------------------

    /** Which finding each acceptance covers; tells what became of every acceptance. */
    private Map<Integer, Acceptance> match(List<AcceptanceState> states) {
      Map<Integer, Acceptance> accepted = new HashMap<>();
      for (Acceptance acceptance : formula.accepted()) {
        String rule =
            knowledge
                .rules()
                .rule(acceptance.rule())
                .map(CompiledRule::id)
                .orElse(acceptance.rule());
        String state = "unused";
        for (Candidate candidate : candidates) {
          Finding finding = candidate.finding();
          boolean same =
              finding.rule().equals(rule)
                  && (finding.subject().isFormula()
                      || finding.subject().name().equalsIgnoreCase(acceptance.subject()));
          if (!same) {
            continue;
          }
          state = state(acceptance, rule, candidate);
          if (state.equals("covers")) {
            accepted.put(candidate.order(), acceptance);
          }
        }
        states.add(new AcceptanceState(acceptance.rule(), acceptance.subject(), state));
      }
      return accepted;
    }

    private String state(Acceptance acceptance, String rule, Candidate candidate) {
      boolean mayBe =
          knowledge.rules().rule(rule).map(each -> each.rule().mayBeAccepted()).orElse(true);
      if (!mayBe) {
        return "not-allowed";
      }
      if (on.isAfter(acceptance.until())) {
        return "lapsed";
      }
      return isWorse(acceptance, candidate) ? "worse" : "covers";
    }

    private boolean isWorse(Acceptance acceptance, Candidate candidate) {
      if (acceptance.observed().isEmpty()) {
        return false;
      }
      if (candidate.comparison().isEmpty()) {
        return false;
      }
      Comparison comparison = candidate.comparison().get();
      Bounded observed = comparison.observed().value();
      if (!comparison.observed().unit().dimension().equals(acceptance.observed().get().dimension())
          || !observed.isKnown()) {
        return true;
      }
      double now = observed.atLeast().likely();
      double then = acceptance.observed().get().inBase();
      double tolerance = 1e-9 * Math.max(Math.abs(now), Math.abs(then));
      return switch (comparison.relation()) {
        case LESS, AT_MOST -> now > then + tolerance;
        case MORE, AT_LEAST -> now < then - tolerance;
        case WITHIN ->
            now < comparison.limit().value().atLeast().likely()
                ? now < then - tolerance
                : now > then + tolerance;
        default -> Math.abs(now - then) > tolerance;
      };
    }

    // --- Assembly
    // ----------------------------------------------------------------------------------

    private Review assemble(Map<Integer, Acceptance> accepted) {
      List<Candidate> sorted = new ArrayList<>();
      for (Candidate candidate : candidates) {
        Acceptance acceptance = accepted.get(candidate.order());
        sorted.add(
            acceptance == null
                ? candidate
                : new Candidate(
                    with(candidate.finding(), acceptance),
                    candidate.comparison(),
                    candidate.order()));
      }
      sorted.sort(
          Comparator.<Candidate>comparingInt(each -> each.finding().isAccepted() ? 1 : 0)
              .thenComparing(each -> each.finding().level(), Comparator.reverseOrder())
              .thenComparingInt(each -> Judge.rank(each.finding().outcome()))
              .thenComparingInt(Candidate::order));
      List<Finding> findings = sorted.stream().map(Candidate::finding).toList();
      Outcome outcome = Outcome.HOLDS;
      Severity level = Severity.NOTE;
      if (!findings.isEmpty() && !findings.get(0).isAccepted()) {
        outcome = findings.get(0).outcome();
        level = findings.get(0).level();
      }
      SortedMap<String, Review.PropertyValue> properties = new TreeMap<>();
      for (Profile.Value value : profile.values()) {
        properties.put(
            value.name(),
            new Review.PropertyValue(
                Shown.of(value.name(), value.value(), value.unit()),
                value.origin().name().toLowerCase(java.util.Locale.ROOT),
                value.sources()));
      }
      return new Review(
          formula.name(),
          Editions.of(knowledge, formula, on),
          outcome,
          level,
          counted(),
          accepted.size(),
          findings,
          duties,
          measureNext(findings),
          unchecked(findings),
          properties,
          outcomesOfRules(),
          knowledge.rules().switchedOff(),
          cautions(),
          formula.place(""),
          remedies ? Optional.of(remedies(findings)) : Optional.empty(),
          headroom
              ? Optional.of(new HeadroomSearch(Reviewer.this, profile).all())
              : Optional.empty());
    }

    private List<Remedies> remedies(List<Finding> findings) {
      List<Finding> troubles =
          findings.stream()
              .filter(each -> !each.isAccepted() && each.outcome() != Outcome.UNKNOWN)
              .toList();
      if (troubles.isEmpty()) {
        return List.of();
      }
      RemedySearch search = new RemedySearch(Reviewer.this, profile);
      return troubles.stream().map(search::of).toList();
    }

    private SortedMap<String, Outcome> outcomesOfRules() {
      SortedMap<String, Outcome> rules = new TreeMap<>(blank);
      int place = 0;
      for (Map.Entry<String, Outcome> rule : rules.entrySet()) {
        rule.setValue(outcomes[place++]);
      }
      return rules;
    }

    private Map<Outcome, Integer> counted() {
      Map<Outcome, Integer> counted = new EnumMap<>(Outcome.class);
      for (Outcome outcome : Outcome.values()) {
        counted.put(outcome, counts[Judge.rank(outcome)]);
      }
      return counted;
    }

    private Finding with(Finding f, Acceptance acceptance) {
      return new Finding(
          f.rule(),
          f.title(),
          f.severity(),
          f.outcome(),
          f.odds(),
          f.level(),
          f.subject(),
          f.observed(),
          f.limit(),
          f.message(),
          f.lesson(),
          f.sources(),
          f.missing(),
          f.settledBy(),
          f.where(),
          f.mustBeKnown(),
          Optional.of(acceptance),
          f.trace());
    }

    // What would settle most, weighed by how much it would settle it at: a point for a note, two
    // for a
    // warning, three for an error.
    private List<Review.MeasureNext> measureNext(List<Finding> findings) {
      Map<String, Set<String>> decides = new LinkedHashMap<>();
      Map<String, Integer> weight = new HashMap<>();
      for (Finding finding : findings) {
        if (finding.isAccepted()) {
          continue;
        }
        List<String> what =
            finding.outcome() == Outcome.UNKNOWN
                ? finding.missing()
                : finding.settledBy().stream().limit(1).toList();
        for (String each : what) {
          if (decides.computeIfAbsent(each, key -> new TreeSet<>()).add(finding.rule())) {
            weight.merge(each, weight(finding.severity()), Integer::sum);
          }
        }
      }
      return decides.entrySet().stream()
          .sorted(
              Comparator.<Map.Entry<String, Set<String>>>comparingInt(
                      entry -> -weight.getOrDefault(entry.getKey(), 0))
                  .thenComparing(Map.Entry::getKey))
          .map(entry -> new Review.MeasureNext(entry.getKey(), List.copyOf(entry.getValue())))
          .toList();
    }

    private int weight(Severity severity) {
      return switch (severity) {
        case ERROR -> 3;
        case WARNING -> 2;
        case NOTE -> 1;
      };
    }

    private List<Review.Unchecked> unchecked(List<Finding> findings) {
      return findings.stream()
          .filter(finding -> finding.outcome() == Outcome.UNKNOWN)
          .sorted(
              Comparator.comparing(Finding::rule)
                  .thenComparing(finding -> finding.subject().name()))
          .map(
              finding -> new Review.Unchecked(finding.rule(), finding.subject(), finding.missing()))
          .toList();
    }

    private List<String> cautions() {
      Set<String> cautions = new LinkedHashSet<>();
      for (Duty duty : duties) {
        if (isCaution(duty.rule())) {
          cautions.add(duty.message());
        }
      }
      cautions.add(STANDING);
      return List.copyOf(cautions);
    }
  }
}
