package gelwright.reports;

import com.fasterxml.jackson.core.JsonGenerator;
import gelwright.formula.Edit;
import gelwright.review.Concern;
import gelwright.review.Finding;
import gelwright.review.Remedies;
import gelwright.review.Remedy;
import gelwright.review.Review;
import java.io.IOException;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Writes the remedies of a review beside their findings, numbered through the review from 1. */
final class RemedyWriter {
  private final String formula;
  private final Map<Concern, Remedies> byConcern = new HashMap<>();
  private int number;

  RemedyWriter(Review review) {
    this.formula = review.formula();
    for (Remedies each : review.remedies().orElse(List.of())) {
      byConcern.put(new Concern(each.rule(), each.subject()), each);
    }
  }

  void write(JsonGenerator json, Finding finding) throws IOException {
    Remedies remedies = byConcern.get(new Concern(finding.rule(), finding.subject()));
    if (remedies == null) {
      return;
    }
    json.writeArrayFieldStart("remedies");
    for (Remedy remedy : remedies.offers()) {
      remedy(json, remedy);
    }
    json.writeEndArray();
    if (remedies.none().isPresent()) {
      json.writeStringField("no-remedy", remedies.none().get());
    }
  }

  private void remedy(JsonGenerator json, Remedy remedy) throws IOException {
    number++;
    json.writeStartObject();
    json.writeNumberField("number", number);
    json.writeStringField("text", remedy.text());
    JsonReport.number(json, "odds", remedy.odds());
    json.writeBooleanField("reaches", remedy.reaches());
    if (remedy.measure().isPresent()) {
      json.writeStringField("measure", remedy.measure().get());
    }
    json.writeArrayFieldStart("edits");
    for (Edit edit : remedy.edits()) {
      EditWriter.write(json, edit);
    }
    json.writeEndArray();
    concerns(json, "clears", remedy.clears());
    concerns(json, "raises", remedy.raises());
    concerns(json, "brings", remedy.brings());
    json.writeEndObject();
  }

  private void concerns(JsonGenerator json, String field, List<Concern> concerns)
      throws IOException {
    json.writeArrayFieldStart(field);
    for (Concern concern : concerns) {
      json.writeStartObject();
      json.writeStringField("rule", concern.rule());
      JsonReport.subject(json, concern.subject(), formula);
      json.writeEndObject();
    }
    json.writeEndArray();
  }
}
