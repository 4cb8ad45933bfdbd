package gelwright.bench;

import gelwright.formula.Formula;
import gelwright.profile.Profile;
import gelwright.quantity.Estimate;
import gelwright.quantity.Odds;
import gelwright.review.Knowledge;
import gelwright.rule.CompiledRule;
import gelwright.rule.Subject;
import gelwright.rule.Vocabulary;
import gelwright.sheets.BundledRuleSets;
import gelwright.sheets.Library;
import gelwright.sheets.RuleSetReader;
import gelwright.sheets.RuleSheet;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.apache.commons.jexl3.JexlBuilder;
import org.apache.commons.jexl3.JexlEngine;
import org.apache.commons.jexl3.JexlScript;
import org.apache.commons.jexl3.introspection.JexlPermissions;
import org.drools.model.codegen.ExecutableModelProject;
import org.hipparchus.special.Erf;
import org.kie.api.KieServices;
import org.kie.api.builder.KieBuilder;
import org.kie.api.builder.KieFileSystem;
import org.kie.api.builder.Message;
import org.kie.api.runtime.KieSession;
import org.kie.api.runtime.rule.FactHandle;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.TearDown;
import org.openjdk.jmh.annotations.Warmup;

/**
 * One rule asked of several formulas whose properties are known already: by a compiled rule, by
 * Java written by hand, by a general-purpose expression library and by a general-purpose rule
 * engine. All four come to the same odds; the set-up fails if they do not.
 *
 * <p>The others are helped: a compiled rule looks its numbers up in the profile and works out how
 * far shared doubts cancel, while they are handed a value and its standard deviation.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@OperationsPerInvocation(RuleBenchmark.FORMULAS)
public class RuleBenchmark {
  static final int FORMULAS = 6;

  private static final double SAME = 1e-12;

  private static final String RULES =
      """
      rule-set: measured
      title: Two rules to measure
      edition: "1"
      rules:
        exact:
          title: Not much oil
          severity: warning
          require: oil.share <= 4 %
          message: "The oils add up to {oil.share}."
          lesson: An exact comparison.
          sources: [sheet-arithmetic]
        doubtful:
          title: A soft gel
          severity: warning
          require: gel.yield-stress within 8 Pa .. 30 Pa
          message: "The gel begins to flow at about {gel.yield-stress}."
          lesson: A comparison with doubt.
          sources: [texture-practice]
      """;

  private static final double MOST_OIL = 4;
  private static final double LEAST_YIELD = 8;
  private static final double MOST_YIELD = 30;

  private static final String DRL =
      """
      package gelwright.bench
      import gelwright.bench.RuleBenchmark.Case
      import gelwright.bench.RuleBenchmark
      rule "oil in bounds" when $case : Case(doubtful == false, share <= 4)
      then $case.setOdds(1); end
      rule "oil above" when $case : Case(doubtful == false, share > 4)
      then $case.setOdds(0); end
      rule "yield stress" when $case : Case(doubtful == true)
      then $case.setOdds(RuleBenchmark.within($case.getLikely(), $case.getDeviation(), 8, 30)); end
      """;

  /** What the expression library and the rule engine are handed. */
  public static final class Case {
    private final double share;
    private final double likely;
    private final double deviation;
    private boolean doubtful;
    private double odds = Double.NaN;

    Case(double share, double likely, double deviation) {
      this.share = share;
      this.likely = likely;
      this.deviation = deviation;
    }

    /** Oil in the recipe, %. */
    public double getShare() {
      return share;
    }

    /** Likely yield stress, Pa. */
    public double getLikely() {
      return likely;
    }

    /** Standard deviation of the logarithm of the yield stress. */
    public double getDeviation() {
      return deviation;
    }

    /** Whether the rule with doubt is asked, or the exact one. */
    public boolean isDoubtful() {
      return doubtful;
    }

    void ask(boolean ofTheRuleWithDoubt) {
      doubtful = ofTheRuleWithDoubt;
      odds = Double.NaN;
    }

    public double getOdds() {
      return odds;
    }

    public void setOdds(double odds) {
      this.odds = odds;
    }
  }

  /** Functions that expressions call. */
  public static final class Functions {
    /** The standard normal distribution function. */
    public double normal(double deviations) {
      return RuleBenchmark.normal(deviations);
    }
  }

  /** The standard normal distribution function. */
  public static double normal(double deviations) {
    return 0.5 * Erf.erfc(-deviations / Math.sqrt(2));
  }

  /** The odds that a number known by a factor lies within two limits. */
  public static double within(double likely, double deviation, double from, double to) {
    double below = normal((Math.log(from) - Math.log(likely)) / deviation);
    double above = normal((Math.log(likely) - Math.log(to)) / deviation);
    return Math.max(0, Math.min(1, 1 - below - above));
  }

  private final Profile[] profiles = new Profile[FORMULAS];
  private final Case[] cases = new Case[FORMULAS];
  private final FactHandle[] handles = new FactHandle[FORMULAS];
  private CompiledRule exact;
  private CompiledRule doubtful;
  private JexlScript exactScript;
  private JexlScript doubtfulScript;
  private KieSession session;

  @Setup
  public void setUp() {
    Library library = Formulas.library();
    compileRules(library);
    List<Formula> formulas = Formulas.bases(library);
    int oil = slot("oil.share");
    int yield = slot("gel.yield-stress");
    int found = 0;
    for (Formula formula : formulas) {
      Profile profile = Profile.of(formula, library.catalogue());
      Estimate stress = profile.number(yield).atLeast();
      boolean usable = profile.number(yield).isKnown() && stress.deviation() > 0;
      if (usable && found < FORMULAS) {
        double share = profile.number(oil).atLeast().likely();
        cases[found] = new Case(share, stress.likely(), stress.deviation());
        profiles[found++] = profile;
      }
    }
    require(found == FORMULAS, "only " + found + " formulas have a yield stress with doubt");
    compileScripts();
    openSession();
    agree();
  }

  private static int slot(String property) {
    return Profile.vocabulary().properties().stream()
        .filter(each -> each.name().equals(property))
        .mapToInt(Vocabulary.Property::slot)
        .findFirst()
        .orElseThrow();
  }

  private void compileRules(Library library) {
    RuleSheet sheet =
        new RuleSetReader().read(RULES.getBytes(StandardCharsets.UTF_8), "measured.yaml").orThrow();
    Knowledge knowledge =
        BundledRuleSets.compile(new Library(library.catalogue(), List.of(sheet), Map.of()))
            .orThrow();
    exact = knowledge.rules().rule("measured.exact").orElseThrow();
    doubtful = knowledge.rules().rule("measured.doubtful").orElseThrow();
  }

  private void compileScripts() {
    JexlEngine engine =
        new JexlBuilder()
            .permissions(JexlPermissions.UNRESTRICTED)
            .namespaces(Map.of("odds", new Functions()))
            .cache(16)
            .strict(true)
            .silent(false)
            .create();
    exactScript = engine.createScript("share <= 4 ? 1.0 : 0.0", "share");
    doubtfulScript =
        engine.createScript(
            """
            var below = odds:normal((from - likely) / deviation);
            var above = odds:normal((likely - to) / deviation);
            var within = 1 - below - above;
            within < 0 ? 0.0 : within > 1 ? 1.0 : within
            """,
            "likely",
            "deviation",
            "from",
            "to");
  }

  private void openSession() {
    KieServices services = KieServices.Factory.get();
    KieFileSystem files = services.newKieFileSystem();
    files.write("src/main/resources/gelwright/bench/rules.drl", DRL);
    KieBuilder builder =
        services.newKieBuilder(files).buildAll(ExecutableModelProject.class);
    require(
        !builder.getResults().hasMessages(Message.Level.ERROR), builder.getResults().toString());
    session =
        services
            .newKieContainer(services.getRepository().getDefaultReleaseId())
            .newKieSession();
    for (int i = 0; i < FORMULAS; i++) {
      handles[i] = session.insert(cases[i]);
    }
    session.fireAllRules();
  }

  @TearDown
  public void tearDown() {
    session.dispose();
  }

  // A benchmark of four things that do not do the same would tell nothing.
  private void agree() {
    boolean holds = false;
    boolean breaks = false;
    boolean between = false;
    for (int i = 0; i < FORMULAS; i++) {
      Odds sharp = compiled(exact, i);
      same(sharp, exactByHand(i), "by hand");
      same(sharp, exactByExpression(i), "by expression");
      same(sharp, byEngine(i, false), "by rule engine");
      Odds soft = compiled(doubtful, i);
      same(soft, doubtfulByHand(i), "by hand");
      same(soft, doubtfulByExpression(i), "by expression");
      same(soft, byEngine(i, true), "by rule engine");
      holds |= sharp.equals(Odds.CERTAIN);
      breaks |= sharp.equals(Odds.IMPOSSIBLE);
      between |= soft.low() > 0.05 && soft.low() < 0.95;
    }
    require(holds && breaks && between, "the formulas do not tell outcomes apart");
  }

  private static void same(Odds odds, double other, String how) {
    require(
        odds.low() == odds.high() && Math.abs(odds.low() - other) <= SAME,
        how + " the odds are " + other + ", not " + odds);
  }

  private static void require(boolean condition, String otherwise) {
    if (!condition) {
      throw new IllegalStateException(otherwise);
    }
  }

  private Odds compiled(CompiledRule rule, int formula) {
    return rule.when(profiles[formula], Subject.NONE)
        .and(rule.require(profiles[formula], Subject.NONE).truth())
        .odds();
  }

  private double exactByHand(int formula) {
    return cases[formula].share <= MOST_OIL ? 1 : 0;
  }

  private double doubtfulByHand(int formula) {
    Case each = cases[formula];
    return within(each.likely, each.deviation, LEAST_YIELD, MOST_YIELD);
  }

  private double exactByExpression(int formula) {
    return ((Number) exactScript.execute(null, cases[formula].share)).doubleValue();
  }

  private double doubtfulByExpression(int formula) {
    Case each = cases[formula];
    Object odds =
        doubtfulScript.execute(
            null,
            Math.log(each.likely),
            each.deviation,
            Math.log(LEAST_YIELD),
            Math.log(MOST_YIELD));
    return ((Number) odds).doubleValue();
  }

  private double byEngine(int formula, boolean ofTheRuleWithDoubt) {
    cases[formula].ask(ofTheRuleWithDoubt);
    session.update(handles[formula], cases[formula]);
    session.fireAllRules();
    return cases[formula].odds;
  }

  @Benchmark
  public double exactCompiled() {
    double sum = 0;
    for (int i = 0; i < FORMULAS; i++) {
      sum += compiled(exact, i).low();
    }
    return sum;
  }

  @Benchmark
  public double exactByHand() {
    double sum = 0;
    for (int i = 0; i < FORMULAS; i++) {
      sum += exactByHand(i);
    }
    return sum;
  }

  @Benchmark
  public double exactByExpression() {
    double sum = 0;
    for (int i = 0; i < FORMULAS; i++) {
      sum += exactByExpression(i);
    }
    return sum;
  }

  @Benchmark
  public double exactByRuleEngine() {
    double sum = 0;
    for (int i = 0; i < FORMULAS; i++) {
      sum += byEngine(i, false);
    }
    return sum;
  }

  @Benchmark
  public double doubtfulCompiled() {
    double sum = 0;
    for (int i = 0; i < FORMULAS; i++) {
      sum += compiled(doubtful, i).low();
    }
    return sum;
  }

  @Benchmark
  public double doubtfulByHand() {
    double sum = 0;
    for (int i = 0; i < FORMULAS; i++) {
      sum += doubtfulByHand(i);
    }
    return sum;
  }

  @Benchmark
  public double doubtfulByExpression() {
    double sum = 0;
    for (int i = 0; i < FORMULAS; i++) {
      sum += doubtfulByExpression(i);
    }
    return sum;
  }

  @Benchmark
  public double doubtfulByRuleEngine() {
    double sum = 0;
    for (int i = 0; i < FORMULAS; i++) {
      sum += byEngine(i, true);
    }
    return sum;
  }
}
