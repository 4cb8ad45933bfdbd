package gelwright.science;

import java.util.List;

/**
 * How one gel flows: shear stress and apparent viscosity against shear rate.
 *
 * <p>Every curve is the sum of three parts,
 *
 * <pre>  stress = yield stress + shear rate · (gum viscosity(shear rate) + solvent viscosity)</pre>
 *
 * <p>so that no curve falls below the viscosity of its solvent. Units: Pa, Pa·s, 1/s.
 *
 * <p>Range: shear rates of 1e-3 to 1e6 1/s. Outside it the equations go on (the rate is held within
 * 1e-15 to 1e12 1/s, so the answer is always finite); below 1e-3 1/s a yield stress is a model of
 * convenience, since several gums creep there (Roberts and Barnes 2001, Rheologica Acta 40:499).
 * Instances are immutable.
 */
public sealed interface FlowCurve {

  /** Slowest shear rate at which a curve is evaluated, 1/s. */
  double SLOWEST = 1e-15;

  /** Fastest shear rate at which a curve is evaluated, 1/s. */
  double FASTEST = 1e12;

  /** Smallest flow index, and exponent of a Cross curve, that tilting leaves. */
  double LEAST_INDEX = 0.02;

  /** Stress below which this gel does not flow, Pa; 0 for a liquid. */
  double yieldStress();

  /** Viscosity of the liquid between the gum, Pa·s. */
  double solventViscosity();

  /** Viscosity the gum adds at a shear rate (1/s), without the yield stress, Pa·s. */
  double gumViscosity(double shearRate);

  /**
   * The same gel holding dispersed particles, by the homogenisation of Chateau, Ovarlez and Trung
   * (2008): the gel between the particles is sheared faster than the whole by {@code rateRatio},
   * and dissipates {@code stiffnessRatio} times as much as an equal linear liquid would.
   *
   * <p>viscosity(shear rate) becomes stiffnessRatio · viscosity(rateRatio · shear rate). For a
   * Herschel-Bulkley gel this is yield stress · stiffness/rate and consistency · stiffness ·
   * rate^(n-1).
   *
   * @param stiffnessRatio linear viscosity ratio g, 1 without particles
   * @param rateRatio local over mean shear rate, sqrt(g/(1-phi)), 1 without particles
   */
  FlowCurve homogenised(double stiffnessRatio, double rateRatio);

  /**
   * The same gel with its strength scaled (salt, pH, temperature, a calibrating reading); the
   * solvent stays as it is.
   *
   * @param yieldFactor on the yield stress, 1 for no change
   * @param gumFactor on the gum's viscosity at every shear rate, 1 for no change
   */
  FlowCurve scaled(double yieldFactor, double gumFactor);

  /** The same gum with another liquid between it (Pa·s): another temperature, more polyol. */
  FlowCurve inSolvent(double viscosity);

  /** The same gel with another yield stress (Pa): one that was measured. */
  FlowCurve withYield(double stress);

  /**
   * The same gel with its flow index shifted, which turns the gum's part of the curve about 1 1/s;
   * held so that the stress never falls with the rate.
   *
   * @param by what is added to the flow index, as on double-log paper
   */
  FlowCurve tilted(double by);

  /** Apparent viscosity (stress over shear rate) at a shear rate in 1/s, Pa·s. */
  default double viscosity(double shearRate) {
    double rate = within(shearRate);
    return yieldStress() / rate + gumViscosity(rate) + solventViscosity();
  }

  /** Shear stress at a shear rate in 1/s, Pa; the yield stress at rest. */
  default double stress(double shearRate) {
    if (shearRate == 0) {
      return yieldStress();
    }
    double rate = within(shearRate);
    return yieldStress() + rate * (gumViscosity(rate) + solventViscosity());
  }

  /** Slope d ln(stress) / d ln(shear rate): 1 for a Newtonian liquid, towards 0 near the yield. */
  default double localFlowIndex(double shearRate) {
    double step = 1e-4;
    double rate = within(shearRate);
    double up = stress(rate * Math.exp(step));
    double down = stress(rate * Math.exp(-step));
    return down > 0 ? Math.log(up / down) / (2 * step) : 1;
  }

  /**
   * Shear rate at which the gel flows under a stress, 1/s; 0 at or below the yield stress.
   *
   * @param stress shear stress in Pa, not negative
   */
  default double shearRateAt(double stress) {
    // The stress above the yield, in logarithms, is close to a straight line against the log of
    // the rate and never falls, so the Illinois form of false position needs about ten steps.
    Require.notNegative(stress, "stress");
    double excess = stress - yieldStress();
    if (excess <= 0) {
      return 0;
    }
    double target = Math.log(excess);
    double low = Math.log(SLOWEST);
    double high = Math.log(FASTEST);
    double atLow = logViscousStress(low) - target;
    double atHigh = logViscousStress(high) - target;
    if (atLow >= 0) {
      return 0;
    }
    if (atHigh <= 0) {
      return FASTEST;
    }
    int side = 0;
    double root = low;
    for (int i = 0; i < 200 && high - low > 1e-13; i++) {
      root = (atLow * high - atHigh * low) / (atLow - atHigh);
      double value = logViscousStress(root) - target;
      if (Math.abs(value) < 1e-14) {
        break;
      }
      if (value > 0) {
        high = root;
        atHigh = value;
        atLow = side > 0 ? atLow / 2 : atLow;
        side = 1;
      } else {
        low = root;
        atLow = value;
        atHigh = side < 0 ? atHigh / 2 : atHigh;
        side = -1;
      }
    }
    return Math.exp(root);
  }

  private double logViscousStress(double logRate) {
    double viscosity = gumViscosity(Math.exp(logRate)) + solventViscosity();
    return logRate + Math.log(Math.max(viscosity, Double.MIN_NORMAL));
  }

  private static double within(double shearRate) {
    if (!(shearRate >= 0)) {
      throw new IllegalArgumentException("shearRate must not be negative, was " + shearRate);
    }
    return Math.min(FASTEST, Math.max(SLOWEST, shearRate));
  }

  /**
   * Herschel-Bulkley with the solvent added: stress = yieldStress + consistency · rate^flowIndex +
   * solventViscosity · rate. With no yield stress a power law, with flowIndex 1 a liquid.
   *
   * @param yieldStress Pa
   * @param consistency Pa·s^n
   * @param flowIndex n, above 0 and at most 2
   * @param solventViscosity Pa·s
   */
  record Plastic(double yieldStress, double consistency, double flowIndex, double solventViscosity)
      implements FlowCurve {
    public Plastic {
      Require.notNegative(yieldStress, "yieldStress");
      Require.notNegative(consistency, "consistency");
      Require.positive(flowIndex, "flowIndex");
      Require.notNegative(solventViscosity, "solventViscosity");
      if (flowIndex > 2) {
        throw new IllegalArgumentException("flowIndex must be at most 2, was " + flowIndex);
      }
    }

    @Override
    public double gumViscosity(double shearRate) {
      return consistency * Math.pow(shearRate, flowIndex - 1);
    }

    @Override
    public FlowCurve homogenised(double stiffnessRatio, double rateRatio) {
      return new Plastic(
          yieldStress * stiffnessRatio / rateRatio,
          consistency * stiffnessRatio * Math.pow(rateRatio, flowIndex - 1),
          flowIndex,
          solventViscosity * stiffnessRatio);
    }

    @Override
    public FlowCurve scaled(double yieldFactor, double gumFactor) {
      return new Plastic(
          yieldStress * yieldFactor, consistency * gumFactor, flowIndex, solventViscosity);
    }

    @Override
    public FlowCurve inSolvent(double viscosity) {
      return new Plastic(yieldStress, consistency, flowIndex, viscosity);
    }

    @Override
    public FlowCurve withYield(double stress) {
      return new Plastic(stress, consistency, flowIndex, solventViscosity);
    }

    @Override
    public FlowCurve tilted(double by) {
      double index = Math.max(LEAST_INDEX, Math.min(2, flowIndex + by));
      return new Plastic(yieldStress, consistency, index, solventViscosity);
    }
  }

  /**
   * Cross (1965, J. Colloid Science 20:417): gum viscosity = restViscosity / (1 + (timeConstant ·
   * rate)^exponent), on top of the solvent.
   *
   * @param restViscosity viscosity the gum adds at rest, Pa·s (zero-shear viscosity less solvent)
   * @param timeConstant s; its inverse is the rate at which half the gum's viscosity is left
   * @param exponent above 0 and at most 1, so that the stress never falls with the rate
   * @param solventViscosity Pa·s
   */
  record Coil(double restViscosity, double timeConstant, double exponent, double solventViscosity)
      implements FlowCurve {
    public Coil {
      Require.notNegative(restViscosity, "restViscosity");
      Require.notNegative(timeConstant, "timeConstant");
      Require.positive(exponent, "exponent");
      Require.notNegative(solventViscosity, "solventViscosity");
      if (exponent > 1) {
        throw new IllegalArgumentException("exponent must be at most 1, was " + exponent);
      }
    }

    /** A Newtonian liquid: what the gum adds does not depend on the shear rate. */
    public static Coil newtonian(double gumViscosity, double solventViscosity) {
      return new Coil(gumViscosity, 0, 1, solventViscosity);
    }

    @Override
    public double yieldStress() {
      return 0;
    }

    @Override
    public double gumViscosity(double shearRate) {
      return restViscosity / (1 + Math.pow(timeConstant * shearRate, exponent));
    }

    @Override
    public FlowCurve homogenised(double stiffnessRatio, double rateRatio) {
      return new Coil(
          restViscosity * stiffnessRatio,
          timeConstant * rateRatio,
          exponent,
          solventViscosity * stiffnessRatio);
    }

    @Override
    public FlowCurve scaled(double yieldFactor, double gumFactor) {
      return new Coil(restViscosity * gumFactor, timeConstant, exponent, solventViscosity);
    }

    @Override
    public FlowCurve inSolvent(double viscosity) {
      return new Coil(restViscosity, timeConstant, exponent, viscosity);
    }

    @Override
    public FlowCurve withYield(double stress) {
      return new Blend(stress, List.of(this), List.of(1.0), 1, solventViscosity);
    }

    @Override
    public FlowCurve tilted(double by) {
      double less = Math.max(LEAST_INDEX, Math.min(1, exponent - by));
      return new Coil(restViscosity, timeConstant, less, solventViscosity);
    }
  }

  /**
   * Several gums in one water, none of them with a listed synergy: at each shear rate the
   * logarithms of the gums' viscosities average by weight. Built by {@link FlowLaw#mix}.
   *
   * @param yieldStress Pa
   * @param members curves of each gum alone at the total concentration
   * @param weights share of each member in the gum, summing to 1
   * @param factor on the averaged viscosity, 1 unless scaled
   * @param solventViscosity Pa·s
   */
  record Blend(
      double yieldStress,
      List<FlowCurve> members,
      List<Double> weights,
      double factor,
      double solventViscosity)
      implements FlowCurve {
    public Blend {
      Require.notNegative(yieldStress, "yieldStress");
      Require.notNegative(factor, "factor");
      Require.notNegative(solventViscosity, "solventViscosity");
      members = List.copyOf(members);
      weights = List.copyOf(weights);
      if (members.isEmpty() || members.size() != weights.size()) {
        throw new IllegalArgumentException("members and weights must pair up");
      }
    }

    @Override
    public double gumViscosity(double shearRate) {
      double logarithm = 0;
      for (int i = 0; i < members.size(); i++) {
        double member = members.get(i).gumViscosity(shearRate);
        logarithm += weights.get(i) * Math.log(Math.max(Double.MIN_NORMAL, member));
      }
      return factor * Math.exp(logarithm);
    }

    @Override
    public FlowCurve homogenised(double stiffnessRatio, double rateRatio) {
      return new Blend(
          yieldStress * stiffnessRatio / rateRatio,
          members.stream().map(member -> member.homogenised(stiffnessRatio, rateRatio)).toList(),
          weights,
          factor,
          solventViscosity * stiffnessRatio);
    }

    @Override
    public FlowCurve scaled(double yieldFactor, double gumFactor) {
      return new Blend(
          yieldStress * yieldFactor, members, weights, factor * gumFactor, solventViscosity);
    }

    @Override
    public FlowCurve inSolvent(double viscosity) {
      return new Blend(yieldStress, members, weights, factor, viscosity);
    }

    @Override
    public FlowCurve withYield(double stress) {
      return new Blend(stress, members, weights, factor, solventViscosity);
    }

    @Override
    public FlowCurve tilted(double by) {
      List<FlowCurve> turned = members.stream().map(member -> member.tilted(by)).toList();
      return new Blend(yieldStress, turned, weights, factor, solventViscosity);
    }
  }

  /**
   * Readings of one gel: between two of them the stress is a straight line on double-log paper,
   * beyond the first and the last it goes on as the line next to it. What is solvent and what is
   * gum cannot be told from readings, so all of it counts as gum.
   *
   * @param shearRates 1/s, ascending, at least two
   * @param stresses Pa, never falling, as many
   */
  record Readings(List<Double> shearRates, List<Double> stresses) implements FlowCurve {
    public Readings {
      shearRates = List.copyOf(shearRates);
      stresses = List.copyOf(stresses);
      if (shearRates.size() < 2 || shearRates.size() != stresses.size()) {
        throw new IllegalArgumentException("shearRates and stresses must pair up, two or more");
      }
      for (int i = 0; i < shearRates.size(); i++) {
        Require.positive(shearRates.get(i), "shearRates");
        Require.positive(stresses.get(i), "stresses");
        boolean rises =
            i == 0
                || (shearRates.get(i) > shearRates.get(i - 1)
                    && stresses.get(i) >= stresses.get(i - 1));
        if (!rises) {
          throw new IllegalArgumentException("shearRates must rise and stresses must not fall");
        }
      }
    }

    @Override
    public double yieldStress() {
      return 0;
    }

    @Override
    public double solventViscosity() {
      return 0;
    }

    @Override
    public double gumViscosity(double shearRate) {
      int i = 0;
      while (i < shearRates.size() - 2 && shearRate > shearRates.get(i + 1)) {
        i++;
      }
      double span = Math.log(shearRates.get(i + 1) / shearRates.get(i));
      double slope = Math.log(stresses.get(i + 1) / stresses.get(i)) / span;
      return stresses.get(i) * Math.pow(shearRate / shearRates.get(i), slope) / shearRate;
    }

    @Override
    public FlowCurve homogenised(double stiffnessRatio, double rateRatio) {
      return new Readings(
          shearRates.stream().map(rate -> rate / rateRatio).toList(),
          stresses.stream().map(stress -> stress * stiffnessRatio / rateRatio).toList());
    }

    @Override
    public FlowCurve scaled(double yieldFactor, double gumFactor) {
      return new Readings(shearRates, stresses.stream().map(s -> s * gumFactor).toList());
    }

    @Override
    public FlowCurve inSolvent(double viscosity) {
      return this;
    }

    @Override
    public FlowCurve withYield(double stress) {
      return new Blend(stress, List.of(this), List.of(1.0), 1, 0);
    }

    @Override
    public FlowCurve tilted(double by) {
      return this;
    }
  }

  /**
   * A curve known between two shear rates, and what stands in for it on either side: there the
   * stand-in is moved up or down so that it joins on. With a stand-in that never falls the whole
   * never falls.
   *
   * @param known between {@code from} and {@code to}
   * @param from 1/s, 0 where the known curve holds down to rest
   * @param to 1/s, not below {@code from}
   * @param below stand-in at slower rates
   * @param above stand-in at faster rates
   */
  record Joined(FlowCurve known, double from, double to, FlowCurve below, FlowCurve above)
      implements FlowCurve {
    public Joined {
      Require.notNegative(from, "from");
      Require.positive(to, "to");
      if (from > to) {
        throw new IllegalArgumentException("from must not be above to: " + from + ", " + to);
      }
      if (from > 0) {
        double factor = known.stress(from) / below.stress(from);
        below = below.scaled(factor, factor).inSolvent(below.solventViscosity() * factor);
      }
      double factor = known.stress(to) / above.stress(to);
      above = above.scaled(factor, factor).inSolvent(above.solventViscosity() * factor);
    }

    private FlowCurve at(double shearRate) {
      return shearRate < from ? below : shearRate > to ? above : known;
    }

    @Override
    public double yieldStress() {
      return from > 0 ? below.yieldStress() : known.yieldStress();
    }

    @Override
    public double solventViscosity() {
      return 0;
    }

    // All that is not yield stress, the solvent's part too.
    @Override
    public double gumViscosity(double shearRate) {
      double stress = at(shearRate).stress(shearRate);
      return Math.max(0, stress - yieldStress()) / shearRate;
    }

    @Override
    public FlowCurve homogenised(double stiffnessRatio, double rateRatio) {
      return new Joined(
          known.homogenised(stiffnessRatio, rateRatio),
          from / rateRatio,
          to / rateRatio,
          below.homogenised(stiffnessRatio, rateRatio),
          above.homogenised(stiffnessRatio, rateRatio));
    }

    @Override
    public FlowCurve scaled(double yieldFactor, double gumFactor) {
      return new Joined(
          known.scaled(yieldFactor, gumFactor),
          from,
          to,
          below.scaled(yieldFactor, gumFactor),
          above.scaled(yieldFactor, gumFactor));
    }

    @Override
    public FlowCurve inSolvent(double viscosity) {
      return this;
    }

    @Override
    public FlowCurve withYield(double stress) {
      return new Blend(stress, List.of(this), List.of(1.0), 1, 0);
    }

    @Override
    public FlowCurve tilted(double by) {
      return new Joined(known, from, to, below.tilted(by), above.tilted(by));
    }
  }
}
