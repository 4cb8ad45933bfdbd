package gelwright.charts;

import gelwright.prediction.Curve;
import gelwright.quantity.Numbers;
import java.util.ArrayList;
import java.util.List;

/** The text that tells what a picture shows. */
final class Telling {
  /** Points of a series that are told; the rest stands in the numbers themselves. */
  private static final int POINTS = 7;

  private Telling() {}

  static String of(Curve curve) {
    List<String> sentences = new ArrayList<>();
    if (!curve.isKnown()) {
      sentences.add("Not known.");
    } else {
      sentences.add(axis("Along: ", curve.x()) + "; " + axis("up: ", curve.y()) + ".");
    }
    for (Curve.Series series : curve.series()) {
      sentences.add(series(curve, series));
    }
    for (Curve.Mark mark : curve.marks()) {
      sentences.add(mark(curve, mark));
    }
    if (!curve.missing().isEmpty()) {
      sentences.add("Missing: " + String.join("; ", curve.missing()) + ".");
    }
    return String.join(" ", sentences);
  }

  static String of(Bars bars) {
    List<String> values = new ArrayList<>();
    for (Bars.Bar bar : bars.bars()) {
      values.add(bar.name() + " " + bar.label());
    }
    return capital(bars.quantity()) + ": " + String.join("; ", values) + ".";
  }

  private static String axis(String which, Curve.Axis axis) {
    return which
        + axis.quantity()
        + (axis.unit().isEmpty() ? "" : " in " + axis.unit())
        + (axis.logarithmic() ? ", logarithmic" : "");
  }

  private static String series(Curve curve, Curve.Series series) {
    List<String> points = new ArrayList<>();
    int last = series.points().size() - 1;
    int told = Math.min(last, POINTS - 1);
    for (int i = 0; i <= told; i++) {
      Curve.Point point = series.points().get(told == 0 ? 0 : Math.round((float) last * i / told));
      String likely = number(point.likely(), curve.y().unit());
      String range =
          point.low() == point.high()
              ? ""
              : " (" + Numbers.plain(point.low()) + " to " + Numbers.plain(point.high()) + ")";
      points.add(likely + range + " at " + number(point.x(), curve.x().unit()));
    }
    return capital(name(series)) + ": " + String.join("; ", points) + ".";
  }

  /** What a series is called in the picture. */
  static String name(Curve.Series series) {
    return switch (series.kind()) {
      case LIKELY, MEASURED -> series.name();
      case AT_LEAST -> series.name() + ", at least";
      case AT_MOST -> series.name() + ", at most";
    };
  }

  private static String mark(Curve curve, Curve.Mark mark) {
    List<String> where = new ArrayList<>();
    range(where, mark.yFrom(), mark.yTo(), curve.y().unit(), "");
    range(where, mark.xFrom(), mark.xTo(), curve.x().unit(), where.isEmpty() ? "" : "at ");
    return "Marked: " + mark.label() + ", " + String.join(" ", where) + ".";
  }

  private static void range(
      List<String> where, double from, double to, String unit, String before) {
    if (from == to) {
      where.add(before + number(from, unit));
    } else if (Double.isFinite(from) && Double.isFinite(to)) {
      where.add(before + Numbers.plain(from) + " to " + number(to, unit));
    } else if (Double.isFinite(from)) {
      where.add(before + "from " + number(from, unit));
    } else if (Double.isFinite(to)) {
      where.add(before + "up to " + number(to, unit));
    }
  }

  static String number(double value, String unit) {
    return unit.isEmpty() ? Numbers.plain(value) : Numbers.plain(value) + " " + unit;
  }

  /** With a capital at the start, but for pH and pKa. */
  static String capital(String words) {
    return words.isEmpty() || words.startsWith("pH") || words.startsWith("pK")
        ? words
        : words.substring(0, words.offsetByCodePoints(0, 1)).toUpperCase(java.util.Locale.ROOT)
            + words.substring(words.offsetByCodePoints(0, 1));
  }
}
