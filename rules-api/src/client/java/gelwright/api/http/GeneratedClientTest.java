package gelwright.api.http;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.client.ApiClient;
import gelwright.client.ApiException;
import gelwright.client.KnowledgeApi;
import gelwright.client.ReviewsApi;
import gelwright.client.model.Formula;
import gelwright.client.model.Review;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("a client made from the description by a stock generator")
final class GeneratedClientTest {
  @Test
  @DisplayName("compiles, gets a review, a problem and an ingredient")
  void works() throws Exception {
    try (Rig rig = Rig.start()) {
      ApiClient client = new ApiClient();
      client.updateBaseUri("http://127.0.0.1:" + rig.port());
      Formula formula =
          client
              .getObjectMapper()
              .readValue(
                  "{\"formula\":\"Bare gel\",\"ingredients\":[{\"name\":\"Aqua\",\"share\":\"rest\"},"
                      + "{\"name\":\"Sclerotium Gum\",\"share\":\"1 %\"}]}",
                  Formula.class);
      Review review = new ReviewsApi(client).review(formula, Rig.TODAY, "trace");
      assertEquals("Bare gel", review.getFormula());
      assertTrue(review.getRules().size() > 100);
      Formula none = client.getObjectMapper().readValue("{\"formula\":\"Nothing\"}", Formula.class);
      ApiException refused =
          assertThrows(ApiException.class, () -> new ReviewsApi(client).review(none, null, null));
      assertEquals(422, refused.getCode());
      assertEquals(
          "Xanthan Gum", new KnowledgeApi(client).showIngredient("xanthan gum").getName());
    }
  }
}
