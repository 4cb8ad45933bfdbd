package gelwright.api.html;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.formula.Formula;
import gelwright.profile.Profile;
import gelwright.profile.Profiler;
import gelwright.review.Finding;
import gelwright.review.Knowledge;
import gelwright.review.Outcome;
import gelwright.review.Reviewer;
import gelwright.review.Shown;
import gelwright.rule.Comparison;
import gelwright.rule.CompiledRule;
import gelwright.sheets.FormulaReader;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

/** The side that a picture bars, held to the relation that the rule itself asks for. */
@DisplayName("the side of a limit that is not allowed")
final class ScaleSideTest {
  private static final List<String> FOLDERS =
      List.of("../docs/examples", "../rule-sets/src/test/resources/sound-formulas");

  /** Too little and too much of everything, so that much breaks, at either end. */
  private static final double[] FACTORS = {0.2, 0.5, 1, 2, 5};

  private static final Pattern SHARE = Pattern.compile("share: ([0-9.]+) %");

  private static List<String> sheets() throws IOException {
    List<String> sheets = new ArrayList<>();
    for (String folder : FOLDERS) {
      try (Stream<Path> files = Files.list(Path.of(folder))) {
        for (Path file :
            files.filter(each -> each.toString().endsWith(".yaml")).sorted().toList()) {
          String sheet = Files.readString(file);
          for (double factor : FACTORS) {
            sheets.add(SHARE.matcher(sheet).replaceAll(share -> times(share, factor)));
          }
        }
      }
    }
    return sheets;
  }

  /** Most of a formula is water, which takes what the others leave. */
  private static String times(MatchResult share, double factor) {
    double percent = Double.parseDouble(share.group(1));
    return percent > 40
        ? "share: rest"
        : String.format(Locale.ROOT, "share: %.4f %%", percent * factor);
  }

  private static Scale.Side asked(Comparison comparison, Shown limit) {
    return switch (comparison.relation()) {
      case LESS, AT_MOST -> Scale.Side.ABOVE;
      case MORE, AT_LEAST -> Scale.Side.BELOW;
      case WITHIN ->
          limit.likely() == comparison.limit().value().atLeast().likely()
              ? Scale.Side.BELOW
              : Scale.Side.ABOVE;
      case OUTSIDE, EQUAL, NOT_EQUAL -> Scale.Side.NEITHER;
    };
  }

  @Test
  @DisplayName("is the one that the rule's own relation forbids, wherever one is barred")
  void isThatOfTheRule() throws IOException {
    Knowledge knowledge = Examples.knowledge();
    Reviewer reviewer = Reviewer.using(knowledge);
    Profiler profiler = Profiler.using(knowledge.catalogue());
    List<String> wrong = new ArrayList<>();
    Map<Scale.Side, Integer> barred = new EnumMap<>(Scale.Side.class);
    int borderline = 0;
    for (String sheet : sheets()) {
      Optional<Formula> formula =
          new FormulaReader().read(sheet.getBytes(StandardCharsets.UTF_8), "sheet").value();
      if (formula.isEmpty()) {
        continue;
      }
      Profile facts = profiler.profile(formula.get(), Examples.DAY);
      for (Finding finding : reviewer.review(formula.get(), Examples.DAY).findings()) {
        Scale.Side side = Scale.wrongSide(finding);
        if (side == Scale.Side.NEITHER) {
          continue;
        }
        barred.merge(side, 1, Integer::sum);
        borderline += finding.outcome() == Outcome.BORDERLINE ? 1 : 0;
        CompiledRule rule = knowledge.rules().rule(finding.rule()).orElseThrow();
        Comparison comparison =
            rule.subjects(facts).stream()
                .filter(subject -> subject.name().equals(finding.subject().name()))
                .findFirst()
                .flatMap(subject -> rule.require(facts, subject).comparison())
                .orElseThrow();
        if (asked(comparison, finding.limit().orElseThrow()) != side) {
          wrong.add(finding.rule() + ": " + finding.observed() + " " + finding.limit());
        }
      }
    }
    assertEquals(List.of(), wrong);
    assertTrue(barred.getOrDefault(Scale.Side.BELOW, 0) > 300, "too few below a limit");
    assertTrue(barred.getOrDefault(Scale.Side.ABOVE, 0) > 300, "too few above a limit");
    assertTrue(borderline > 50, "too few that probably fail");
  }
}
