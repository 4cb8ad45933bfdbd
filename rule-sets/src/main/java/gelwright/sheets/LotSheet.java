package gelwright.sheets;

import static java.util.Objects.requireNonNull;

import gelwright.calibration.Calibration;
import gelwright.ingredient.Figure;
import gelwright.ingredient.Gum;
import gelwright.ingredient.Lot;
import gelwright.ingredient.Source;
import gelwright.quantity.Estimate;
import gelwright.quantity.Unit;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Writes what was measured of a lot as an ingredient sheet in YAML, which {@link IngredientReader}
 * reads back as the same lot.
 */
public final class LotSheet {
  private LotSheet() {}

  /** The sheet of a calibrated lot. */
  public static String text(Calibration calibration) {
    requireNonNull(calibration, "calibration");
    return text(calibration.lot(), calibration.source());
  }

  private static String text(Lot lot, Source source) {
    StringBuilder text = new StringBuilder();
    text.append("# What was measured on one lot of gum. Lay it into the folder given to")
        .append(" --ingredients,\n# and write ")
        .append(comment("lot: " + lot.name()))
        .append(" on the line of the gum in a recipe.\n");
    text.append("sources:\n");
    text.append("  ").append(source.id()).append(":\n");
    text.append("    citation: ").append(quoted(source.citation())).append('\n');
    text.append("    standing: ").append(source.standing().word()).append('\n');
    text.append("lots:\n");
    text.append("  ").append(quoted(lot.ingredient())).append(":\n");
    text.append("    ").append(quoted(lot.name())).append(":\n");
    text.append("      source: ").append(source.id()).append('\n');
    if (!lot.note().isEmpty()) {
      text.append("      note: ").append(quoted(lot.note())).append('\n');
    }
    lot.gum().toOptional().ifPresent(gum -> gum(text, gum, source.id()));
    return text.toString();
  }

  private static void gum(StringBuilder text, Gum gum, String source) {
    text.append("      gum:\n");
    text.append("        law: ").append(gum.law()).append('\n');
    text.append("        at: ").append(number(gum.at())).append(" %\n");
    text.append("        parameters:\n");
    Set<String> names = IngredientWords.LAWS.getOrDefault(gum.law(), Map.of()).keySet();
    for (String name : names) {
      Figure figure = requireNonNull(gum.parameters().get(name), name);
      text.append("          ")
          .append(name)
          .append(": ")
          .append(figure(figure, source))
          .append('\n');
    }
    if (!gum.together().isEmpty()) {
      text.append("        together:\n");
      for (Map<String, Double> doubt : gum.together()) {
        List<String> moves = new ArrayList<>();
        for (String name : names) {
          if (doubt.containsKey(name)) {
            moves.add(name + ": ×" + number(doubt.getOrDefault(name, 1.0)));
          }
        }
        text.append("          - { ").append(String.join(", ", moves)).append(" }\n");
      }
    }
    gum.strength()
        .ifPresent(
            figure ->
                text.append("        strength: ").append(figure(figure, source)).append('\n'));
    text.append("        range: ")
        .append(number(gum.from()))
        .append(" % to ")
        .append(number(gum.to()))
        .append(" %\n");
    gum.rates()
        .ifPresent(
            rates ->
                text.append("        shear-rates: ")
                    .append(number(rates.from()))
                    .append(" /s to ")
                    .append(number(rates.to()))
                    .append(" /s\n"));
  }

  private static String figure(Figure figure, String source) {
    List<String> parts = new ArrayList<>();
    Unit unit = figure.unit();
    String symbol = unit == Unit.NONE ? "" : " " + unit.symbol();
    parts.add("is: " + number(figure.likely() / unit.toBase(1)) + symbol);
    if (figure.scale() == Estimate.Scale.FACTOR) {
      parts.add("within: ×" + number(figure.spread()));
    } else if (figure.spread() > 0) {
      parts.add("within: ±" + number(figure.spread() / unit.toBase(1)));
    }
    if (!figure.sources().equals(List.of(source))) {
      parts.add("source: [" + String.join(", ", figure.sources()) + "]");
    }
    return "{ " + String.join(", ", parts) + " }";
  }

  private static String number(double value) {
    return BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
  }

  /** A text in quotes, with what YAML would take for something else escaped. */
  private static String quoted(String text) {
    StringBuilder quoted = new StringBuilder("\"");
    text.codePoints()
        .forEach(
            point -> {
              if (point == '"' || point == '\\') {
                quoted.append('\\').appendCodePoint(point);
              } else if (plain(point)) {
                quoted.appendCodePoint(point);
              } else {
                quoted.append(String.format(java.util.Locale.ROOT, "\\U%08x", point));
              }
            });
    return quoted.append('"').toString();
  }

  private static boolean plain(int point) {
    return point >= 0x20
        && (point < 0x7f || point >= 0xa0)
        && point != 0x2028
        && point != 0x2029
        && point != 0xfeff
        && Character.getType(point) != Character.SURROGATE
        && Character.getType(point) != Character.UNASSIGNED;
  }

  /** A text that stays on its line. */
  private static String comment(String text) {
    StringBuilder line = new StringBuilder();
    text.codePoints().forEach(point -> line.appendCodePoint(plain(point) ? point : ' '));
    return line.toString();
  }
}
