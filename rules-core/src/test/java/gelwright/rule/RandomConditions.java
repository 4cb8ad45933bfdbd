package gelwright.rule;

import gelwright.quantity.Bounded;
import gelwright.quantity.Doubt;
import gelwright.quantity.Estimate;
import gelwright.quantity.Odds;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;

/** Random well-typed conditions over the workshop's vocabulary, and random facts for them. */
final class RandomConditions {
  private static final List<String> SHARES =
      List.of("oil.share", "gum.share", "emulsifier.share", "gel.oil-capacity");
  private static final List<String> STRESSES =
      List.of("gel.yield-stress", "oil.yield-needed", "particle.yield-needed");
  private static final List<String> TEMPERATURES =
      List.of("process.peak-temperature", "room.temperature");
  private static final List<String> TRUTHS = List.of("formula.has-water", "formula.is-buffered");
  private static final List<String> KINDS = List.of("gel", "gel-cream", "serum", "mist");
  private static final List<String> TEXTURES = List.of("fluid", "serum", "soft-gel");
  private static final List<String> AREAS = List.of("face", "hands", "eye-area");
  private static final List<String> GUMS = List.of("\"Xanthan Gum\"", "\"Sclerotium Gum\"");

  private final Random random;
  private final boolean asksWhatIsKnown;

  RandomConditions(Random random, boolean asksWhatIsKnown) {
    this.random = random;
    this.asksWhatIsKnown = asksWhatIsKnown;
  }

  private <E> E one(List<E> from) {
    return from.get(random.nextInt(from.size()));
  }

  private String relation() {
    return one(List.of("<", "<=", ">", ">="));
  }

  String condition(int depth) {
    int choice = random.nextInt(depth > 0 ? 12 : 8);
    switch (choice) {
      case 0:
        return share(depth) + " " + relation() + " " + share(depth);
      case 1:
        // Limits that are written the wrong way round are refused; computed ones may be.
        return random.nextBoolean()
            ? share(depth) + " within " + literal(8) + " % .. " + (8 + random.nextInt(9)) + " %"
            : share(depth) + " within " + one(SHARES) + " .. " + share(depth);
      case 2:
        return stress(depth) + " " + relation() + " " + stress(depth);
      case 3:
        return temperature(depth) + " " + relation() + " " + temperature(depth);
      case 4:
        return random.nextBoolean()
            ? "product.kind " + one(List.of("=", "!=")) + " " + one(KINDS)
            : "product.kind in [" + one(KINDS) + "]";
      case 5:
        return random.nextBoolean()
            ? "product.area has " + one(AREAS)
            : "product.gum = " + one(GUMS);
      case 6:
        return random.nextBoolean()
            ? one(TRUTHS)
            : number(depth) + " " + relation() + " " + number(depth);
      case 7:
        if (asksWhatIsKnown) {
          return one(
                  List.of(
                      one(SHARES), "product.gum", "formula.is-buffered", "gel.viscosity(10 /s)"))
              + one(List.of(" is known", " is unknown"));
        }
        return "texture-windows[product.texture].pack = " + one(List.of("jar", "pump"));
      case 8:
        return "not (" + condition(depth - 1) + ")";
      case 9:
      case 10:
        return "(" + condition(depth - 1) + " and " + condition(depth - 1) + ")";
      default:
        return "(" + condition(depth - 1) + " or " + condition(depth - 1) + ")";
    }
  }

  private String literal(double most) {
    return String.valueOf(Math.round(random.nextDouble() * most * 10) / 10.0);
  }

  private String share(int depth) {
    switch (random.nextInt(depth > 0 ? 9 : 3)) {
      case 0:
        return literal(20) + " %";
      case 1:
      case 2:
        return one(SHARES);
      case 3:
        return "(" + share(depth - 1) + " + " + share(depth - 1) + ")";
      case 4:
        return "(" + share(depth - 1) + " - " + share(depth - 1) + ")";
      case 5:
        return "(" + share(depth - 1) + " * " + number(depth - 1) + ")";
      case 6:
        return one(List.of("min", "max")) + "(" + share(depth - 1) + ", " + share(depth - 1) + ")";
      case 7:
        return "-(" + share(depth - 1) + ")";
      default:
        return "share-of(" + one(GUMS) + ")";
    }
  }

  private String number(int depth) {
    switch (random.nextInt(depth > 0 ? 4 : 2)) {
      case 0:
        return literal(3);
      case 1:
        return "water-phase.water-activity";
      case 2:
        return "(" + share(depth - 1) + " / " + share(depth - 1) + ")";
      default:
        return "(" + number(depth - 1) + " - " + number(depth - 1) + ")";
    }
  }

  private String stress(int depth) {
    switch (random.nextInt(depth > 0 ? 6 : 3)) {
      case 0:
        return literal(20) + " Pa";
      case 1:
        return one(STRESSES);
      case 2:
        return "texture-windows["
            + one(List.of("product.texture", "serum", "soft-gel"))
            + "]."
            + one(List.of("least-yield", "most-yield"));
      case 3:
        return "gel.viscosity(" + one(List.of("10 /s", "(5 /s + 5 /s)")) + ") * 2 /s";
      case 4:
        return "(" + stress(depth - 1) + " + " + stress(depth - 1) + ")";
      default:
        return "(" + stress(depth - 1) + " * " + number(depth - 1) + ")";
    }
  }

  private String temperature(int depth) {
    switch (random.nextInt(depth > 0 ? 4 : 2)) {
      case 0:
        return literal(60) + " °C";
      case 1:
        return one(TEMPERATURES);
      case 2:
        return "(" + temperature(depth - 1) + " + " + literal(9) + " K)";
      default:
        return "("
            + temperature(depth - 1)
            + " - ("
            + temperature(0)
            + " - "
            + temperature(0)
            + "))";
    }
  }

  /** Facts of which some are exact, some doubtful, some bounded and some unknown. */
  Workshop.MapFacts facts(boolean doubts) {
    Workshop.MapFacts facts = new Workshop.MapFacts();
    numberNames().forEach((name, most) -> number(facts, name, most, doubts));
    choice(facts, "product.kind", KINDS);
    choice(facts, "product.texture", TEXTURES);
    choice(facts, "product.gum", List.of("Xanthan Gum", "Sclerotium Gum", "Gellan Gum"));
    Set<String> areas = new HashSet<>();
    AREAS.forEach(
        area -> {
          if (random.nextInt(3) == 0) {
            areas.add(area);
          }
        });
    facts.choices.put(
        "product.area",
        new Chosen(areas, random.nextInt(3) == 0 ? Set.of("rest of the areas") : Set.of()));
    for (String name : TRUTHS) {
      switch (random.nextInt(4)) {
        case 0 -> facts.truth(name, Truth.CERTAIN);
        case 1 -> facts.truth(name, Truth.IMPOSSIBLE);
        case 2 -> {
          double odds = doubts ? random.nextDouble() : random.nextInt(2);
          facts.truth(name, new Truth(Odds.of(odds), Set.of()));
        }
        default -> {}
      }
    }
    return facts;
  }

  private static Map<String, Double> numberNames() {
    Map<String, Double> most = new TreeMap<>();
    SHARES.forEach(name -> most.put(name, 20.0));
    STRESSES.forEach(name -> most.put(name, 20.0));
    TEMPERATURES.forEach(name -> most.put(name, 60.0));
    most.put("water-phase.water-activity", 1.0);
    most.put("gel.viscosity[10]", 10.0);
    most.put("share-of[[Xanthan Gum]]", 2.0);
    most.put("share-of[[Sclerotium Gum]]", 2.0);
    return most;
  }

  private void number(Workshop.MapFacts facts, String name, double most, boolean doubts) {
    double likely = Math.round(random.nextDouble() * most * 10) / 10.0;
    switch (random.nextInt(doubts ? 6 : 4)) {
      case 0:
        break;
      case 1:
        double low = likely * random.nextDouble();
        facts.number(name, Bounded.unknown(low, likely, Set.of("input of " + name)));
        break;
      case 2:
      case 3:
        facts.number(name, likely);
        break;
      default:
        String doubt = one(List.of("gum", "meter", "pKa"));
        facts.number(
            name,
            random.nextBoolean()
                ? Bounded.of(Workshop.about(likely, random.nextDouble() * most / 4, doubt))
                : Bounded.of(
                    Estimate.withinFactor(
                        likely + 0.1, 1 + random.nextDouble(), new Doubt(doubt, ""))));
    }
  }

  private void choice(Workshop.MapFacts facts, String name, List<String> options) {
    if (random.nextInt(3) > 0) {
      facts.choice(name, one(options));
    }
  }

  /** The same facts with everything that was missing filled in, within what was possible. */
  Workshop.MapFacts filledIn(Workshop.MapFacts facts) {
    Workshop.MapFacts full = new Workshop.MapFacts();
    full.numbers.putAll(facts.numbers);
    full.choices.putAll(facts.choices);
    full.truths.putAll(facts.truths);
    numberNames()
        .forEach(
            (name, most) -> {
              Bounded known = facts.numbers.get(name);
              if (known == null) {
                full.number(name, (random.nextDouble() * 3 - 1) * most);
              } else if (!known.missing().isEmpty()) {
                double low = known.atLeast().likely();
                double high = known.atMost().likely();
                double part = random.nextInt(3) == 0 ? random.nextInt(2) : random.nextDouble();
                full.number(name, Math.min(high, low + part * (high - low)));
              }
            });
    Map<String, List<String>> options = new HashMap<>();
    options.put("product.kind", KINDS);
    options.put("product.texture", TEXTURES);
    options.put("product.gum", List.of("Xanthan Gum", "Sclerotium Gum", "Gellan Gum"));
    options.forEach((name, names) -> full.choices.putIfAbsent(name, Chosen.of(one(names))));
    Chosen areas = full.choices.get("product.area");
    if (!areas.isKnown()) {
      Set<String> all = new HashSet<>(areas.names());
      all.add(one(AREAS));
      full.choices.put("product.area", Chosen.of(all));
    }
    TRUTHS.forEach(name -> full.truths.putIfAbsent(name, Truth.of(random.nextBoolean())));
    return full;
  }
}
