package gelwright.bench;

import gelwright.science.AcidBase;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * The pH of twelve dissolved species: acids of one to four protons, their salts, an ampholyte, a
 * polymer acid, strong ions. The dearest of a thousand random mixtures of them, by the time it
 * took, stands for the worst case.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
public class AcidBaseBenchmark {
  private static final int MIXTURES = 1000;

  @Param({"usual", "worst"})
  private String mixture;

  private List<AcidBase.Species> species;

  @Setup
  public void setUp() {
    Random random = new Random(12);
    List<List<AcidBase.Species>> all = new ArrayList<>();
    for (int i = 0; i < MIXTURES; i++) {
      all.add(mixture(random));
    }
    species = mixture.equals("worst") ? dearest(all) : all.get(0);
  }

  private static List<AcidBase.Species> dearest(List<List<AcidBase.Species>> all) {
    for (int i = 0; i < 20; i++) {
      all.forEach(AcidBaseBenchmark::solve);
    }
    List<AcidBase.Species> dearest = all.get(0);
    long most = 0;
    for (List<AcidBase.Species> each : all) {
      long least = Long.MAX_VALUE;
      for (int i = 0; i < 20; i++) {
        long start = System.nanoTime();
        solve(each);
        least = Math.min(least, System.nanoTime() - start);
      }
      if (least > most) {
        most = least;
        dearest = each;
      }
    }
    return dearest;
  }

  private static List<AcidBase.Species> mixture(Random random) {
    return List.of(
        AcidBase.Weak.acid(molality(random), 4.204),
        AcidBase.Weak.acid(molality(random), 4.76),
        AcidBase.Weak.acid(molality(random), 3.86),
        AcidBase.Weak.acid(molality(random), 3.128, 4.761, 6.396),
        AcidBase.Weak.acid(molality(random), 2.148, 7.198, 12.35),
        AcidBase.Weak.acid(molality(random), 2.0, 2.69, 6.13, 10.37),
        AcidBase.Weak.ampholyte(molality(random), 1, 2.35, 9.78),
        AcidBase.Weak.base(molality(random), 7.76),
        new AcidBase.Polyacid(molality(random), 5, 1.5),
        new AcidBase.Carbonate(molality(random)),
        new AcidBase.StrongIon(molality(random), 1),
        new AcidBase.StrongIon(molality(random), -1));
  }

  private static double molality(Random random) {
    return Math.pow(10, -6 + 6 * random.nextDouble());
  }

  private static AcidBase.Equilibrium solve(List<AcidBase.Species> species) {
    return AcidBase.solve(AcidBase.Mixture.of(species), AcidBase.Options.STANDARD);
  }

  /** The pH with activities, from the list of what is dissolved. */
  @Benchmark
  public AcidBase.Equilibrium pH() {
    return solve(species);
  }
}
