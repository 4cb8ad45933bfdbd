package gelwright.charts;

import gelwright.prediction.Curve;
import gelwright.quantity.Numbers;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * What the chart library is asked to draw.
 *
 * @param specification in the library's own words; empty where there is nothing to plot
 * @param height of the picture
 */
record Plot(Map<String, Object> specification, int height) {
  // Layers from the back to the front: bands of marks, ranges of series, lines of marks, series,
  // letters of marks. All limits of the axes are computed here, so that a mark that reaches to the
  // edge does. Marks carry a letter and are explained in the caption beneath: their words are long
  // and would lie over each other in the plot.

  static final int WIDTH = 760;

  private static final int BODY = 400;
  private static final int CAPTION_LINE = 17;
  private static final int LEGEND_LINE = 25;
  private static final int BAR = 44;
  private static final int CAPTION_WIDTH = 104;
  private static final int LONGEST_NAME = 46;
  private static final int LONGEST_TITLE = 84;

  /**
   * Distinct in colour, to colour-blind eyes, and – the first three – in grey: Tol's high-contrast
   * and muted schemes (P. Tol, Colour Schemes, technical note SRON/EPS/TN/09-002). Dashes tell
   * apart what grey does not.
   */
  private static final List<String> COLOURS =
      List.of("#004488", "#BB5566", "#997700", "#117733", "#882255", "#332288", "#000000");

  /** The library's numbers of solid, dashed, dotted, dot-dashed, long-dashed, two-dashed lines. */
  private static final List<Integer> DASHES = List.of(1, 2, 3, 4, 5, 6);

  /** A shape of points: what it is called, and the library's number for it. */
  private record Shape(String name, int number) {}

  /** Shapes of readings, told apart without colour. */
  private static final List<Shape> SHAPES =
      List.of(new Shape("Diamonds", 18), new Shape("Open circles", 1), new Shape("Crosses", 4));

  private static final String MARK_COLOUR = "#555555";

  /** Part of the height between the letters of neighbouring marks. */
  private static final double LETTER_STEP = 0.055;

  Plot {
    specification = Map.copyOf(specification);
  }

  static Plot of(Curve curve, String about) {
    if (!curve.isKnown()) {
      return new Plot(Map.of(), 120);
    }
    Extent x = Extent.of(curve, true);
    Extent y = Extent.of(curve, false);
    List<Object> layers = new ArrayList<>();
    for (Curve.Mark mark : curve.marks()) {
      band(mark, x, y).ifPresent(layers::add);
    }
    List<String> names = new ArrayList<>();
    List<String> colours = new ArrayList<>();
    List<Object> dashes = new ArrayList<>();
    List<Curve.Series> lines =
        curve.series().stream().filter(series -> series.kind() != Curve.Kind.MEASURED).toList();
    for (int i = 0; i < lines.size(); i++) {
      names.add(label(lines.get(i), names));
      colours.add(COLOURS.get(i % COLOURS.size()));
      dashes.add(DASHES.get(i % DASHES.size()));
    }
    for (int i = 0; i < names.size(); i++) {
      ribbon(lines.get(i), names.get(i), y).ifPresent(layers::add);
    }
    for (Curve.Mark mark : curve.marks()) {
      line(mark, x, y).ifPresent(layers::add);
    }
    for (int i = 0; i < names.size(); i++) {
      layers.add(line(lines.get(i), names.get(i)));
    }
    List<Curve.Series> readings = readings(curve);
    for (int i = 0; i < readings.size(); i++) {
      layers.add(readings(readings.get(i), SHAPES.get(i % SHAPES.size())));
    }
    layers.addAll(letters(curve.marks(), x, y));
    List<Object> scales = new ArrayList<>();
    scales.add(axis("x", curve.x(), x));
    scales.add(axis("y", curve.y(), y));
    if (!names.isEmpty()) {
      scales.add(manual("color", names, colours));
      scales.add(manual("fill", names, colours));
      scales.add(manual("linetype", names, dashes));
    }
    List<String> caption = caption(curve);
    int columns = columns(names);
    int legend = (names.size() + columns - 1) / columns;
    Map<String, Object> plot = plot(curve.title(), about, layers, scales, caption);
    plot.put("theme", theme("bottom"));
    plot.put("guides", map("color", legend(columns), "linetype", legend(columns), "fill", "none"));
    return new Plot(
        plot, BODY + legend * LEGEND_LINE + caption.size() * CAPTION_LINE + LEGEND_LINE);
  }

  static Plot of(Bars bars, String about) {
    double least = 0;
    double most = 0;
    for (Bars.Bar bar : bars.bars()) {
      least = Math.min(least, Math.min(bar.from(), bar.to()));
      most = Math.max(most, Math.max(bar.from(), bar.to()));
    }
    double length = most == least ? 1 : most - least;
    double from = least < 0 ? least - 0.14 * length : 0;
    List<Object> layers = new ArrayList<>();
    // The library cuts long names of a scale short, so they stand above their bars as text. The
    // first is drawn at the foot, so the bars are counted from there.
    int size = bars.bars().size();
    for (int i = 0; i < size; i++) {
      Bars.Bar bar = bars.bars().get(i);
      double y = size - i;
      Map<String, Object> block = map("geom", "rect", "tooltips", "none");
      block.put(
          "data",
          map(
              "a", List.of(Math.min(bar.from(), bar.to())),
              "b", List.of(Math.max(bar.from(), bar.to())),
              "c", List.of(y - 0.34),
              "d", List.of(y + 0.1)));
      block.put("mapping", map("xmin", "a", "xmax", "b", "ymin", "c", "ymax", "d"));
      block.putAll(map("fill", COLOURS.get(0), "size", 0));
      layers.add(block);
      if (bar.from() < 0 && bar.to() > 0) {
        // Where nothing has moved.
        Map<String, Object> zero = map("geom", "segment", "tooltips", "none");
        zero.put("data", map("a", List.of(0.0), "c", List.of(y - 0.34), "d", List.of(y + 0.1)));
        zero.put("mapping", map("x", "a", "xend", "a", "y", "c", "yend", "d"));
        zero.putAll(map("color", "#FFFFFF", "size", 1));
        layers.add(zero);
      }
      layers.add(words(from + 0.01 * length, y + 0.3, shortened(bar.name(), 80), true));
      boolean positive = bar.to() >= bar.from();
      layers.add(
          words(bar.to() + (positive ? 0.01 : -0.01) * length, y - 0.12, bar.label(), positive));
    }
    Curve.Axis along = Curve.Axis.linear(bars.quantity(), bars.unit());
    Map<String, Object> across = map("aesthetic", "y", "name", "", "expand", List.of(0, 0));
    across.putAll(
        map("limits", List.of(0.5, size + 0.6), "breaks", List.of(), "labels", List.of()));
    List<Object> scales =
        List.of(
            axis("x", along, new Extent(from, most + (least < 0 ? 0.55 : 0.14) * length, false)),
            across);
    Map<String, Object> plot = plot(bars.title(), about, layers, scales, List.of());
    plot.put("theme", theme("none"));
    return new Plot(plot, 110 + BAR * size);
  }

  private static Map<String, Object> words(double x, double y, String words, boolean fromLeft) {
    Map<String, Object> text = map("geom", "text", "hjust", fromLeft ? 0.0 : 1.0, "size", 5);
    text.put("data", map("x", List.of(x), "y", List.of(y), "l", List.of(words)));
    text.put("mapping", map("x", "x", "y", "y", "label", "l"));
    text.putAll(map("color", "#222222", "tooltips", "none"));
    return text;
  }

  private static Map<String, Object> plot(
      String title, String about, List<Object> layers, List<Object> scales, List<String> caption) {
    Map<String, Object> plot = new LinkedHashMap<>();
    plot.put("kind", "plot");
    Map<String, Object> heading = map("text", shortened(title, LONGEST_TITLE));
    if (!about.isEmpty()) {
      heading.put("subtitle", shortened(about, LONGEST_TITLE));
    }
    plot.put("ggtitle", heading);
    plot.put("layers", layers);
    plot.put("scales", scales);
    if (!caption.isEmpty()) {
      plot.put("caption", map("text", String.join("\n", caption)));
    }
    return plot;
  }

  private static Map<String, Object> theme(String legend) {
    return map(
        "name", "bw",
        "legend_position", legend,
        "plot_title", map("size", 15, "blank", false),
        "plot_subtitle", map("size", 13, "blank", false),
        "plot_caption", map("size", 12, "hjust", 0, "blank", false),
        "axis_title", map("size", 13, "blank", false),
        "axis_text", map("size", 12, "blank", false),
        "axis_text_x", map("angle", 0, "blank", false),
        "legend_text", map("size", 12, "blank", false),
        "legend_title", "blank");
  }

  private static Map<String, Object> legend(int columns) {
    return map("name", "legend", "ncol", columns);
  }

  private static int columns(List<String> names) {
    int longest = names.stream().mapToInt(String::length).max().orElse(1);
    return Math.max(1, Math.min(Math.max(1, names.size()), 92 / (longest + 8)));
  }

  // --- Axes

  /** From where to where an axis goes. */
  private record Extent(double from, double to, boolean logarithmic) {
    static Extent of(Curve curve, boolean along) {
      Curve.Axis axis = along ? curve.x() : curve.y();
      double least = Double.POSITIVE_INFINITY;
      double most = Double.NEGATIVE_INFINITY;
      for (Curve.Series series : curve.series()) {
        for (Curve.Point point : series.points()) {
          least = Math.min(least, along ? point.x() : point.low());
          most = Math.max(most, along ? point.x() : point.high());
        }
      }
      for (Curve.Mark mark : curve.marks()) {
        for (double end : along ? ends(mark.xFrom(), mark.xTo()) : ends(mark.yFrom(), mark.yTo())) {
          if (Double.isFinite(end) && !(axis.logarithmic() && end <= 0)) {
            least = Math.min(least, end);
            most = Math.max(most, end);
          }
        }
      }
      if (axis.logarithmic()) {
        return new Extent(
            Math.pow(10, Math.floor(Math.log10(least) + 1e-9)),
            Math.pow(10, Math.ceil(Math.log10(most) - 1e-9)) * (least == most ? 10 : 1),
            true);
      }
      double room = most == least ? Math.max(1, Math.abs(most) * 0.1) : 0.04 * (most - least);
      // A share never goes beyond what a share can be.
      boolean part = axis.unit().equals("%") && least >= 0 && most <= 100;
      double from = along ? least : part ? Math.max(0, least - room) : least - room;
      double to = along ? most : part ? Math.min(100, most + room) : most + room;
      return new Extent(from, along && to == from ? from + 1 : to, false);
    }

    private static double[] ends(double from, double to) {
      return new double[] {from, to};
    }

    double within(double value) {
      return Math.max(from, Math.min(to, value));
    }

    /** A hair wider on a logarithmic axis, so that rounding does not cut off the ends. */
    List<Double> limits() {
      return logarithmic ? List.of(from / 1.0001, to * 1.0001) : List.of(from, to);
    }

    /** The value at a part of the way from one end to the other. */
    double at(double part) {
      return logarithmic
          ? Math.pow(10, Math.log10(from) + part * (Math.log10(to) - Math.log10(from)))
          : from + part * (to - from);
    }

    double part(double value) {
      return logarithmic
          ? (Math.log10(value) - Math.log10(from)) / (Math.log10(to) - Math.log10(from))
          : (value - from) / (to - from);
    }
  }

  private static Map<String, Object> axis(String which, Curve.Axis axis, Extent extent) {
    Map<String, Object> scale =
        map(
            "aesthetic", which,
            "name", words(axis.quantity(), axis.unit()),
            "limits", extent.limits(),
            "expand", List.of(0, 0));
    List<Double> breaks = new ArrayList<>();
    if (extent.logarithmic()) {
      scale.put("trans", "log10");
      int from = (int) Math.round(Math.log10(extent.from()));
      int to = (int) Math.round(Math.log10(extent.to()));
      int step = Math.max(1, (to - from + 9) / 10);
      for (int power = from; power <= to; power += step) {
        breaks.add(Double.parseDouble("1e" + power));
      }
    } else {
      double step = step(extent.to() - extent.from());
      for (long i = (long) Math.ceil(extent.from() / step - 1e-9); ; i++) {
        if (i * step > extent.to() + 1e-9 * step) {
          break;
        }
        breaks.add(i * step);
      }
    }
    scale.put("breaks", breaks);
    scale.put(
        "labels",
        breaks.stream().map(extent.logarithmic() ? Plot::power : Numbers::plain).toList());
    return scale;
  }

  /** A power of ten; beyond thousands and thousandths by its exponent, which is short. */
  private static String power(double value) {
    if (value >= 1e-3 && value <= 1e3) {
      return Numbers.plain(value);
    }
    int exponent = (int) Math.round(Math.log10(value));
    StringBuilder power = new StringBuilder("10");
    for (char digit : Integer.toString(exponent).toCharArray()) {
      power.append(digit == '-' ? '⁻' : "⁰¹²³⁴⁵⁶⁷⁸⁹".charAt(digit - '0'));
    }
    return power.toString();
  }

  /** A step of 1, 2 or 5 times a power of ten that goes five to ten times into a length. */
  private static double step(double length) {
    double power = Math.pow(10, Math.floor(Math.log10(length / 5)));
    double ratio = length / 5 / power;
    return power * (ratio >= 5 ? 5 : ratio >= 2 ? 2 : 1);
  }

  private static Map<String, Object> manual(String which, List<String> names, List<?> values) {
    return map("aesthetic", which, "name", "", "values", values, "limits", names, "breaks", names);
  }

  // --- Series

  private static java.util.Optional<Map<String, Object>> ribbon(
      Curve.Series series, String name, Extent y) {
    if (series.points().stream().allMatch(point -> point.low() == point.high())) {
      return java.util.Optional.empty();
    }
    List<Double> x = new ArrayList<>();
    List<Double> low = new ArrayList<>();
    List<Double> high = new ArrayList<>();
    List<String> names = new ArrayList<>();
    for (Curve.Point point : series.points()) {
      x.add(point.x());
      low.add(y.within(point.low()));
      high.add(y.within(point.high()));
      names.add(name);
    }
    return java.util.Optional.of(
        map(
            "geom",
            "ribbon",
            "data",
            map("x", x, "low", low, "high", high, "name", names),
            "mapping",
            map("x", "x", "ymin", "low", "ymax", "high", "fill", "name"),
            "alpha",
            0.16,
            "size",
            0,
            "show_legend",
            false,
            "tooltips",
            "none"));
  }

  private static Map<String, Object> line(Curve.Series series, String name) {
    List<Double> x = new ArrayList<>();
    List<Double> y = new ArrayList<>();
    List<String> names = new ArrayList<>();
    for (Curve.Point point : series.points()) {
      x.add(point.x());
      y.add(point.likely());
      names.add(name);
    }
    Map<String, Object> data = map("x", x, "y", y, "name", names);
    return x.size() == 1
        ? map(
            "geom",
            "point",
            "data",
            data,
            "mapping",
            map("x", "x", "y", "y", "color", "name"),
            "size",
            4,
            "tooltips",
            "none")
        : map(
            "geom",
            "path",
            "data",
            data,
            "mapping",
            map("x", "x", "y", "y", "color", "name", "linetype", "name"),
            "size",
            1.1,
            "tooltips",
            "none");
  }

  private static List<Curve.Series> readings(Curve curve) {
    return curve.series().stream().filter(series -> series.kind() == Curve.Kind.MEASURED).toList();
  }

  // Not in the legend, whose keys would all get one shape; the caption tells what they are.
  private static Map<String, Object> readings(Curve.Series series, Shape shape) {
    return map(
        "geom",
        "point",
        "data",
        map(
            "x", series.points().stream().map(Curve.Point::x).toList(),
            "y", series.points().stream().map(Curve.Point::likely).toList()),
        "mapping",
        map("x", "x", "y", "y"),
        "color",
        "#000000",
        "size",
        4,
        "shape",
        shape.number(),
        "show_legend",
        false,
        "tooltips",
        "none");
  }

  private static String label(Curve.Series series, List<String> before) {
    String name = Telling.name(series);
    return unique(
        shortened(Character.toUpperCase(name.charAt(0)) + name.substring(1), LONGEST_NAME), before);
  }

  private static String unique(String name, List<String> before) {
    String unique = name;
    for (int i = 2; before.contains(unique); i++) {
      unique = name + " (" + i + ")";
    }
    return unique;
  }

  // --- Marks

  private static java.util.Optional<Map<String, Object>> band(Curve.Mark mark, Extent x, Extent y) {
    if (mark.xFrom() == mark.xTo() || mark.yFrom() == mark.yTo()) {
      return java.util.Optional.empty();
    }
    return java.util.Optional.of(
        map(
            "geom",
            "rect",
            "data",
            map(
                "a", List.of(x.within(mark.xFrom())),
                "b", List.of(x.within(mark.xTo())),
                "c", List.of(y.within(mark.yFrom())),
                "d", List.of(y.within(mark.yTo()))),
            "mapping",
            map("xmin", "a", "xmax", "b", "ymin", "c", "ymax", "d"),
            "fill",
            "#777777",
            "alpha",
            0.14,
            "color",
            MARK_COLOUR,
            "size",
            0.5,
            "linetype",
            "dotted",
            "tooltips",
            "none"));
  }

  private static java.util.Optional<Map<String, Object>> line(Curve.Mark mark, Extent x, Extent y) {
    if (mark.xFrom() != mark.xTo() && mark.yFrom() != mark.yTo()) {
      return java.util.Optional.empty();
    }
    boolean window =
        mark.xFrom() == mark.xTo()
            && (Double.isFinite(mark.yFrom()) || Double.isFinite(mark.yTo()));
    return java.util.Optional.of(
        map(
            "geom",
            "segment",
            "data",
            map(
                "a", List.of(x.within(mark.xFrom())),
                "b", List.of(x.within(mark.xTo())),
                "c", List.of(y.within(mark.yFrom())),
                "d", List.of(y.within(mark.yTo()))),
            "mapping",
            map("x", "a", "xend", "b", "y", "c", "yend", "d"),
            "color",
            MARK_COLOUR,
            "alpha",
            window ? 0.55 : 0.9,
            "size",
            window ? 2.4 : 0.6,
            "linetype",
            window ? "solid" : "dotted",
            "tooltips",
            "none"));
  }

  // Letters of marks along stand at the top, those of others at the right; neighbours step aside.
  private static List<Object> letters(List<Curve.Mark> marks, Extent x, Extent y) {
    List<Object> layers = new ArrayList<>();
    List<double[]> taken = new ArrayList<>();
    for (int i = 0; i < marks.size(); i++) {
      Curve.Mark mark = marks.get(i);
      boolean along = Double.isInfinite(mark.yFrom()) && Double.isInfinite(mark.yTo());
      boolean level = mark.yFrom() == mark.yTo();
      double left = x.part(x.within(mark.xFrom()));
      double right = x.part(x.within(mark.xTo()));
      double low = y.part(y.within(mark.yFrom()));
      double high = y.part(y.within(mark.yTo()));
      double[] place = {
        Math.max(0.015, Math.min(0.985, level ? right - 0.015 : (left + right) / 2 + 0.012)),
        along ? 0.965 : level ? Math.min(0.97, high + 0.03) : Math.min(0.97, (low + high) / 2)
      };
      while (taken.stream().anyMatch(other -> near(other, place))) {
        if (level) {
          place[0] -= 0.022;
        } else {
          place[1] -= LETTER_STEP;
        }
      }
      taken.add(place);
      layers.add(
          map(
              "geom", "text",
              "data",
                  map(
                      "x", List.of(x.at(place[0])),
                      "y", List.of(y.at(place[1])),
                      "l", List.of(letter(i))),
              "mapping", map("x", "x", "y", "y", "label", "l"),
              "size", 5,
              "fontface", "bold",
              "color", "#333333",
              "tooltips", "none"));
    }
    return layers;
  }

  private static boolean near(double[] a, double[] b) {
    return Math.abs(a[0] - b[0]) < 0.02 && Math.abs(a[1] - b[1]) < 0.045;
  }

  private static String letter(int number) {
    String letter = String.valueOf((char) ('A' + number % 26));
    return number < 26 ? letter : letter + number / 26;
  }

  private static List<String> caption(Curve curve) {
    List<String> lines = new ArrayList<>();
    boolean ranges =
        curve.series().stream()
            .flatMap(series -> series.points().stream())
            .anyMatch(point -> point.low() < point.high());
    if (ranges) {
      lines.add("Shaded: the range that holds it 9 times in 10.");
    }
    List<Curve.Series> readings = readings(curve);
    for (int i = 0; i < readings.size(); i++) {
      Shape shape = SHAPES.get(i % SHAPES.size());
      wrap(lines, shape.name() + ": " + readings.get(i).name() + ".");
    }
    List<String> parts = new ArrayList<>();
    for (int i = 0; i < curve.marks().size(); i++) {
      parts.add(letter(i) + ": " + curve.marks().get(i).label());
    }
    wrap(lines, String.join("; ", parts));
    if (!curve.missing().isEmpty()) {
      wrap(lines, "Missing: " + String.join("; ", curve.missing()));
    }
    return lines;
  }

  private static void wrap(List<String> lines, String text) {
    StringBuilder line = new StringBuilder();
    for (String word : plain(text).split("(?<=\\S) +(?=\\S)", -1)) {
      if (line.length() > 0 && line.length() + 1 + word.length() > CAPTION_WIDTH) {
        lines.add(line.toString());
        line.setLength(0);
      }
      line.append(line.length() == 0 ? "" : " ").append(shortened(word, CAPTION_WIDTH));
    }
    if (line.length() > 0) {
      lines.add(line.toString());
    }
  }

  // --- Words

  private static String words(String quantity, String unit) {
    return shortened(unit.isEmpty() ? quantity : quantity + " (" + unit + ")", LONGEST_TITLE);
  }

  /** A text on one line, cut where it is too long. */
  private static String shortened(String text, int most) {
    String plain = plain(text);
    if (plain.codePointCount(0, plain.length()) <= most) {
      return plain;
    }
    return plain.substring(0, plain.offsetByCodePoints(0, most - 1)).strip() + "…";
  }

  // Backslashes and braces would be formulas to the library, angle brackets links; what looks the
  // same is only text.
  private static String plain(String text) {
    StringBuilder plain = new StringBuilder(text.length());
    Svg.wellFormed(text)
        .codePoints()
        .map(
            point ->
                switch (point) {
                  case '\\' -> '\u2216';
                  case '<' -> '\u2039';
                  case '>' -> '\u203a';
                  default -> point;
                })
        .forEach(plain::appendCodePoint);
    return plain.toString().strip();
  }

  /** A map from pairs of a key and a value, in their order. */
  private static Map<String, Object> map(Object... pairs) {
    Map<String, Object> map = new LinkedHashMap<>();
    for (int i = 0; i < pairs.length; i += 2) {
      map.put((String) pairs[i], pairs[i + 1]);
    }
    return map;
  }
}
