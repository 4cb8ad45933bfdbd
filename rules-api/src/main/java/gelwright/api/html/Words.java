package gelwright.api.html;

import gelwright.formula.Acceptance;
import gelwright.ingredient.Source;
import gelwright.problem.Place;
import gelwright.profile.Profile;
import gelwright.quantity.Numbers;
import gelwright.quantity.Odds;
import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import gelwright.review.Concern;
import gelwright.review.Duty;
import gelwright.review.Editions;
import gelwright.review.Finding;
import gelwright.review.Headroom;
import gelwright.review.Outcome;
import gelwright.review.Remedy;
import gelwright.review.Review;
import gelwright.review.Shown;
import gelwright.review.Subject;
import gelwright.rule.Severity;
import gelwright.rule.Vocabulary;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/** What a review's records are called in plain words. */
public final class Words {
  /** Fractions people say, from the smallest to the largest. */
  private static final int[][] FRACTIONS = {
    {1, 20}, {1, 10}, {1, 5}, {1, 4}, {1, 3}, {2, 5}, {1, 2}, {3, 5}, {2, 3}, {3, 4}, {4, 5},
    {9, 10}, {19, 20}
  };

  private static final Pattern OF_NAME = Pattern.compile("(\\S+|[^A-Z]+) of (\\p{Lu}.*)");
  private static final Pattern DISSOLVES = Pattern.compile("what (.+) dissolves in");
  private static final Pattern ROW = Pattern.compile("row (.+) of table (.+)");

  /** Closes every report. */
  public static final String CLOSING =
      "A prediction with its sources: not a certificate, and not a safety assessment. What could"
          + " not be checked is not passed. A qualified safety assessor, a preservative challenge"
          + " test (ISO 11930), stability tests and the law of the place decide.";

  /** Part of the statement that every review carries among its cautions; the closing says it. */
  private static final String STANDING = "not a safety assessment";

  private Words() {}

  /** The whole review in one sentence. */
  public static String verdict(Review review) {
    int breaks = 0;
    int borderline = 0;
    int unknown = 0;
    int demanded = 0;
    for (Finding finding : review.findings()) {
      if (finding.isAccepted()) {
        continue;
      }
      if (finding.outcome() == Outcome.BREAKS) {
        breaks++;
      } else if (finding.outcome() == Outcome.BORDERLINE) {
        borderline++;
      } else {
        unknown++;
        demanded += finding.mustBeKnown() ? 1 : 0;
      }
    }
    if (review.rules().isEmpty()) {
      return "No rule was run.";
    }
    List<String> parts = new ArrayList<>();
    if (breaks > 0) {
      parts.add("breaks " + requirements(breaks));
    }
    if (borderline > 0) {
      parts.add(borderline + (borderline == 1 ? " is borderline" : " are borderline"));
    }
    if (unknown > 0) {
      parts.add(
          unknown
              + " could not be checked"
              + (demanded == 0 ? "" : ", " + demanded + " of which must be known"));
    }
    if (review.accepted() > 0) {
      parts.add(review.accepted() + (review.accepted() == 1 ? " is accepted" : " are accepted"));
    }
    if (parts.isEmpty()) {
      return "Nothing that was checked stands against it.";
    }
    if (breaks == 0) {
      parts.add(0, "breaks no rule that could be checked");
    }
    String sentence = String.join("; ", parts) + ".";
    return Character.toUpperCase(sentence.charAt(0)) + sentence.substring(1);
  }

  private static String requirements(int number) {
    return number == 1 ? "1 rule" : number + " rules";
  }

  /** The outcome of the whole in one or two words, for a table. */
  public static String outcome(Review review) {
    if (review.rules().isEmpty()) {
      return "no rule was run";
    }
    return switch (review.outcome()) {
      case BREAKS -> "breaks";
      case BORDERLINE -> "borderline";
      case UNKNOWN -> "not all checked";
      case HOLDS -> review.unchecked().isEmpty() ? "holds" : "not all checked";
      case NOT_APPLICABLE, APPLIES, MAY_APPLY, DOES_NOT_APPLY -> review.outcome().word();
    };
  }

  /** A number with its range, as far as it is known. */
  public static String range(Shown shown) {
    return Told.range(shown);
  }

  private static String print(Shown shown, double value) {
    return Quantity.print(value, shown.unit());
  }

  /** Odds as people say them: a sentence, or nothing where the outcome says it. */
  public static String odds(Odds odds) {
    if (odds.equals(Odds.OPEN)) {
      return "Nothing is known of the odds.";
    }
    if (odds.low() != odds.high()) {
      return "The chance that it holds lies between "
          + percent(odds.low())
          + " and "
          + percent(odds.high())
          + ".";
    }
    if (odds.low() <= Odds.BREAKS_TO) {
      return odds.low() == 0 ? "" : "Less than 1 chance in 20 that it holds.";
    }
    int[] nearest = FRACTIONS[0];
    for (int[] fraction : FRACTIONS) {
      if (Math.abs(odds.low() - (double) fraction[0] / fraction[1])
          < Math.abs(odds.low() - (double) nearest[0] / nearest[1])) {
        nearest = fraction;
      }
    }
    return (odds.low() < 0.5 ? "It probably fails: " : "It probably holds: ")
        + Told.count(nearest[0], "chance")
        + " in "
        + nearest[1]
        + (odds.low() < 0.5 ? " that it holds." : ".");
  }

  /** A remedy with its odds, and what else it does. */
  public static String remedy(Remedy remedy) {
    StringBuilder words = new StringBuilder(remedy.text());
    words.append(' ');
    if (remedy.reaches()) {
      words.append(
          remedy.odds() >= Odds.HOLDS_FROM
              ? "Then it holds."
              : "Then it holds with odds of " + percent(remedy.odds()) + ".");
    } else {
      words
          .append("This goes as far as it can: the odds become ")
          .append(percent(remedy.odds()))
          .append('.');
      remedy.measure().ifPresent(what -> words.append(" To settle it: ").append(what).append('.'));
    }
    // The finding itself is cleared by every remedy that reaches.
    int more = remedy.clears().size() - (remedy.reaches() ? 1 : 0);
    if (more > 0) {
      words.append(" Clears ").append(Told.count(more, "other finding")).append(" too.");
    }
    words.append(
        remedy.raises().isEmpty()
            ? " Raises nothing new."
            : " Raises: " + names(remedy.raises()) + ".");
    if (!remedy.brings().isEmpty()) {
      words
          .append(remedy.brings().size() == 1 ? " Brings a duty: " : " Brings duties: ")
          .append(names(remedy.brings()))
          .append('.');
    }
    return words.toString();
  }

  private static String names(List<Concern> concerns) {
    return concerns.stream()
        .map(
            each ->
                each.rule()
                    + (each.subject().isFormula() ? "" : " (" + subject(each.subject()) + ")"))
        .collect(Collectors.joining(", "));
  }

  private static String percent(double odds) {
    return Math.round(odds * 100) + " %";
  }

  public static String standing(Source.Standing standing) {
    return switch (standing) {
      case PUBLISHED -> "published";
      case MEASURED -> "measured in one's own workshop";
      case COMMON_PRACTICE -> "common practice, no source";
      case FROM_MEMORY -> "from memory, not checked against a text";
    };
  }

  /** What stands beside the number of a source: nothing where it can be looked up. */
  public static String besideNumber(Source.Standing standing) {
    return Told.besideNumber(standing);
  }

  /**
   * The numbers of a finding that its message does not say, by their meaning. A limit that is
   * worked out or looked up has no name worth reading.
   */
  public static Optional<String> numbers(Finding finding) {
    if (finding.observed().isEmpty()) {
      return Optional.empty();
    }
    Shown observed = finding.observed().get();
    Optional<Shown> limit = finding.limit().filter(shown -> !says(finding.message(), shown));
    boolean observedSaid = says(finding.message(), observed);
    if (observedSaid) {
      return limit.map(shown -> "The limit is " + range(shown) + ".");
    }
    if (limit.isPresent() && range(limit.get()).equals(range(observed))) {
      return Optional.empty();
    }
    String named =
        meaning(observed.name())
            .map(words -> capital(words) + ": " + range(observed))
            .orElseGet(() -> "It comes to " + range(observed));
    return Optional.of(
        named + limit.map(shown -> "; the limit is " + range(shown)).orElse("") + ".");
  }

  /** Whether a message says a number already. */
  private static boolean says(String message, Shown shown) {
    if (!shown.isKnown()) {
      // Of two bounds a message writes the unit behind the upper one only.
      double bound = Double.isFinite(shown.high()) ? shown.high() : shown.low();
      return !Double.isFinite(bound) || hasNumber(message, print(shown, bound));
    }
    return hasNumber(message, print(shown, shown.likely()));
  }

  private static boolean hasNumber(String message, String number) {
    for (int at = message.indexOf(number); at >= 0; at = message.indexOf(number, at + 1)) {
      int end = at + number.length();
      boolean whole =
          (at == 0 || !partOfNumber(message.charAt(at - 1)))
              && (end == message.length() || !Character.isDigit(message.charAt(end)));
      if (whole) {
        return true;
      }
    }
    return false;
  }

  private static boolean partOfNumber(char character) {
    return Character.isDigit(character) || character == '.' || character == '-';
  }

  /** What a property means, if the name is that of one. */
  private static Optional<String> meaning(String name) {
    return Optional.ofNullable(Meanings.ALL.get(name));
  }

  /** Meanings of properties by their names; those of items also without their kind. */
  private static final class Meanings {
    static final Map<String, String> ALL = all();

    private static Map<String, String> all() {
      Map<String, String> meanings = new HashMap<>();
      Vocabulary vocabulary = Profile.vocabulary();
      for (Vocabulary.ItemKind kind : vocabulary.kinds()) {
        for (Vocabulary.Property property : kind.properties().values()) {
          meanings.put(kind.name() + "." + property.name(), property.meaning());
          // What is missing "of Glycerin" is of an ingredient: the viscosity at the end of a step
          // is
          // another thing than that of an oil.
          if (kind.properties().containsKey("functions")) {
            meanings.putIfAbsent(property.name(), property.meaning());
          }
        }
      }
      for (Vocabulary.Property property : vocabulary.properties()) {
        meanings.put(property.name(), property.meaning());
      }
      return Map.copyOf(meanings);
    }
  }

  /** A number by its meaning, without what explains it further; empty for one that has none. */
  static Optional<String> named(Shown shown) {
    return meaning(shown.name()).map(words -> Told.brief(words));
  }

  /** A finding somebody has taken responsibility for. */
  public static String accepted(Finding finding, Acceptance acceptance) {
    String subject = subject(finding.subject());
    return finding.title()
        + (subject.isEmpty() ? "" : " – " + subject)
        + ": "
        + finding.message()
        + " Accepted until "
        + acceptance.until()
        + " because: "
        + acceptance.because();
  }

  /** What has to be done, without its sources. */
  public static String duty(Duty duty) {
    StringBuilder words = new StringBuilder();
    if (duty.applies() == Outcome.MAY_APPLY) {
      words.append("May apply: ");
    } else if (duty.applies() == Outcome.HOLDS) {
      words.append("Done: ");
    } else if (duty.applies() == Outcome.BREAKS) {
      words.append("Not done: ");
    }
    words.append(duty.message());
    if (!duty.subject().isFormula() && !duty.message().contains(duty.subject().name())) {
      words.append(" (").append(subject(duty.subject())).append(')');
    }
    if (!duty.missing().isEmpty()) {
      words
          .append(" To be sure, state: ")
          .append(String.join("; ", missing(duty.missing())))
          .append('.');
    }
    return words.toString();
  }

  /** Whether there is anything to say of a duty. */
  public static boolean isTold(Duty duty) {
    return duty.applies() != Outcome.DOES_NOT_APPLY && duty.applies() != Outcome.NOT_APPLICABLE;
  }

  /** Cautions that no duty says already. */
  public static List<String> otherCautions(Review review) {
    Set<String> said = new HashSet<>();
    review.duties().forEach(duty -> said.add(duty.message()));
    return review.cautions().stream()
        .filter(caution -> !said.contains(caution) && !caution.contains(STANDING))
        .toList();
  }

  /** The sheet and the line of a finding; of one about the whole formula the sheet only. */
  public static String place(Finding finding) {
    Place where = finding.where();
    boolean line = where.line() > 0 && !isWhole(finding);
    return line ? new Place(where.file(), where.line(), 0, "").toString() : where.file();
  }

  /** Whether a finding is about the formula as a whole, not about a place in its sheet. */
  public static boolean isWhole(Finding finding) {
    return finding.where().pointer().isEmpty();
  }

  /** What headroom is, or why there is none. */
  public static String headroom(List<Headroom> headroom) {
    return headroom.isEmpty()
        ? "No number of this formula can be moved: there is no water, or no line that asks for the"
            + " rest, to take up the difference."
        : "How far each number can move, all others staying as they are and the water taking up"
            + " the difference, before a rule changes its outcome.";
  }

  /** How far a number can move one way. */
  public static String end(Headroom.Side side) {
    return written(side.free()) + (side.change().isEmpty() ? " or beyond" : "");
  }

  /** What changes where a number is moved one way. */
  public static String side(Headroom.Side side) {
    if (side.change().isEmpty()) {
      return "nothing changes as far as " + written(side.free()) + ".";
    }
    Headroom.Change change = side.change().get();
    String subject = subject(change.concern().subject());
    return "at "
        + written(change.at())
        + " "
        + change.concern().rule()
        + (subject.isEmpty() ? "" : " (" + subject + ")")
        + " goes from "
        + change.from().word()
        + " to "
        + change.to().word()
        + (change.others() == 0
            ? "."
            : ", and " + Told.count(change.others(), "other outcome") + " with it.");
  }

  /** A share to six digits, as the balance allows. */
  public static String written(Quantity quantity) {
    return quantity.unit() == Unit.PERCENT
        ? Numbers.significant(quantity.value(), 6) + " %"
        : quantity.toString();
  }

  /** How many rules ran and what came out. */
  public static String counts(Review review) {
    int times = 0;
    for (int count : review.counts().values()) {
      times += count;
    }
    int duties =
        counted(review, Outcome.APPLIES)
            + counted(review, Outcome.MAY_APPLY)
            + counted(review, Outcome.DOES_NOT_APPLY);
    return Told.count(review.rules().size(), "rule")
        + " run, "
        + Told.count(times, "outcome")
        + ": "
        + counted(review, Outcome.HOLDS)
        + " hold, "
        + counted(review, Outcome.BREAKS)
        + " break, "
        + counted(review, Outcome.BORDERLINE)
        + " borderline, "
        + counted(review, Outcome.UNKNOWN)
        + " not checked, "
        + counted(review, Outcome.NOT_APPLICABLE)
        + " not applicable"
        + (duties == 0
            ? ""
            : "; of the duties "
                + counted(review, Outcome.APPLIES)
                + " apply, "
                + counted(review, Outcome.MAY_APPLY)
                + " may apply, "
                + counted(review, Outcome.DOES_NOT_APPLY)
                + " do not")
        + ". "
        + review.accepted()
        + " accepted.";
  }

  private static int counted(Review review, Outcome outcome) {
    return review.counts().getOrDefault(outcome, 0);
  }

  /** What a review rests on. */
  public static String rests(Editions editions) {
    return "Reviewed for "
        + editions.on()
        + " with engine "
        + editions.engine()
        + editions(editions.ruleSets())
        + ".";
  }

  /**
   * What is missing, in words: {@code use-from of Glycerin} becomes "Glycerin: least share at which
   * it works". What belongs to one ingredient is gathered.
   */
  public static List<String> missing(Collection<String> missing) {
    Map<String, List<String>> ofOne = new LinkedHashMap<>();
    List<String> others = new ArrayList<>();
    for (String what : missing) {
      Matcher of = OF_NAME.matcher(what);
      Matcher dissolves = DISSOLVES.matcher(what);
      Matcher row = ROW.matcher(what);
      if (dissolves.matches()) {
        add(ofOne, dissolves.group(1), "what it dissolves in");
      } else if (row.matches()) {
        add(ofOne, row.group(1), "a row of the table " + row.group(2));
      } else if (of.matches()) {
        add(ofOne, of.group(2), brief(of.group(1)).replace('-', ' '));
      } else {
        others.add(brief(what));
      }
    }
    List<String> all = new ArrayList<>();
    ofOne.forEach((name, words) -> all.add(name + ": " + String.join(", ", words)));
    all.addAll(others);
    return all;
  }

  private static void add(Map<String, List<String>> ofOne, String name, String words) {
    ofOne.computeIfAbsent(name, key -> new ArrayList<>()).add(words);
  }

  /** A property by its meaning, without what explains it further; anything else as it is. */
  private static String brief(String what) {
    return meaning(what).map(words -> words.split("[:;]", 2)[0]).orElse(what);
  }

  /** The ingredient that all the missing things are of, if there is one. */
  public static Optional<String> onlyNameIn(Collection<String> missing) {
    Set<String> names = new HashSet<>();
    for (String what : missing) {
      Matcher of = OF_NAME.matcher(what);
      Matcher dissolves = DISSOLVES.matcher(what);
      Matcher row = ROW.matcher(what);
      names.add(
          dissolves.matches()
              ? dissolves.group(1)
              : row.matches() ? row.group(1) : of.matches() ? of.group(2) : "");
    }
    return names.size() == 1
        ? names.stream().filter(name -> !name.isEmpty()).findAny()
        : Optional.empty();
  }

  private static String capital(String words) {
    return words.startsWith("pH")
        ? words
        : Character.toUpperCase(words.charAt(0)) + words.substring(1);
  }

  /** Editions of rule sets: what most have in common once, the others by name. */
  public static String editions(Map<String, String> sets) {
    return Told.editions(sets);
  }

  /** What a finding is about, or empty for the formula as a whole. */
  public static String subject(Subject subject) {
    if (subject.isFormula()) {
      return "";
    }
    // A step is called "step 3" already, and an ingredient has a name that says what it is.
    return !isRow(subject) || subject.name().startsWith(subject.kind())
        ? name(subject)
        : subject.kind() + " " + subject.name();
  }

  /** Whether it is the row of a table, not a part of the formula. */
  public static boolean isRow(Subject subject) {
    return !subject.isFormula() && Profile.vocabulary().kind(subject.kind()).isEmpty();
  }

  /** Its name; of what an ingredient bears in heat that of the ingredient. */
  public static String name(Subject subject) {
    int comma = subject.name().lastIndexOf(", ");
    return subject.kind().equals("heat-limit") && comma > 0
        ? subject.name().substring(0, comma)
        : subject.name();
  }

  /** Findings that count, by level: errors, warnings, notes. */
  public static int count(Review review, Severity level) {
    return (int)
        review.findings().stream()
            .filter(
                finding ->
                    !finding.isAccepted()
                        && finding.level() == level
                        && (finding.outcome() != Outcome.UNKNOWN || finding.mustBeKnown()))
            .count();
  }
}
