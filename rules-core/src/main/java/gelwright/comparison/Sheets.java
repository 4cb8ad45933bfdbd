package gelwright.comparison;

import gelwright.formula.Amount;
import gelwright.formula.Brief;
import gelwright.formula.Equipment;
import gelwright.formula.Formula;
import gelwright.formula.Label;
import gelwright.formula.Line;
import gelwright.formula.Measurement;
import gelwright.formula.Span;
import gelwright.formula.Step;
import gelwright.ingredient.Catalogue;
import gelwright.ingredient.Ingredient;
import gelwright.profile.Profile;
import gelwright.quantity.Bounded;
import gelwright.quantity.Numbers;
import gelwright.quantity.Quantity;
import gelwright.quantity.Share;
import gelwright.quantity.Unit;
import gelwright.review.Shown;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.function.BiPredicate;

/** What two formulas state differently. */
final class Sheets {
  // How well two steps go together. An equal step outweighs two that are merely alike.
  private static final int EQUAL = 12;
  private static final int ALIKE = 3;
  private static final int SAME_INGREDIENTS = 1;
  private static final int SAME_VESSEL = 1;

  private Sheets() {}

  // --- Brief

  static List<FieldChange> brief(Formula first, Formula second) {
    List<FieldChange> all = new ArrayList<>();
    Brief a = first.brief();
    Brief b = second.brief();
    FieldChange.compare(all, "kind", a.kind(), b.kind());
    FieldChange.compare(all, "use", a.use(), b.use());
    FieldChange.compare(all, "area", a.area(), b.area());
    FieldChange.compare(all, "users", a.users(), b.users());
    FieldChange.compare(all, "texture", a.texture(), b.texture());
    FieldChange.compare(all, "dispensing", a.dispensing(), b.dispensing());
    FieldChange.compare(all, "pH", a.pH().map(Sheets::span), b.pH().map(Sheets::span));
    FieldChange.compare(all, "markets", a.markets(), b.markets());
    FieldChange.compare(all, "shelf-life", a.shelfLife(), b.shelfLife());
    FieldChange.compare(all, "batch", first.batch(), second.batch());
    equipment(all, first.equipment(), second.equipment());
    FieldChange.compare(
        all,
        "label ingredients",
        first.label().map(Label::ingredients).orElse(List.of()),
        second.label().map(Label::ingredients).orElse(List.of()));
    FieldChange.compare(
        all,
        "label warnings",
        first.label().map(Label::warnings).orElse(List.of()),
        second.label().map(Label::warnings).orElse(List.of()));
    FieldChange.compare(
        all,
        "measured",
        first.measured().stream().map(Sheets::reading).toList(),
        second.measured().stream().map(Sheets::reading).toList());
    FieldChange.compare(
        all,
        "accepted",
        first.accepted().stream().map(each -> each.rule() + " until " + each.until()).toList(),
        second.accepted().stream().map(each -> each.rule() + " until " + each.until()).toList());
    return all;
  }

  private static void equipment(List<FieldChange> all, Equipment a, Equipment b) {
    FieldChange.compare(all, "balance", a.balance(), b.balance());
    FieldChange.compare(all, "vessel diameter", a.vesselDiameter(), b.vesselDiameter());
    FieldChange.compare(all, "vessel cover", a.vesselCover(), b.vesselCover());
    FieldChange.compare(all, "stirrer type", a.stirrerType(), b.stirrerType());
    FieldChange.compare(all, "stirrer diameter", a.stirrerDiameter(), b.stirrerDiameter());
    FieldChange.compare(all, "room temperature", a.roomTemperature(), b.roomTemperature());
    FieldChange.compare(all, "room humidity", a.roomHumidity(), b.roomHumidity());
  }

  private static String span(Span span) {
    String from = Numbers.plain(span.from());
    return span.from() == span.to() ? from : from + " to " + Numbers.plain(span.to());
  }

  private static String reading(Measurement reading) {
    StringBuilder words = new StringBuilder(reading.what());
    reading.value().ifPresent(value -> words.append(' ').append(value));
    reading.shearRate().ifPresent(rate -> words.append(" at ").append(rate));
    reading.at().ifPresent(at -> words.append(" at ").append(at));
    if (!reading.points().isEmpty()) {
      words.append(" of ").append(reading.points().size()).append(" points");
    }
    return words.toString();
  }

  // --- Recipe

  /** A line with what is needed to find its partner. */
  private record Entry(int index, Line line, Shown share) {
    LineChange.RecipeLine told() {
      return new LineChange.RecipeLine(index + 1, line, share);
    }
  }

  /**
   * Lines go together by ingredient; of several lines of one ingredient equal ones first, then
   * those of one phase, then the others, each time in their order.
   */
  static List<LineChange> recipe(Profile first, Profile second, Catalogue catalogue) {
    Map<String, List<Entry>> before = entries(first, catalogue);
    Map<String, List<Entry>> after = entries(second, catalogue);
    Map<Integer, Entry> partnerOfSecond = new LinkedHashMap<>();
    Map<Integer, Entry> partnerOfFirst = new LinkedHashMap<>();
    before.forEach(
        (name, lines) -> {
          List<Entry> left = new ArrayList<>(lines);
          List<Entry> right = new ArrayList<>(after.getOrDefault(name, List.of()));
          for (BiPredicate<Line, Line> alike :
              List.<BiPredicate<Line, Line>>of(
                  Line::equals, (a, b) -> a.phase().equals(b.phase()), (a, b) -> true)) {
            for (Entry one : List.copyOf(left)) {
              right.stream()
                  .filter(other -> alike.test(one.line(), other.line()))
                  .findFirst()
                  .ifPresent(
                      other -> {
                        left.remove(one);
                        right.remove(other);
                        partnerOfFirst.put(one.index(), other);
                        partnerOfSecond.put(other.index(), one);
                      });
            }
          }
        });
    List<Entry> firsts = ordered(before);
    List<LineChange> all = new ArrayList<>();
    int next = removed(all, firsts, 0, partnerOfFirst, catalogue);
    for (Entry entry : ordered(after)) {
      Optional<Entry> partner = Optional.ofNullable(partnerOfSecond.get(entry.index()));
      all.add(change(partner, Optional.of(entry), catalogue));
      if (partner.isPresent() && partner.get().index() >= next) {
        // What was removed right behind it stands behind it still.
        next = removed(all, firsts, partner.get().index() + 1, partnerOfFirst, catalogue);
      }
    }
    // Lines that moved past others leave some behind.
    Set<Integer> told = new HashSet<>();
    all.forEach(change -> change.first().ifPresent(line -> told.add(line.number() - 1)));
    for (Entry entry : firsts) {
      if (!told.contains(entry.index())) {
        all.add(change(Optional.of(entry), Optional.empty(), catalogue));
      }
    }
    return all;
  }

  /** Adds what was removed from here on up to the next line that was not; says where that is. */
  private static int removed(
      List<LineChange> into,
      List<Entry> lines,
      int from,
      Map<Integer, Entry> partners,
      Catalogue catalogue) {
    int at = from;
    while (at < lines.size() && !partners.containsKey(at)) {
      into.add(change(Optional.of(lines.get(at)), Optional.empty(), catalogue));
      at++;
    }
    return at;
  }

  private static List<Entry> ordered(Map<String, List<Entry>> entries) {
    return entries.values().stream()
        .flatMap(List::stream)
        .sorted(Comparator.comparingInt(Entry::index))
        .toList();
  }

  private static Map<String, List<Entry>> entries(Profile profile, Catalogue catalogue) {
    List<Line> lines = profile.formula().lines();
    List<Profile.OfItem> shares = profile.values("line", Set.of("share"));
    Map<String, Profile.Value> needed = new LinkedHashMap<>();
    for (Profile.OfItem adjuster : profile.values("adjuster", Set.of("share-needed"))) {
      needed.put(adjuster.item(), adjuster.values().get(0));
    }
    Map<String, List<Entry>> entries = new LinkedHashMap<>();
    for (int i = 0; i < lines.size(); i++) {
      Line line = lines.get(i);
      String name = name(line, catalogue);
      Bounded share = shares.get(i).values().get(0).value();
      if (line.amount() instanceof Amount.ToPH) {
        Profile.Value found = needed.get(name);
        share =
            found == null
                ? Bounded.unknown(0, Share.ALL.percent(), Set.of("share of " + name))
                : found.value();
      }
      entries
          .computeIfAbsent(name, key -> new ArrayList<>())
          .add(new Entry(i, line, Shown.of("line.share", share, Unit.PERCENT)));
    }
    return entries;
  }

  private static String name(Line line, Catalogue catalogue) {
    return catalogue.find(line.name()).map(Ingredient::name).orElse(line.name());
  }

  private static LineChange change(
      Optional<Entry> first, Optional<Entry> second, Catalogue catalogue) {
    List<FieldChange> fields = new ArrayList<>();
    if (first.isPresent() && second.isPresent()) {
      Line a = first.get().line();
      Line b = second.get().line();
      FieldChange.compare(fields, "phase", phase(a), phase(b));
      FieldChange.compare(fields, "share", amount(first.get()), amount(second.get()));
      FieldChange.compare(fields, "strength", a.strength(), b.strength());
      FieldChange.compare(fields, "hydrate", a.hydrate(), b.hydrate());
      FieldChange.compare(fields, "size", a.size(), b.size());
      FieldChange.compare(fields, "grade", a.grade(), b.grade());
      FieldChange.compare(fields, "lot", a.lot(), b.lot());
    }
    return new LineChange(
        name(second.or(() -> first).orElseThrow().line(), catalogue),
        Change.of(first.isPresent(), second.isPresent(), fields.isEmpty()),
        first.map(Entry::told),
        second.map(Entry::told),
        fields);
  }

  private static Optional<String> phase(Line line) {
    return Optional.of(line.phase()).filter(phase -> !phase.isEmpty());
  }

  /** As written; of a rest and of an amount to a pH with what it comes to. */
  private static Optional<String> amount(Entry entry) {
    if (entry.line().amount() instanceof Amount.Stated stated) {
      return Optional.of(stated.share().toString());
    }
    String written = entry.line().amount() instanceof Amount.Rest ? "rest" : "to-pH";
    return Optional.of(
        entry.share().isKnown()
            ? written + " (" + Quantity.print(entry.share().likely(), Unit.PERCENT) + ")"
            : written + " (not known)");
  }

  // --- Procedure

  static List<StepChange> method(List<Step> first, List<Step> second) {
    List<StepChange> all = new ArrayList<>();
    for (Alignment.Row row : Alignment.of(first, second, Sheets::weight)) {
      Optional<Step> a = step(first, row.first());
      Optional<Step> b = step(second, row.second());
      List<FieldChange> fields =
          a.isPresent() && b.isPresent() ? fields(a.get(), b.get()) : List.of();
      all.add(
          new StepChange(
              Change.of(a.isPresent(), b.isPresent(), fields.isEmpty()),
              number(row.first()),
              a,
              number(row.second()),
              b,
              fields));
    }
    return all;
  }

  private static Optional<Step> step(List<Step> steps, int index) {
    return index == Alignment.NONE ? Optional.empty() : Optional.of(steps.get(index));
  }

  private static OptionalInt number(int index) {
    return index == Alignment.NONE ? OptionalInt.empty() : OptionalInt.of(index + 1);
  }

  /** Steps go together where the same is done to the same phase, or with the same ingredients. */
  static int weight(Step a, Step b) {
    if (a.equals(b)) {
      return EQUAL;
    }
    boolean alike =
        a.action() == b.action()
            && (a.phase().equals(b.phase()) || (!a.with().isEmpty() && a.with().equals(b.with())));
    return alike
        ? ALIKE
            + (a.with().equals(b.with()) ? SAME_INGREDIENTS : 0)
            + (a.into().equals(b.into()) ? SAME_VESSEL : 0)
        : 0;
  }

  private static List<FieldChange> fields(Step a, Step b) {
    List<FieldChange> fields = new ArrayList<>();
    FieldChange.compare(fields, "phase", a.phase(), b.phase());
    FieldChange.compare(fields, "with", a.with(), b.with());
    FieldChange.compare(fields, "into", a.into(), b.into());
    FieldChange.compare(fields, "temperature", a.temperature(), b.temperature());
    FieldChange.compare(fields, "pH", a.pH().map(Numbers::plain), b.pH().map(Numbers::plain));
    FieldChange.compare(fields, "over", a.over(), b.over());
    FieldChange.compare(fields, "for", a.lasting(), b.lasting());
    FieldChange.compare(fields, "stir", a.stir(), b.stir());
    return fields;
  }
}
