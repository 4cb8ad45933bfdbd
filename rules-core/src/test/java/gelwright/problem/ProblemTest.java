package gelwright.problem;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

final class ProblemTest {
  @ParameterizedTest(name = "\"{0}\", line {1}, column {2}: \"{3}\"")
  @CsvSource({
    "mist.yaml, 14, 5, mist.yaml:14:5",
    "mist.yaml, 14, 0, mist.yaml:14",
    "mist.yaml, 0, 0, mist.yaml",
    "'', 14, 5, 14:5",
    "'', 0, 0, ''",
  })
  void places(String file, int line, int column, String text) {
    assertEquals(text, new Place(file, line, column, "").toString());
  }

  @Test
  @DisplayName("further along the line; an unknown column stays unknown")
  void columns() {
    assertEquals(new Place("f", 3, 9, "/a"), new Place("f", 3, 5, "/a").plusColumns(4));
    assertEquals(new Place("f", 3, 0, "/a"), new Place("f", 3, 0, "/a").plusColumns(4));
    assertThrows(IllegalArgumentException.class, () -> new Place("f", -1, 0, ""));
    assertThrows(IllegalArgumentException.class, () -> new Place("f", 1, -1, ""));
  }

  @Test
  @DisplayName("a problem on one line for people")
  void printed() {
    Place place = new Place("mist.yaml", 14, 5, "/ingredients/2");
    assertEquals(
        "mist.yaml:14:5: The key \"shaer\" is not known. Did you mean share? [unknown-key]",
        new Problem(place, "unknown-key", "The key \"shaer\" is not known.", "Did you mean share?")
            .toString());
    assertEquals(
        "Nothing is here. [empty]",
        Problem.of(Place.NOWHERE, "empty", "Nothing is here.").toString());
  }

  @Test
  @DisplayName("in the order of the document, however they were found")
  void inOrder() {
    List<Problem> problems = new ArrayList<>();
    for (String file : List.of("a", "b")) {
      for (int line : new int[] {0, 2, 10}) {
        for (int column : new int[] {1, 30}) {
          for (String code : List.of("bad-share", "unknown-key")) {
            problems.add(Problem.of(new Place(file, line, column, ""), code, "m"));
          }
        }
      }
    }
    List<Problem> found = new ArrayList<>(problems);
    Collections.reverse(found);
    found.sort(Problem.IN_ORDER);
    assertEquals(problems, found);
  }
}
