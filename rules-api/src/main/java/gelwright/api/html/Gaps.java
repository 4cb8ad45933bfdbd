package gelwright.api.html;

import gelwright.problem.Place;
import gelwright.review.Duty;
import gelwright.review.Finding;
import gelwright.review.Outcome;
import gelwright.review.Review;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * What is missing in a review, and what that leaves open.
 *
 * <p>A finding for which several things are missing stands under the one that leaves most open, so
 * that each stands once. Names that the catalogue does not know come before everything else.
 */
public final class Gaps {
  /** How it is said that an ingredient is not known. */
  private static final String WHAT = "what ";

  private static final String IS = " is";

  /** What stands before and behind a name in what is missing of it. */
  private static final String BEFORE = "(?:.* of |.* binds |what |how |row |)";

  private static final String BEHIND =
      "(?: (?:is|dissolves in|takes up .+|does to .+|binds .+|[(].+|against .+|of table .+)|)";

  /** More rules than this are counted, not named: they stand where they are listed. */
  private static final int NAMED = 6;

  private final Review review;
  private final Map<String, Pattern> strangers = new TreeMap<>();
  private final List<Gap> all = new ArrayList<>();
  private final Set<Duty> strange = new LinkedHashSet<>();

  private Gaps(Review review) {
    this.review = review;
  }

  /** The gaps of a review. */
  public static Gaps of(Review review) {
    Gaps gaps = new Gaps(review);
    gaps.find();
    return gaps;
  }

  /** What has to be known first, then names that nobody knows, then what leaves most open. */
  public List<Gap> all() {
    return List.copyOf(all);
  }

  /** The gap of names that nobody knows. */
  public Optional<Gap> strangers() {
    return all.stream().filter(Gap::isStrange).findFirst();
  }

  /** Duties but those that may apply because of a name that nobody knows. */
  public List<Duty> duties() {
    return review.duties().stream().filter(duty -> !strange.contains(duty)).toList();
  }

  private void find() {
    List<Finding> open =
        review.findings().stream()
            .filter(each -> !each.isAccepted() && each.outcome() == Outcome.UNKNOWN)
            .toList();
    Stream.concat(
            open.stream().flatMap(each -> each.missing().stream()),
            review.duties().stream().flatMap(each -> each.missing().stream()))
        .filter(Gaps::isStranger)
        .map(what -> what.substring(WHAT.length(), what.length() - IS.length()))
        .forEach(
            name -> strangers.put(name, Pattern.compile(BEFORE + Pattern.quote(name) + BEHIND)));
    review.duties().stream()
        .filter(each -> each.applies() == Outcome.MAY_APPLY)
        .filter(each -> each.missing().stream().anyMatch(what -> stranger(what).isPresent()))
        .forEach(strange::add);
    List<Finding> ofStrangers = new ArrayList<>();
    List<Finding> others = new ArrayList<>();
    for (Finding each : open) {
      boolean hangs = each.missing().stream().anyMatch(what -> stranger(what).isPresent());
      (hangs ? ofStrangers : others).add(each);
    }
    others(others)
        .forEach((about, findings) -> all.add(new Gap(about, List.of(), findings, List.of())));
    if (!strangers.isEmpty()) {
      all.add(
          new Gap(
              "",
              strangers.keySet().stream().map(name -> stranger(name, ofStrangers)).toList(),
              ofStrangers,
              List.copyOf(strange)));
    }
    all.sort(
        Comparator.comparing((Gap gap) -> gap.demanded().isEmpty())
            .thenComparing(gap -> !gap.isStrange())
            .thenComparing(gap -> -gap.findings().size()));
  }

  private static boolean isStranger(String what) {
    return what.startsWith(WHAT)
        && what.endsWith(IS)
        && what.length() > WHAT.length() + IS.length();
  }

  /** The name nobody knows that something is missing of. */
  private Optional<String> stranger(String what) {
    return strangers.entrySet().stream()
        .filter(each -> each.getValue().matcher(what).matches())
        .map(Map.Entry::getKey)
        .findFirst();
  }

  private Gap.Stranger stranger(String name, List<Finding> findings) {
    Map<String, Integer> asked = new LinkedHashMap<>();
    int alone = 0;
    for (Finding finding : findings) {
      Set<String> words = new LinkedHashSet<>();
      finding.missing().stream()
          .filter(what -> !isStranger(what) && stranger(what).filter(name::equals).isPresent())
          .map(what -> asked(name, what))
          .forEach(words::add);
      words.forEach(word -> asked.merge(word, 1, Integer::sum));
      alone +=
          finding.missing().stream()
                  .allMatch(what -> stranger(what).filter(name::equals).isPresent())
              ? 1
              : 0;
    }
    Optional<Place> where =
        review.findings().stream()
            .filter(each -> Words.name(each.subject()).equals(name) && !Words.isWhole(each))
            .map(Finding::where)
            .filter(place -> place.line() > 0)
            .findFirst();
    return new Gap.Stranger(
        name,
        where,
        asked.entrySet().stream()
            .sorted(Map.Entry.<String, Integer>comparingByValue().reversed())
            .map(Map.Entry::getKey)
            .toList(),
        alone);
  }

  /** What is asked of a name, without the name. */
  private static String asked(String name, String what) {
    String words = String.join("; ", Words.missing(List.of(what)));
    int colon = words.indexOf(": ");
    String subject = colon < 0 ? "" : words.substring(0, colon);
    return colon >= 0 && subject.contains(name)
        ? words.substring(colon + 2) + subject.replaceFirst(".*" + Pattern.quote(name), "")
        : words.replace(name, "it");
  }

  /** Findings by the one thing that is missing and leaves most open. */
  private static Map<String, List<Finding>> others(List<Finding> open) {
    Map<String, Integer> times = new TreeMap<>();
    open.forEach(each -> causes(each).forEach(cause -> times.merge(cause, 1, Integer::sum)));
    Map<String, List<Finding>> byCause = new TreeMap<>();
    for (Finding each : open) {
      String cause =
          causes(each).stream()
              .max(Comparator.comparingInt(name -> times.getOrDefault(name, 0)))
              .orElse("");
      byCause.computeIfAbsent(cause, key -> new ArrayList<>()).add(each);
    }
    return byCause;
  }

  private static Set<String> causes(Finding finding) {
    Set<String> causes = new TreeSet<>();
    finding.missing().forEach(what -> causes.add(cause(what)));
    return causes;
  }

  /** The ingredient that something is missing of, or what is missing. */
  private static String cause(String what) {
    return Words.onlyNameIn(List.of(what))
        .orElseGet(() -> String.join("; ", Words.missing(List.of(what))));
  }

  /** What is missing of what a gap is about, in words. */
  public List<String> missing(Gap gap) {
    Set<String> missing = new LinkedHashSet<>();
    gap.findings()
        .forEach(
            finding ->
                finding.missing().stream()
                    .filter(what -> gap.isOne() || isOf(gap, what))
                    .forEach(missing::add));
    return Words.missing(missing);
  }

  /** What else is missing for some findings of a gap, in words. */
  public List<String> more(Gap gap) {
    Set<String> more = new LinkedHashSet<>();
    gap.findings()
        .forEach(
            finding ->
                finding.missing().stream().filter(what -> !isOf(gap, what)).forEach(more::add));
    return Words.missing(more);
  }

  /** Duties of one rule: title, what they are about, what else is missing. */
  public String hanging(Gap gap, List<Duty> duties) {
    Set<String> subjects = new LinkedHashSet<>();
    Set<String> more = new LinkedHashSet<>();
    for (Duty duty : duties) {
      String name = Words.name(duty.subject());
      if (!name.isEmpty()) {
        subjects.add(name);
      }
      duty.missing().stream().filter(what -> !isOf(gap, what)).forEach(more::add);
    }
    return duties.get(0).title()
        + (subjects.isEmpty() ? "" : " – " + String.join("; ", subjects))
        + (more.isEmpty() ? "" : " (missing, too: " + String.join("; ", Words.missing(more)) + ")");
  }

  private boolean isOf(Gap gap, String what) {
    return gap.isStrange() ? stranger(what).isPresent() : cause(what).equals(gap.about());
  }

  /**
   * What to measure or state, each with what it would settle; things that settle the same stand
   * together. What names that nobody knows leave open stands first, in one line.
   */
  public List<String> next() {
    Map<String, String> titles = new TreeMap<>();
    review.findings().forEach(finding -> titles.putIfAbsent(finding.rule(), finding.title()));
    review.duties().forEach(duty -> titles.putIfAbsent(duty.rule(), duty.title()));
    Map<List<String>, List<String>> bySettled = new LinkedHashMap<>();
    Set<String> ofStrangers = new TreeSet<>();
    for (Review.MeasureNext next : review.measureNext()) {
      if (stranger(next.what()).isPresent()) {
        ofStrangers.addAll(next.decides());
      } else {
        bySettled.computeIfAbsent(next.decides(), key -> new ArrayList<>()).add(next.what());
      }
    }
    List<String> lines = new ArrayList<>();
    if (!ofStrangers.isEmpty()) {
      lines.add(
          "What "
              + String.join(", ", strangers.keySet())
              + (strangers.size() == 1 ? " is" : " are")
              + " – would settle: "
              + Told.count(ofStrangers.size(), "rule"));
    }
    bySettled.forEach(
        (rules, what) -> {
          List<String> named =
              rules.stream()
                  .limit(rules.size() > NAMED ? NAMED - 1 : NAMED)
                  .map(rule -> titles.getOrDefault(rule, rule))
                  .toList();
          int more = rules.size() - named.size();
          lines.add(
              String.join("; ", Words.missing(what))
                  + (named.isEmpty() ? "" : " – would settle: " + String.join("; ", named))
                  + (more > 0 ? " and " + more + " more" : ""));
        });
    return lines;
  }
}
