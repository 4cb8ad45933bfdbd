package gelwright.api.html;

import static java.util.Objects.requireNonNull;

import gelwright.rule.Trace;
import java.util.List;
import java.util.Optional;

/**
 * The printed report of reviews: what its template lays out. Made by {@link Reports}, written by
 * {@link Pages}.
 *
 * @param page what stands around it
 * @param library all formulas at a glance; empty where there is only one
 * @param unread files that could not be read, each with why
 * @param parts one for each formula
 * @param references all sources cited, in the order of their numbers
 * @param standings what the words beside sources mean
 */
public record Report(
    Page page,
    Optional<Library> library,
    List<String> unread,
    List<Part> parts,
    List<Reference> references,
    List<String> standings) {
  public Report {
    requireNonNull(page, "page");
    requireNonNull(library, "library");
    unread = List.copyOf(unread);
    parts = List.copyOf(parts);
    references = List.copyOf(references);
    standings = List.copyOf(standings);
  }

  /** Level of the headings of a part: its own heading is one above where there are several. */
  public int level() {
    return library.isPresent() ? 3 : 2;
  }

  /**
   * Many formulas at a glance.
   *
   * @param rows one for each formula
   * @param totals one sentence
   * @param commonest rules that most formulas break, most first
   */
  public record Library(List<Row> rows, String totals, List<Common> commonest) {
    public Library {
      rows = List.copyOf(rows);
      requireNonNull(totals, "totals");
      commonest = List.copyOf(commonest);
    }
  }

  /** A formula of a library; {@code id} is that of its part. */
  public record Row(
      String id,
      String file,
      String formula,
      String outcome,
      int errors,
      int warnings,
      int notes,
      int open) {}

  /** A rule that speaks often: where, and why it matters. */
  public record Common(String title, String rule, String times, String lesson, List<Cite> cites) {
    public Common {
      cites = List.copyOf(cites);
    }
  }

  /** Sources of one standing, by their numbers; the words are empty for what can be looked up. */
  public record Cite(String standing, List<Integer> numbers) {
    public Cite {
      numbers = List.copyOf(numbers);
    }
  }

  /** A source in the list at the end. */
  public record Reference(int number, String standing, String citation) {}

  /**
   * The report of one formula.
   *
   * @param id unique in the page
   * @param name of the formula
   * @param about version, file, day
   * @param verdict in one sentence
   * @param unnamed the names that the catalogue does not know; empty where it knows all
   * @param because how much they leave open
   * @param counts what came out, by kind
   * @param glance every finding that stands against it, the worst first
   * @param brief what it is meant to be
   * @param made what it is made with
   * @param recipe phase, ingredient, share, mass
   * @param recipeNotes what is to be said of the recipe
   * @param method steps; none where the sheet has none
   * @param topics what breaks or is borderline, by what it is about
   * @param open what could not be checked
   * @param unlisted what else could not be checked
   * @param accepted findings somebody has taken responsibility for
   * @param duties what has to be done
   * @param hangingDuties what may have to be done, depending on names that nobody knows
   * @param cautions what can hurt
   * @param hangingCautions what may hurt, depending on names that nobody knows
   * @param next what to measure or state
   * @param headroom how far each number can move; empty where it was not asked for
   * @param pictures curves
   * @param undrawn curves that are not known, each with what is missing
   * @param switchedOff rules a house switched off, with its reason
   * @param asked what was left out since it was not asked for; empty where nothing was
   * @param counted how many rules ran and what came out
   * @param rests what the review rests on
   * @param hash of the formula
   */
  public record Part(
      String id,
      String name,
      String about,
      String verdict,
      String unnamed,
      String because,
      List<Count> counts,
      List<Glance> glance,
      Paper.Facts brief,
      Paper.Facts made,
      Paper.Table recipe,
      List<String> recipeNotes,
      List<String> method,
      List<Topic> topics,
      List<Open> open,
      List<String> unlisted,
      List<Saying> accepted,
      List<Saying> duties,
      Optional<Hanging> hangingDuties,
      List<Saying> cautions,
      Optional<Hanging> hangingCautions,
      List<String> next,
      Optional<Room> headroom,
      List<Paper.Picture> pictures,
      List<String> undrawn,
      List<String> switchedOff,
      String asked,
      String counted,
      String rests,
      String hash) {
    public Part {
      counts = List.copyOf(counts);
      glance = List.copyOf(glance);
      recipeNotes = List.copyOf(recipeNotes);
      method = List.copyOf(method);
      topics = List.copyOf(topics);
      open = List.copyOf(open);
      unlisted = List.copyOf(unlisted);
      accepted = List.copyOf(accepted);
      duties = List.copyOf(duties);
      cautions = List.copyOf(cautions);
      next = List.copyOf(next);
      pictures = List.copyOf(pictures);
      undrawn = List.copyOf(undrawn);
      switchedOff = List.copyOf(switchedOff);
    }

    /** Whether there is a scale to be explained. */
    public boolean hasScale() {
      return topics.stream()
          .flatMap(topic -> topic.cards().stream())
          .flatMap(card -> card.items().stream())
          .anyMatch(item -> item.scale().isPresent());
    }
  }

  /** How many of a kind there are. */
  public record Count(int number, String word) {}

  /** A line of the overview; {@code id} is that of the card. */
  public record Glance(String level, String outcome, String title, String id) {}

  /** Findings about one thing that a teacher cares about. */
  public record Topic(String name, List<Card> cards) {
    public Topic {
      cards = List.copyOf(cards);
    }
  }

  /**
   * Findings of one rule.
   *
   * @param id unique in the page
   * @param level note, warning or error
   * @param outcome breaks or borderline
   * @param title what is wrong, in a few words
   * @param items one for each subject
   * @param shared what is to be said of all of them; may be empty
   * @param settle what measurement would settle it; may be empty
   * @param remedies what would put it right
   * @param lesson why it matters; may be empty
   * @param cites sources
   * @param rule full id
   * @param place in the sheet
   * @param traces how the outcomes came about, when asked for
   */
  public record Card(
      String id,
      String level,
      String outcome,
      String title,
      List<Item> items,
      String shared,
      String settle,
      List<Remedied> remedies,
      String lesson,
      List<Cite> cites,
      String rule,
      String place,
      List<Trace> traces) {
    public Card {
      items = List.copyOf(items);
      remedies = List.copyOf(remedies);
      cites = List.copyOf(cites);
      traces = List.copyOf(traces);
    }
  }

  /** One finding: what it is about (empty for the whole), what is wrong, how sure that is. */
  public record Item(String about, String message, String odds, Optional<Scale> scale) {}

  /** A remedy, or why there is none; {@code name} says which. */
  public record Remedied(String name, String text) {}

  /**
   * What one missing thing leaves open.
   *
   * @param level of the worst finding
   * @param outcome how many checks
   * @param title what is missing, or the one check it leaves open
   * @param because how much it leaves open; empty where the title says it
   * @param advice what can be done about it; empty where that is plain
   * @param asked what is asked of each name that nobody knows
   * @param missing what is missing; empty where {@code asked} says it
   * @param more what is missing, too, for some of the checks; may be empty
   * @param known what is to be said of checks that have to be known; may be empty
   * @param checks the rules, by what they are about; empty for one rule, which is told in full
   * @param folded whether the rules are too many to be read at once
   * @param lesson why one rule matters; empty for several
   * @param cites sources of one rule
   * @param rule full id of one rule; empty for several
   * @param place of one rule in the sheet; empty for several
   * @param traces how the outcomes came about, when asked for
   */
  public record Open(
      String level,
      String outcome,
      String title,
      String because,
      String advice,
      List<String> asked,
      String missing,
      String more,
      String known,
      List<Checks> checks,
      boolean folded,
      String lesson,
      List<Cite> cites,
      String rule,
      String place,
      List<Trace> traces) {
    public Open {
      asked = List.copyOf(asked);
      checks = List.copyOf(checks);
      cites = List.copyOf(cites);
      traces = List.copyOf(traces);
    }
  }

  /** Rules about one thing that could not be checked; {@code count} says how many. */
  public record Checks(String topic, String count, List<Saying> rules) {
    public Checks {
      rules = List.copyOf(rules);
    }
  }

  /** What may apply, depending on what is missing; {@code on} says on what. */
  public record Hanging(String on, List<Saying> sayings) {
    public Hanging {
      sayings = List.copyOf(sayings);
    }
  }

  /** A sentence with its sources and its rule. */
  public record Saying(String text, List<Cite> cites, String rule) {
    public Saying {
      cites = List.copyOf(cites);
    }
  }

  /** How far each number can move. */
  public record Room(String words, List<Paper.Block> blocks) {
    public Room {
      blocks = List.copyOf(blocks);
    }
  }
}
