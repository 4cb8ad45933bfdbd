package gelwright.reports;

import com.fasterxml.jackson.core.JsonGenerator;
import gelwright.ingredient.Source;
import gelwright.problem.Place;
import gelwright.problem.Problem;
import gelwright.review.Duty;
import gelwright.review.Finding;
import gelwright.review.Outcome;
import gelwright.review.Review;
import gelwright.review.Subject;
import gelwright.rule.Rule;
import gelwright.rule.RuleSet;
import gelwright.rule.Severity;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * Writes reviews as one run of SARIF 2.1.0 (OASIS Standard, 27 March 2020), UTF-8, in a fixed
 * order.
 *
 * <p>What failed is {@code fail} at its level, what somebody has to look at is {@code review}, what
 * could not be checked is {@code open} with what is missing; a duty is {@code informational}; a
 * rule all of whose subjects hold is {@code pass}. An accepted finding carries its suppression with
 * the reason. A result is recognised by rule, formula and subject alone ({@code
 * partialFingerprints}): a sheet can be edited around it. A file that could not be read is a
 * notification of level error, and the run then says that it was not successful.
 */
public final class SarifReport {
  private static final String SCHEMA =
      "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

  private final List<RuleSet> ruleSets;
  private final boolean withAccepted;
  private final boolean withPassed;

  private SarifReport(List<RuleSet> ruleSets, boolean withAccepted, boolean withPassed) {
    this.ruleSets = ruleSets;
    this.withAccepted = withAccepted;
    this.withPassed = withPassed;
  }

  /**
   * A writer that knows the titles and lessons of these rule sets. A rule that is in none of them
   * is described by its findings, or by its id alone.
   */
  public static SarifReport describing(List<RuleSet> ruleSets) {
    return new SarifReport(List.copyOf(ruleSets), true, true);
  }

  /** Leaves accepted findings out instead of marking them: some readers ignore the mark. */
  public SarifReport leavingOutAccepted() {
    return new SarifReport(ruleSets, false, withPassed);
  }

  /** Leaves out the rules that hold or do not apply. */
  public SarifReport leavingOutPassed() {
    return new SarifReport(ruleSets, withAccepted, false);
  }

  /** Writes one log with one run. Does not close the stream. */
  public void write(List<Review> reviews, List<Unreadable> unreadable, OutputStream out)
      throws IOException {
    try (JsonGenerator json = WellFormed.open(out, true)) {
      Map<String, Described> rules = rules(reviews);
      json.writeStartObject();
      json.writeStringField("$schema", SCHEMA);
      json.writeStringField("version", "2.1.0");
      json.writeArrayFieldStart("runs");
      json.writeStartObject();
      tool(json, reviews, rules);
      invocation(json, unreadable);
      json.writeStringField("columnKind", "unicodeCodePoints");
      json.writeArrayFieldStart("results");
      List<String> order = List.copyOf(rules.keySet());
      for (Review review : reviews) {
        results(json, review, order);
      }
      json.writeEndArray();
      properties(json, reviews);
      json.writeEndObject();
      json.writeEndArray();
      json.writeEndObject();
      json.writeRaw('\n');
    }
  }

  private record Described(String title, String lesson, Severity severity) {}

  /**
   * Every rule that was run, by id; in the order of the ids, which the results' indexes refer to.
   */
  private Map<String, Described> rules(List<Review> reviews) {
    Map<String, Described> rules = new TreeMap<>();
    Map<String, Described> known = new TreeMap<>();
    for (RuleSet set : ruleSets) {
      for (Rule rule : set.rules()) {
        known.put(
            set.id() + "." + rule.id(),
            new Described(rule.title().text(), rule.lesson(), rule.severity()));
      }
    }
    for (Review review : reviews) {
      for (Finding finding : review.findings()) {
        known.putIfAbsent(
            finding.rule(), new Described(finding.title(), finding.lesson(), finding.severity()));
      }
      for (Duty duty : review.duties()) {
        known.putIfAbsent(duty.rule(), new Described(duty.title(), duty.lesson(), duty.severity()));
      }
    }
    for (Review review : reviews) {
      List<String> ids = new ArrayList<>(review.rules().keySet());
      review.findings().forEach(finding -> ids.add(finding.rule()));
      review.duties().forEach(duty -> ids.add(duty.rule()));
      for (String id : ids) {
        rules.put(id, known.getOrDefault(id, new Described(id, "", Severity.WARNING)));
      }
    }
    return rules;
  }

  private static void tool(JsonGenerator json, List<Review> reviews, Map<String, Described> rules)
      throws IOException {
    json.writeObjectFieldStart("tool");
    json.writeObjectFieldStart("driver");
    json.writeStringField("name", "Gelwright");
    if (!reviews.isEmpty()) {
      json.writeStringField("version", reviews.get(0).editions().engine());
    }
    json.writeArrayFieldStart("rules");
    for (Map.Entry<String, Described> rule : rules.entrySet()) {
      Described described = rule.getValue();
      json.writeStartObject();
      json.writeStringField("id", rule.getKey());
      message(json, "shortDescription", described.title());
      if (!described.lesson().isBlank()) {
        message(json, "fullDescription", described.lesson().strip());
        message(json, "help", described.lesson().strip());
      }
      json.writeObjectFieldStart("defaultConfiguration");
      json.writeStringField("level", described.severity().word());
      json.writeEndObject();
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
    json.writeEndObject();
  }

  private static void invocation(JsonGenerator json, List<Unreadable> unreadable)
      throws IOException {
    json.writeArrayFieldStart("invocations");
    json.writeStartObject();
    json.writeBooleanField("executionSuccessful", unreadable.isEmpty());
    if (!unreadable.isEmpty()) {
      json.writeArrayFieldStart("toolExecutionNotifications");
      for (Unreadable file : unreadable) {
        for (Problem problem : file.problems()) {
          json.writeStartObject();
          json.writeStringField("level", "error");
          message(
              json,
              "message",
              "This file was not reviewed: "
                  + problem.message()
                  + (problem.hint().isEmpty() ? "" : " " + problem.hint()));
          json.writeArrayFieldStart("locations");
          json.writeStartObject();
          physical(
              json,
              problem.place().file().isEmpty() ? file.file() : problem.place().file(),
              problem.place());
          json.writeEndObject();
          json.writeEndArray();
          json.writeObjectFieldStart("properties");
          json.writeStringField("code", problem.code());
          json.writeEndObject();
          json.writeEndObject();
        }
      }
      json.writeEndArray();
    }
    json.writeEndObject();
    json.writeEndArray();
  }

  private void results(JsonGenerator json, Review review, List<String> order) throws IOException {
    for (Finding finding : review.findings()) {
      if (withAccepted || !finding.isAccepted()) {
        finding(json, review, finding, order);
      }
    }
    for (Duty duty : review.duties()) {
      duty(json, review, duty, order);
    }
    if (!withPassed) {
      return;
    }
    for (Map.Entry<String, Outcome> rule : review.rules().entrySet()) {
      String kind =
          switch (rule.getValue()) {
            case HOLDS -> "pass";
            case NOT_APPLICABLE, DOES_NOT_APPLY -> "notApplicable";
            case BREAKS, BORDERLINE, UNKNOWN, APPLIES, MAY_APPLY -> "";
          };
      if (!kind.isEmpty() && !hasDuty(review, rule.getKey())) {
        start(json, rule.getKey(), order, kind, "none");
        message(json, "message", kind.equals("pass") ? "Holds." : "Does not apply.");
        end(json, review, rule.getKey(), Subject.FORMULA, review.place());
        json.writeEndObject();
      }
    }
  }

  private static boolean hasDuty(Review review, String rule) {
    return review.duties().stream().anyMatch(duty -> duty.rule().equals(rule));
  }

  private static void finding(
      JsonGenerator json, Review review, Finding finding, List<String> order) throws IOException {
    Gravity gravity = Gravity.of(finding);
    String kind =
        switch (gravity) {
          case FAILED -> "fail";
          case DOUBTFUL -> "review";
          case UNCHECKED -> "open";
        };
    start(
        json,
        finding.rule(),
        order,
        kind,
        gravity == Gravity.FAILED ? finding.level().word() : "none");
    StringBuilder text = new StringBuilder(finding.message());
    String missing = String.join("; ", finding.missing());
    if (!finding.message().contains(missing)) {
      append(text, "Not checked, missing: ", missing);
    }
    append(text, "Sources: ", cited(finding.sources()));
    message(json, "message", text.toString());
    end(json, review, finding.rule(), finding.subject(), finding.where());
    if (finding.acceptance().isPresent()) {
      json.writeArrayFieldStart("suppressions");
      json.writeStartObject();
      json.writeStringField("kind", "external");
      json.writeStringField("status", "accepted");
      json.writeStringField("justification", finding.acceptance().get().because());
      json.writeObjectFieldStart("properties");
      json.writeStringField("until", finding.acceptance().get().until().toString());
      json.writeEndObject();
      json.writeEndObject();
      json.writeEndArray();
    }
    json.writeObjectFieldStart("properties");
    json.writeStringField("outcome", finding.outcome().word());
    json.writeStringField("formula", review.formula());
    json.writeStringField("subject", named(finding.subject()));
    if (finding.odds().low() == finding.odds().high()) {
      json.writeFieldName("odds");
      json.writeNumber(JsonReport.digits(finding.odds().low()));
    }
    if (!finding.missing().isEmpty()) {
      JsonReport.strings(json, "missing", finding.missing());
    }
    JsonReport.sources(json, finding.sources());
    json.writeEndObject();
    json.writeEndObject();
  }

  private static void duty(JsonGenerator json, Review review, Duty duty, List<String> order)
      throws IOException {
    boolean done = duty.applies() == Outcome.HOLDS;
    start(json, duty.rule(), order, done ? "pass" : "informational", "none");
    StringBuilder text = new StringBuilder();
    if (duty.applies() == Outcome.MAY_APPLY) {
      text.append("May apply: ");
    } else if (done) {
      text.append("Done: ");
    }
    text.append(duty.message());
    append(text, "To be sure, missing: ", String.join("; ", duty.missing()));
    append(text, "Sources: ", cited(duty.sources()));
    message(json, "message", text.toString());
    end(json, review, duty.rule(), duty.subject(), review.place());
    json.writeObjectFieldStart("properties");
    json.writeStringField("outcome", duty.applies().word());
    json.writeStringField("formula", review.formula());
    json.writeStringField("subject", named(duty.subject()));
    json.writeEndObject();
    json.writeEndObject();
  }

  private static void append(StringBuilder text, String before, String what) {
    if (!what.isEmpty()) {
      text.append(text.length() == 0 ? "" : " ").append(before).append(what).append('.');
    }
  }

  private static String cited(Collection<Source> sources) {
    StringBuilder text = new StringBuilder();
    for (Source source : sources) {
      text.append(text.length() == 0 ? "" : "; ")
          .append(source.citation())
          .append(" (")
          .append(source.standing().word())
          .append(')');
    }
    return text.toString();
  }

  private static void start(
      JsonGenerator json, String rule, List<String> order, String kind, String level)
      throws IOException {
    json.writeStartObject();
    json.writeStringField("ruleId", rule);
    json.writeNumberField("ruleIndex", order.indexOf(rule));
    json.writeStringField("kind", kind);
    json.writeStringField("level", level);
  }

  private static void end(
      JsonGenerator json, Review review, String rule, Subject subject, Place place)
      throws IOException {
    json.writeArrayFieldStart("locations");
    json.writeStartObject();
    String file = place.file().isEmpty() ? review.place().file() : place.file();
    if (!file.isEmpty()) {
      physical(json, file, place);
    }
    json.writeArrayFieldStart("logicalLocations");
    json.writeStartObject();
    json.writeStringField("name", subject.isFormula() ? review.formula() : subject.name());
    json.writeStringField(
        "fullyQualifiedName",
        subject.isFormula() ? review.formula() : review.formula() + "/" + named(subject));
    json.writeEndObject();
    json.writeEndArray();
    json.writeEndObject();
    json.writeEndArray();
    json.writeObjectFieldStart("partialFingerprints");
    json.writeStringField("ruleFormulaSubject/v1", fingerprint(rule, review.formula(), subject));
    json.writeEndObject();
  }

  private static String named(Subject subject) {
    return subject.isFormula() ? "" : subject.kind() + " " + subject.name();
  }

  private static void physical(JsonGenerator json, String file, Place place) throws IOException {
    json.writeObjectFieldStart("physicalLocation");
    json.writeObjectFieldStart("artifactLocation");
    json.writeStringField("uri", uri(file));
    json.writeEndObject();
    if (place.line() > 0) {
      json.writeObjectFieldStart("region");
      json.writeNumberField("startLine", place.line());
      if (place.column() > 0) {
        json.writeNumberField("startColumn", place.column());
      }
      json.writeEndObject();
    }
    json.writeEndObject();
  }

  /** Recognises a finding however its sheet is edited around it. The parts cannot run together. */
  static String fingerprint(String rule, String formula, Subject subject) {
    try {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      for (String part : List.of(rule, formula, subject.kind(), subject.name())) {
        digest.update(part.getBytes(StandardCharsets.UTF_8));
        digest.update((byte) 0);
      }
      return HexFormat.of().formatHex(digest.digest());
    } catch (NoSuchAlgorithmException impossible) {
      throw new IllegalStateException("every Java platform has SHA-256", impossible);
    }
  }

  /** A file name as a URI reference (RFC 3986): relative stays relative. */
  static String uri(String file) {
    String slashed = file.replace('\\', '/');
    StringBuilder uri = new StringBuilder();
    if (slashed.length() > 1 && slashed.charAt(1) == ':') {
      uri.append("file:///");
    } else if (slashed.startsWith("/")) {
      uri.append("file://");
    }
    for (byte octet : slashed.getBytes(StandardCharsets.UTF_8)) {
      char character = (char) (octet & 0xff);
      boolean plain =
          (character >= 'a' && character <= 'z')
              || (character >= 'A' && character <= 'Z')
              || (character >= '0' && character <= '9')
              || "-._~/".indexOf(character) >= 0
              || (character == ':' && uri.indexOf("file:") == 0);
      if (plain) {
        uri.append(character);
      } else {
        uri.append('%').append(HexFormat.of().withUpperCase().toHexDigits(octet));
      }
    }
    return uri.toString();
  }

  private static void message(JsonGenerator json, String field, String text) throws IOException {
    json.writeObjectFieldStart(field);
    json.writeStringField("text", text);
    json.writeEndObject();
  }

  private static void properties(JsonGenerator json, List<Review> reviews) throws IOException {
    json.writeObjectFieldStart("properties");
    json.writeArrayFieldStart("formulas");
    for (Review review : reviews) {
      json.writeStartObject();
      json.writeStringField("formula", review.formula());
      json.writeStringField("outcome", review.outcome().word());
      json.writeStringField("on", review.editions().on().toString());
      json.writeStringField("formula-sha256", review.editions().formulaSha256());
      json.writeObjectFieldStart("rule-sets");
      for (Map.Entry<String, String> set : review.editions().ruleSets().entrySet()) {
        json.writeStringField(set.getKey(), set.getValue());
      }
      json.writeEndObject();
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }
}
