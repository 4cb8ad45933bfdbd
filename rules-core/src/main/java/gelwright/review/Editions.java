package gelwright.review;

import gelwright.formula.Formula;
import java.time.LocalDate;
import java.util.Collections;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * What a review rests on: with these and the same formula it can be repeated byte for byte.
 *
 * @param engine version of the engine
 * @param ruleSets edition by rule set
 * @param on date the formula was reviewed for
 * @param formulaSha256 hash of the formula's content; spelling and layout of the sheet do not
 *     matter
 */
public record Editions(
    String engine, SortedMap<String, String> ruleSets, LocalDate on, String formulaSha256) {
  public Editions {
    ruleSets = Collections.unmodifiableSortedMap(new TreeMap<>(ruleSets));
  }

  /** The editions of what this knowledge tells of a formula on a day. */
  public static Editions of(Knowledge knowledge, Formula formula, LocalDate on) {
    return new Editions(Engine.VERSION, knowledge.rules().editions(), on, Fingerprint.of(formula));
  }
}
