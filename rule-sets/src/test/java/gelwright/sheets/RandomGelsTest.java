package gelwright.sheets;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.quantity.Bounded;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.function.Consumer;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("random gels")
final class RandomGelsTest {
  private static final List<String> GUMS =
      List.of(
          "Xanthan Gum",
          "Sclerotium Gum",
          "Guar Gum",
          "Ceratonia Siliqua Gum",
          "Caesalpinia Spinosa Gum",
          "Glucomannan",
          "Gellan Gum",
          "Hydroxyethylcellulose",
          "Cellulose Gum",
          "Sodium Hyaluronate",
          "Algin",
          "Carbomer",
          "Acrylates/C10-30 Alkyl Acrylate Crosspolymer",
          "Pullulan",
          "Acacia Senegal Gum",
          "Hydroxypropyl Starch Phosphate",
          "Diutan Gum",
          "Succinoglycan",
          "Dehydroxanthan Gum",
          "Agar",
          "Pectin");

  private static final List<String> NUMBERS =
      List.of(
          "gel.yield-stress",
          "gel.viscosity-at-rest",
          "gel.viscosity-levelling",
          "gel.viscosity-pouring",
          "gel.viscosity-rubbing",
          "gel.viscosity-spraying",
          "gel.hydration",
          "gel.oil-capacity",
          "oil.drop-size",
          "oil.drift",
          "oil.yield-needed");

  /** Viscosity of water at 25 °C, Pa·s: 0.890 mPa·s [IAPWS 2008, from memory]. */
  private static final double WATER = 0.89e-3;

  private record Recipe(List<String> lines, String rest) {
    String sheet() {
      return "product: { shelf-life: 12 months }\n"
          + "equipment: { stirrer: { type: propeller, diameter: 50 mm } }\n"
          + "ingredients:\n  - { phase: A, name: Aqua, share: rest }\n"
          + String.join("", lines)
          + rest;
    }
  }

  private static String line(String phase, String name, double share) {
    return String.format(
        Locale.ROOT, "  - { phase: %s, name: %s, share: %.4f %% }\n", phase, name, share);
  }

  private static Recipe recipe(Random random, boolean readings) {
    List<String> lines = new ArrayList<>();
    List<String> gums = new ArrayList<>(GUMS);
    Collections.shuffle(gums, random);
    int count = 1 + random.nextInt(3);
    for (int i = 0; i < count; i++) {
      lines.add(line("A", gums.get(i), Math.pow(10, -1.5 + 2 * random.nextDouble())));
    }
    if (random.nextInt(4) == 0) {
      lines.add(line("A", gums.get(0), 0.3 * random.nextDouble()));
    }
    if (random.nextBoolean()) {
      lines.add(line("A", "Sodium Chloride", 2 * random.nextDouble()));
    }
    if (random.nextBoolean()) {
      lines.add(line("A", "Glycerin", 20 * random.nextDouble()));
    }
    if (random.nextBoolean()) {
      lines.add(line("A", "Sodium Hydroxide", 0.2 * random.nextDouble()));
    }
    if (random.nextInt(3) == 0) {
      lines.add(line("B", "Squalane", 15 * random.nextDouble()));
      lines.add(line("B", "Caprylic/Capric Triglyceride", 5 * random.nextDouble()));
    }
    double hot = 20 + 75 * random.nextDouble();
    StringBuilder rest = new StringBuilder();
    rest.append("method:\n  - { do: disperse, phase: A, stir: 600 rpm }\n");
    rest.append(
        String.format(
            Locale.ROOT,
            "  - { do: hydrate, phase: A, at: %.1f °C, for: %.1f min }\n",
            hot,
            1 + 90 * random.nextDouble()));
    if (random.nextBoolean()) {
      rest.append(
          String.format(
              Locale.ROOT,
              "  - { do: cool, phase: A, to: %.1f °C, over: 20 min }\n",
              20 + 30 * random.nextDouble()));
    }
    rest.append("  - { do: add, phase: B, into: A, stir: 900 rpm }\n");
    if (readings) {
      rest.append("measured:\n");
      int several = 1 + random.nextInt(7);
      if (random.nextBoolean()) {
        rest.append("  - { what: flow-curve, points: [");
        for (int i = 0; i < several; i++) {
          rest.append(
              String.format(
                  Locale.ROOT,
                  "{ shear-rate: %.4f /s, stress: %.4f Pa }, ",
                  Math.pow(10, -2 + i),
                  Math.pow(10, -1 + 3 * random.nextDouble())));
        }
        rest.append("] }\n");
      } else {
        for (int i = 0; i < several; i++) {
          rest.append(
              String.format(
                  Locale.ROOT,
                  "  - { what: viscosity, value: %.5f Pa·s, shear-rate: %.4f /s, at: %d °C }\n",
                  Math.pow(10, -2 + 4 * random.nextDouble()),
                  Math.pow(10, -2 + 4 * random.nextDouble()),
                  20 + random.nextInt(40)));
        }
      }
      if (random.nextBoolean()) {
        rest.append(
            String.format(
                Locale.ROOT,
                "  - { what: yield-stress, value: %.3f Pa }\n",
                50 * random.nextDouble()));
      }
      if (random.nextBoolean()) {
        rest.append(
            String.format(
                Locale.ROOT,
                "  - { what: density, value: %.3f g/mL }\n",
                0.8 + 0.4 * random.nextDouble()));
      }
    }
    return new Recipe(lines, rest.toString());
  }

  private static void tries(int count, Consumer<Random> property) {
    for (long seed = 1; seed <= count; seed++) {
      try {
        property.accept(new Random(seed * 7919));
      } catch (RuntimeException | AssertionError failure) {
        throw new AssertionError("try " + seed + ": " + failure.getMessage(), failure);
      }
    }
  }

  private static void assertSane(String name, Bounded number, String sheet) {
    for (double value :
        new double[] {
          number.atLeast().likely(),
          number.atMost().likely(),
          number.atLeast().low(),
          number.atLeast().high(),
          number.atMost().low(),
          number.atMost().high()
        }) {
      assertFalse(Double.isNaN(value), () -> name + " is no number in\n" + sheet);
    }
    assertTrue(number.atLeast().likely() >= 0, () -> name + " is below zero in\n" + sheet);
    assertTrue(number.isKnown() || !number.missing().isEmpty(), () -> name + " misses nothing");
  }

  @Test
  @DisplayName("every number is one or a bound, never NaN, whatever was mixed and read")
  void neverNaN() {
    tries(
        150,
        random -> {
          String sheet = recipe(random, random.nextBoolean()).sheet();
          Bench bench = Bench.of(sheet);
          for (String name : NUMBERS) {
            assertSane(name, bench.number(name), sheet);
          }
        });
  }

  @Test
  @DisplayName("no gel is thinner than water, and none thickens with the shear rate")
  void thinsDownToWater() {
    tries(
        100,
        random -> {
          String sheet = recipe(random, false).sheet();
          Bench bench = Bench.of(sheet);
          Bounded slower = bench.number("gel.viscosity-at-rest");
          for (String at : List.of("levelling", "pouring", "rubbing", "spraying")) {
            Bounded faster = bench.number("gel.viscosity-" + at);
            double least = faster.atLeast().likely();
            assertTrue(least >= WATER * 0.999, () -> at + " is " + least + " in\n" + sheet);
            assertTrue(least <= slower.atLeast().likely() * 1.0001, () -> at + " in\n" + sheet);
            assertTrue(
                faster.atMost().likely() <= slower.atMost().likely() * 1.0001,
                () -> at + " at most in\n" + sheet);
            slower = faster;
          }
        });
  }

  private static void assertSame(Bench one, Bench other, String sheet) {
    for (String name : NUMBERS) {
      Bounded a = one.number(name);
      Bounded b = other.number(name);
      assertEquals(a.missing(), b.missing(), () -> name + " misses in\n" + sheet);
      assertNear(a.atLeast().likely(), b.atLeast().likely(), name + " in\n" + sheet);
      assertNear(a.atMost().likely(), b.atMost().likely(), name + " in\n" + sheet);
      assertNear(a.atLeast().high(), b.atLeast().high(), name + " range in\n" + sheet);
    }
  }

  private static void assertNear(double expected, double actual, String message) {
    if (Double.isInfinite(expected)) {
      assertEquals(expected, actual, message);
    } else {
      assertEquals(expected, actual, 1e-6 * Math.max(1e-9, Math.abs(expected)), message);
    }
  }

  @Test
  @DisplayName("the order of the lines changes nothing")
  void orderOfLines() {
    tries(
        60,
        random -> {
          Recipe recipe = recipe(random, random.nextBoolean());
          List<String> turned = new ArrayList<>(recipe.lines());
          Collections.shuffle(turned, random);
          assertSame(
              Bench.of(recipe.sheet()),
              Bench.of(new Recipe(turned, recipe.rest()).sheet()),
              recipe.sheet());
        });
  }

  @Test
  @DisplayName("one line or two halves of it, per cent or ppm, minutes or seconds: the same gel")
  void unitsAndHalves() {
    tries(
        40,
        random -> {
          double share = Math.rint(20 * (0.2 + random.nextDouble())) / 20;
          String gum = GUMS.get(random.nextInt(GUMS.size()));
          double minutes = 10 + random.nextInt(60);
          String sheet =
              "ingredients:\n  - { phase: A, name: Aqua, share: rest }\n%s"
                  + "method: [{ do: hydrate, phase: A, at: 85 °C, for: %s },"
                  + " { do: cool, phase: A, to: 25 °C, over: 20 min }]\n";
          String whole = String.format(Locale.ROOT, sheet, line("A", gum, share), minutes + " min");
          String parts =
              String.format(
                  Locale.ROOT, "  - { phase: A, name: %s, share: %.2f ppm }\n", gum, 5000 * share);
          String halves = String.format(Locale.ROOT, sheet, parts + parts, 60 * minutes + " s");
          assertSame(Bench.of(whole), Bench.of(halves), whole);
        });
  }

  @Test
  @DisplayName("more of a gum never thins the gel")
  void monotoneInGum() {
    tries(
        80,
        random -> {
          String gum = GUMS.get(random.nextInt(GUMS.size()));
          double less = Math.pow(10, -1.3 + 1.3 * random.nextDouble());
          double more = less * (1 + random.nextDouble());
          String rest =
              "method: [{ do: hydrate, phase: A, at: 85 °C, for: 60 min },"
                  + " { do: cool, phase: A, to: 25 °C, over: 20 min }]\n";
          String sheet = "ingredients:\n  - { phase: A, name: Aqua, share: rest }\n";
          Bench thin = Bench.of(sheet + line("A", gum, less) + rest);
          Bench thick = Bench.of(sheet + line("A", gum, more) + rest);
          for (String name : NUMBERS.subList(0, 6)) {
            Bounded a = thin.number(name);
            Bounded b = thick.number(name);
            // A gum that turns the water sour folds up by itself, and so may thin.
            if (a.isKnown() && b.isKnown()) {
              assertTrue(
                  b.atLeast().likely() >= a.atLeast().likely() * 0.9999,
                  () -> name + " of " + gum + " from " + less + " to " + more + " %: " + a + b);
            }
          }
        });
  }
}
