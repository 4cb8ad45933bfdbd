package gelwright.review;

import gelwright.ingredient.Catalogue;
import gelwright.ingredient.Ingredient;
import gelwright.profile.Profile;
import gelwright.rule.Alike;
import gelwright.rule.CompiledRule;
import gelwright.rule.Subject;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Asks rules that go through tables, each row that the recipe has an ingredient of, and of the
 * others one of each kind: the same becomes of all that are {@linkplain Alike alike}. Immutable and
 * thread-safe.
 */
final class Rows {
  private final Map<CompiledRule, Alike> tables = new HashMap<>();
  // Which rows name an ingredient, by its INCI name.
  private final Map<String, List<Row>> byName = new HashMap<>();

  private record Row(CompiledRule rule, int number) {}

  Rows(List<CompiledRule> rules, Catalogue catalogue) {
    for (CompiledRule rule : rules) {
      Optional<Alike> alike = rule.alike();
      if (alike.isEmpty()) {
        continue;
      }
      tables.put(rule, alike.get());
      for (int row = 0; row < alike.get().rows(); row++) {
        for (String name : alike.get().named(row)) {
          String meant = catalogue.find(name).map(Ingredient::name).orElse(name);
          byName.computeIfAbsent(meant, key -> new ArrayList<>()).add(new Row(rule, row));
        }
      }
    }
  }

  /** For one formula. */
  Asking of(Profile facts) {
    return new Asking(facts);
  }

  /** One formula, of which all rules are asked. Not thread-safe. */
  final class Asking {
    private final Map<CompiledRule, BitSet> touched = new HashMap<>();

    private Asking(Profile facts) {
      for (String ingredient : facts.ingredients()) {
        for (Row row : byName.getOrDefault(ingredient, List.of())) {
          touched.computeIfAbsent(row.rule(), key -> new BitSet()).set(row.number());
        }
      }
    }

    /**
     * A rule, which is to be asked of its subjects in their order.
     *
     * @param facts of the formula, whatever became of its acceptances
     */
    OfRule of(CompiledRule rule, Profile facts) {
      @Nullable Alike alike = facts.knowsAllIngredients() ? tables.get(rule) : null;
      return new OfRule(rule, facts, alike, touched.get(rule));
    }
  }

  /** One rule asked of a formula. */
  static final class OfRule {
    private final CompiledRule rule;
    private final Profile facts;
    private final @Nullable Alike alike;
    private final @Nullable BitSet touched;
    private final Judge.@Nullable Judged[] byCondition;
    private final Judge.@Nullable Judged[] byOutcome;

    private OfRule(
        CompiledRule rule, Profile facts, @Nullable Alike alike, @Nullable BitSet touched) {
      this.rule = rule;
      this.facts = facts;
      this.alike = alike;
      this.touched = touched;
      int rows = alike == null ? 0 : alike.rows();
      this.byCondition = new Judge.@Nullable Judged[rows];
      this.byOutcome = new Judge.@Nullable Judged[rows];
    }

    /**
     * What becomes of the rule for a subject.
     *
     * @param number which of the rule's subjects it is
     */
    Judge.Judged judged(int number, Subject subject) {
      if (alike == null || (touched != null && touched.get(number))) {
        return Reviewer.judged(rule, facts, subject);
      }
      Judge.Judged known = byCondition[alike.condition(number)];
      if (known == null) {
        known = byOutcome[alike.outcome(number)];
      }
      if (known != null) {
        return known;
      }
      Judge.Judged judged = Reviewer.judged(rule, facts, subject);
      switch (judged.outcome()) {
        // The condition alone decides these.
        case NOT_APPLICABLE, DOES_NOT_APPLY -> byCondition[alike.condition(number)] = judged;
        case HOLDS -> byOutcome[alike.outcome(number)] = judged;
        default -> {
          // What is missing may have another name in each row.
        }
      }
      return judged;
    }
  }
}
