package gelwright.labelling;

import static java.util.Objects.requireNonNull;

import gelwright.ingredient.Source;
import gelwright.problem.Place;
import gelwright.review.Editions;
import gelwright.review.Outcome;
import gelwright.review.Shown;
import gelwright.rule.Severity;
import java.util.List;
import java.util.Optional;

/**
 * A draft of a label with what is missing. Not a label: it has to be checked by whoever answers for
 * the product.
 *
 * @param formula name of the formula
 * @param version of the formula; empty when the sheet has none
 * @param editions what it rests on, with the date it was made for
 * @param covered markets of the sheet that the draft covers
 * @param notCovered markets of the sheet that it does not cover
 * @param entries the ingredient list in its order
 * @param doubts where the order of the list is not certain
 * @param statements what the label has to say, or may have to
 * @param fields what else stands on the pack
 * @param durability whether it carries a date or a period after opening
 * @param precautions cautions for the user that the label may carry
 * @param concerns what the review says against the product or against the label on the sheet
 * @param remarks on the draft as a whole
 * @param unknown what is not known
 * @param place of the formula sheet
 */
public record LabelDraft(
    String formula,
    String version,
    Editions editions,
    List<String> covered,
    List<String> notCovered,
    List<Entry> entries,
    List<String> doubts,
    List<Statement> statements,
    List<Field> fields,
    Durability durability,
    List<Statement> precautions,
    List<Concern> concerns,
    List<String> remarks,
    List<String> unknown,
    Place place) {
  public LabelDraft {
    requireNonNull(formula, "formula");
    requireNonNull(version, "version");
    requireNonNull(editions, "editions");
    requireNonNull(durability, "durability");
    requireNonNull(place, "place");
    covered = List.copyOf(covered);
    notCovered = List.copyOf(notCovered);
    entries = List.copyOf(entries);
    doubts = List.copyOf(doubts);
    statements = List.copyOf(statements);
    fields = List.copyOf(fields);
    precautions = List.copyOf(precautions);
    concerns = List.copyOf(concerns);
    remarks = List.copyOf(remarks);
    unknown = List.copyOf(unknown);
  }

  /** The list as it would be printed, in the words of the draft. */
  public String list() {
    return String.join(", ", entries.stream().map(Entry::name).toList());
  }

  /** Where in the list an entry stands, and why. */
  public enum Part {
    /** At 1 % or more, from most to least. */
    FROM_ONE_PERCENT,
    /** It may be at 1 % or not. */
    ABOUT_ONE_PERCENT,
    /** Below 1 %, where the order is free. */
    BELOW_ONE_PERCENT,
    /** An allergen that has to be named beside the perfume. */
    ALLERGEN,
    /** A colourant, behind everything else. */
    COLOURANT,
    /** Its share is not known, and so is its place. */
    NOT_KNOWN
  }

  /**
   * An entry.
   *
   * @param name as printed
   * @param part of the list
   * @param share of the product
   * @param from names of the lines that bring it
   * @param remarks on it
   */
  public record Entry(
      String name, Part part, Shown share, List<String> from, List<String> remarks) {
    public Entry {
      requireNonNull(name, "name");
      requireNonNull(part, "part");
      requireNonNull(share, "share");
      from = List.copyOf(from);
      remarks = List.copyOf(remarks);
    }
  }

  /**
   * Something that the label has to say.
   *
   * @param rule full id of the duty
   * @param title a few words
   * @param words any one of these, where the law fixes the words; empty where it does not
   * @param message what to do
   * @param sure false where it may apply
   * @param missing what is missing to be sure
   * @param sources of the duty
   */
  public record Statement(
      String rule,
      String title,
      List<String> words,
      String message,
      boolean sure,
      List<String> missing,
      List<Source> sources) {
    public Statement {
      words = List.copyOf(words);
      missing = List.copyOf(missing);
      sources = List.copyOf(sources);
    }
  }

  /**
   * Something else that stands on the pack.
   *
   * @param name of the field
   * @param clause that asks for it
   * @param value what the sheet tells of it; empty where it is missing
   * @param asks what is to be filled in
   * @param sources of the field
   */
  public record Field(
      String name, String clause, Optional<String> value, String asks, List<Source> sources) {
    public Field {
      sources = List.copyOf(sources);
    }
  }

  /** How the pack says how long the product keeps. */
  public enum Durability {
    /** A date of minimum durability: it keeps 30 months or less. */
    BEST_BEFORE,
    /** A period after opening: it keeps longer. */
    AFTER_OPENING,
    /** Not known while the shelf life is not stated. */
    NOT_KNOWN
  }

  /**
   * A finding of the rule sets for law and label.
   *
   * @param rule full id
   * @param title of the rule
   * @param level it is reported at
   * @param outcome of the rule
   * @param message what is wrong
   */
  public record Concern(
      String rule, String title, Severity level, Outcome outcome, String message) {}
}
