package gelwright.api;

import gelwright.calibration.Calibration;
import gelwright.ingredient.Gum;
import gelwright.quantity.Numbers;
import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import java.util.Locale;

/**
 * A calibration as a formulator reads it: the law and why, its numbers with their errors, each
 * reading beside the law, and what all readings share. The same calibration gives the same text.
 */
final class CalibrationText {
  private static final int NAME = 30;

  /** Full length of the bar that shows how far a reading lies off, in characters. */
  private static final int BAR = 10;

  private final Ink ink;
  private final StringBuilder text = new StringBuilder();

  private CalibrationText(Ink ink) {
    this.ink = ink;
  }

  static String of(Calibration calibration, Ink ink) {
    CalibrationText report = new CalibrationText(ink);
    report.write(calibration);
    return report.text.toString();
  }

  private void write(Calibration calibration) {
    line(
        ink.strong(
            Plain.line(calibration.lot().ingredient() + ", lot " + calibration.lot().name())));
    if (!calibration.readings().place().file().isEmpty()) {
      line(ink.quiet(Plain.line(calibration.readings().place().file())));
    }
    line("");
    paragraph(calibration.because(), 0);
    for (Calibration.Candidate candidate : calibration.candidates()) {
      candidate(candidate, candidate.equals(calibration.chosen()));
    }
    residuals(calibration);
    line("");
    line(ink.strong("Doubts that all readings share"));
    for (Calibration.SharedDoubt doubt : calibration.shared()) {
      line(
          "  "
              + Plain.pad(doubt.what(), NAME + 8)
              + "×"
              + Plain.pad(Numbers.significant(doubt.factor(), 4), 8)
              + doubt.standing());
    }
    calibration.lot().gum().toOptional().ifPresent(gum -> covers(calibration, gum));
    for (String remark : calibration.remarks()) {
      paragraph(remark, 0);
    }
    line("");
    paragraph(
        "Standard errors are those of the fit; ± is the range that holds the number 9 times in 10."
            + " They know nothing of what all readings share.",
        0);
  }

  private void covers(Calibration calibration, Gum gum) {
    line("");
    gum.strength()
        .ifPresent(
            strength ->
                line(
                    "  "
                        + Plain.pad("together", NAME + 8)
                        + "×"
                        + Numbers.significant(strength.spread(), 4)));
    line("");
    paragraph(
        "Read from "
            + Numbers.plain(calibration.slowest())
            + " to "
            + Numbers.plain(calibration.fastest())
            + " /s; known for "
            + Numbers.plain(gum.from())
            + " to "
            + Numbers.plain(gum.to())
            + " % of the gum in the water.",
        0);
  }

  private void candidate(Calibration.Candidate candidate, boolean chosen) {
    line("");
    String title =
        (candidate.form().title().substring(0, 1).toUpperCase(Locale.ROOT)
                + candidate.form().title().substring(1))
            + (chosen ? " – chosen" : "");
    line(
        ink.strong(title)
            + "  criterion "
            + Numbers.decimals(candidate.criterion(), 1)
            + ", scatter "
            + Numbers.plain(100 * candidate.scatter())
            + " %");
    for (Calibration.Parameter parameter : candidate.parameters()) {
      boolean exponent = parameter.name().startsWith("exponent of");
      String value = Quantity.print(parameter.value(), parameter.unit());
      String name = exponent ? parameter.name() : named(parameter, candidate.at());
      line(
          "  "
              + Plain.pad(name, NAME + 8)
              + Plain.pad(value + " ", 12)
              + (Double.isFinite(parameter.standardError())
                  ? "standard error "
                      + Plain.pad(Numbers.plain(parameter.standardError()), 9)
                      + "± "
                      + Numbers.plain(parameter.within())
                  : "not fixed by the readings"));
    }
    if (!candidate.unsettled().isEmpty()) {
      paragraph("leaves open: " + String.join(", ", candidate.unsettled()), 2);
    }
  }

  private static String named(Calibration.Parameter parameter, double at) {
    return parameter.unit() == Unit.NONE
        ? parameter.name()
        : parameter.name() + " at " + Numbers.plain(at) + " %";
  }

  private void residuals(Calibration calibration) {
    double most =
        calibration.residuals().stream().mapToDouble(each -> Math.abs(each.off())).max().orElse(0);
    line("");
    line(
        ink.strong("Readings beside the law")
            + "  in plain water at 25 °C; the bar is full at "
            + Numbers.plain(100 * most)
            + " %");
    line(
        "  "
            + Plain.pad("share", 10)
            + Plain.pad("shear rate", 14)
            + Plain.pad("stress", 12)
            + Plain.pad("law", 12)
            + "off");
    for (Calibration.Residual residual : calibration.residuals()) {
      line(
          "  "
              + Plain.pad(Numbers.plain(residual.share()) + " %", 10)
              + Plain.pad(Quantity.print(residual.shearRate(), Unit.PER_SECOND), 14)
              + Plain.pad(Quantity.print(residual.stress(), Unit.PASCAL), 12)
              + Plain.pad(Quantity.print(residual.fitted(), Unit.PASCAL), 12)
              + Plain.pad(signed(residual.off()), 9)
              + bar(residual.off(), most));
    }
  }

  private static String signed(double off) {
    return (off < 0 ? "−" : "+") + Numbers.decimals(Math.abs(100 * off), 1) + " %";
  }

  private static String bar(double off, double most) {
    int length = most > 0 ? (int) Math.round(BAR * Math.abs(off) / most) : 0;
    return off < 0
        ? " ".repeat(BAR - length) + "#".repeat(length) + "|"
        : " ".repeat(BAR) + "|" + "#".repeat(length);
  }

  private void paragraph(String words, int indent) {
    for (String line : Plain.wrap(words, TextPage.WIDTH - indent)) {
      line(" ".repeat(indent) + line);
    }
  }

  private void line(String line) {
    text.append(line.stripTrailing()).append('\n');
  }
}
