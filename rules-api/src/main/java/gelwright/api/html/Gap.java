package gelwright.api.html;

import static java.util.Objects.requireNonNull;

import gelwright.problem.Place;
import gelwright.review.Duty;
import gelwright.review.Finding;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Something that is missing, and all that it leaves open. Names that the catalogue does not know
 * are one gap: behind each of them may stand anything, so that most rules ask for all of them.
 *
 * @param about the ingredient that something is missing of, or what is missing; empty where nobody
 *     said
 * @param strangers names that the catalogue does not know; empty for every other gap
 * @param findings that could not be checked, in the order of the review
 * @param duties of which it is not known whether they apply; empty where no stranger is to blame
 */
public record Gap(
    String about, List<Stranger> strangers, List<Finding> findings, List<Duty> duties) {
  /** More rules than this are told by their ids, or folded. */
  public static final int FEW = 8;

  /** What can be done about names that are not known. */
  private static final String ADVICE =
      "If a name is misspelt, correct it; its finding tells the nearest one known. If it is a raw"
          + " material of your own, write what you know of it into an ingredient sheet and give the"
          + " sheet's folder with --ingredients: what it is used for, its charge and what it"
          + " dissolves in let most of these rules run. See docs/guide/house-rules.md, Own"
          + " ingredients.";

  public Gap {
    requireNonNull(about, "about");
    strangers = List.copyOf(strangers);
    findings = List.copyOf(findings);
    duties = List.copyOf(duties);
  }

  /**
   * A name that the catalogue does not know.
   *
   * @param name as written
   * @param where in the sheet; empty where no finding says
   * @param asked what rules want to know of it, most often asked first
   * @param alone how many checks no other missing thing leaves open
   */
  public record Stranger(String name, Optional<Place> where, List<String> asked, int alone) {
    public Stranger {
      asked = List.copyOf(asked);
    }

    /** The name with its line. */
    public String words() {
      return name + where.map(place -> " (line " + place.line() + ")").orElse("");
    }
  }

  /** What some findings are about, where the title of the gap does not say it already. */
  public Set<String> subjects(List<Finding> of) {
    Set<String> subjects = new LinkedHashSet<>();
    for (Finding finding : of) {
      String name = Words.name(finding.subject());
      boolean said =
          name.equals(about) || (strangers.size() == 1 && name.equals(strangers.get(0).name()));
      if (!name.isEmpty() && !said) {
        subjects.add(name);
      }
    }
    return subjects;
  }

  /** Whether names that nobody knows are the gap. */
  public boolean isStrange() {
    return !strangers.isEmpty();
  }

  /** What is missing, as a title. */
  public String title() {
    return isStrange()
        ? named(strangers.stream().map(Stranger::name).toList())
            + (strangers.size() == 1 ? " is" : " are")
            + " not in the catalogue"
        : about.isEmpty() ? "Checks open" : Told.capital(about);
  }

  private static String named(List<String> names) {
    int last = names.size() - 1;
    return last == 0
        ? names.get(0)
        : String.join(", ", names.subList(0, last)) + " and " + names.get(last);
  }

  /**
   * How much it leaves open; the checks are more than the rules where a rule looks at many things.
   */
  public String extent() {
    int rules = byRule().size();
    return Told.count(rules, "rule")
        + " could not be checked"
        + (findings.size() == rules ? "" : ", " + Told.count(findings.size(), "check") + " in all");
  }

  /** The same as a sentence. */
  public String because() {
    return (isStrange() ? "Because of that " : "") + extent() + ".";
  }

  /** What a reader can do about it; empty where the title says it. */
  public String advice() {
    return isStrange() ? ADVICE : "";
  }

  /** On what duties hang. */
  public String hanging() {
    return "depending on what "
        + named(strangers.stream().map(Stranger::name).toList())
        + (strangers.size() == 1 ? " is" : " are");
  }

  /** What rules ask of each name, and how much hangs on it alone where there are several. */
  public List<String> asked() {
    List<String> lines = new ArrayList<>();
    for (Stranger stranger : strangers) {
      List<String> parts = new ArrayList<>();
      if (!stranger.asked().isEmpty()) {
        parts.add(String.join(", ", stranger.asked()));
      }
      if (strangers.size() > 1) {
        parts.add(Told.count(stranger.alone(), "check") + " for want of this name alone");
      }
      lines.add(stranger.words() + (parts.isEmpty() ? "" : ": " + String.join("; ", parts)));
    }
    return lines;
  }

  /** The findings of each rule, in the order of the review. */
  public Map<String, List<Finding>> byRule() {
    Map<String, List<Finding>> byRule = new LinkedHashMap<>();
    for (Finding finding : findings) {
      byRule.computeIfAbsent(finding.rule(), key -> new ArrayList<>()).add(finding);
    }
    return byRule;
  }

  /** What is to be said of findings that have to be known; empty where there are none. */
  public String known() {
    Set<String> rules = demanded();
    return rules.isEmpty()
        ? ""
        : isOne()
            ? "This has to be known: it counts as broken until it is."
            : "What has to be known counts as broken until it is: "
                + String.join(", ", rules)
                + ".";
  }

  /** The rules of findings that have to be known. */
  public Set<String> demanded() {
    Set<String> rules = new LinkedHashSet<>();
    findings.stream().filter(Finding::mustBeKnown).map(Finding::rule).forEach(rules::add);
    return rules;
  }

  /** Whether it is one finding, which can be told in full. */
  public boolean isOne() {
    return findings.size() == 1 && !isStrange();
  }
}
