package gelwright.review;

import gelwright.formula.Formula;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Collection;
import java.util.HexFormat;
import java.util.Optional;

/**
 * A hash of what a formula says, whatever the layout of its sheet: equal content, equal hash, on
 * every Java version.
 */
final class Fingerprint {
  private Fingerprint() {}

  /** SHA-256 in hexadecimal of the formula's canonical text; places do not count. */
  static String of(Formula formula) {
    StringBuilder text = new StringBuilder();
    write(text, formula.name());
    write(text, formula.version());
    write(text, formula.brief());
    write(text, formula.batch());
    write(text, formula.equipment());
    write(text, formula.lines());
    write(text, formula.method());
    write(text, formula.label());
    write(text, formula.measured());
    write(text, formula.accepted());
    try {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      return HexFormat.of()
          .formatHex(digest.digest(text.toString().getBytes(StandardCharsets.UTF_8)));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }

  // Doubles are written by their bits: their decimal form changed between Java versions. Every part
  // carries its length, so no two different formulas have one text.
  private static void write(StringBuilder text, Object part) {
    if (part instanceof Optional<?> optional) {
      text.append('?');
      optional.ifPresent(value -> write(text, value));
    } else if (part instanceof Collection<?> collection) {
      text.append('[').append(collection.size()).append(':');
      collection.forEach(value -> write(text, value));
    } else if (part instanceof Double number) {
      text.append('d').append(Long.toHexString(Double.doubleToLongBits(number)));
    } else if (part instanceof gelwright.quantity.Quantity quantity) {
      write(text, quantity.value());
      write(text, quantity.unit().symbol());
    } else if (part instanceof gelwright.formula.Brief brief) {
      write(text, brief.kind());
      write(text, brief.use());
      write(text, brief.area());
      write(text, brief.users());
      write(text, brief.texture());
      write(text, brief.dispensing());
      write(text, brief.pH());
      write(text, brief.markets());
      write(text, brief.shelfLife());
    } else if (part instanceof gelwright.formula.Span span) {
      write(text, span.from());
      write(text, span.to());
    } else if (part instanceof gelwright.formula.Equipment equipment) {
      write(text, equipment.balance());
      write(text, equipment.vesselDiameter());
      write(text, equipment.vesselCover());
      write(text, equipment.stirrerType());
      write(text, equipment.stirrerDiameter());
      write(text, equipment.roomTemperature());
      write(text, equipment.roomHumidity());
    } else if (part instanceof gelwright.formula.Line line) {
      write(text, line.phase());
      write(text, line.name());
      write(text, line.amount());
      write(text, line.strength());
      write(text, line.hydrate());
      write(text, line.size());
      write(text, line.grade());
      write(text, line.lot());
    } else if (part instanceof gelwright.formula.Amount amount) {
      if (amount instanceof gelwright.formula.Amount.Stated stated) {
        write(text, stated.share());
      } else {
        write(text, amount instanceof gelwright.formula.Amount.Rest ? "rest" : "to-pH");
      }
    } else if (part instanceof gelwright.quantity.Share share) {
      text.append('s').append(share.units()).append(';');
    } else if (part instanceof gelwright.formula.Step step) {
      write(text, step.action().word());
      write(text, step.phase());
      write(text, step.with());
      write(text, step.into());
      write(text, step.temperature());
      write(text, step.pH());
      write(text, step.over());
      write(text, step.lasting());
      write(text, step.stir());
    } else if (part instanceof gelwright.formula.Label label) {
      write(text, label.ingredients());
      write(text, label.warnings());
    } else if (part instanceof gelwright.formula.Measurement measurement) {
      write(text, measurement.what());
      write(text, measurement.value());
      write(text, measurement.at());
      write(text, measurement.shearRate());
      write(text, measurement.points());
    } else if (part instanceof gelwright.formula.Measurement.Point point) {
      write(text, point.shearRate());
      write(text, point.stress());
    } else if (part instanceof gelwright.formula.Acceptance acceptance) {
      write(text, acceptance.rule());
      write(text, acceptance.subject());
      write(text, acceptance.observed());
      write(text, acceptance.because());
      write(text, acceptance.until().toString());
    } else if (part instanceof String string) {
      text.append(string.length()).append(':').append(string);
    } else {
      throw new IllegalArgumentException("no canonical form of " + part.getClass());
    }
  }
}
