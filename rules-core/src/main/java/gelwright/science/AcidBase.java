package gelwright.science;

import java.util.ArrayList;
import java.util.List;

/**
 * Acid–base equilibrium of a water phase at 25 °C: where the pH lands, and how much of an acid or a
 * base it takes to move it.
 *
 * <p><b>Equation.</b> The pH is the root of the electroneutrality condition
 *
 * <pre>
 *   m(H⁺) − m(OH⁻) + Σ zᵢ mᵢ(pH) = 0            [mol of charge per kg of water]
 *
 *   pH = −log₁₀(m(H⁺) γ(1)),   pKw = pH − log₁₀(m(OH⁻) γ(1))
 *   log₁₀(m(k+1)/m(k)) = pH − pKa(k) − A·h(I)·(2 z(k) − 1)   for each proton a species loses
 *   log₁₀ γ(z) = −A z² h(I),   h(I) = √I/(1 + √I) − b I        (Davies)
 *   I = ½ Σ z² m over the free electrolyte                    [mol/kg]
 *   α = 1/(1 + 10^((pK₀ − pH)/n))                             (carboxyl groups on a polymer)
 * </pre>
 *
 * <p><b>Units.</b> Molalities in mol per kg of water; pKa thermodynamic (I → 0), molality scale.
 *
 * <p><b>Free electrolyte.</b> The charge on a polymer and the equal charge of the counter-ions that
 * neutralise it are left out of the ionic strength, the counter-ions being taken as monovalent. A
 * zwitterion counts with its net charge.
 *
 * <p><b>Range.</b> 25 °C; Davies activities up to I = 0.5 mol/kg. Beyond that the answer is still
 * given, with {@link Equilibrium#activitiesOutOfRange()} set: h(I) then levels off smoothly within
 * 0.1 mol/kg, so that the activity terms cannot run away, and the pH may be off by several tenths
 * where ions of charge 3 or 4 carry the buffer. Ion pairing, precipitation and slow reactions are
 * not modelled (saturated calcium hydroxide, for one, reads 0.06 too high for want of CaOH⁺).
 *
 * <p><b>Uncertainty.</b> ±0.02 pH on standard buffers (checked in the tests); ±0.3 on recipes,
 * since raw materials vary; wider where {@link Equilibrium#bufferCapacity()} is below about 1
 * mmol/kg.
 *
 * <p><b>Sources.</b> Davies, Ion Association (1962), with b = 0.3 (the 1938 form had 0.2): read, in
 * secondary texts. A = 0.509 at 25 °C: read. pKw 13.995 and the carbonate constants: from memory
 * (CRC Handbook; Harned), agreeing with rounded published tables. Polymer form with n: Kohn, Chem.
 * Papers 27:218 (1973), read. Activity coefficients of single ions are a convention, not data.
 *
 * <p>All functions are pure, safe for use by any number of threads, and never return NaN.
 */
public final class AcidBase {

  /*
   * How the pH is found
   * -------------------
   * Two nested loops; the inner one is where the time goes and it allocates nothing.
   *
   * Inner loop: pH at a given ionic strength I. With the conditional constants fixed, write the
   * charge balance as P(pH) = N(pH): P all positive charge (H+ and every positive form), N all
   * negative charge (OH- and every negative form), strong ions netted first. The number of protons
   * on a species falls stochastically with pH, so P strictly falls and N strictly rises: there is
   * exactly one root. Newton on P - N behaves badly, since both ends are exponentials: from the flat
   * side the step overshoots by hundreds of units, from the steep side it creeps by 1/ln(10) per
   * step. On g = ln P - ln N the same exponentials are straight lines, so Newton arrives in three to
   * six steps from anywhere. Each step is checked against a bracket that shrinks with the sign of g;
   * a step that leaves it is replaced by a bisection ("safeguarded Newton", the usual remedy, cf.
   * Press et al., Numerical Recipes, rtsafe). The bracket starts at
   *   [-2 - log10(1 + T), 16 + log10(1 + T)],  T = total charge that could be shown,
   * where H+ alone, or OH- alone, outweighs everything else.
   *
   * Stop when |P - N| <= 4 ulp-ish (1e-15) of (P + N), or the step is below 1e-15 of the pH scale, or
   * the bracket has closed. With P + N <= 100 mol/kg this leaves less than 1e-12 mol/kg of charge.
   *
   * The derivatives come from the same pass: a form that has lost k protons has fraction f_k with
   * d f_k / d pH = ln 10 * f_k * (k - <k>), so d<q>/dpH is ln 10 times the covariance of q and k.
   *
   * Ten to the power of anything is slow, so the powers 10^(A h (2z - 1)) are tabulated once for each
   * I (they are integer powers of one number) and 10^-pKa once for each mixture. One pass costs one
   * exponential plus a few multiplications for each form, plus one power for each polymer.
   *
   * Fractions are accumulated as running products t_k = t_(k-1) * K_k / H. For long chains these can
   * overflow, so they are rescaled; with pKa ascending the t_k rise to one maximum and fall, so an
   * underflow only drops forms that do not matter.
   *
   * Outer loop: I. The map I -> I'(pH(I)) is usually a strong contraction (|slope| < 0.2), but not
   * provably so where highly charged forms carry the buffer. The root of phi(I) = I' - I is therefore
   * bracketed as it goes (phi(0) >= 0, and phi < 0 above the sum of all possible charge squares) and
   * found by secant steps, by plain substitution when a secant step leaves the bracket, by bisection
   * when that does too. The warm start of the inner loop makes all but the first outer step cost one or two passes.
   *
   * The ionic strength is summed as I = 1/2 sum z (z - 1) m over everything but polymer. By
   * electroneutrality that is 1/2 sum z^2 m less half the polymer's charge, which is the definition
   * wanted (polymer and as much monovalent counter-ion left out), but every term is positive. The
   * plain difference loses all its digits in a salt-free neutralised gel, where I is that of the OH-
   * alone, and the square root in Davies's equation then magnifies what is left.
   *
   * Amount to reach a pH: at a fixed pH every charge is proportional to amount, so the amount of the
   * adjuster is a quotient of two charges at a given I, and only I is iterated, by the same scheme.
   * This route shares the form fractions with the pH solver but none of the root finding, so the
   * round trip pH -> amount -> pH is a real check.
   */

  /** Debye–Hückel slope A at 25 °C, (kg/mol)^½, decimal logarithm. Read; 0.5092 is also printed. */
  public static final double DEBYE_HUCKEL_A = 0.509;

  /** Davies's empirical coefficient b, kg/mol. Davies 1962 (the 1938 original has 0.2). Read. */
  public static final double DAVIES_B = 0.3;

  /** Ionic strength up to which Davies's equation is commonly used, mol/kg. Read. */
  public static final double DAVIES_LIMIT = 0.5;

  /** −log₁₀ of the ion product of water at 25 °C, molality scale. From memory, CRC Handbook. */
  public static final double PKW = 13.995;

  /** First acid constant of carbon dioxide (all of it, hydrated or not). From memory, Harned. */
  public static final double PKA_CARBONIC_1 = 6.352;

  /** Second acid constant of carbonic acid. From memory, Harned. */
  public static final double PKA_CARBONIC_2 = 10.329;

  private static final double LN10 = Math.log(10);

  /** Span over which h(I) levels off beyond the limit, mol/kg. Proposed: smooth, no physics. */
  private static final double LEVELLING = 0.1;

  private static final int MAX_CHARGE = 40; // |charge| of one form
  private static final int MAX_INNER = 200;
  private static final int MAX_OUTER = 100;

  private AcidBase() {}

  // ------------------------------------------------------------------------------------------------
  // What is dissolved
  // ------------------------------------------------------------------------------------------------

  /** One thing in the water that carries, gains or loses charge. */
  public sealed interface Species permits Weak, StrongIon, Polyacid, Carbonate {

    /** Amount, mol per kg of water (for a polymer: mol of groups). Zero or more. */
    double molality();

    /** The same species at another amount; {@code factor} zero or more. */
    Species times(double factor);
  }

  /**
   * A weak acid, a weak base, or an ampholyte, by its stepwise acid constants.
   *
   * @param molality total over all forms, mol per kg of water
   * @param pKa acid constants in ascending order, thermodynamic, at 25 °C; at least one
   * @param chargeOfFullyProtonated charge of the form that still has all protons: 0 for HA, +1 for
   *     BH⁺, +2 for a diamine or an amino acid with a second base, and so on
   */
  public record Weak(double molality, List<Double> pKa, int chargeOfFullyProtonated)
      implements Species {
    public Weak {
      requireAmount(molality);
      pKa = List.copyOf(pKa);
      if (pKa.isEmpty()) {
        throw new IllegalArgumentException("pKa: at least one acid constant");
      }
      for (int i = 0; i < pKa.size(); i++) {
        if (!(Math.abs(pKa.get(i)) <= 60)) {
          throw new IllegalArgumentException("pKa: outside −60 to 60: " + pKa.get(i));
        }
        if (i > 0 && pKa.get(i) < pKa.get(i - 1)) {
          throw new IllegalArgumentException("pKa: not in ascending order: " + pKa);
        }
      }
      requireCharge(chargeOfFullyProtonated);
      requireCharge(chargeOfFullyProtonated - pKa.size());
    }

    /** An acid whose fully protonated form is neutral; pKa ascending. */
    public static Weak acid(double molality, double... pKa) {
      return new Weak(molality, boxed(pKa), 0);
    }

    /**
     * A base that is neutral once it has lost all its protons, by the pKa of its conjugate acids,
     * ascending.
     */
    public static Weak base(double molality, double... pKa) {
      return new Weak(molality, boxed(pKa), pKa.length);
    }

    /** Any other: an amino acid is {@code ampholyte(m, 1, 2.35, 9.78)}. */
    public static Weak ampholyte(double molality, int chargeOfFullyProtonated, double... pKa) {
      return new Weak(molality, boxed(pKa), chargeOfFullyProtonated);
    }

    @Override
    public Weak times(double factor) {
      return new Weak(molality * factor, pKa, chargeOfFullyProtonated);
    }

    private static List<Double> boxed(double[] values) {
      List<Double> list = new ArrayList<>(values.length);
      for (double value : values) {
        list.add(value);
      }
      return list;
    }
  }

  /**
   * An ion whose charge does not depend on pH: Na⁺, Cl⁻, a sulfate ester, a quaternary cation.
   *
   * @param molality mol per kg of water
   * @param charge signed number of charges
   */
  public record StrongIon(double molality, int charge) implements Species {
    public StrongIon {
      requireAmount(molality);
      requireCharge(charge);
    }

    @Override
    public StrongIon times(double factor) {
      return new StrongIon(molality * factor, charge);
    }
  }

  /**
   * Carboxyl (or like) groups on a polymer: pH = pK₀ + n·log₁₀(α/(1 − α)).
   *
   * <p>The constants are apparent ones, so no activity correction is applied to them. n is about
   * 1.6 to 1.7 for polyuronic acids with alkali up to α ≈ 0.8 (Kohn 1973, read), 1 for independent
   * groups.
   *
   * @param molality mol of groups per kg of water
   * @param pK0 pH at half neutralisation
   * @param n spread of the titration curve, 0.5 to 5
   */
  public record Polyacid(double molality, double pK0, double n) implements Species {
    public Polyacid {
      requireAmount(molality);
      if (!(Math.abs(pK0) <= 60)) {
        throw new IllegalArgumentException("pK0: outside −60 to 60: " + pK0);
      }
      if (!(n >= 0.5 && n <= 5)) {
        throw new IllegalArgumentException("n: outside 0.5 to 5: " + n);
      }
    }

    @Override
    public Polyacid times(double factor) {
      return new Polyacid(molality * factor, pK0, n);
    }
  }

  /**
   * Total dissolved carbonate (CO₂, HCO₃⁻, CO₃²⁻), to be entered beside its strong cation. Whether
   * it stays is an {@linkplain Options option}.
   *
   * @param molality mol per kg of water
   */
  public record Carbonate(double molality) implements Species {
    public Carbonate {
      requireAmount(molality);
    }

    @Override
    public Carbonate times(double factor) {
      return new Carbonate(molality * factor);
    }
  }

  /** What becomes of carbonate. */
  public enum Carbonates {
    /** The vessel is closed: every carbonate stays in the water. */
    CLOSED,
    /**
     * All carbon dioxide has left: carbonate is dropped and its strong cation stays. The far bound
     * of a slow process; realistic where the closed pH is below about 6.
     */
    DEGASSED
  }

  /**
   * How to reckon.
   *
   * @param activities Davies activity coefficients, or 1 throughout ("ideal", as in most textbooks)
   * @param carbonates whether carbonate stays
   */
  public record Options(boolean activities, Carbonates carbonates) {
    /** Davies activities, closed vessel. */
    public static final Options STANDARD = new Options(true, Carbonates.CLOSED);

    /** No activity correction, closed vessel. */
    public static final Options IDEAL = new Options(false, Carbonates.CLOSED);

    /** Davies activities, all carbon dioxide gone. */
    public static final Options DEGASSED = new Options(true, Carbonates.DEGASSED);
  }

  /** A list of species made ready for repeated solving. Immutable. */
  public static final class Mixture {
    private final List<Species> species;
    // Weak species and carbonate, flattened: forms of species i sit at start[i] .. start[i + 1] −
    // 1.
    private final double[] amount;
    private final int[] topCharge;
    private final int[] start;
    private final double[] tenToMinusPKa;
    private final boolean[] volatileCarbonate;
    private final double[] polyAmount;
    private final double[] polyPK0;
    private final double[] polyN;
    private final double strongCharge;
    private final double strongIonic; // Σ z (z − 1) m
    private final double mostCharge;

    private Mixture(List<Species> list) {
      species = List.copyOf(list);
      int weak = 0;
      int constants = 0;
      int polymers = 0;
      for (Species s : species) {
        if (s instanceof Weak w) {
          weak++;
          constants += w.pKa().size();
        } else if (s instanceof Carbonate) {
          weak++;
          constants += 2;
        } else if (s instanceof Polyacid) {
          polymers++;
        }
      }
      amount = new double[weak];
      topCharge = new int[weak];
      start = new int[weak + 1];
      tenToMinusPKa = new double[constants];
      volatileCarbonate = new boolean[weak];
      polyAmount = new double[polymers];
      polyPK0 = new double[polymers];
      polyN = new double[polymers];
      int w = 0;
      int p = 0;
      double sum = 0;
      double lost = 0; // compensation: strong ions nearly cancel, and what is left sets the pH
      double ionic = 0;
      double most = 0;
      for (Species s : species) {
        if (s instanceof Weak weakSpecies) {
          amount[w] = weakSpecies.molality();
          topCharge[w] = weakSpecies.chargeOfFullyProtonated();
          int steps = weakSpecies.pKa().size();
          for (int k = 0; k < steps; k++) {
            tenToMinusPKa[start[w] + k] = Math.exp(-LN10 * weakSpecies.pKa().get(k));
          }
          start[w + 1] = start[w] + steps;
          int z = Math.max(Math.abs(topCharge[w]), Math.abs(topCharge[w] - steps));
          most += z * amount[w];
          w++;
        } else if (s instanceof Carbonate carbonate) {
          amount[w] = carbonate.molality();
          volatileCarbonate[w] = true;
          tenToMinusPKa[start[w]] = Math.exp(-LN10 * PKA_CARBONIC_1);
          tenToMinusPKa[start[w] + 1] = Math.exp(-LN10 * PKA_CARBONIC_2);
          start[w + 1] = start[w] + 2;
          most += 2 * amount[w];
          w++;
        } else if (s instanceof Polyacid polyacid) {
          polyAmount[p] = polyacid.molality();
          polyPK0[p] = polyacid.pK0();
          polyN[p] = polyacid.n();
          most += polyacid.molality();
          p++;
        } else if (s instanceof StrongIon ion) {
          double y = ion.charge() * ion.molality() - lost;
          double t = sum + y;
          lost = (t - sum) - y;
          sum = t;
          ionic += (double) ion.charge() * (ion.charge() - 1) * ion.molality();
          most += Math.abs(ion.charge()) * ion.molality();
        }
      }
      strongCharge = sum;
      strongIonic = ionic;
      mostCharge = most;
    }

    /** The species, in the order given. */
    public static Mixture of(List<? extends Species> species) {
      return new Mixture(List.copyOf(species));
    }

    /** The species, in the order given. */
    public static Mixture of(Species... species) {
      return new Mixture(List.of(species));
    }

    /** What it was made of, in the order given. */
    public List<Species> species() {
      return species;
    }

    /** This mixture with more species in it. */
    public Mixture with(List<? extends Species> more) {
      List<Species> all = new ArrayList<>(species);
      all.addAll(more);
      return new Mixture(all);
    }
  }

  // ------------------------------------------------------------------------------------------------
  // What comes out
  // ------------------------------------------------------------------------------------------------

  /**
   * The state of one species at the pH found.
   *
   * @param meanCharge charges per molecule (per group for a polymer), signed
   * @param fractions share of each form, by the number of protons lost: {@code fractions.get(0)} is
   *     the fully protonated form; adds up to 1. For a strong ion the single share 1.
   */
  public record State(double meanCharge, List<Double> fractions) {
    public State {
      fractions = List.copyOf(fractions);
    }
  }

  /**
   * Where the water phase lands.
   *
   * @param pH −log₁₀ of the activity of H⁺
   * @param ionicStrength of the free electrolyte, mol/kg
   * @param bufferCapacity strong base needed to raise the pH, mol/kg per pH unit, at constant ionic
   *     strength; always above zero
   * @param chargeResidual what is left of the charge balance, mol/kg
   * @param activitiesOutOfRange whether activities were asked for at an ionic strength above {@link
   *     #DAVIES_LIMIT}
   */
  public record Equilibrium(
      double pH,
      double ionicStrength,
      double bufferCapacity,
      double chargeResidual,
      boolean activitiesOutOfRange) {}

  /** Answer to "how much of this adjuster?". */
  public sealed interface Adjustment permits Amount, Impossible {}

  /**
   * It takes this much.
   *
   * @param molality of the adjuster, mol per kg of water
   * @param ionicStrength as in {@link Equilibrium}, after the addition
   * @param activitiesOutOfRange as in {@link Equilibrium}, after the addition
   */
  public record Amount(double molality, double ionicStrength, boolean activitiesOutOfRange)
      implements Adjustment {}

  /** Why an adjuster cannot do it. */
  public enum Obstacle {
    /** It moves the pH away from the target. */
    WRONG_WAY,
    /** It has no charge to give at the target, or would take more than the most allowed. */
    OUT_OF_REACH
  }

  /**
   * It cannot be done.
   *
   * @param obstacle the kind of reason
   * @param reason one sentence for a reader
   */
  public record Impossible(Obstacle obstacle, String reason) implements Adjustment {}

  // ------------------------------------------------------------------------------------------------
  // Functions
  // ------------------------------------------------------------------------------------------------

  /** Where the pH lands. See the class comment for range and uncertainty. */
  public static Equilibrium solve(Mixture mixture, Options options) {
    return solve(mixture, options, 7);
  }

  /**
   * The same, starting from a guess, which saves time and does not change the answer beyond
   * rounding.
   *
   * @param guess pH to start from; any finite number
   */
  public static Equilibrium solve(Mixture mixture, Options options, double guess) {
    Require.finite(guess, "guess");
    Solver solver = new Solver(mixture, options);
    solver.solve(guess, 0);
    return solver.equilibrium();
  }

  /** The same, starting from the equilibrium of a mixture that differs little. */
  public static Equilibrium solve(Mixture mixture, Options options, Equilibrium near) {
    Solver solver = new Solver(mixture, options);
    solver.solve(near.pH(), near.ionicStrength());
    return solver.equilibrium();
  }

  /**
   * The mixture held at a pH by as much of a monovalent strong ion as that takes, whatever was used
   * for it in truth.
   *
   * @param pH any finite number
   */
  public static Equilibrium heldAt(Mixture mixture, Options options, double pH) {
    return heldAt(mixture, options, pH, 0);
  }

  /**
   * The same, starting from the equilibrium of a mixture that differs little; the answer is the
   * same but for rounding.
   */
  public static Equilibrium heldAt(Mixture mixture, Options options, double pH, Equilibrium near) {
    return heldAt(mixture, options, pH, near.ionicStrength());
  }

  private static Equilibrium heldAt(
      Mixture mixture, Options options, double pH, double ionicStrength) {
    Require.finite(pH, "pH");
    Solver solver = new Solver(mixture, options);
    solver.settleIonicStrength(pH, ionicStrength, true);
    return solver.equilibrium();
  }

  /** The forms of each species at an equilibrium of the mixture, in its order. */
  public static List<State> states(Mixture mixture, Options options, Equilibrium at) {
    Solver solver = new Solver(mixture, options);
    solver.setIonicStrength(at.ionicStrength());
    solver.pH = at.pH();
    return List.copyOf(solver.states());
  }

  /**
   * Net charge of the water phase at a given pH, mol/kg, with the ionic strength made consistent
   * with that pH. It falls with pH and is zero where the solution is electroneutral.
   */
  public static double netCharge(Mixture mixture, Options options, double pH) {
    Require.finite(pH, "pH");
    Solver solver = new Solver(mixture, options);
    solver.settleIonicStrength(pH, 0, false);
    return solver.positive - solver.negative;
  }

  /**
   * How much of an adjuster brings the mixture to a pH.
   *
   * @param targetPH pH wanted, −1 to 15
   * @param adjuster what one mol/kg of the adjuster brings: sodium hydroxide is {@code StrongIon(1,
   *     +1)}; trisodium citrate is {@code StrongIon(3, +1)} and {@code Weak.acid(1, …)}
   * @param most largest amount worth considering, mol/kg
   */
  public static Adjustment amountToReach(
      double targetPH,
      Mixture mixture,
      List<? extends Species> adjuster,
      double most,
      Options options) {
    return amountToReach(targetPH, mixture, adjuster, most, options, 0);
  }

  /**
   * The same, starting from an ionic strength, mol/kg, that the answer may have; it is the same but
   * for rounding.
   */
  public static Adjustment amountToReach(
      double targetPH,
      Mixture mixture,
      List<? extends Species> adjuster,
      double most,
      Options options,
      double guess) {
    if (!(targetPH >= -1 && targetPH <= 15)) {
      throw new IllegalArgumentException("targetPH: outside −1 to 15: " + targetPH);
    }
    if (!(most > 0 && most <= 1e3)) {
      throw new IllegalArgumentException("most: outside 0 to 1000 mol/kg: " + most);
    }
    Solver base = new Solver(mixture, options);
    Solver each = new Solver(Mixture.of(adjuster), options);
    double ionic = guess;
    double amount = 0;
    double low = 0;
    double high = Double.POSITIVE_INFINITY;
    double lastIonic = Double.NaN;
    double lastExcess = Double.NaN;
    for (int i = 0; i < MAX_OUTER; i++) {
      base.setIonicStrength(ionic);
      base.evaluate(targetPH);
      each.setIonicStrength(ionic);
      each.evaluateWithoutWater(targetPH);
      double need = base.negative - base.positive;
      double give = each.positive - each.negative;
      // Below this the pH is there already: one part in 10¹² of the charges that balance.
      if (Math.abs(need) <= 1e-12 * (base.positive + base.negative)) {
        amount = 0;
      } else if (give == 0) {
        return new Impossible(
            Obstacle.OUT_OF_REACH,
            "It carries no net charge at the target pH, so it cannot move it.");
      } else {
        amount = need / give;
      }
      // While I still moves, an amount of the wrong sign counts as none; the verdict comes after.
      double taken = Math.min(Math.max(amount, 0), most);
      double next = base.freeIonicStrength() + taken * each.freeIonicStrength();
      double excess = next - ionic;
      if (!options.activities() || Math.abs(excess) <= 1e-15 + 1e-13 * ionic) {
        break;
      }
      if (excess > 0) {
        low = Math.max(low, ionic);
      } else {
        high = Math.min(high, ionic);
      }
      double candidate = ionic - excess * (ionic - lastIonic) / (excess - lastExcess);
      lastIonic = ionic;
      lastExcess = excess;
      ionic = withinBracket(candidate, next, low, high);
    }
    if (amount < 0) {
      return new Impossible(Obstacle.WRONG_WAY, "It moves the pH away from the target.");
    }
    if (amount > most) {
      return new Impossible(
          Obstacle.OUT_OF_REACH, "It would take more than the largest amount allowed.");
    }
    return new Amount(amount, ionic, options.activities() && ionic > DAVIES_LIMIT);
  }

  /**
   * Davies activity coefficient of an ion.
   *
   * @param ionicStrength mol/kg, zero or more; above {@link #DAVIES_LIMIT} the value levels off
   * @param charge signed number of charges
   * @return γ, dimensionless
   */
  public static double activityCoefficient(double ionicStrength, int charge) {
    if (!(ionicStrength >= 0) || Double.isInfinite(ionicStrength)) {
      throw new IllegalArgumentException("ionicStrength: not zero or more: " + ionicStrength);
    }
    requireCharge(charge);
    return Math.pow(10, -DEBYE_HUCKEL_A * charge * charge * davies(ionicStrength));
  }

  /** h(I) = √I/(1 + √I) − b I, levelling off above the limit with a continuous slope. */
  static double davies(double ionicStrength) {
    if (ionicStrength <= DAVIES_LIMIT) {
      double root = Math.sqrt(ionicStrength);
      return root / (1 + root) - DAVIES_B * ionicStrength;
    }
    double root = Math.sqrt(DAVIES_LIMIT);
    double slope = 1 / (2 * root * (1 + root) * (1 + root)) - DAVIES_B;
    double beyond = ionicStrength - DAVIES_LIMIT;
    return root / (1 + root)
        - DAVIES_B * DAVIES_LIMIT
        - slope * LEVELLING * Math.expm1(-beyond / LEVELLING);
  }

  /**
   * The first of: the secant step, plain substitution, the middle, that lies inside the bracket.
   */
  private static double withinBracket(double candidate, double plain, double low, double high) {
    if (candidate > low && candidate < high) {
      return candidate;
    }
    if (plain > low && plain < high) {
      return plain;
    }
    return Double.isInfinite(high) ? plain : 0.5 * (low + high);
  }

  private static void requireAmount(double molality) {
    if (!(molality >= 0 && molality <= 1e4)) {
      throw new IllegalArgumentException("molality: outside 0 to 10000 mol/kg: " + molality);
    }
  }

  private static void requireCharge(int charge) {
    if (Math.abs(charge) > MAX_CHARGE) {
      throw new IllegalArgumentException("charge: outside ±" + MAX_CHARGE + ": " + charge);
    }
  }

  /** The state of one calculation. Not shared between threads. */
  private static final class Solver {
    private final Mixture mixture;
    private final boolean activities;
    private final boolean degassed;

    private final double[]
        conditional; // Ka·10^(−A h (2z − 1)), one for each constant of the mixture
    private final double[] powers; // 10^(A h (1 − 2 j)), j from −farthestCharge
    private double gammaOne = 1;
    private final int farthestCharge; // |charge| that no form of the mixture is beyond

    private double pH;
    private double ionicStrength;
    private double positive; // mol/kg of positive charge at the last pH evaluated
    private double negative;
    private double slopePositive; // per pH unit
    private double slopeNegative;
    private double ionicSum; // Σ z (z − 1) m of everything but polymer

    Solver(Mixture mixture, Options options) {
      this.mixture = mixture;
      this.activities = options.activities();
      this.degassed = options.carbonates() == Carbonates.DEGASSED;
      this.conditional = mixture.tenToMinusPKa.clone();
      int farthest = 0;
      for (int i = 0; i < mixture.amount.length; i++) {
        int lost = mixture.start[i + 1] - mixture.start[i];
        farthest = Math.max(farthest, Math.abs(mixture.topCharge[i]));
        farthest = Math.max(farthest, Math.abs(mixture.topCharge[i] - lost));
      }
      this.farthestCharge = farthest;
      this.powers = new double[2 * farthest + 1];
    }

    void setIonicStrength(double ionic) {
      ionicStrength = ionic;
      if (!activities) {
        return;
      }
      double ah = DEBYE_HUCKEL_A * davies(ionic);
      gammaOne = Math.exp(-LN10 * ah);
      double square = 1 / (gammaOne * gammaOne);
      // powers[j + farthestCharge] = 10^(A h (1 − 2 j)): falls by the square for each charge
      // upward.
      powers[farthestCharge] = 1 / gammaOne;
      for (int j = 1; j <= farthestCharge; j++) {
        powers[farthestCharge + j] = powers[farthestCharge + j - 1] / square;
        powers[farthestCharge - j] = powers[farthestCharge - j + 1] * square;
      }
      for (int i = 0; i < mixture.amount.length; i++) {
        for (int k = mixture.start[i]; k < mixture.start[i + 1]; k++) {
          int charge = mixture.topCharge[i] - (k - mixture.start[i]);
          conditional[k] = mixture.tenToMinusPKa[k] * powers[farthestCharge + charge];
        }
      }
    }

    /** Charges, slopes and Σ z² m at a pH, with the constants as last set. Allocates nothing. */
    void evaluate(double atPH) {
      evaluateWithoutWater(atPH);
      double hydrogen = Math.exp(-LN10 * atPH) / gammaOne;
      double hydroxide = Math.exp(LN10 * (atPH - PKW)) / gammaOne;
      positive += hydrogen;
      negative += hydroxide;
      slopePositive -= LN10 * hydrogen;
      slopeNegative += LN10 * hydroxide;
      ionicSum += 2 * hydroxide; // H⁺ has z (z − 1) = 0
    }

    void evaluateWithoutWater(double atPH) {
      double perActivity = Math.exp(LN10 * atPH);
      double plus = Math.max(mixture.strongCharge, 0);
      double minus = Math.max(-mixture.strongCharge, 0);
      double plusSlope = 0;
      double minusSlope = 0;
      double ionic = mixture.strongIonic;
      for (int i = 0; i < mixture.amount.length; i++) {
        double m = mixture.amount[i];
        if (m == 0 || (degassed && mixture.volatileCarbonate[i])) {
          continue;
        }
        int first = mixture.start[i];
        int end = mixture.start[i + 1];
        int charge = mixture.topCharge[i];
        double t = 1;
        double sum = 1;
        double sumLost = 0;
        double sumPlus = Math.max(charge, 0);
        double sumMinus = Math.max(-charge, 0);
        double sumPlusLost = 0;
        double sumMinusLost = 0;
        double sumIonic = (double) charge * (charge - 1);
        for (int k = first; k < end; k++) {
          t *= conditional[k] * perActivity;
          charge--;
          int lost = k - first + 1;
          double positivePart = t * Math.max(charge, 0);
          double negativePart = t * Math.max(-charge, 0);
          sum += t;
          sumLost += t * lost;
          sumPlus += positivePart;
          sumMinus += negativePart;
          sumPlusLost += positivePart * lost;
          sumMinusLost += negativePart * lost;
          sumIonic += t * charge * (charge - 1);
          if (t > 1e120) {
            double scale = 1e-120;
            t *= scale;
            sum *= scale;
            sumLost *= scale;
            sumPlus *= scale;
            sumMinus *= scale;
            sumPlusLost *= scale;
            sumMinusLost *= scale;
            sumIonic *= scale;
          }
        }
        double each = 1 / sum;
        double meanLost = sumLost * each;
        double scaled = m * each;
        plus += scaled * sumPlus;
        minus += scaled * sumMinus;
        plusSlope += LN10 * scaled * (sumPlusLost - sumPlus * meanLost);
        minusSlope += LN10 * scaled * (sumMinusLost - sumMinus * meanLost);
        ionic += scaled * sumIonic;
      }
      double onPolymer = 0;
      for (int i = 0; i < mixture.polyAmount.length; i++) {
        double n = mixture.polyN[i];
        double alpha = 1 / (1 + Math.exp(LN10 * (mixture.polyPK0[i] - atPH) / n));
        onPolymer += mixture.polyAmount[i] * alpha;
        minusSlope += LN10 / n * mixture.polyAmount[i] * alpha * (1 - alpha);
      }
      positive = plus;
      negative = minus + onPolymer;
      slopePositive = plusSlope;
      slopeNegative = minusSlope;
      ionicSum = ionic;
    }

    /**
     * Ionic strength of the free electrolyte; the class comment tells why the sum has this form.
     */
    double freeIonicStrength() {
      return 0.5 * ionicSum;
    }

    Equilibrium equilibrium() {
      return new Equilibrium(
          pH,
          ionicStrength,
          slopeNegative - slopePositive,
          positive - negative,
          activities && ionicStrength > DAVIES_LIMIT);
    }

    void solve(double guess, double ionicGuess) {
      pH = guess;
      if (!activities) {
        findPH();
        ionicStrength = freeIonicStrength();
        return;
      }
      double ionic = ionicGuess;
      double low = 0;
      double high = Double.POSITIVE_INFINITY;
      double lastIonic = Double.NaN;
      double lastExcess = Double.NaN;
      for (int i = 0; i < MAX_OUTER; i++) {
        setIonicStrength(ionic);
        findPH();
        double next = freeIonicStrength();
        double excess = next - ionic;
        if (Math.abs(excess) <= 1e-15 + 1e-13 * ionic) {
          break;
        }
        if (excess > 0) {
          low = Math.max(low, ionic);
        } else {
          high = Math.min(high, ionic);
        }
        double candidate = ionic - excess * (ionic - lastIonic) / (excess - lastExcess);
        lastIonic = ionic;
        lastExcess = excess;
        ionic = withinBracket(candidate, next, low, high);
      }
    }

    /** pH at the ionic strength last set; leaves charges and slopes as they are at that pH. */
    private void findPH() {
      double widen = Math.log10(1 + mixture.mostCharge);
      double low = -2 - widen;
      double high = 16 + widen;
      double x = Math.min(Math.max(pH, low), high);
      for (int i = 0; i < MAX_INNER; i++) {
        evaluate(x);
        double difference = positive - negative;
        if (Math.abs(difference) <= 1e-15 * (positive + negative)) {
          break;
        }
        if (difference > 0) {
          low = x;
        } else {
          high = x;
        }
        double g = Math.log(positive / negative);
        double slope = slopePositive / positive - slopeNegative / negative;
        double next = x - g / slope;
        if (!(next > low && next < high)) {
          next = 0.5 * (low + high);
        }
        if (Math.abs(next - x) <= 1e-15 * (1 + Math.abs(x))) {
          break;
        }
        x = next;
      }
      pH = x;
    }

    /**
     * At a given pH, the ionic strength that agrees with itself.
     *
     * @param held whether a strong ion makes up for the charge that is left over
     */
    void settleIonicStrength(double atPH, double ionicGuess, boolean held) {
      pH = atPH;
      double ionic = ionicGuess;
      double low = 0;
      double high = Double.POSITIVE_INFINITY;
      double lastIonic = Double.NaN;
      double lastExcess = Double.NaN;
      for (int i = 0; i < MAX_OUTER; i++) {
        setIonicStrength(ionic);
        evaluate(atPH);
        if (held) {
          hold();
        }
        double next = freeIonicStrength();
        if (!activities) {
          ionicStrength = next;
          break;
        }
        double excess = next - ionic;
        if (Math.abs(excess) <= 1e-15 + 1e-13 * ionic) {
          break;
        }
        if (excess > 0) {
          low = Math.max(low, ionic);
        } else {
          high = Math.min(high, ionic);
        }
        double candidate = ionic - excess * (ionic - lastIonic) / (excess - lastExcess);
        lastIonic = ionic;
        lastExcess = excess;
        ionic = withinBracket(candidate, next, low, high);
      }
    }

    /** Adds the strong ion that balances the charge. */
    private void hold() {
      double charge = positive - negative;
      if (charge > 0) {
        negative += charge;
        ionicSum += 2 * charge;
      } else {
        positive -= charge; // of charge +1: z (z − 1) = 0
      }
    }

    List<State> states() {
      List<State> states = new ArrayList<>(mixture.species.size());
      int w = 0;
      for (Species s : mixture.species) {
        if (s instanceof StrongIon ion) {
          states.add(new State(ion.charge(), List.of(1.0)));
        } else if (s instanceof Polyacid polyacid) {
          double alpha = 1 / (1 + Math.exp(LN10 * (polyacid.pK0() - pH) / polyacid.n()));
          states.add(new State(-alpha, List.of(1 - alpha, alpha)));
        } else {
          states.add(weakState(w));
          w++;
        }
      }
      return states;
    }

    private State weakState(int i) {
      int first = mixture.start[i];
      int forms = mixture.start[i + 1] - first + 1;
      // Logarithms here, not products: exact also for forms that the fast path lets underflow.
      double[] log = new double[forms];
      double top = 0;
      for (int k = 1; k < forms; k++) {
        log[k] = log[k - 1] + Math.log(conditional[first + k - 1]) + LN10 * pH;
        top = Math.max(top, log[k]);
      }
      double sum = 0;
      for (int k = 0; k < forms; k++) {
        log[k] = Math.exp(log[k] - top);
        sum += log[k];
      }
      double mean = 0;
      List<Double> fractions = new ArrayList<>(forms);
      for (int k = 0; k < forms; k++) {
        double share = log[k] / sum;
        fractions.add(share);
        mean += share * (mixture.topCharge[i] - k);
      }
      return new State(mean, fractions);
    }
  }
}
