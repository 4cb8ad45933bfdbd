package gelwright.reports;

import gelwright.ingredient.Source;
import gelwright.problem.Place;
import gelwright.problem.Problem;
import gelwright.review.Duty;
import gelwright.review.Finding;
import gelwright.review.Outcome;
import gelwright.review.Review;
import gelwright.review.Subject;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Writes reviews as JUnit XML, UTF-8, for build servers: a test suite per formula, a test case per
 * rule and subject.
 *
 * <p>What failed is a failure. What is doubtful, could not be checked or was accepted is skipped
 * with a message that says so; it is never a plain pass. A duty is no test case, but one that may
 * apply is skipped with what is missing. A file that could not be read is a suite with an error.
 * There is no time in it: the same reviews give the same bytes. Characters that XML 1.0 does not
 * know, and other control characters, are left out.
 */
public final class JUnitReport {
  private JUnitReport() {}

  private enum Kind {
    PASSED,
    SKIPPED,
    FAILURE,
    ERROR
  }

  private record Case(
      String set, String name, Kind kind, String type, String message, String body, Place place) {}

  /** Writes one document. Does not close the stream. */
  public static void write(List<Review> reviews, List<Unreadable> unreadable, OutputStream out)
      throws IOException {
    StringBuilder suites = new StringBuilder();
    Map<Kind, Integer> totals = new EnumMap<>(Kind.class);
    for (Review review : reviews) {
      suite(suites, review.formula(), review.place().file(), cases(review), totals, review);
    }
    for (Unreadable file : unreadable) {
      suite(suites, file.file(), file.file(), List.of(unread(file)), totals, null);
    }
    StringBuilder xml = new StringBuilder("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
    xml.append("<testsuites");
    attribute(xml, "name", "Gelwright");
    totals(xml, totals);
    xml.append(">\n").append(suites).append("</testsuites>\n");
    out.write(xml.toString().getBytes(StandardCharsets.UTF_8));
    out.flush();
  }

  private static List<Case> cases(Review review) {
    List<Case> cases = new ArrayList<>();
    Set<String> told = new HashSet<>();
    for (Finding finding : review.findings()) {
      told.add(finding.rule());
      cases.add(of(finding));
    }
    for (Duty duty : review.duties()) {
      if (duty.applies() == Outcome.MAY_APPLY && !told.contains(duty.rule())) {
        cases.add(
            new Case(
                set(duty.rule()),
                name(duty.rule(), duty.subject()),
                Kind.SKIPPED,
                duty.applies().word(),
                "May apply: " + duty.message() + missing(duty.message(), duty.missing()),
                "",
                review.place()));
      }
    }
    for (Map.Entry<String, Outcome> rule : review.rules().entrySet()) {
      boolean passed =
          switch (rule.getValue()) {
            case HOLDS, NOT_APPLICABLE, DOES_NOT_APPLY -> true;
            case BREAKS, BORDERLINE, UNKNOWN, APPLIES, MAY_APPLY -> false;
          };
      if (passed && !told.contains(rule.getKey())) {
        cases.add(
            new Case(set(rule.getKey()), rule.getKey(), Kind.PASSED, "", "", "", review.place()));
      }
    }
    return cases;
  }

  private static Case of(Finding finding) {
    StringBuilder body = new StringBuilder(finding.message());
    body.append(missing(finding.message(), finding.missing())).append('\n');
    if (!finding.lesson().isBlank()) {
      body.append(finding.lesson().strip()).append('\n');
    }
    for (Source source : finding.sources()) {
      body.append("Source: ")
          .append(source.citation())
          .append(" (")
          .append(source.standing().word())
          .append(")\n");
    }
    if (finding.where().line() > 0) {
      body.append("At ").append(finding.where()).append('\n');
    }
    String message = finding.message() + missing(finding.message(), finding.missing());
    Kind kind = Kind.SKIPPED;
    if (finding.acceptance().isPresent()) {
      message =
          "Accepted until "
              + finding.acceptance().get().until()
              + " because "
              + finding.acceptance().get().because()
              + ": "
              + message;
    } else {
      switch (Gravity.of(finding)) {
        case FAILED -> kind = Kind.FAILURE;
        case DOUBTFUL -> message = "Borderline, probably holds: " + message;
        case UNCHECKED ->
            message = message.startsWith("Not checked") ? message : "Not checked: " + message;
      }
    }
    return new Case(
        set(finding.rule()),
        name(finding.rule(), finding.subject()),
        kind,
        finding.outcome().word() + ", " + finding.level().word(),
        message,
        kind == Kind.FAILURE ? body.toString() : "",
        finding.where());
  }

  private static Case unread(Unreadable file) {
    StringBuilder body = new StringBuilder();
    for (Problem problem : file.problems()) {
      body.append(problem).append('\n');
    }
    return new Case(
        "reading",
        "reading",
        Kind.ERROR,
        "unreadable",
        "This file could not be read and was not reviewed",
        body.toString(),
        Place.NOWHERE);
  }

  /** What is missing, unless the message says it. */
  private static String missing(String message, List<String> missing) {
    String all = String.join("; ", missing);
    return message.contains(all) ? "" : " Missing: " + all + ".";
  }

  private static String set(String rule) {
    int dot = rule.indexOf('.');
    return dot < 0 ? rule : rule.substring(0, dot);
  }

  private static String name(String rule, Subject subject) {
    return subject.isFormula() ? rule : rule + " [" + subject.kind() + ": " + subject.name() + "]";
  }

  private static void suite(
      StringBuilder xml,
      String name,
      String file,
      List<Case> cases,
      Map<Kind, Integer> totals,
      @Nullable Review review) {
    Map<Kind, Integer> mine = new EnumMap<>(Kind.class);
    for (Case one : cases) {
      mine.merge(one.kind(), 1, Integer::sum);
      totals.merge(one.kind(), 1, Integer::sum);
    }
    xml.append("  <testsuite");
    attribute(xml, "name", name);
    totals(xml, mine);
    if (!file.isEmpty()) {
      attribute(xml, "file", file);
    }
    xml.append(">\n");
    if (review != null) {
      xml.append("    <properties>\n");
      property(xml, "engine", review.editions().engine());
      property(xml, "on", review.editions().on().toString());
      property(xml, "formula-sha256", review.editions().formulaSha256());
      for (Map.Entry<String, String> set : review.editions().ruleSets().entrySet()) {
        property(xml, "rule-set." + set.getKey(), set.getValue());
      }
      xml.append("    </properties>\n");
    }
    for (Case one : cases) {
      one(xml, one);
    }
    xml.append("  </testsuite>\n");
  }

  private static void property(StringBuilder xml, String name, String value) {
    xml.append("      <property");
    attribute(xml, "name", name);
    attribute(xml, "value", value);
    xml.append("/>\n");
  }

  private static void one(StringBuilder xml, Case one) {
    xml.append("    <testcase");
    attribute(xml, "classname", one.set());
    attribute(xml, "name", one.name());
    if (one.place().line() > 0) {
      attribute(xml, "file", one.place().file());
      attribute(xml, "line", Integer.toString(one.place().line()));
    }
    if (one.kind() == Kind.PASSED) {
      xml.append("/>\n");
      return;
    }
    String element =
        switch (one.kind()) {
          case FAILURE -> "failure";
          case ERROR -> "error";
          case SKIPPED, PASSED -> "skipped";
        };
    xml.append(">\n      <").append(element);
    attribute(xml, "message", one.message());
    if (one.kind() != Kind.SKIPPED) {
      attribute(xml, "type", one.type());
    }
    if (one.body().isEmpty()) {
      xml.append("/>\n");
    } else {
      xml.append('>').append(escape(one.body(), false)).append("</").append(element).append(">\n");
    }
    xml.append("    </testcase>\n");
  }

  private static void totals(StringBuilder xml, Map<Kind, Integer> kinds) {
    int tests = 0;
    for (int count : kinds.values()) {
      tests += count;
    }
    attribute(xml, "tests", Integer.toString(tests));
    attribute(xml, "failures", Integer.toString(kinds.getOrDefault(Kind.FAILURE, 0)));
    attribute(xml, "errors", Integer.toString(kinds.getOrDefault(Kind.ERROR, 0)));
    attribute(xml, "skipped", Integer.toString(kinds.getOrDefault(Kind.SKIPPED, 0)));
  }

  private static void attribute(StringBuilder xml, String name, String value) {
    xml.append(' ').append(name).append("=\"").append(escape(value, true)).append('"');
  }

  /**
   * Escapes what XML reserves and drops what it does not know (XML 1.0, production 2, Char) or
   * discourages (C1 controls). Line breaks survive in an attribute only as references.
   */
  static String escape(String text, boolean inAttribute) {
    StringBuilder escaped = new StringBuilder(text.length() + 16);
    text.codePoints()
        .forEach(
            point -> {
              switch (point) {
                case '&' -> escaped.append("&amp;");
                case '<' -> escaped.append("&lt;");
                case '>' -> escaped.append("&gt;");
                case '"' -> escaped.append("&quot;");
                case '\n' -> escaped.append(inAttribute ? "&#10;" : "\n");
                case '\t' -> escaped.append(inAttribute ? "&#9;" : "\t");
                default -> {
                  boolean known =
                      (point >= 0x20 && point < 0x7f)
                          || (point > 0x9f && point <= 0xd7ff)
                          || (point >= 0xe000 && point <= 0xfffd)
                          || point >= 0x10000;
                  if (known) {
                    escaped.appendCodePoint(point);
                  }
                }
              }
            });
    return escaped.toString();
  }
}
