package gelwright.api.http;

import gelwright.charts.Chart;
import gelwright.prediction.Curve;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** A curve as a picture, where one is asked for. */
final class Pictures {
  private Pictures() {}

  /** Which curve is asked for; empty where the answer is no picture. */
  static String asked(Map<String, String> query, MediaType form) {
    String curve = query.getOrDefault("curve", "");
    if (curve.isEmpty() == (form == MediaType.SVG)) {
      throw Trouble.of(
          ProblemType.MALFORMED_REQUEST,
          "The parameter curve says which curve is drawn: it goes with Accept: image/svg+xml, and"
              + " a picture needs it.");
    }
    return curve;
  }

  static byte[] drawn(List<Curve> curves, String name, String about) {
    Curve curve =
        curves.stream()
            .filter(each -> each.name().equals(name))
            .findFirst()
            .orElseThrow(
                () ->
                    Trouble.of(
                        ProblemType.MALFORMED_REQUEST,
                        "The parameter curve takes one of: "
                            + curves.stream().map(Curve::name).collect(Collectors.joining(", "))
                            + "."));
    return Chart.of(curve, about).svg(name).getBytes(StandardCharsets.UTF_8);
  }
}
