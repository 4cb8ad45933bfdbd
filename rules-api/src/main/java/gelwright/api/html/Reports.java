package gelwright.api.html;

import static java.util.Objects.requireNonNull;

import gelwright.batch.BatchSheet;
import gelwright.batch.BatchSheets;
import gelwright.formula.Formula;
import gelwright.ingredient.Source;
import gelwright.prediction.Prediction;
import gelwright.problem.Problem;
import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import gelwright.reports.Unreadable;
import gelwright.review.Outcome;
import gelwright.review.Review;
import gelwright.rule.Severity;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/** Reviews as a report to be read on a screen and printed. */
public final class Reports {
  /** Written for where a sheet states no batch: grams in it are percent. */
  private static final Quantity USUAL_BATCH = Quantity.of(100, Unit.GRAM);

  private Reports() {}

  /**
   * All that a report tells of one formula.
   *
   * @param formula as read
   * @param review of it
   * @param prediction of it, for the curves; empty to leave them out
   * @param sheet for the batch of {@link #batch}
   */
  public record Reviewed(
      Formula formula, Review review, Optional<Prediction> prediction, BatchSheet sheet) {
    public Reviewed {
      requireNonNull(formula, "formula");
      requireNonNull(review, "review");
      requireNonNull(prediction, "prediction");
      requireNonNull(sheet, "sheet");
    }
  }

  /** The batch whose masses stand in a report: that of the sheet, or 100 g. */
  public static Quantity batch(Formula formula) {
    return formula.batch().filter(BatchSheets::canMake).orElse(USUAL_BATCH);
  }

  /** One formula. */
  public static Report of(Reviewed reviewed) {
    return of(List.of(reviewed), List.of());
  }

  /**
   * Several formulas in one report, with all of them at a glance in front. One formula, and no file
   * that could not be read, gives its report alone.
   */
  public static Report of(List<Reviewed> reviewed, List<Unreadable> unreadable) {
    Told.Cited cited = new Told.Cited();
    boolean alone = reviewed.size() == 1 && unreadable.isEmpty();
    List<Report.Part> parts = new ArrayList<>();
    Optional<Report.Library> library =
        alone ? Optional.empty() : Optional.of(library(reviewed, unreadable, cited));
    for (int i = 0; i < reviewed.size(); i++) {
      parts.add(new ReportPart(reviewed.get(i), id(i), cited).part());
    }
    Page page =
        alone
            ? new Page(
                "Review",
                parts.get(0).name(),
                List.of(parts.get(0).about()),
                List.of(Words.CLOSING))
            : new Page(
                "Review",
                Told.count(reviewed.size(), "formula"),
                reviewed.stream()
                    .limit(1)
                    .map(each -> Words.rests(each.review().editions()))
                    .toList(),
                List.of(Words.CLOSING));
    List<Report.Reference> references = new ArrayList<>();
    Set<Source.Standing> used = new TreeSet<>();
    cited
        .numbers()
        .forEach(
            (source, number) -> {
              used.add(source.standing());
              String beside = Told.besideNumber(source.standing());
              references.add(
                  new Report.Reference(
                      number,
                      beside.isEmpty() ? "published" : beside,
                      Told.line(source.citation())));
            });
    return new Report(
        page,
        library,
        unreadable.stream().map(Reports::unread).toList(),
        parts,
        references,
        used.stream()
            .filter(standing -> standing != Source.Standing.PUBLISHED)
            .map(Words::standing)
            .toList());
  }

  private static String id(int number) {
    return "f" + (number + 1);
  }

  private static String unread(Unreadable file) {
    List<String> why = new ArrayList<>();
    for (Problem problem : file.problems()) {
      int line = problem.place().line();
      why.add(
          (line > 0 ? "line " + line + ": " : "")
              + problem.message()
              + (problem.hint().isEmpty() ? "" : " " + problem.hint()));
    }
    return Told.line(file.file() + " could not be read: " + String.join(" ", why));
  }

  private static Report.Library library(
      List<Reviewed> reviewed, List<Unreadable> unreadable, Told.Cited cited) {
    List<Review> reviews = reviewed.stream().map(Reviewed::review).toList();
    List<Report.Row> rows = new ArrayList<>();
    for (int i = 0; i < reviews.size(); i++) {
      Review review = reviews.get(i);
      rows.add(
          new Report.Row(
              id(i),
              Told.line(review.place().file()),
              Told.line(review.formula()),
              Words.outcome(review),
              Words.count(review, Severity.ERROR),
              Words.count(review, Severity.WARNING),
              Words.count(review, Severity.NOTE),
              review.unchecked().size()));
    }
    List<Report.Common> commonest = new ArrayList<>();
    for (Gathered.Common common : Gathered.commonest(reviews)) {
      commonest.add(
          new Report.Common(
              Told.line(common.first().title()),
              common.first().rule(),
              common.words(),
              Told.line(common.first().lesson()),
              ReportPart.cites(common.first().sources(), cited)));
    }
    return new Report.Library(rows, Gathered.totals(reviews, unreadable.size()), commonest);
  }

  static int count(Review review, Outcome outcome) {
    return review.counts().getOrDefault(outcome, 0);
  }
}
