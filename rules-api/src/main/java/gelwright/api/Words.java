package gelwright.api;

import gelwright.api.html.Told;
import gelwright.ingredient.Source;
import gelwright.profile.Profile;
import gelwright.quantity.Odds;
import gelwright.quantity.Quantity;
import gelwright.review.Finding;
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
final class Words {
  /** Fractions people say, from the smallest to the largest. */
  private static final int[][] FRACTIONS = {
    {1, 20}, {1, 10}, {1, 5}, {1, 4}, {1, 3}, {2, 5}, {1, 2}, {3, 5}, {2, 3}, {3, 4}, {4, 5},
    {9, 10}, {19, 20}
  };

  private static final Pattern OF_NAME = Pattern.compile("(\\S+|[^A-Z]+) of (\\p{Lu}.*)");
  private static final Pattern DISSOLVES = Pattern.compile("what (.+) dissolves in");
  private static final Pattern ROW = Pattern.compile("row (.+) of table (.+)");

  private Words() {}

  /** The whole review in one sentence. */
  static String verdict(Review review) {
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
  static String outcome(Review review) {
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
  static String range(Shown shown) {
    return Told.range(shown);
  }

  private static String print(Shown shown, double value) {
    return Quantity.print(value, shown.unit());
  }

  /** Odds as people say them: a sentence, or nothing where the outcome says it. */
  static String odds(Odds odds) {
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
        + Plain.count(nearest[0], "chance")
        + " in "
        + nearest[1]
        + (odds.low() < 0.5 ? " that it holds." : ".");
  }

  /** A remedy with its odds, and what else it does. */
  static String remedy(Remedy remedy) {
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
      words.append(" Clears ").append(Plain.count(more, "other finding")).append(" too.");
    }
    words.append(
        remedy.raises().isEmpty()
            ? " Raises nothing new."
            : " Raises: "
                + remedy.raises().stream()
                    .map(
                        each ->
                            each.rule()
                                + (each.subject().isFormula()
                                    ? ""
                                    : " (" + subject(each.subject()) + ")"))
                    .collect(Collectors.joining(", "))
                + ".");
    return words.toString();
  }

  private static String percent(double odds) {
    return Math.round(odds * 100) + " %";
  }

  static String standing(Source.Standing standing) {
    return switch (standing) {
      case PUBLISHED -> "published";
      case COMMON_PRACTICE -> "common practice, no source";
      case FROM_MEMORY -> "from memory, not checked against a text";
    };
  }

  /** What stands beside the number of a source: nothing where it can be looked up. */
  static String besideNumber(Source.Standing standing) {
    return Told.besideNumber(standing);
  }

  /**
   * The numbers of a finding that its message does not say, by their meaning. A limit that is
   * worked out or looked up has no name worth reading.
   */
  static Optional<String> numbers(Finding finding) {
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

  /**
   * What is missing, in words: {@code use-from of Glycerin} becomes "Glycerin: least share at which
   * it works". What belongs to one ingredient is gathered.
   */
  static List<String> missing(Collection<String> missing) {
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
  static Optional<String> onlyNameIn(Collection<String> missing) {
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
  static String editions(Map<String, String> sets) {
    return Told.editions(sets);
  }

  /** What a finding is about, or empty for the formula as a whole. */
  static String subject(Subject subject) {
    if (subject.isFormula()) {
      return "";
    }
    // A step is called "step 3" already, and an ingredient has a name that says what it is.
    return !isRow(subject) || subject.name().startsWith(subject.kind())
        ? name(subject)
        : subject.kind() + " " + subject.name();
  }

  /** Whether it is the row of a table, not a part of the formula. */
  static boolean isRow(Subject subject) {
    return !subject.isFormula() && Profile.vocabulary().kind(subject.kind()).isEmpty();
  }

  /** Its name; of what an ingredient bears in heat that of the ingredient. */
  static String name(Subject subject) {
    int comma = subject.name().lastIndexOf(", ");
    return subject.kind().equals("heat-limit") && comma > 0
        ? subject.name().substring(0, comma)
        : subject.name();
  }

  /** Findings that count, by level: errors, warnings, notes. */
  static int count(Review review, Severity level) {
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
