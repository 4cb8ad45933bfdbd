package gelwright.science;

/**
 * How much oil a gum gel carries with no emulsifier, % w/w of the recipe: the smallest of four
 * bounds.
 *
 * <ul>
 *   <li>crowding: the drops touch at a volume fraction of 0.64 (random close packing);
 *   <li>practice: parts of oil per part of gum, times the gum's share;
 *   <li>custom: the upper share at which such gels are made;
 *   <li>holding: what the yield stress holds still at the size of the drops, or what drifts too
 *       little over the shelf life to be seen, whichever is more.
 * </ul>
 *
 * <p>No law of this capacity is published. Practice usually binds and is known to a factor of 2 to
 * 3. Coalescence on storage, which ends most such gels, is in none of the bounds: only a storage
 * test shows it. Range: gums that are not surface-active. Sources: geometry, common practice,
 * {@link Dispersion} and {@link Suspension}.
 */
public final class OilCapacity {
  /** Which bound is the smallest. */
  public enum Bound {
    /** Drops touch. */
    CROWDING,
    /** Oil per gum. */
    PRACTICE,
    /** Share at which such gels are made. */
    CUSTOM,
    /** Yield stress against drop size. */
    HOLDING
  }

  /**
   * The bounds in % w/w of the recipe.
   *
   * @param crowding from {@link #crowdingShare}
   * @param practice oil per gum times gum
   * @param custom upper share; 100 where none is known
   * @param holding the larger of {@link #holdingShare} and {@link #driftShare}; 100 where the drops
   *     are held
   */
  public record Bounds(double crowding, double practice, double custom, double holding) {
    public Bounds {
      Require.notNegative(crowding, "crowding");
      Require.notNegative(practice, "practice");
      Require.notNegative(custom, "custom");
      Require.notNegative(holding, "holding");
    }

    /** The oil this gel carries, % w/w. */
    public double capacity() {
      return Math.min(Math.min(crowding, practice), Math.min(custom, holding));
    }

    /** The bound that sets the capacity; practice first where several are equal. */
    public Bound binding() {
      double capacity = capacity();
      if (practice == capacity) {
        return Bound.PRACTICE;
      }
      if (custom == capacity) {
        return Bound.CUSTOM;
      }
      return holding == capacity ? Bound.HOLDING : Bound.CROWDING;
    }
  }

  private OilCapacity() {}

  /** Share of oil at which the drops touch, % w/w: 0.64 by volume, densities in any one unit. */
  public static double crowdingShare(double oilDensity, double gelDensity) {
    double packing = FlowModifiers.RANDOM_CLOSE_PACKING;
    double oil = packing * Require.positive(oilDensity, "oilDensity");
    double gel = (1 - packing) * Require.positive(gelDensity, "gelDensity");
    return 100 * oil / (oil + gel);
  }

  /**
   * Practical share of oil, % w/w: the sum over gums of oil per gum times gum.
   *
   * @param oilPerGum parts of oil carried by one part of each gum
   * @param gumShare % w/w of each gum in the recipe
   */
  public static double practicalShare(double[] oilPerGum, double[] gumShare) {
    if (oilPerGum.length != gumShare.length) {
      throw new IllegalArgumentException("oilPerGum and gumShare must pair up");
    }
    double sum = 0;
    for (int i = 0; i < oilPerGum.length; i++) {
      sum +=
          Require.notNegative(oilPerGum[i], "oilPerGum")
              * Require.notNegative(gumShare[i], "gumShare");
    }
    return sum;
  }

  /**
   * Share of oil that a yield stress holds still, % w/w: 100 where the yield stress exceeds what
   * the largest drop needs, 0 where it falls short, smooth between: 100/(1 + (needed/yield)^8).
   *
   * @param yieldStress of the gel, Pa
   * @param yieldNeeded for the largest drop, Pa (see {@link Suspension#yieldNeeded})
   */
  public static double holdingShare(double yieldStress, double yieldNeeded) {
    Require.notNegative(yieldStress, "yieldStress");
    if (Require.notNegative(yieldNeeded, "yieldNeeded") == 0) {
      return 100;
    }
    return yieldStress == 0 ? 0 : 100 / (1 + Math.pow(yieldNeeded / yieldStress, 8));
  }

  /**
   * Share of oil that stays where it is for want of time, % w/w: 100 where its drops drift less
   * over the shelf life than anybody sees, 0 where they drift more, smooth between: 100/(1 +
   * (drift/unseen)^4). For gums that thicken without a yield stress.
   *
   * @param drift of the largest drop over the shelf life, m (see {@link Suspension#drift})
   * @param unseen drift that nobody sees, m
   */
  public static double driftShare(double drift, double unseen) {
    return 100
        / (1
            + Math.pow(
                Require.notNegative(drift, "drift") / Require.positive(unseen, "unseen"), 4));
  }
}
