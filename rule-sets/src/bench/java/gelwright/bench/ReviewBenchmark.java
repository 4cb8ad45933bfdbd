package gelwright.bench;

import gelwright.formula.Formula;
import gelwright.profile.Profile;
import gelwright.review.Knowledge;
import gelwright.review.Review;
import gelwright.review.Reviewer;
import gelwright.rule.CompiledRule;
import gelwright.rule.Subject;
import gelwright.sheets.BundledRuleSets;
import gelwright.sheets.FormulaReader;
import java.time.LocalDate;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.openjdk.jmh.infra.Blackhole;

/**
 * A whole review of a formula of twelve lines under all bundled rules, and its two parts: computing
 * the properties, and asking the rules once the properties are known.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 5, time = 2)
@Measurement(iterations = 5, time = 2)
public class ReviewBenchmark {
  private static final LocalDate ON = LocalDate.of(2026, 6, 1);

  private Formula formula;
  private Knowledge knowledge;
  private Reviewer reviewer;
  private Profile known;

  @Setup
  public void setUp() {
    formula = Formulas.twelveLines();
    knowledge = BundledRuleSets.load();
    reviewer = Reviewer.using(knowledge);
    known = Profile.of(formula, knowledge.catalogue());
    if (formula.lines().size() != 12 || reviewer.review(formula, ON).rules().isEmpty()) {
      throw new IllegalStateException("not the review that is meant");
    }
  }

  /** All of it, from a formula that was read to a review. */
  @Benchmark
  public Review review() {
    return reviewer.review(formula, ON);
  }

  /** The numbers of the formula as a whole, with their ranges. */
  @Benchmark
  public List<Profile.Value> properties() {
    return Profile.of(formula, knowledge.catalogue()).values();
  }

  /** Every rule's condition and requirement, of a profile that has computed all they read. */
  @Benchmark
  public void rules(Blackhole blackhole) {
    ask(known, blackhole);
  }

  /** The same of a new profile: the properties that rules read, and the rules. */
  @Benchmark
  public void propertiesAndRules(Blackhole blackhole) {
    ask(Profile.of(formula, knowledge.catalogue()), blackhole);
  }

  private void ask(Profile profile, Blackhole blackhole) {
    for (CompiledRule rule : knowledge.rules().rules()) {
      for (Subject subject : rule.subjects(profile)) {
        blackhole.consume(rule.when(profile, subject));
        if (rule.hasRequirement()) {
          blackhole.consume(rule.require(profile, subject));
        }
      }
    }
  }

  /** Reading of sheets. */
  @State(Scope.Benchmark)
  public static class Sheets {
    private final FormulaReader reader = new FormulaReader();
    private byte[] yaml;
    private byte[] json;

    @Setup
    public void setUp() {
      yaml = Formulas.TWELVE_LINES.getBytes(java.nio.charset.StandardCharsets.UTF_8);
      json = Formulas.asJson().getBytes(java.nio.charset.StandardCharsets.UTF_8);
      if (!reader.read(yaml, "same").orThrow().name().equals(
          reader.read(json, "same.json").orThrow().name())) {
        throw new IllegalStateException("not the same sheet");
      }
    }
  }

  @Benchmark
  public Formula readYaml(Sheets sheets) {
    return sheets.reader.read(sheets.yaml, "sheet.yaml").orThrow();
  }

  @Benchmark
  public Formula readJson(Sheets sheets) {
    return sheets.reader.read(sheets.json, "sheet.json").orThrow();
  }

  /** All bundled sheets read and all rules compiled: what a start costs once the code is warm. */
  @Benchmark
  @OutputTimeUnit(TimeUnit.MILLISECONDS)
  public Knowledge loadBundled() {
    return BundledRuleSets.load();
  }
}
