package gelwright.rule;

import static java.util.Objects.requireNonNull;

import gelwright.problem.Problem;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Compiled rule sets: every name looked up, every type and dimension checked. Immutable, shared by
 * all threads.
 */
public final class RuleBook {
  private final List<CompiledRule> rules;
  private final Map<String, CompiledRule> byId;
  private final SortedMap<String, String> switchedOff;
  private final SortedMap<String, String> editions;
  private final SortedMap<String, Table> tables;

  RuleBook(
      List<CompiledRule> rules,
      Map<String, CompiledRule> byId,
      Map<String, String> switchedOff,
      Map<String, String> editions,
      Map<String, Table> tables) {
    this.rules = List.copyOf(rules);
    this.byId = Map.copyOf(byId);
    this.switchedOff = sorted(switchedOff);
    this.editions = sorted(editions);
    this.tables = sorted(tables);
  }

  private static <V> SortedMap<String, V> sorted(Map<String, V> map) {
    return Collections.unmodifiableSortedMap(new TreeMap<>(map));
  }

  /**
   * Parses, checks and compiles rule sets. All problems are collected; there is a book only where
   * there are none.
   *
   * @param sets in the order their rules are to be reported
   * @param vocabulary what rules can read
   * @param sources ids of the sources there are
   */
  public static Compilation compile(
      List<RuleSet> sets, Vocabulary vocabulary, Set<String> sources) {
    SoundPart part = soundPart(sets, vocabulary, sources);
    return new Compilation(
        part.problems().isEmpty() ? Optional.of(part.book()) : Optional.empty(), part.problems());
  }

  /**
   * The sound rules of rule sets that may have problems, for one who mends them and wants to know
   * meanwhile whether the other rules do what they should. No formula may be reviewed with it: a
   * rule that is not there cannot break. {@link #compile} is for that.
   *
   * <p>Left out is each rule that has a problem itself, shares its id, is changed by a change that
   * has one, or mentions a table that has one.
   *
   * @param sets in the order their rules are to be reported
   * @param vocabulary what rules can read
   * @param sources ids of the sources there are
   */
  public static SoundPart soundPart(
      List<RuleSet> sets, Vocabulary vocabulary, Set<String> sources) {
    BookReader reader = new BookReader(sets, vocabulary, sources);
    RuleBook book = reader.read();
    return new SoundPart(
        book, reader.problems().stream().distinct().sorted(Problem.IN_ORDER).toList());
  }

  /**
   * The sound part of rule sets.
   *
   * @param book the sound rules; all of them where there are no problems
   * @param problems all of them, in the order of the documents
   */
  public record SoundPart(RuleBook book, List<Problem> problems) {
    public SoundPart {
      requireNonNull(book, "book");
      problems = List.copyOf(problems);
    }
  }

  /** The rules in the order of their sets, without those switched off. */
  public List<CompiledRule> rules() {
    return rules;
  }

  /** A rule by its full id or an earlier one; also empty for one that is switched off. */
  public Optional<CompiledRule> rule(String id) {
    return Optional.ofNullable(byId.get(id));
  }

  /** Full ids of the rules a house switched off, with the reason. */
  public SortedMap<String, String> switchedOff() {
    return switchedOff;
  }

  /** The edition of each rule set by its id. */
  public SortedMap<String, String> editions() {
    return editions;
  }

  /**
   * Rows of the table of this name, then of every other table whose name ends in it: {@code
   * stability-tests}, {@code house-stability-tests}. None where there is no such table.
   */
  public List<Table.Row> rowsOf(String name) {
    List<Table.Row> rows = new ArrayList<>();
    Table first = tables.get(name);
    if (first != null) {
      rows.addAll(first.rows());
    }
    tables.forEach(
        (other, table) -> {
          if (other.endsWith("-" + name)) {
            rows.addAll(table.rows());
          }
        });
    return List.copyOf(rows);
  }

  /** All tables by name. */
  public SortedMap<String, Table> tables() {
    return tables;
  }
}
