package gelwright.review;

import static java.util.Objects.requireNonNull;

import gelwright.problem.Place;
import gelwright.rule.Severity;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * All that is to be said of a formula. Immutable.
 *
 * @param formula name of the formula
 * @param editions what the review rests on
 * @param outcome of the whole: that of the worst finding, or {@link Outcome#HOLDS}
 * @param level of the worst finding that is not accepted; note when there is none
 * @param counts how many outcomes of each kind, over all rules and their subjects
 * @param accepted how many findings are covered by an acceptance
 * @param findings what breaks, is borderline or unknown, the worst first; the accepted ones last
 * @param duties what has to be done
 * @param measureNext what to measure or state, the most useful first
 * @param unchecked rules that could not be checked, with what is missing
 * @param properties computed properties by name
 * @param rules outcome by rule, the worst of its subjects; every rule is listed
 * @param switchedOff rules a house switched off, with its reason
 * @param cautions what can hurt the maker or the user
 * @param place of the sheet
 * @param remedies what can be done about each finding that breaks or is borderline and is not
 *     accepted, in their order; present when asked for
 * @param headroom how far each number can move; present when asked for
 */
public record Review(
    String formula,
    Editions editions,
    Outcome outcome,
    Severity level,
    Map<Outcome, Integer> counts,
    int accepted,
    List<Finding> findings,
    List<Duty> duties,
    List<MeasureNext> measureNext,
    List<Unchecked> unchecked,
    SortedMap<String, PropertyValue> properties,
    SortedMap<String, Outcome> rules,
    SortedMap<String, String> switchedOff,
    List<String> cautions,
    Place place,
    Optional<List<Remedies>> remedies,
    Optional<List<Headroom>> headroom) {
  public Review {
    requireNonNull(formula, "formula");
    EnumMap<Outcome, Integer> all = new EnumMap<>(Outcome.class);
    for (Outcome kind : Outcome.values()) {
      all.put(kind, counts.getOrDefault(kind, 0));
    }
    counts = Collections.unmodifiableMap(all);
    findings = List.copyOf(findings);
    duties = List.copyOf(duties);
    measureNext = List.copyOf(measureNext);
    unchecked = List.copyOf(unchecked);
    properties = Collections.unmodifiableSortedMap(new TreeMap<>(properties));
    rules = Collections.unmodifiableSortedMap(new TreeMap<>(rules));
    switchedOff = Collections.unmodifiableSortedMap(new TreeMap<>(switchedOff));
    cautions = List.copyOf(cautions);
    remedies = remedies.map(List::copyOf);
    headroom = headroom.map(List::copyOf);
  }

  /** All remedies that are offered, in their order: reports number them from 1. */
  public List<Remedy> offers() {
    return remedies.stream().flatMap(List::stream).flatMap(each -> each.offers().stream()).toList();
  }

  /**
   * Something worth measuring or stating.
   *
   * @param what the measurement or the information
   * @param decides ids of the rules it would settle, sorted
   */
  public record MeasureNext(String what, List<String> decides) {
    public MeasureNext {
      decides = List.copyOf(decides);
    }
  }

  /**
   * A rule that could not be checked for a subject.
   *
   * @param rule full id
   * @param subject what could not be checked
   * @param missing what is missing
   */
  public record Unchecked(String rule, Subject subject, List<String> missing) {
    public Unchecked {
      missing = List.copyOf(missing);
    }
  }

  /**
   * A computed property.
   *
   * @param shown its value
   * @param origin stated, measured, predicted or missing
   * @param sources ids of the sources of the figures it rests on, sorted
   */
  public record PropertyValue(Shown shown, String origin, List<String> sources) {
    public PropertyValue {
      sources = List.copyOf(sources);
    }
  }
}
