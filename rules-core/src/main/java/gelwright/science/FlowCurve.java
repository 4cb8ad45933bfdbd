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
    Thermal.notNegative(stress, "stress");
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
      Thermal.notNegative(yieldStress, "yieldStress");
      Thermal.notNegative(consistency, "consistency");
      Thermal.positive(flowIndex, "flowIndex");
      Thermal.notNegative(solventViscosity, "solventViscosity");
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
      Thermal.notNegative(restViscosity, "restViscosity");
      Thermal.notNegative(timeConstant, "timeConstant");
      Thermal.positive(exponent, "exponent");
      Thermal.notNegative(solventViscosity, "solventViscosity");
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
      Thermal.notNegative(yieldStress, "yieldStress");
      Thermal.notNegative(factor, "factor");
      Thermal.notNegative(solventViscosity, "solventViscosity");
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
        logarithm += weights.get(i) * Math.log(members.get(i).gumViscosity(shearRate));
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
  }
}
