package gelwright.sheets;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.InputFormat;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import gelwright.formula.Edit;
import gelwright.formula.Formula;
import gelwright.reports.JsonReport;
import gelwright.review.Concern;
import gelwright.review.Finding;
import gelwright.review.Include;
import gelwright.review.Outcome;
import gelwright.review.Remedies;
import gelwright.review.Remedy;
import gelwright.review.Review;
import gelwright.review.Reviewer;
import gelwright.review.Subject;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Limits;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * What a remedy promises is what comes out when its edits are made in the text of the sheet and the
 * new sheet is read and reviewed from scratch, as a formulator would do it.
 */
@DisplayName("remedies made in the text of the example sheets")
final class AppliedRemediesTest {
  private static final LocalDate DAY = LocalDate.of(2026, 11, 25);
  private static final ObjectMapper MAPPER = new ObjectMapper();
  private static final List<Offer> OFFERS = new ArrayList<>();
  private static final List<Review> REVIEWS = new ArrayList<>();
  private static Reviewer reviewer = Reviewer.using(BundledRuleSets.load());

  private record Offer(Path file, int number, Concern concern, Remedy remedy) {
    @Override
    public String toString() {
      return file.getFileName() + ", remedy " + number + ": " + remedy.text();
    }
  }

  private static Formula read(String text) {
    return new FormulaReader().read(text.getBytes(StandardCharsets.UTF_8), "a.yaml").orThrow();
  }

  static List<Offer> offers() throws IOException {
    if (OFFERS.isEmpty()) {
      for (Path file : SheetEditorTest.examples()) {
        Review review =
            reviewer.review(read(Files.readString(file)), DAY, Set.of(Include.REMEDIES));
        REVIEWS.add(review);
        int number = 0;
        for (Remedies each : review.remedies().orElseThrow()) {
          for (Remedy remedy : each.offers()) {
            OFFERS.add(new Offer(file, ++number, new Concern(each.rule(), each.subject()), remedy));
          }
        }
      }
    }
    return OFFERS;
  }

  @BeforeAll
  static void enough() throws IOException {
    assertTrue(offers().size() > 10, "the examples have findings with remedies");
  }

  private static Optional<Finding> finding(Review review, String rule, Subject subject) {
    return review.findings().stream()
        .filter(each -> each.rule().equals(rule) && each.subject().equals(subject))
        .findFirst();
  }

  /** As a remedy counts them: what holds or is not asked any more is settled. */
  private static double odds(Optional<Finding> finding) {
    return finding
        .map(each -> each.outcome() == Outcome.UNKNOWN ? 0 : each.odds().low())
        .orElse(1.0);
  }

  private static boolean renumbers(List<Edit> edits) {
    return edits.stream()
        .anyMatch(
            edit ->
                edit instanceof Edit.Move
                    || edit instanceof Edit.Insertion
                    || edit instanceof Edit.OfPH);
  }

  /** What is asked of an ingredient is asked of the one in its place. */
  private static Subject then(Subject subject, List<Edit> edits) {
    return edits.stream()
        .filter(edit -> edit instanceof Edit.Substitution)
        .map(edit -> (Edit.Substitution) edit)
        .filter(edit -> edit.ingredient().equals(subject.name()))
        .findFirst()
        .map(edit -> new Subject(subject.kind(), edit.with()))
        .orElse(subject);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("offers")
  void keepsItsPromise(Offer offer) throws IOException {
    String sheet = Files.readString(offer.file());
    List<Edit> edits = offer.remedy().edits();
    String changed = new SheetEditor().apply(edits, sheet, "a.yaml").orThrow();
    Review after = reviewer.review(read(changed), DAY, Set.of());
    boolean ofStep = offer.concern().subject().kind().equals("step") && renumbers(edits);
    if (!ofStep) {
      assertEquals(
          offer.remedy().odds(),
          odds(finding(after, offer.concern().rule(), then(offer.concern().subject(), edits))),
          1e-9,
          changed);
    }
    for (Concern clears : offer.remedy().clears()) {
      if (!clears.subject().kind().equals("step")) {
        Optional<Finding> left = finding(after, clears.rule(), clears.subject());
        boolean settled =
            left.isEmpty()
                || (left.get().outcome() == Outcome.BORDERLINE && odds(left) >= Remedy.AIM);
        assertTrue(settled, () -> "not cleared: " + left + "\n" + changed);
      }
    }
    for (Concern raises : offer.remedy().raises()) {
      if (!raises.subject().kind().equals("step")) {
        boolean there =
            finding(after, raises.rule(), raises.subject()).isPresent()
                || after.unchecked().stream()
                    .anyMatch(
                        each ->
                            each.rule().equals(raises.rule())
                                && each.subject().equals(raises.subject()))
                || after.duties().stream().anyMatch(each -> each.rule().equals(raises.rule()));
        assertTrue(there, () -> "not raised: " + raises + "\n" + changed);
      }
    }
    for (Concern brings : offer.remedy().brings()) {
      assertTrue(
          after.duties().stream()
              .anyMatch(
                  each ->
                      each.rule().equals(brings.rule()) && each.subject().equals(brings.subject())),
          () -> "not brought: " + brings + "\n" + changed);
    }
  }

  @Test
  @DisplayName("a review with remedies fits the schema, and its edits are read back as they are")
  void asJson() throws IOException {
    var schema =
        SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema(Bundled.schema("review"), InputFormat.JSON);
    offers();
    for (Review review : REVIEWS) {
      String json = JsonReport.compact().text(review);
      assertEquals(List.of(), schema.validate(json, InputFormat.JSON));
      List<Remedy> written = new ArrayList<>();
      review.remedies().orElseThrow().forEach(each -> written.addAll(each.offers()));
      List<Remedy> offered = review.offers();
      assertEquals(written, offered);
      int seen = 0;
      for (JsonNode finding : MAPPER.readTree(json).get("findings")) {
        for (JsonNode remedy : finding.path("remedies")) {
          assertEquals(++seen, remedy.get("number").intValue());
          assertEquals(
              offered.get(seen - 1).edits(),
              Document.read(
                      MAPPER.writeValueAsBytes(remedy.get("edits")),
                      "",
                      Document.Format.JSON,
                      Limits.USUAL)
                  .then(EditReader::read)
                  .orThrow());
        }
      }
      assertEquals(offered.size(), seen);
      assertFalse(json.contains("\"edits\":[]"));
    }
  }
}
