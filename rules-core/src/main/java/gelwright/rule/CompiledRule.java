package gelwright.rule;

import gelwright.problem.Place;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;

/**
 * A rule ready to be asked. Immutable and safe for use by several threads, each with its own {@link
 * Facts}. Nothing here throws for what a formula holds or leaves out.
 */
public final class CompiledRule {
  private final String id;
  private final RuleSet set;
  private final Rule rule;
  private final Severity severity;
  private final Optional<RuleSet.Change> change;
  private final boolean alwaysKnown;
  private final SortedSet<String> inputs;
  private final Checker.Context context;
  private final List<Subject> fixedSubjects;
  private final Optional<Condition> when;
  private final Optional<Condition> require;
  private final Compiler.TruthCode whenCode;
  private final Optional<Compiler.TruthCode> metCode;
  private final Optional<Compiler.AssessmentCode> requireCode;
  private final Template message;

  /** A checked condition and the text it comes from. */
  record Condition(Term.OfTruth term, Text text) {}

  CompiledRule(
      RuleSet set,
      Rule rule,
      Optional<RuleSet.Change> change,
      Checker.Context context,
      Optional<Condition> when,
      Optional<Condition> require,
      Template message,
      boolean alwaysKnown) {
    this.id = set.id() + "." + rule.id();
    this.set = set;
    this.rule = rule;
    this.change = change;
    this.severity = change.flatMap(RuleSet.Change::severity).orElse(rule.severity());
    this.context = context;
    this.when = when;
    this.require = require;
    this.message = message;
    this.alwaysKnown = alwaysKnown;
    this.whenCode =
        when.map(condition -> Compiler.truth(condition.term()))
            .orElse((facts, subject) -> Truth.CERTAIN);
    this.metCode = require.map(condition -> Compiler.truth(condition.term()));
    this.requireCode =
        require.map(condition -> Compiler.assessment(condition.term(), condition.text()));
    SortedSet<String> names = new TreeSet<>();
    when.ifPresent(condition -> Checker.inputs(condition.term(), names));
    require.ifPresent(condition -> Checker.inputs(condition.term(), names));
    this.inputs = Collections.unmodifiableSortedSet(names);
    this.fixedSubjects =
        context instanceof Checker.Context.Rows rows
            ? rows.table().rows().stream().map(Subject::of).toList()
            : List.of(Subject.NONE);
  }

  /** The full id, {@code set.rule}. */
  public String id() {
    return id;
  }

  /** The rule set it comes from. */
  public RuleSet set() {
    return set;
  }

  /** The rule as written. */
  public Rule rule() {
    return rule;
  }

  /** The severity of a break, after a change by a house. */
  public Severity severity() {
    return severity;
  }

  /** What a house changed in it. */
  public Optional<RuleSet.Change> change() {
    return change;
  }

  /** Whether its outcome is proved never to be unknown, from the types of what it reads. */
  public boolean alwaysKnown() {
    return alwaysKnown;
  }

  /** Names of the properties and functions that its condition and its requirement read. */
  public SortedSet<String> inputs() {
    return inputs;
  }

  /** Whether there is something to {@link #require}; a duty may have nothing. */
  public boolean hasRequirement() {
    return requireCode.isPresent();
  }

  /**
   * What the rule is asked of: the items or rows it goes through, in their order, possible members
   * included; the formula as a whole if it goes through nothing.
   */
  public List<Subject> subjects(Facts facts) {
    return context instanceof Checker.Context.Items items
        ? facts.subjects(items.kind().slot())
        : fixedSubjects;
  }

  /**
   * The rows the rule goes through, told apart by what it reads of them; empty for a rule that goes
   * through none.
   */
  public Optional<Alike> alike() {
    return context instanceof Checker.Context.Rows rows
        ? Optional.of(
            Alike.of(
                rows.table(),
                when.map(Condition::term).stream().toList(),
                require.map(Condition::term).stream().toList()))
        : Optional.empty();
  }

  /**
   * Whether the rule applies to a subject. Whether the subject is of the kind at all is not part of
   * it: see {@link Subject#membership}.
   */
  public Truth when(Facts facts, Subject subject) {
    return whenCode.of(facts, subject);
  }

  /**
   * Whether what is required holds, whether or not the rule applies; the truth of {@link #require}
   * without what a report tells of it.
   *
   * @throws IllegalArgumentException when there is no requirement; see {@link #hasRequirement}
   */
  public Truth met(Facts facts, Subject subject) {
    return metCode.orElseThrow(this::requiresNothing).of(facts, subject);
  }

  /**
   * Whether what is required holds, whether or not the rule applies, with what a report tells.
   *
   * @throws IllegalArgumentException when there is no requirement; see {@link #hasRequirement}
   */
  public Assessment require(Facts facts, Subject subject) {
    return requireCode.orElseThrow(this::requiresNothing).of(facts, subject);
  }

  private IllegalArgumentException requiresNothing() {
    return new IllegalArgumentException("rule requires nothing: " + id());
  }

  /** The message with the values filled in. */
  public String message(Facts facts, Subject subject) {
    return message.print(facts, subject);
  }

  /** Ids of the rule's sources and of the row's. */
  public List<String> sources(Subject subject) {
    Set<String> sources = new LinkedHashSet<>();
    rule.sources().forEach(source -> sources.add(source.text()));
    subject.row().ifPresent(row -> row.sources().forEach(source -> sources.add(source.text())));
    return List.copyOf(sources);
  }

  /**
   * How condition and requirement came about, part by part; its parts are those two, where present.
   */
  public Trace trace(Facts facts, Subject subject) {
    List<Trace> parts = new ArrayList<>();
    when.ifPresent(condition -> parts.add(walk(condition, facts, subject, "when")));
    require.ifPresent(condition -> parts.add(walk(condition, facts, subject, "require")));
    Place place = rule.place();
    return new Trace(id(), place, subject.name(), Set.of(), parts);
  }

  private static Trace walk(Condition condition, Facts facts, Subject subject, String clause) {
    Trace trace = new Walker(facts, subject, condition.text()).trace(condition.term());
    return new Trace(clause, trace.place(), trace.value(), trace.missing(), List.of(trace));
  }

  @Override
  public String toString() {
    return id();
  }
}
