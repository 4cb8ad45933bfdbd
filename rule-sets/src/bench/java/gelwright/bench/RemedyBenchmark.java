package gelwright.bench;

import gelwright.formula.Formula;
import gelwright.review.Include;
import gelwright.review.Review;
import gelwright.review.Reviewer;
import gelwright.sheets.BundledRuleSets;
import java.time.LocalDate;
import java.util.Set;
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

/**
 * What remedies and headroom cost against a plain review of the same formula, which has six findings
 * that break or are borderline.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 5, time = 2)
@Measurement(iterations = 5, time = 2)
public class RemedyBenchmark {
  private static final LocalDate ON = LocalDate.of(2026, 6, 1);

  private Formula formula;
  private Reviewer reviewer;

  @Setup
  public void setUp() {
    formula = Formulas.sixFindings();
    reviewer = Reviewer.using(BundledRuleSets.load());
    int findings = reviewer.remedies(formula, ON).size();
    if (findings != 6) {
      throw new IllegalStateException("six findings are meant, there are " + findings);
    }
  }

  @Benchmark
  public Review review() {
    return reviewer.review(formula, ON);
  }

  @Benchmark
  public Review remedies() {
    return reviewer.review(formula, ON, Set.of(Include.REMEDIES));
  }

  @Benchmark
  public Review headroom() {
    return reviewer.review(formula, ON, Set.of(Include.HEADROOM));
  }
}
