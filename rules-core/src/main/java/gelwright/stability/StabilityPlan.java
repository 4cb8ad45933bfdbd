package gelwright.stability;

import static java.util.Objects.requireNonNull;

import gelwright.ingredient.Source;
import gelwright.problem.Place;
import gelwright.review.Editions;
import java.util.List;
import java.util.Optional;

/**
 * A plan of tests. It suggests; a qualified safety assessor decides what is tested and whether it
 * has passed.
 *
 * @param formula name of the formula
 * @param version of the formula; empty when the sheet has none
 * @param editions what it rests on, with the date it was made for
 * @param shelfLifeMonths what the sheet promises; empty when it does not say
 * @param pack the package that the sheet names; empty when it does not say
 * @param tests in the order of the tables
 * @param calendar when to look at what, in the order of time
 * @param switchedOff tests that a house switched off with their rules, and why
 * @param unknown what is not known
 * @param place of the formula sheet
 */
public record StabilityPlan(
    String formula,
    String version,
    Editions editions,
    Optional<Double> shelfLifeMonths,
    Optional<String> pack,
    List<Test> tests,
    List<Due> calendar,
    List<String> switchedOff,
    List<String> unknown,
    Place place) {
  public StabilityPlan {
    requireNonNull(formula, "formula");
    requireNonNull(version, "version");
    requireNonNull(editions, "editions");
    requireNonNull(place, "place");
    tests = List.copyOf(tests);
    calendar = List.copyOf(calendar);
    switchedOff = List.copyOf(switchedOff);
    unknown = List.copyOf(unknown);
  }

  /**
   * A test.
   *
   * @param name a few words
   * @param rule full id of the rule it follows from; empty for a test of every product
   * @param about what it is about, such as names of ingredients; empty for the product as a whole
   * @param looksAt what to look at or measure
   * @param stored what is kept, and how
   * @param counts weeks, months, days or cycles
   * @param at when, from the day of filling
   * @param toTheEnd whether the last time depends on a shelf life that is not stated
   * @param accept what passes
   * @param why in plain words
   * @param sure false where it may not be needed
   * @param missing what is missing to be sure
   * @param sources of the test
   */
  public record Test(
      String name,
      String rule,
      List<String> about,
      String looksAt,
      String stored,
      String counts,
      List<Double> at,
      boolean toTheEnd,
      String accept,
      String why,
      boolean sure,
      List<String> missing,
      List<Source> sources) {
    public Test {
      requireNonNull(name, "name");
      about = List.copyOf(about);
      at = List.copyOf(at);
      missing = List.copyOf(missing);
      sources = List.copyOf(sources);
    }
  }

  /**
   * A day to look at samples.
   *
   * @param day from the day of filling; a month counts 30.4 days
   * @param when in the words of the schedule, such as "4 weeks"
   * @param tests names of the tests
   */
  public record Due(double day, String when, List<String> tests) {
    public Due {
      tests = List.copyOf(tests);
    }
  }
}
