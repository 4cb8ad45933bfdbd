package gelwright.api.html;

import gelwright.formula.Span;
import gelwright.ingredient.Source;
import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import gelwright.review.Editions;
import gelwright.review.Shown;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/** Numbers, sources and strangers' texts as a page or a terminal shows them. */
public final class Told {
  private Told() {}

  /**
   * A text without what could steer a terminal or turn its order of reading: control characters,
   * escape sequences, overrides of direction. Line breaks and tabs become spaces.
   */
  public static String line(String text) {
    StringBuilder plain = new StringBuilder(text.length());
    text.codePoints()
        .forEach(
            point -> {
              if (Character.isWhitespace(point)) {
                plain.append(' ');
              } else if (!Character.isISOControl(point)
                  && !turns(point)
                  && Character.getType(point) != Character.SURROGATE) {
                plain.appendCodePoint(point);
              }
            });
    return plain.toString().strip();
  }

  /** Unicode's explicit directional formatting characters (UAX #9, section 2). */
  private static boolean turns(int point) {
    return (point >= 0x202a && point <= 0x202e)
        || (point >= 0x2066 && point <= 0x2069)
        || point == 0x200e
        || point == 0x200f
        || point == 0x061c;
  }

  /** A number with its range, as far as it is known. */
  public static String range(Shown shown) {
    boolean low = Double.isFinite(shown.low());
    boolean high = Double.isFinite(shown.high());
    if (!shown.isKnown()) {
      if (low && high) {
        return "between " + print(shown, shown.low()) + " and " + print(shown, shown.high());
      }
      return low
          ? "at least " + print(shown, shown.low())
          : high ? "at most " + print(shown, shown.high()) : "not known";
    }
    if (!Double.isFinite(shown.likely())) {
      return "any amount";
    }
    String likely = print(shown, shown.likely());
    String least = low ? print(shown, shown.low()) : "anything";
    String most = high ? print(shown, shown.high()) : "anything";
    return least.equals(likely) && most.equals(likely)
        ? likely
        : likely + " (" + least + " to " + most + ")";
  }

  private static String print(Shown shown, double value) {
    return Quantity.print(value, shown.unit());
  }

  /** A range that a sheet aims at, in pH. */
  static String span(Span span) {
    return Quantity.print(span.from(), Unit.PH) + " to " + Quantity.print(span.to(), Unit.PH);
  }

  /** What stands beside the number of a source: nothing where it can be looked up. */
  public static String besideNumber(Source.Standing standing) {
    return switch (standing) {
      case MEASURED -> "measured";
      case PUBLISHED -> "";
      case COMMON_PRACTICE -> "common practice";
      case FROM_MEMORY -> "from memory";
    };
  }

  /** With a capital letter, but for a pH. */
  static String capital(String words) {
    return words.isEmpty() || words.startsWith("pH")
        ? words
        : words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
  }

  /** On what a paper rests. */
  static String rests(Editions editions) {
    return "Made for "
        + editions.on()
        + " with engine "
        + editions.engine()
        + editions(editions.ruleSets())
        + ". Formula SHA-256 "
        + editions.formulaSha256()
        + ".";
  }

  /** Editions of rule sets: what most have in common once, the others by name. */
  public static String editions(Map<String, String> sets) {
    Map<String, List<String>> byEdition = new TreeMap<>();
    sets.forEach(
        (id, edition) -> byEdition.computeIfAbsent(edition, key -> new ArrayList<>()).add(id));
    if (byEdition.isEmpty()) {
      return "";
    }
    Map.Entry<String, List<String>> commonest =
        Collections.max(
            byEdition.entrySet(), Comparator.comparingInt(entry -> entry.getValue().size()));
    String most = commonest.getKey();
    StringBuilder words =
        new StringBuilder(" and ")
            .append(count(commonest.getValue().size(), "rule set"))
            .append(" of edition ")
            .append(most);
    byEdition.forEach(
        (edition, ids) -> {
          if (!edition.equals(most)) {
            ids.forEach(id -> words.append(", ").append(id).append(' ').append(edition));
          }
        });
    return words.toString();
  }

  /** A number with its noun: {@code 1 rule}, {@code 2 rules}. */
  public static String count(int number, String noun) {
    return number + " " + noun + (number == 1 ? "" : "s");
  }

  /** What a property means, without what explains it further. */
  static String brief(String meaning) {
    int end = meaning.length();
    for (char mark : new char[] {':', ';'}) {
      int at = meaning.indexOf(mark);
      end = at >= 0 && at < end ? at : end;
    }
    return capital(line(meaning.substring(0, end)));
  }

  /** Sources with the numbers they have in one paper, in the order they turn up. */
  static final class Cited {
    private final Map<Source, Integer> numbers = new LinkedHashMap<>();

    /** The number of a source; the next one for a source that turns up for the first time. */
    int number(Source source) {
      return numbers.computeIfAbsent(source, key -> numbers.size() + 1);
    }

    /** Every source that was cited, with its number, in their order. */
    Map<Source, Integer> numbers() {
      return numbers;
    }

    /** Such as {@code [1] [4]; common practice [2]}; nothing for no source. */
    String of(List<Source> sources) {
      Map<Source.Standing, List<String>> byStanding = new TreeMap<>();
      for (Source source : sources) {
        byStanding
            .computeIfAbsent(source.standing(), key -> new ArrayList<>())
            .add("[" + number(source) + "]");
      }
      List<String> parts = new ArrayList<>();
      byStanding.forEach(
          (standing, list) ->
              parts.add((besideNumber(standing) + " " + String.join(" ", list)).strip()));
      return String.join("; ", parts);
    }

    /** The same behind a sentence, in brackets where it says more than a number. */
    String behind(List<Source> sources) {
      String cited = of(sources);
      return cited.isEmpty()
          ? ""
          : cited.matches("[\\[\\]0-9 ]+") ? " " + cited : " (" + cited + ")";
    }

    /** All that were cited. */
    List<String> all() {
      List<String> all = new ArrayList<>();
      numbers.forEach(
          (source, number) -> {
            String standing = besideNumber(source.standing());
            all.add(
                "["
                    + number
                    + "] "
                    + (standing.isEmpty() ? "published" : standing)
                    + " – "
                    + line(source.citation()));
          });
      return all;
    }
  }
}
