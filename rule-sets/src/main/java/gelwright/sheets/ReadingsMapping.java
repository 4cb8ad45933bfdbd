package gelwright.sheets;

import gelwright.calibration.Readings;
import gelwright.quantity.Dimension;
import gelwright.quantity.Quantity;
import gelwright.quantity.Share;
import gelwright.quantity.Unit;
import gelwright.science.SpindleReading;
import gelwright.sheets.mapping.Keys;
import gelwright.sheets.mapping.Problems;
import gelwright.sheets.mapping.Reading;
import gelwright.sheets.mapping.Values;
import gelwright.sheets.tree.Node;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

/** From the tree of a readings sheet to the readings. */
final class ReadingsMapping {
  static final String FIRST = "readings-of";

  static final List<String> KEYS =
      List.of(
          FIRST, "grade", "lot", "date", "instrument", "temperature", "salt", "weighing", "series");
  private static final List<String> SERIES = List.of("share", "points");
  private static final List<String> SPINDLE = List.of("share", "spindle", "full-scale", "points");

  private final Node root;
  private final Problems problems;

  ReadingsMapping(Node root, Problems problems) {
    this.root = root;
    this.problems = problems;
  }

  Optional<Readings> read() {
    return Keys.of(root, "a readings sheet", problems, KEYS).flatMap(this::readings);
  }

  private Optional<Readings> readings(Keys keys) {
    Optional<String> gum = keys.required(FIRST, Values.TEXT);
    Optional<String> grade = keys.optional("grade", Values.TEXT);
    Optional<String> lot = keys.required("lot", Values.TEXT);
    Optional<LocalDate> date = keys.optional("date", Values.DATE);
    Optional<String> instrument = keys.optional("instrument", Values.TEXT);
    Optional<Double> celsius =
        keys.optional("temperature", Values.quantity(Dimension.TEMPERATURE)).map(Quantity::inBase);
    Optional<Double> salt =
        keys.optional("salt", Values.quantity(Dimension.MOLALITY)).map(Quantity::inBase);
    Optional<Double> weighing = keys.optional("weighing", Values.SHARE).map(Share::percent);
    Optional<List<Readings.Series>> series =
        keys.required("series", Values.filledListOf(this::series));
    if (gum.isEmpty() || lot.isEmpty() || series.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        new Readings(
            gum.get(),
            grade,
            lot.get(),
            date,
            instrument.orElse(""),
            celsius,
            salt.orElse(0.0),
            weighing,
            series.get(),
            keys.place()));
  }

  private Optional<Readings.Series> series(Node node, String what, Problems into) {
    boolean spindle = node instanceof Node.Mapping mapping && mapping.get("spindle").isPresent();
    boolean scale = node instanceof Node.Mapping mapping && mapping.get("full-scale").isPresent();
    // A series with a full scale and no spindle lacks it.
    Optional<Keys> found = Keys.of(node, "a series", into, spindle || scale ? SPINDLE : SERIES);
    if (found.isEmpty()) {
      return Optional.empty();
    }
    Keys keys = found.get();
    Optional<Double> share = keys.required("share", Values.SHARE).map(Share::percent);
    if (!spindle && !scale) {
      Optional<List<Readings.FlowPoint>> points =
          keys.required("points", Values.filledListOf(ReadingsMapping::flowPoint));
      return share.isPresent() && points.isPresent()
          ? Optional.of(new Readings.Flow(share.get(), points.get(), keys.place()))
          : Optional.empty();
    }
    Optional<Integer> number = keys.required("spindle", Values.WHOLE_NUMBER);
    Optional<Double> torque = keys.optional("full-scale", Values.NUMBER);
    Optional<List<Readings.SpindlePoint>> points =
        keys.required("points", Values.filledListOf(ReadingsMapping::spindlePoint));
    if (share.isEmpty() || number.isEmpty() || points.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        new Readings.Spindle(
            share.get(),
            number.get(),
            torque.orElse(SpindleReading.TYPE_A_TORQUE),
            points.get(),
            keys.place()));
  }

  private static Optional<Readings.FlowPoint> flowPoint(Node node, String what, Problems into) {
    Optional<Keys> found =
        Keys.of(node, "a reading", into, List.of("shear-rate", "stress", "viscosity"));
    if (found.isEmpty()) {
      return Optional.empty();
    }
    Keys keys = found.get();
    Optional<Double> rate = keys.required("shear-rate", base(Dimension.RATE));
    if (keys.has("stress") && keys.has("viscosity")) {
      into.add(
          keys.place("viscosity"),
          "two-of-one",
          "A reading has a stress or a viscosity, not both.");
    }
    Optional<Double> viscosity = keys.optional("viscosity", base(Dimension.VISCOSITY));
    Optional<Double> stress =
        keys.has("viscosity")
            ? keys.optional("stress", base(Dimension.STRESS))
            : keys.required("stress", base(Dimension.STRESS));
    if (rate.isEmpty() || (stress.isEmpty() && viscosity.isEmpty())) {
      return Optional.empty();
    }
    return Optional.of(
        new Readings.FlowPoint(
            rate.get(), stress.orElseGet(() -> viscosity.orElse(0.0) * rate.get()), keys.place()));
  }

  private static Optional<Readings.SpindlePoint> spindlePoint(
      Node node, String what, Problems into) {
    Optional<Keys> found = Keys.of(node, "a reading", into, List.of("speed", "torque"));
    if (found.isEmpty()) {
      return Optional.empty();
    }
    Keys keys = found.get();
    Optional<Double> speed =
        keys.required("speed", Values.quantity(Dimension.STIRRING))
            .map(quantity -> quantity.in(Unit.RPM));
    Optional<Double> torque = keys.required("torque", Values.SHARE).map(Share::percent);
    return speed.isPresent() && torque.isPresent()
        ? Optional.of(new Readings.SpindlePoint(speed.get(), torque.get(), keys.place()))
        : Optional.empty();
  }

  private static Reading<Double> base(Dimension dimension) {
    return (node, what, into) ->
        Values.quantity(dimension).read(node, what, into).map(Quantity::inBase);
  }
}
