package gelwright.prediction;

import static java.util.Objects.requireNonNull;

import gelwright.formula.Formula;
import gelwright.ingredient.Source;
import gelwright.profile.Profile;
import gelwright.quantity.Bounded;
import gelwright.quantity.Dimension;
import gelwright.quantity.Estimate;
import gelwright.quantity.Unit;
import gelwright.review.Editions;
import gelwright.review.Knowledge;
import gelwright.review.Shown;
import gelwright.review.Subject;
import gelwright.rule.Vocabulary;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/**
 * Predicts what formulas are like. Immutable and thread-safe; no input or output, no clock.
 *
 * <p>Cost: every property once, with two more evaluations for each doubt it rests on; a hundred or
 * so points of each curve likewise.
 */
public final class Predictor {
  /** Doubts told of a property; what is left over explains little. */
  private static final int MOST_DOUBTS = 5;

  /** Doubts that explain less of a property than this are left out. */
  private static final double LEAST_SHARE = 0.001;

  /** All of a thing, in the base unit of a share: %. */
  private static final double WHOLE = 100;

  /**
   * Which properties of items are predicted. An ingredient has numbers for all that an ingredient
   * can be; those of a gum are told of gums only.
   */
  private static final List<OfKind> OF_ITEMS =
      List.of(
          new OfKind(
              "gum", Set.of("concentration", "hydration", "hydrates-from", "law-from", "law-to")),
          new OfKind(
              "preservative",
              Set.of(
                  "share-as-acid",
                  "undissociated",
                  "undissociated-share",
                  "free",
                  "active-in-water",
                  "inhibited-gram-positive",
                  "inhibited-gram-negative",
                  "inhibited-yeast",
                  "inhibited-mould")),
          new OfKind(
              "acid",
              Set.of(
                  "share-as-acid",
                  "undissociated",
                  "undissociated-share",
                  "dissolved-limit",
                  "dissolved-limit-in-the-cold",
                  "lowest-pH-before-crystals",
                  "lowest-pH-before-crystals-in-the-cold")),
          new OfKind("particle", Set.of("size", "density", "yield-needed", "drift")),
          new OfKind(
              "ingredient", Set.of("share", "peak-temperature", "time-hot", "heat-retention")),
          new OfKind("heat-limit", Set.of("at-most", "peak-temperature", "time-above")),
          new OfKind("step", Set.of("temperature-before")),
          new OfKind("line", Set.of("mass", "minimum-mass")));

  private final Knowledge knowledge;

  private record OfKind(String kind, Set<String> properties) {}

  private Predictor(Knowledge knowledge) {
    this.knowledge = knowledge;
  }

  /** A predictor with this knowledge. */
  public static Predictor using(Knowledge knowledge) {
    return new Predictor(requireNonNull(knowledge, "knowledge"));
  }

  /**
   * Predicts what a formula is like.
   *
   * @param formula as read
   * @param on the day it is predicted for; it stands in the editions
   */
  public Prediction predict(Formula formula, LocalDate on) {
    requireNonNull(formula, "formula");
    requireNonNull(on, "on");
    Profile profile = Profile.of(formula, knowledge.catalogue());
    return new Prediction(
        formula.name(),
        Editions.of(knowledge, formula, on),
        properties(profile).stream().map(this::predicted).toList(),
        curves(profile),
        formula.place(""));
  }

  /** The curves of a profile, always the same ones in the same order. */
  public List<Curve> curves(Profile profile) {
    return new Curves(knowledge, profile).all();
  }

  /**
   * A number that is told of a formula, with its doubts as the engine has them.
   *
   * @param subject what it is a number of; {@link Subject#FORMULA} for the formula as a whole
   * @param name with the kind of item before it: {@code gel.yield-stress}, {@code gum.hydration}
   * @param meaning one sentence
   * @param value as the profile has it
   */
  public record Property(Subject subject, String name, String meaning, Profile.Value value) {
    public Property {
      requireNonNull(subject, "subject");
      requireNonNull(name, "name");
      requireNonNull(meaning, "meaning");
      requireNonNull(value, "value");
    }
  }

  /** The numbers that are told of a profile, in the order of {@link Prediction#properties}. */
  public static List<Property> properties(Profile profile) {
    Vocabulary vocabulary = Profile.vocabulary();
    List<Property> all = new ArrayList<>();
    for (Profile.Value value : profile.values()) {
      String meaning =
          vocabulary.property(value.name()).map(Vocabulary.Property::meaning).orElse("");
      all.add(new Property(Subject.FORMULA, value.name(), meaning, value));
    }
    Set<String> told = new HashSet<>();
    for (OfKind each : OF_ITEMS) {
      for (Profile.OfItem item : profile.values(each.kind(), each.properties())) {
        for (Profile.Value value : item.values()) {
          // Many a preservative is an acid as well.
          if (told.add(item.item() + "\n" + family(each.kind()) + value.name())) {
            String meaning =
                vocabulary
                    .kind(each.kind())
                    .map(kind -> kind.properties().get(value.name()))
                    .map(Vocabulary.Property::meaning)
                    .orElse("");
            Subject subject = new Subject(each.kind(), item.item());
            all.add(new Property(subject, each.kind() + "." + value.name(), meaning, value));
          }
        }
      }
    }
    return all;
  }

  private static String family(String kind) {
    return switch (kind) {
      case "heat-limit", "step", "line" -> kind;
      default -> "";
    };
  }

  private Predicted predicted(Property property) {
    Profile.Value value = property.value();
    List<Source> sources = new ArrayList<>();
    for (String id : value.sources()) {
      knowledge.catalogue().source(id).ifPresent(sources::add);
    }
    return new Predicted(
        property.subject(),
        property.meaning(),
        Shown.of(property.name(), value.value(), value.unit()),
        value.origin().name().toLowerCase(Locale.ROOT),
        sources,
        doubts(value.value(), value.unit()));
  }

  /** The doubts that matter most to a number, the largest first; none of a mere bound. */
  static List<DoubtShare> doubts(Bounded value, Unit unit) {
    if (!value.isKnown() || value.atLeast().isExact()) {
      return List.of();
    }
    Estimate estimate = value.atLeast();
    double deviation = estimate.deviation();
    List<DoubtShare> all = new ArrayList<>();
    for (Estimate.Contribution contribution : estimate.contributions()) {
      double part = contribution.move() / deviation;
      double share = Math.min(1, part * part);
      if (share < LEAST_SHARE || all.size() == MOST_DOUBTS) {
        break;
      }
      double low = moved(estimate, -contribution.move(), unit);
      double high = moved(estimate, contribution.move(), unit);
      if (Double.isFinite(low) && Double.isFinite(high)) {
        all.add(
            new DoubtShare(
                contribution.doubt().name(), contribution.doubt().settledBy(), share, low, high));
      }
    }
    return List.copyOf(all);
  }

  private static double moved(Estimate estimate, double move, Unit unit) {
    double shift = move * Estimate.NINETY_PERCENT;
    double value =
        estimate.scale() == Estimate.Scale.LINEAR
            ? estimate.likely() + shift
            : estimate.likely() * Math.exp(shift);
    boolean isPart =
        unit.dimension().equals(Dimension.SHARE)
            && estimate.likely() >= 0
            && estimate.likely() <= WHOLE;
    return unit.fromBase(isPart ? Math.max(0, Math.min(WHOLE, value)) : value);
  }
}
