package gelwright.labelling;

import gelwright.review.Shown;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * The order of an ingredient list: what is at 1 % or more from most to least, then what is below in
 * any order (here from most to least too), then colourants in any order – Regulation (EC) No
 * 1223/2009, Article 19(1)(g).
 *
 * <p>Shares have ranges. An entry stands by its likely share; where the ranges of two neighbours
 * overlap and one of them is at 1 % or more, or where a range reaches over 1 %, the order is said
 * to be in doubt.
 */
final class Order {
  /** From this share on the order counts, %. */
  static final double ONE_PERCENT = 1;

  private static final Comparator<LabelDraft.Entry> BY_SHARE =
      Comparator.comparingDouble((LabelDraft.Entry entry) -> entry.share().likely()).reversed();

  private Order() {}

  /** Where an entry that is no colourant and no allergen stands. */
  static LabelDraft.Part part(Shown share) {
    if (!share.isKnown()) {
      return LabelDraft.Part.NOT_KNOWN;
    }
    if (share.low() >= ONE_PERCENT) {
      return LabelDraft.Part.FROM_ONE_PERCENT;
    }
    return share.high() < ONE_PERCENT
        ? LabelDraft.Part.BELOW_ONE_PERCENT
        : LabelDraft.Part.ABOUT_ONE_PERCENT;
  }

  /** The entries in the order of the list; equal shares stay in the order of the recipe. */
  static List<LabelDraft.Entry> sorted(List<LabelDraft.Entry> entries) {
    List<LabelDraft.Entry> sorted = new ArrayList<>();
    entries.stream()
        .filter(
            entry ->
                entry.part() == LabelDraft.Part.FROM_ONE_PERCENT
                    || entry.part() == LabelDraft.Part.ABOUT_ONE_PERCENT
                    || entry.part() == LabelDraft.Part.BELOW_ONE_PERCENT)
        .sorted(BY_SHARE)
        .forEach(sorted::add);
    for (LabelDraft.Part part :
        List.of(LabelDraft.Part.ALLERGEN, LabelDraft.Part.NOT_KNOWN, LabelDraft.Part.COLOURANT)) {
      entries.stream().filter(entry -> entry.part() == part).forEach(sorted::add);
    }
    return List.copyOf(sorted);
  }

  /** Where the order is not certain, in sentences. */
  static List<String> doubts(List<LabelDraft.Entry> sorted) {
    List<String> doubts = new ArrayList<>();
    for (LabelDraft.Entry entry : sorted) {
      if (entry.part() == LabelDraft.Part.ABOUT_ONE_PERCENT) {
        doubts.add(
            entry.name()
                + " may be at 1 % or below: where it stands among its neighbours may count.");
      }
      if (entry.part() == LabelDraft.Part.NOT_KNOWN) {
        doubts.add(entry.name() + ": its share is not known, so its place is not.");
      }
    }
    equals(sorted, doubts);
    for (int i = 0; i < sorted.size(); i++) {
      for (int j = i + 1; j < sorted.size(); j++) {
        overlap(sorted.get(i), sorted.get(j)).ifPresent(doubts::add);
      }
    }
    return List.copyOf(doubts);
  }

  /** Runs of equal shares at 1 % or more. */
  private static void equals(List<LabelDraft.Entry> sorted, List<String> doubts) {
    int from = 0;
    while (from < sorted.size()) {
      int to = from + 1;
      while (to < sorted.size() && equal(sorted.get(from), sorted.get(to))) {
        to++;
      }
      if (to - from > 1) {
        List<String> names = sorted.subList(from, to).stream().map(LabelDraft.Entry::name).toList();
        doubts.add(
            String.join(", ", names.subList(0, names.size() - 1))
                + " and "
                + names.get(names.size() - 1)
                + " are equal: any of them may stand first.");
      }
      from = to;
    }
  }

  private static boolean equal(LabelDraft.Entry one, LabelDraft.Entry other) {
    return isShare(one)
        && isShare(other)
        && one.share().likely() == other.share().likely()
        && one.share().likely() >= ONE_PERCENT;
  }

  private static Optional<String> overlap(LabelDraft.Entry before, LabelDraft.Entry after) {
    boolean counts =
        isShare(before)
            && isShare(after)
            && after.share().high() >= ONE_PERCENT
            && !equal(before, after);
    return counts && after.share().high() > before.share().low()
        ? Optional.of(
            before.name()
                + " stands before "
                + after.name()
                + " by its likely share; their ranges overlap, so it may be the other way round.")
        : Optional.empty();
  }

  private static boolean isShare(LabelDraft.Entry entry) {
    return entry.part() == LabelDraft.Part.FROM_ONE_PERCENT
        || entry.part() == LabelDraft.Part.ABOUT_ONE_PERCENT
        || entry.part() == LabelDraft.Part.BELOW_ONE_PERCENT;
  }
}
