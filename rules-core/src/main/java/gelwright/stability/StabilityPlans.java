package gelwright.stability;

import static java.util.Objects.requireNonNull;

import gelwright.formula.Formula;
import gelwright.ingredient.Source;
import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import gelwright.review.Editions;
import gelwright.review.Knowledge;
import gelwright.review.Outcome;
import gelwright.review.Reviewer;
import gelwright.review.Subject;
import gelwright.review.Verdict;
import gelwright.rule.CompiledRule;
import gelwright.rule.Table;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;

/**
 * Plans stability tests. Immutable and thread-safe; no input or output, no clock.
 *
 * <p>Cost: that of one review of the formula.
 */
public final class StabilityPlans {
  private static final String EVERY_PRODUCT = "every product";
  private static final String IN_DOUBT = "in-doubt";
  private static final String OVER_THE_SHELF_LIFE = "over-the-shelf-life";
  private static final String START_AND_END = "start-and-end";

  private static final double DAYS_PER_MONTH = Unit.MONTH.toBase(1) / Unit.DAY.toBase(1);
  private static final double DAYS_PER_WEEK = 7;
  private static final double YEAR = 12;

  /** The longest shelf life that is laid out, months: a slip of the pen fills no page. */
  private static final double LONGEST = 120;

  private final Knowledge knowledge;
  private final Reviewer reviewer;

  private StabilityPlans(Knowledge knowledge) {
    this.knowledge = knowledge;
    this.reviewer = Reviewer.using(knowledge);
  }

  /**
   * Plans with this knowledge.
   *
   * @throws IllegalArgumentException when there is no rule
   */
  public static StabilityPlans using(Knowledge knowledge) {
    return new StabilityPlans(requireNonNull(knowledge, "knowledge"));
  }

  /**
   * The plan for a formula.
   *
   * @param formula as read
   * @param on the day it is made for; it stands in the editions
   */
  public StabilityPlan of(Formula formula, LocalDate on) {
    requireNonNull(formula, "formula");
    requireNonNull(on, "on");
    Optional<Double> months = formula.brief().shelfLife().map(life -> life.in(Unit.MONTH));
    List<String> switchedOff = new ArrayList<>();
    List<StabilityPlan.Test> tests = tests(formula, on, months, switchedOff);
    Set<String> unknown = new LinkedHashSet<>();
    if (months.isEmpty()) {
      unknown.add(
          "How long the product is to keep: not known without the shelf life"
              + " (product.shelf-life). Times over the shelf life have no end here.");
    } else if (months.get() > LONGEST) {
      unknown.add(
          "What happens after " + Quantity.print(LONGEST, Unit.MONTH) + ": the plan ends there.");
    }
    if (knowledge.rules().rowsOf("stability-tests").isEmpty()) {
      unknown.add("Which tests there are: the rule sets at hand have no table stability-tests.");
    }
    unreadableTimes(unknown);
    if (formula.brief().dispensing().isEmpty()) {
      unknown.add(
          "What pack it is tested in: the sheet does not name one (product.dispensing). A test in"
              + " glass says nothing about a tube.");
    }
    return new StabilityPlan(
        formula.name(),
        formula.version(),
        Editions.of(knowledge, formula, on),
        months,
        formula.brief().dispensing(),
        tests,
        calendar(tests),
        switchedOff,
        List.copyOf(unknown),
        formula.place(""));
  }

  private List<StabilityPlan.Test> tests(
      Formula formula, LocalDate on, Optional<Double> months, List<String> switchedOff) {
    SortedMap<String, Map<Subject, Verdict>> verdicts = reviewer.verdicts(formula, on);
    List<StabilityPlan.Test> tests = new ArrayList<>();
    for (Table.Row row : knowledge.rules().rowsOf("stability-tests")) {
      String rule = row.name("follows-from").orElse(EVERY_PRODUCT);
      if (rule.equals(EVERY_PRODUCT)) {
        tests.add(test(row, "", List.of(), List.of(), true, months));
        continue;
      }
      String off = knowledge.rules().switchedOff().get(rule);
      if (off != null) {
        switchedOff.add(row.key() + ": the rule " + rule + " is switched off, because " + off);
        continue;
      }
      asked(row, rule, verdicts.getOrDefault(rule, Map.of()), months).ifPresent(tests::add);
    }
    return tests;
  }

  /** The test that a row asks for, if what became of its rule asks for it. */
  private Optional<StabilityPlan.Test> asked(
      Table.Row row, String rule, Map<Subject, Verdict> verdicts, Optional<Double> months) {
    boolean inDoubt = row.name("if").equals(Optional.of(IN_DOUBT));
    Set<String> about = new LinkedHashSet<>();
    Set<String> missing = new TreeSet<>();
    boolean asked = false;
    boolean sure = false;
    for (Map.Entry<Subject, Verdict> each : verdicts.entrySet()) {
      Outcome outcome = each.getValue().outcome();
      if (!(inDoubt ? isDoubt(outcome) : applies(outcome))) {
        continue;
      }
      asked = true;
      sure |= outcome != Outcome.UNKNOWN && outcome != Outcome.MAY_APPLY;
      missing.addAll(each.getValue().missing());
      if (!each.getKey().isFormula()) {
        about.add(each.getKey().name());
      }
    }
    return asked
        ? Optional.of(test(row, rule, List.copyOf(about), List.copyOf(missing), sure, months))
        : Optional.empty();
  }

  private static boolean isDoubt(Outcome outcome) {
    return outcome == Outcome.BREAKS || outcome == Outcome.BORDERLINE || outcome == Outcome.UNKNOWN;
  }

  private static boolean applies(Outcome outcome) {
    return outcome != Outcome.NOT_APPLICABLE && outcome != Outcome.DOES_NOT_APPLY;
  }

  private StabilityPlan.Test test(
      Table.Row row,
      String rule,
      List<String> about,
      List<String> missing,
      boolean sure,
      Optional<Double> months) {
    List<Source> sources = new ArrayList<>();
    row.sources().forEach(id -> knowledge.catalogue().source(id.text()).ifPresent(sources::add));
    String schedule = row.name("schedule").orElse("");
    Optional<Table.Row> times =
        knowledge.rules().rowsOf("stability-schedules").stream()
            .filter(each -> each.key().equals(schedule))
            .findFirst();
    String counts = times.flatMap(each -> each.name("counts")).orElse("weeks");
    boolean toTheEnd = schedule.equals(OVER_THE_SHELF_LIFE) || schedule.equals(START_AND_END);
    return new StabilityPlan.Test(
        row.key(),
        rule,
        about,
        row.name("looks-at").orElse(""),
        row.name("stored").orElse(""),
        counts,
        times.map(each -> at(each, counts, toTheEnd, months)).orElse(List.of()),
        toTheEnd && months.isEmpty(),
        row.name("accept").orElse(""),
        row.name("why")
            .or(() -> knowledge.rules().rule(rule).map(StabilityPlans::lesson))
            .orElse(""),
        sure,
        missing,
        sources);
  }

  private static String lesson(CompiledRule rule) {
    return rule.rule().lesson();
  }

  /**
   * The times of a schedule, in its own count. Over the shelf life they go on to its last day;
   * those in the warm are not longer than the shelf life itself.
   */
  static List<Double> at(
      Table.Row schedule, String counts, boolean toTheEnd, Optional<Double> months) {
    Set<Double> at = new TreeSet<>();
    for (String time : schedule.names("at")) {
      time(time).ifPresent(at::add);
    }
    if (months.isEmpty()) {
      return List.copyOf(at);
    }
    double end = Math.min(months.get(), LONGEST);
    if (toTheEnd) {
      double every = schedule.number("every").orElse(0.0);
      double later = schedule.number("every-later").orElse(every);
      if (every > 0 && later > 0) {
        for (double time = every; time < end; time += time < YEAR ? every : later) {
          at.add(time);
        }
      }
      at.add(end);
    } else if (counts.equals("weeks")) {
      double weeks = end * DAYS_PER_MONTH / DAYS_PER_WEEK;
      if (at.removeIf(time -> time > weeks)) {
        at.add(Math.floor(weeks));
      }
    }
    return List.copyOf(at);
  }

  /** A time as a table writes it: a plain number, zero or more. */
  private static Optional<Double> time(String text) {
    return Quantity.parse(text)
        .filter(number -> number.unit() == Unit.NONE && number.value() >= 0)
        .map(Quantity::value);
  }

  private void unreadableTimes(Set<String> unknown) {
    for (Table.Row row : knowledge.rules().rowsOf("stability-schedules")) {
      for (String text : row.names("at")) {
        if (time(text).isEmpty()) {
          unknown.add(
              "What the time "
                  + text
                  + " of the schedule "
                  + row.key()
                  + " means: it is no number and was left out.");
        }
      }
    }
  }

  private static List<StabilityPlan.Due> calendar(List<StabilityPlan.Test> tests) {
    Map<Double, Set<String>> byDay = new TreeMap<>();
    Map<Double, String> words = new LinkedHashMap<>();
    for (StabilityPlan.Test test : tests) {
      double days =
          switch (test.counts()) {
            case "weeks" -> DAYS_PER_WEEK;
            case "months" -> DAYS_PER_MONTH;
            case "days" -> 1;
            // A day in the frost and a day at 25 °C.
            default -> 2;
          };
      for (double time : test.at()) {
        double day = Math.round(time * days);
        byDay.computeIfAbsent(day, key -> new LinkedHashSet<>()).add(test.name());
        words.merge(
            day,
            time == 0 ? "day of filling" : count(time, test.counts()),
            (one, other) -> one.equals(other) || one.contains(other) ? one : one + " = " + other);
      }
    }
    List<StabilityPlan.Due> calendar = new ArrayList<>();
    byDay.forEach(
        (day, names) ->
            calendar.add(
                new StabilityPlan.Due(day, words.getOrDefault(day, ""), List.copyOf(names))));
    return calendar;
  }

  /** A time with its count: {@code 1 week}, {@code 4 weeks}. */
  static String count(double time, String counts) {
    String number = time == Math.rint(time) ? Long.toString((long) time) : Double.toString(time);
    boolean one = time == 1 && counts.endsWith("s");
    return number + " " + (one ? counts.substring(0, counts.length() - 1) : counts);
  }
}
