package gelwright.api.http;

import gelwright.review.Outcome;
import gelwright.review.Review;
import io.prometheus.metrics.config.EscapingScheme;
import io.prometheus.metrics.core.metrics.Counter;
import io.prometheus.metrics.core.metrics.GaugeWithCallback;
import io.prometheus.metrics.core.metrics.Histogram;
import io.prometheus.metrics.expositionformats.OpenMetricsTextFormatWriter;
import io.prometheus.metrics.expositionformats.PrometheusTextFormatWriter;
import io.prometheus.metrics.model.registry.PrometheusRegistry;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Map;
import java.util.function.IntSupplier;

/**
 * What is counted. Labels come from closed sets: routes, methods, statuses, rule sets, outcomes.
 */
final class Metrics {
  private final PrometheusRegistry registry = new PrometheusRegistry();
  private final Counter requests =
      Counter.builder()
          .name("gelwright_http_requests")
          .help("Requests answered.")
          .labelNames("route", "method", "status")
          .register(registry);
  private final Histogram latency =
      Histogram.builder()
          .name("gelwright_http_request_duration_seconds")
          .help("From the headers of a request to the end of its answer.")
          .labelNames("route")
          .classicOnly()
          .classicUpperBounds(0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 10)
          .register(registry);
  private final Counter reviews =
      Counter.builder()
          .name("gelwright_reviews")
          .help("Formulas reviewed, by the outcome of the whole.")
          .labelNames("outcome")
          .register(registry);
  private final Counter rules =
      Counter.builder()
          .name("gelwright_rule_outcomes")
          .help("Outcomes of rules in reviews, by rule set.")
          .labelNames("rule_set", "outcome")
          .register(registry);
  private final Counter reloads =
      Counter.builder()
          .name("gelwright_knowledge_reloads")
          .help("Times the own sheets were read again, and whether they were taken over.")
          .labelNames("result")
          .register(registry);

  Metrics(Evaluator evaluator, IntSupplier streams) {
    gauge("gelwright_evaluations_running", "Evaluations under way.", evaluator::running);
    gauge("gelwright_evaluations_waiting", "Evaluations that wait for a turn.", evaluator::waiting);
    gauge("gelwright_streams_open", "Streams of reviews that are open.", streams);
  }

  private void gauge(String name, String help, IntSupplier value) {
    GaugeWithCallback.builder()
        .name(name)
        .help(help)
        .callback(callback -> callback.call(value.getAsInt()))
        .register(registry);
  }

  void answered(String route, String method, int status, double seconds) {
    requests.labelValues(route, method, Integer.toString(status)).inc();
    latency.labelValues(route).observe(seconds);
  }

  void reviewed(Review review) {
    reviews.labelValues(review.outcome().word()).inc();
    for (Map.Entry<String, Outcome> rule : review.rules().entrySet()) {
      String id = rule.getKey();
      int dot = id.indexOf('.');
      rules.labelValues(dot < 0 ? id : id.substring(0, dot), rule.getValue().word()).inc();
    }
  }

  void reloaded(boolean takenOver) {
    reloads.labelValues(takenOver ? "taken-over" : "refused").inc();
  }

  byte[] text(MediaType type) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try {
      if (type == MediaType.OPEN_METRICS) {
        new OpenMetricsTextFormatWriter(false, true)
            .write(out, registry.scrape(), EscapingScheme.UNDERSCORE_ESCAPING);
      } else {
        PrometheusTextFormatWriter.create()
            .write(out, registry.scrape(), EscapingScheme.UNDERSCORE_ESCAPING);
      }
    } catch (IOException impossible) {
      throw new UncheckedIOException(impossible);
    }
    return out.toByteArray();
  }
}
