package gelwright.science;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

/** Every number that a model holds fixed says beside it what it is measured in and who says so. */
@DisplayName("constants of the models")
final class ConstantsTest {
  private static final Path SOURCES = Path.of("src/main/java/gelwright/science");

  private static final Pattern CONSTANT =
      Pattern.compile(
          "((?:/\\*\\*(?:(?!\\*/).)*\\*/|(?:[ ]*//[^\\n]*\\n)+)\\s*)?"
              + "(?:public |private )?static final double(?:\\[\\])* (\\w+) =",
          Pattern.DOTALL);

  // A unit, or a word for a number that has none.
  private static final Pattern UNIT =
      Pattern.compile(
          "°C|\\bK\\b|\\bPa\\b|g/mL|g/mol|kg|mmHg|mN·m|J/|J s|m/s|1/s|1/min|kelvin|percent|%"
              + "|ratio|fraction|factor|exponent|log|Reynolds|parameter|coefficient|viscosity"
              + "|readability|neutralisation|S₀|stress|diameter|ion product|acid constant",
          Pattern.CASE_INSENSITIVE);

  private static final Pattern SOURCE =
      Pattern.compile(
          "\\bread\\b|memory|practice|proposed|definition|textbook|ISO \\d|USP|CODATA|IUPAC"
              + "|\\b1[89]\\d\\d\\b|\\b20\\d\\d\\b|Einstein",
          Pattern.CASE_INSENSITIVE);

  /** Numbers of the arithmetic, not of nature: they have neither unit nor source. */
  private static final Set<String> OF_THE_ARITHMETIC =
      Set.of(
          "AcidBase.LN10",
          "Undissociated.LN10",
          "Partition.LN10",
          "Dispersion.LARGEST_LOG",
          "Evaporation.SECONDS_PER_HOUR",
          "FlowFit.STEP",
          "FlowFit.EXACT",
          "FlowFit.LARGEST_INDEX",
          "FlowFit.LARGEST_EXPONENT",
          "FlowFit.LARGEST_LOG",
          "FlowLaw.STEEPEST",
          "FlowModifiers.FULLEST",
          "Hydration.NO_THRESHOLD",
          "LogLeastSquares.SINGULAR",
          "LogLeastSquares.STEP",
          "LotFit.GUESSES",
          "LotFit.STEEPEST",
          "LotFit.STEP",
          "TemperaturePath.PANEL",
          "TemperaturePath.NODE",
          "TemperaturePath.OUTER_WEIGHT",
          "TemperaturePath.MIDDLE_WEIGHT",
          "Thermal.COLDEST_CELSIUS",
          "Thermal.LARGEST_EXPONENT");

  private static List<Path> files() {
    try (Stream<Path> files = Files.list(SOURCES)) {
      return files.filter(file -> file.toString().endsWith(".java")).sorted().toList();
    } catch (IOException e) {
      throw new IllegalStateException(SOURCES + " cannot be read", e);
    }
  }

  private static String read(Path file) {
    try {
      return Files.readString(file, StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new IllegalStateException(file + " cannot be read", e);
    }
  }

  @Test
  @DisplayName("each has its unit and its source in the comment beside it")
  void unitAndSource() {
    List<String> without = new ArrayList<>();
    Set<String> excused = new HashSet<>(OF_THE_ARITHMETIC);
    int seen = 0;
    for (Path file : files()) {
      String text = read(file);
      for (Matcher constant = CONSTANT.matcher(text); constant.find(); ) {
        seen++;
        String name = file.getFileName().toString().replace(".java", "") + "." + constant.group(2);
        if (excused.remove(name)) {
          continue;
        }
        String comment = constant.group(1) == null ? "" : constant.group(1);
        if (!UNIT.matcher(comment).find()) {
          without.add(name + " has no unit: " + comment.strip());
        }
        if (!SOURCE.matcher(comment).find()) {
          without.add(name + " has no source: " + comment.strip());
        }
      }
    }
    assertEquals(List.of(), without);
    assertEquals(Set.of(), new TreeSet<>(excused), "excused, and no longer there");
    assertTrue(seen > 50, "constants seen: " + seen);
  }
}
