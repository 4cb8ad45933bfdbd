package gelwright.api.html;

import static java.util.Objects.requireNonNull;

import gelwright.quantity.Numbers;
import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import gelwright.review.Finding;
import gelwright.review.Shown;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * A number and its limit on one line. All places are percentages of the width, so that the picture
 * is as wide as the page allows and its letters keep their size.
 *
 * @param name what the number is
 * @param observed the number with its range, in words
 * @param limit the limit with its range, in words; empty where there is none
 * @param factor whether equal steps are equal factors
 * @param range where the number is 9 times in 10
 * @param likely the likely value; empty where only a bound is known
 * @param limitRange where the limit is 9 times in 10; empty for one that is certain
 * @param limitMark the limit; empty where it is only bounded
 * @param wrong the side of the limit that is not allowed, where the number is on it
 * @param barred that side, to the edge; empty where there is none
 * @param ticks numbers beneath the line
 */
public record Scale(
    String name,
    String observed,
    String limit,
    boolean factor,
    Bar range,
    Optional<Mark> likely,
    Optional<Bar> limitRange,
    Optional<Mark> limitMark,
    Side wrong,
    Optional<Span> barred,
    List<Mark> ticks) {
  /** Fewer steps than this leave numbers without a neighbour, more of them run into each other. */
  private static final int STEPS = 4;

  /** Spread over this factor, numbers near zero cannot be told apart on a line of equal steps. */
  private static final double WIDE = 20;

  /** A range this much longer above than below comes of a factor, if the numbers spread so far. */
  private static final double SKEWED = 1.5;

  private static final double SKEWED_FROM = 3;

  /** The space between a number and its unit, not that before "to" and "and". */
  private static final Pattern UNIT_BEHIND = Pattern.compile("(\\d) (?!to |and |\\()");

  /** Room at either end, as a part of the length. */
  private static final double ROOM = 0.07;

  /** So narrow a bar could not be seen, % of the width. */
  private static final double NARROWEST = 0.6;

  /** Where a line of factors has its numbers within each power of ten; the densest first. */
  private static final double[][] DENSEST_FIRST = {
    {1, 1.5, 2, 3, 4, 5, 6, 8}, {1, 2, 3, 5}, {1, 2, 5}, {1, 3}, {1}
  };

  public Scale {
    requireNonNull(name, "name");
    ticks = List.copyOf(ticks);
  }

  /** A side of a limit. */
  public enum Side {
    /** What is less than the limit. */
    BELOW("less is not allowed"),
    /** What is more than the limit. */
    ABOVE("more is not allowed"),
    /** Neither, or nobody can tell. */
    NEITHER("");

    private final String words;

    Side(String words) {
      this.words = words;
    }

    /** That this side is not allowed. */
    public String words() {
      return words;
    }
  }

  /**
   * The side of its limit that a number is on and must not be, as far as the outcome proves it.
   *
   * <p>A finding does not carry how its number has to stand to its limit. A rule that breaks tells
   * it where the number is wholly to one side; so does one that probably fails, since its odds are
   * never below those that the number stands right. What probably holds may do so because the rule
   * hardly applies, and proves nothing.
   */
  static Side wrongSide(Finding finding) {
    if (finding.observed().isEmpty() || finding.limit().isEmpty()) {
      return Side.NEITHER;
    }
    Shown observed = finding.observed().get();
    Shown limit = finding.limit().get();
    return switch (finding.outcome()) {
      case BREAKS ->
          observed.high() < limit.low()
              ? Side.BELOW
              : observed.low() > limit.high() ? Side.ABOVE : Side.NEITHER;
      case BORDERLINE ->
          finding.odds().high() >= 0.5
              ? Side.NEITHER
              : observed.likely() < limit.likely()
                  ? Side.BELOW
                  : observed.likely() > limit.likely() ? Side.ABOVE : Side.NEITHER;
      default -> Side.NEITHER;
    };
  }

  /** From here so far to the right, both with a percent sign. */
  public record Bar(String x, String width) {}

  /** From here to there, both with a percent sign. */
  public record Span(String from, String to) {}

  /**
   * A place with a label.
   *
   * @param x with a percent sign
   * @param anchor which end of the label stands there, so that it stays on the page
   * @param label may be empty
   */
  public record Mark(String x, String anchor, String label) {}

  /** What the picture shows, in words. */
  public String telling() {
    return (name.isEmpty() ? "Here" : name)
        + " "
        + observed
        + (limit.isEmpty() ? "" : "; limit " + limit)
        + (wrong.words().isEmpty() ? "" : ", " + wrong.words())
        + ".";
  }

  /** A number, what it is held against, and the side it must not be on. */
  record Compared(Shown observed, Shown limit, Side wrong) {}

  /**
   * Draws a number and its limit.
   *
   * @param compared the two
   * @param beside others that are drawn beneath each other with it; those of the same unit get the
   *     same line
   * @return empty where there is nothing to hold against each other, as for counts
   */
  static Optional<Scale> of(Compared compared, List<Compared> beside) {
    Shown observed = compared.observed();
    Shown limit = compared.limit();
    if ((isCount(observed) && isCount(limit)) || !isPlaced(limit)) {
      return Optional.empty();
    }
    List<Shown> all = new ArrayList<>(List.of(observed, limit));
    for (Compared each : beside) {
      if (each.observed().unit() == observed.unit() && each.limit().unit() == limit.unit()) {
        all.addAll(List.of(each.observed(), each.limit()));
      }
    }
    List<Double> ends = new ArrayList<>();
    for (Shown shown : all) {
      for (double value : new double[] {shown.low(), shown.likely(), shown.high()}) {
        if (Double.isFinite(value)) {
          ends.add(value);
        }
      }
    }
    double least = ends.stream().mapToDouble(Double::doubleValue).min().orElse(0);
    double most = ends.stream().mapToDouble(Double::doubleValue).max().orElse(0);
    return least < most
        ? Optional.of(new Line(least, most, isFactor(all, least, most)).scale(compared))
        : Optional.empty();
  }

  private static boolean isCount(Shown shown) {
    return shown.unit() == Unit.NONE
        && shown.low() == shown.high()
        && shown.low() == Math.rint(shown.low());
  }

  private static boolean isPlaced(Shown shown) {
    return Double.isFinite(shown.likely());
  }

  /** Whether the numbers differ by factors rather than by amounts. A pH is a power already. */
  private static boolean isFactor(List<Shown> all, double least, double most) {
    Unit unit = all.get(0).unit();
    if (unit == Unit.PH || unit == Unit.CELSIUS || least <= 0) {
      return false;
    }
    boolean skewed = all.stream().anyMatch(Scale::isSkewed);
    return most >= WIDE * least || (skewed && most >= SKEWED_FROM * least);
  }

  private static boolean isSkewed(Shown shown) {
    return isPlaced(shown)
        && Double.isFinite(shown.low())
        && Double.isFinite(shown.high())
        && shown.high() - shown.likely() > SKEWED * (shown.likely() - shown.low());
  }

  /** Where numbers stand on the line. */
  private static final class Line {
    private final boolean factor;
    private final double from;
    private final double to;

    Line(double least, double most, boolean factor) {
      this.factor = factor;
      double low = factor ? Math.log10(least) : least;
      double high = factor ? Math.log10(most) : most;
      // An amount is read from nothing on, unless that leaves no room for what differs.
      boolean fromZero = !factor && least >= 0 && least < most / 2;
      double room = ROOM * (high - low);
      this.from = fromZero ? 0 : low - room;
      this.to = high + room;
    }

    Scale scale(Compared compared) {
      Shown observed = compared.observed();
      Shown limit = compared.limit();
      Optional<Mark> likely =
          isPlaced(observed)
              ? Optional.of(mark(observed.likely(), print(observed, observed.likely())))
              : Optional.empty();
      return new Scale(
          Words.named(observed).orElse(""),
          unbroken(Told.range(observed)),
          unbroken(Told.range(limit)),
          factor,
          bar(observed),
          likely,
          limit.low() == limit.high() ? Optional.empty() : Optional.of(bar(limit)),
          Optional.of(mark(limit.likely(), "limit " + print(limit, limit.likely()))),
          compared.wrong(),
          barred(compared.wrong(), place(limit.likely())),
          ticks());
    }

    private static Optional<Span> barred(Side side, double from) {
      return switch (side) {
        case BELOW -> Optional.of(new Span(percent(0), percent(from)));
        case ABOVE -> Optional.of(new Span(percent(from), percent(100)));
        case NEITHER -> Optional.empty();
      };
    }

    /** Numbers that keep their units beside them when a line is full. */
    private static String unbroken(String range) {
      return UNIT_BEHIND.matcher(range).replaceAll("$1\u00a0");
    }

    private static String print(Shown shown, double value) {
      return Quantity.print(value, shown.unit());
    }

    /** From 0 to 100. */
    private double place(double value) {
      if ((value <= 0 && factor) || value == Double.NEGATIVE_INFINITY) {
        return 0;
      }
      double at = factor ? Math.log10(value) : value;
      return Math.max(0, Math.min(100, 100 * (at - from) / (to - from)));
    }

    private Bar bar(Shown shown) {
      double left = place(shown.low());
      double right = place(shown.high());
      double width = Math.max(NARROWEST, right - left);
      return new Bar(percent(Math.min(left, 100 - width)), percent(width));
    }

    private Mark mark(double value, String label) {
      double x = place(value);
      return new Mark(percent(x), x < 20 ? "start" : x > 80 ? "end" : "middle", label);
    }

    private List<Mark> ticks() {
      List<Mark> ticks = new ArrayList<>();
      for (double value : factor ? factors() : amounts()) {
        double x = place(value);
        ticks.add(
            new Mark(
                percent(x), x < 3 ? "start" : x > 97 ? "end" : "middle", Numbers.plain(value)));
      }
      return ticks;
    }

    private List<Double> amounts() {
      double rough = (to - from) / STEPS;
      double power = Math.pow(10, Math.floor(Math.log10(rough)));
      double step = power;
      for (double each : new double[] {2, 5, 10}) {
        if (step < rough) {
          step = each * power;
        }
      }
      List<Double> values = new ArrayList<>();
      for (double i = Math.ceil(from / step); i * step <= to; i++) {
        values.add(i * step);
      }
      return values;
    }

    private List<Double> factors() {
      for (double[] steps : DENSEST_FIRST) {
        List<Double> values = new ArrayList<>();
        for (int power = (int) Math.floor(from); power <= to; power++) {
          for (double step : steps) {
            double value = step * Math.pow(10, power);
            double at = Math.log10(value);
            if (at >= from && at <= to) {
              values.add(value);
            }
          }
        }
        if (values.size() <= STEPS + 2) {
          return values;
        }
      }
      List<Double> values = new ArrayList<>();
      int every = (int) Math.ceil((to - from) / STEPS);
      for (int power = (int) Math.ceil(from); power <= to; power += every) {
        values.add(Math.pow(10, power));
      }
      return values;
    }

    private static String percent(double value) {
      return String.format(Locale.ROOT, "%.2f%%", value);
    }
  }
}
