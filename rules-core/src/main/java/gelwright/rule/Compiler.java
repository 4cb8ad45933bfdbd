package gelwright.rule;

import static java.util.Objects.requireNonNull;

import gelwright.quantity.Bounded;
import gelwright.quantity.Odds;
import gelwright.quantity.Unit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * Turns checked terms into closures. Parts without inputs are computed once; {@code and} and {@code
 * or} leave off as soon as the rest cannot matter. That changes no result: a part that settles a
 * condition settles its odds at 0 or 1 and drops what the others miss ({@link Truth#and}).
 *
 * <p>A requirement is compiled a second time into an assessment that looks at every part, because
 * it also tells which comparison counts and what was missing without mattering.
 */
final class Compiler {
  private static final Set<String> NOTHING = Set.of();

  private Compiler() {}

  /** A number in the base unit. */
  @FunctionalInterface
  interface NumberCode {
    Bounded of(Facts facts, Subject subject);
  }

  /** A name or several. */
  @FunctionalInterface
  interface NamesCode {
    Chosen of(Facts facts, Subject subject);
  }

  /** A condition. */
  @FunctionalInterface
  interface TruthCode {
    Truth of(Facts facts, Subject subject);
  }

  /** A requirement with what a report tells of it. */
  @FunctionalInterface
  interface AssessmentCode {
    Assessment of(Facts facts, Subject subject);
  }

  @FunctionalInterface
  private interface ArgumentCode {
    Facts.Argument of(Facts facts, Subject subject);
  }

  /** A part without inputs. */
  private record FixedNumber(Bounded value) implements NumberCode {
    @Override
    public Bounded of(Facts facts, Subject subject) {
      return value;
    }
  }

  private record FixedNames(Chosen value) implements NamesCode {
    @Override
    public Chosen of(Facts facts, Subject subject) {
      return value;
    }
  }

  private record FixedTruth(Truth value) implements TruthCode {
    @Override
    public Truth of(Facts facts, Subject subject) {
      return value;
    }
  }

  // Numbers

  static NumberCode number(Term.OfNumber term) {
    if (term instanceof Term.Constant constant) {
      return new FixedNumber(Bounded.exact(constant.base()));
    }
    if (term instanceof Term.NumberProperty property) {
      int slot = property.property().slot();
      return property.scope() == Term.Scope.FORMULA
          ? (facts, subject) -> facts.number(slot)
          : (facts, subject) -> subject.itemFacts().number(slot);
    }
    if (term instanceof Term.NumberColumn column) {
      Map<String, Bounded> cells = Cells.numbers(column.table(), column.column());
      return (facts, subject) -> Judgement.cell(cells, subject);
    }
    if (term instanceof Term.NumberLookup lookup) {
      Map<String, Bounded> cells = Cells.numbers(lookup.table(), lookup.column());
      Table table = lookup.table();
      NamesCode key = names(lookup.key());
      if (key instanceof FixedNames fixed) {
        return new FixedNumber(Judgement.number(table, cells, fixed.value()));
      }
      return (facts, subject) -> Judgement.number(table, cells, key.of(facts, subject));
    }
    if (term instanceof Term.NumberCall call) {
      return call(call);
    }
    if (term instanceof Term.Negative negative) {
      NumberCode operand = number(negative.operand());
      return operand instanceof FixedNumber fixed
          ? new FixedNumber(fixed.value().negated())
          : (facts, subject) -> operand.of(facts, subject).negated();
    }
    if (term instanceof Term.Extreme extreme) {
      NumberCode left = number(extreme.left());
      NumberCode right = number(extreme.right());
      NumberCode code =
          extreme.smaller()
              ? (facts, subject) -> left.of(facts, subject).min(right.of(facts, subject))
              : (facts, subject) -> left.of(facts, subject).max(right.of(facts, subject));
      return fold(code, left, right);
    }
    Term.Arithmetic arithmetic = (Term.Arithmetic) term;
    NumberCode left = number(arithmetic.left());
    NumberCode right = number(arithmetic.right());
    NumberCode code =
        switch (arithmetic.operator()) {
          case PLUS -> (facts, subject) -> left.of(facts, subject).plus(right.of(facts, subject));
          case MINUS -> (facts, subject) -> left.of(facts, subject).minus(right.of(facts, subject));
          case TIMES -> (facts, subject) -> left.of(facts, subject).times(right.of(facts, subject));
          case DIVIDE ->
              (facts, subject) -> left.of(facts, subject).dividedBy(right.of(facts, subject));
        };
    return fold(code, left, right);
  }

  private static NumberCode fold(NumberCode code, NumberCode left, NumberCode right) {
    return left instanceof FixedNumber && right instanceof FixedNumber
        ? new FixedNumber(code.of(NoFacts.NONE, Subject.NONE))
        : code;
  }

  private static NumberCode call(Term.NumberCall call) {
    int slot = call.function().slot();
    List<ArgumentCode> codes = new ArrayList<>();
    boolean fixed = true;
    for (Term argument : call.arguments()) {
      if (argument instanceof Term.OfNumber number) {
        NumberCode code = number(number);
        fixed &= code instanceof FixedNumber;
        codes.add((facts, subject) -> new Facts.Argument.Number(code.of(facts, subject)));
      } else {
        NamesCode code = names((Term.OfNames) argument);
        fixed &= code instanceof FixedNames;
        boolean lasting = code instanceof FixedNames || argument instanceof Term.NamesColumn;
        codes.add((facts, subject) -> new Facts.Argument.Names(code.of(facts, subject), lasting));
      }
    }
    if (fixed) {
      List<Facts.Argument> arguments =
          codes.stream().map(code -> code.of(NoFacts.NONE, Subject.NONE)).toList();
      return (facts, subject) -> facts.call(slot, arguments);
    }
    if (codes.size() == 1) {
      ArgumentCode only = codes.get(0);
      return (facts, subject) -> facts.call(slot, List.of(only.of(facts, subject)));
    }
    ArgumentCode[] each = codes.toArray(ArgumentCode[]::new);
    return (facts, subject) -> {
      List<Facts.Argument> arguments = new ArrayList<>(each.length);
      for (ArgumentCode code : each) {
        arguments.add(code.of(facts, subject));
      }
      return facts.call(slot, List.copyOf(arguments));
    };
  }

  // Names

  static NamesCode names(Term.OfNames term) {
    if (term instanceof Term.NamesConstant constant) {
      return new FixedNames(Chosen.of(constant.names()));
    }
    if (term instanceof Term.NamesProperty property) {
      int slot = property.property().slot();
      return property.scope() == Term.Scope.FORMULA
          ? (facts, subject) -> facts.choice(slot)
          : (facts, subject) -> subject.itemFacts().choice(slot);
    }
    if (term instanceof Term.NamesColumn column) {
      Map<String, Chosen> cells = Cells.names(column.table(), column.column());
      return (facts, subject) -> Judgement.cell(cells, subject);
    }
    if (term instanceof Term.NamesLookup lookup) {
      Map<String, Chosen> cells = Cells.names(lookup.table(), lookup.column());
      Table table = lookup.table();
      NamesCode key = names(lookup.key());
      if (key instanceof FixedNames fixed) {
        return new FixedNames(Judgement.names(table, cells, fixed.value()));
      }
      return (facts, subject) -> Judgement.names(table, cells, key.of(facts, subject));
    }
    return (facts, subject) -> Chosen.of(subject.name());
  }

  // Conditions

  static TruthCode truth(Term.OfTruth term) {
    if (term instanceof Term.TruthProperty property) {
      int slot = property.property().slot();
      return property.scope() == Term.Scope.FORMULA
          ? (facts, subject) -> facts.truth(slot)
          : (facts, subject) -> subject.itemFacts().truth(slot);
    }
    if (term instanceof Term.Compare compare) {
      Relation relation = compare.relation();
      NumberCode left = number(compare.left());
      NumberCode right = number(compare.right());
      TruthCode code =
          (facts, subject) ->
              Judgement.compare(relation, left.of(facts, subject), right.of(facts, subject));
      return left instanceof FixedNumber && right instanceof FixedNumber ? fixed(code) : code;
    }
    if (term instanceof Term.Within within) {
      NumberCode operand = number(within.operand());
      NumberCode from = number(within.from());
      NumberCode to = number(within.to());
      TruthCode code =
          (facts, subject) ->
              Judgement.within(
                  operand.of(facts, subject), from.of(facts, subject), to.of(facts, subject));
      boolean allFixed =
          operand instanceof FixedNumber
              && from instanceof FixedNumber
              && to instanceof FixedNumber;
      return allFixed ? fixed(code) : code;
    }
    if (term instanceof Term.SameName same) {
      NamesCode left = names(same.left());
      NamesCode right = names(same.right());
      return same.same()
          ? (facts, subject) -> Judgement.same(left.of(facts, subject), right.of(facts, subject))
          : (facts, subject) ->
              Judgement.same(left.of(facts, subject), right.of(facts, subject)).not();
    }
    if (term instanceof Term.OneOf oneOf) {
      NamesCode operand = names(oneOf.operand());
      Set<String> names = oneOf.names();
      return (facts, subject) -> Judgement.oneOf(operand.of(facts, subject), names);
    }
    if (term instanceof Term.Has has) {
      NamesCode left = names(has.left());
      NamesCode right = names(has.right());
      return (facts, subject) -> Judgement.has(left.of(facts, subject), right.of(facts, subject));
    }
    if (term instanceof Term.Known known) {
      return known(known);
    }
    if (term instanceof Term.Not not) {
      TruthCode operand = truth(not.operand());
      return (facts, subject) -> operand.of(facts, subject).not();
    }
    if (term instanceof Term.And and) {
      TruthCode[] parts = and.parts().stream().map(Compiler::truth).toArray(TruthCode[]::new);
      return (facts, subject) -> {
        Truth all = parts[0].of(facts, subject);
        for (int i = 1; i < parts.length && all.odds().high() > 0; i++) {
          all = all.and(parts[i].of(facts, subject));
        }
        return all;
      };
    }
    TruthCode[] parts =
        ((Term.Or) term).parts().stream().map(Compiler::truth).toArray(TruthCode[]::new);
    return (facts, subject) -> {
      Truth any = parts[0].of(facts, subject);
      for (int i = 1; i < parts.length && any.odds().low() < 1; i++) {
        any = any.or(parts[i].of(facts, subject));
      }
      return any;
    };
  }

  private static TruthCode fixed(TruthCode code) {
    return new FixedTruth(code.of(NoFacts.NONE, Subject.NONE));
  }

  private static TruthCode known(Term.Known known) {
    boolean wanted = known.known();
    if (known.operand() instanceof Term.OfNumber operand) {
      NumberCode number = number(operand);
      return (facts, subject) -> Truth.of(Judgement.isKnown(number.of(facts, subject)) == wanted);
    }
    if (known.operand() instanceof Term.OfNames operand) {
      NamesCode names = names(operand);
      return (facts, subject) -> Truth.of(names.of(facts, subject).isKnown() == wanted);
    }
    TruthCode truth = truth((Term.OfTruth) known.operand());
    return (facts, subject) -> Truth.of(truth.of(facts, subject).missing().isEmpty() == wanted);
  }

  // Assessments

  static AssessmentCode assessment(Term.OfTruth term, Text text) {
    return assessment(term, text, false);
  }

  // A negated comparison is told as the opposite one.
  private static AssessmentCode assessment(Term.OfTruth term, Text text, boolean negated) {
    if (term instanceof Term.Compare compare) {
      return comparison(compare, text, negated);
    }
    if (term instanceof Term.Within within) {
      return within(within, text, negated);
    }
    if (term instanceof Term.Not not) {
      AssessmentCode operand = assessment(not.operand(), text, !negated);
      return (facts, subject) -> {
        Assessment inner = operand.of(facts, subject);
        return new Assessment(inner.truth().not(), inner.comparison(), inner.decidedWithout());
      };
    }
    if (term instanceof Term.And and) {
      return joined(and.parts(), true, text, negated);
    }
    if (term instanceof Term.Or or) {
      return joined(or.parts(), false, text, negated);
    }
    TruthCode code = truth(term);
    List<NamesCode> operands = new ArrayList<>();
    if (!(term instanceof Term.Known)) {
      for (Term part : Checker.parts(term)) {
        operands.add(names((Term.OfNames) part));
      }
    }
    return (facts, subject) -> {
      Truth truth = code.of(facts, subject);
      Set<String> without = NOTHING;
      if (Judgement.isSettled(truth.odds())) {
        for (NamesCode operand : operands) {
          without = Sets.union(without, operand.of(facts, subject).missing());
        }
      }
      return new Assessment(truth, Optional.empty(), without);
    };
  }

  private static AssessmentCode comparison(Term.Compare compare, Text text, boolean negated) {
    NumberCode left = number(compare.left());
    NumberCode right = number(compare.right());
    Relation relation = compare.relation();
    // "12 Pa <= gel.yield-stress" observes the yield stress all the same.
    boolean mirrored = left instanceof FixedNumber && !(right instanceof FixedNumber);
    Term.OfNumber observedTerm = mirrored ? compare.right() : compare.left();
    Term.OfNumber limitTerm = mirrored ? compare.left() : compare.right();
    Relation seen = mirrored ? relation.mirrored() : relation;
    Relation told = negated ? seen.negated() : seen;
    Unit unit = Printing.unit(observedTerm);
    Unit limitUnit = limitUnit(limitTerm, unit);
    String observedName = Printing.written(observedTerm, text);
    String limitName = Printing.written(limitTerm, text);
    return (facts, subject) -> {
      Bounded a = left.of(facts, subject);
      Bounded b = right.of(facts, subject);
      Truth truth = Judgement.compare(relation, a, b);
      boolean settled = Judgement.isSettled(truth.odds());
      Bounded observed = mirrored ? b : a;
      Bounded limit = mirrored ? a : b;
      return new Assessment(
          truth,
          Optional.of(
              new Comparison(
                  new Named(observedName, observed, unit),
                  told,
                  new Named(limitName, limit, limitUnit),
                  Optional.empty(),
                  settled ? List.of() : Judgement.undecided(observed, limit))),
          settled ? Sets.union(a.missing(), b.missing()) : NOTHING);
    };
  }

  private static AssessmentCode within(Term.Within within, Text text, boolean negated) {
    NumberCode operandCode = number(within.operand());
    NumberCode fromCode = number(within.from());
    NumberCode toCode = number(within.to());
    Unit unit = Printing.unit(within.operand());
    Unit fromUnit = limitUnit(within.from(), unit);
    Unit toUnit = limitUnit(within.to(), unit);
    String name = Printing.written(within.operand(), text);
    String fromName = Printing.written(within.from(), text);
    String toName = Printing.written(within.to(), text);
    Relation told = negated ? Relation.OUTSIDE : Relation.WITHIN;
    return (facts, subject) -> {
      Bounded operand = operandCode.of(facts, subject);
      Bounded from = fromCode.of(facts, subject);
      Bounded to = toCode.of(facts, subject);
      Truth truth = Judgement.within(operand, from, to);
      boolean settled = Judgement.isSettled(truth.odds());
      // What decides is the limit that is more likely to be missed.
      boolean low = operand.lessThan(from).high() >= to.lessThan(operand).high();
      return new Assessment(
          truth,
          Optional.of(
              new Comparison(
                  new Named(name, operand, unit),
                  told,
                  new Named(fromName, from, fromUnit),
                  Optional.of(new Named(toName, to, toUnit)),
                  settled ? List.of() : Judgement.undecided(operand, low ? from : to))),
          settled
              ? Sets.union(operand.missing(), Sets.union(from.missing(), to.missing()))
              : NOTHING);
    };
  }

  // A limit written as a number keeps its own unit; a computed one is told like the observed
  // number.
  private static Unit limitUnit(Term.OfNumber limit, Unit observed) {
    if (limit instanceof Term.Constant constant) {
      return constant.unit();
    }
    return Printing.writtenUnit(limit)
        .orElse(observed.dimension().equals(limit.dimension()) ? observed : Printing.unit(limit));
  }

  private static AssessmentCode joined(
      List<Term.OfTruth> terms, boolean all, Text text, boolean negated) {
    List<AssessmentCode> parts =
        terms.stream().map(part -> assessment(part, text, negated)).toList();
    return (facts, subject) -> {
      @Nullable Truth joined = null;
      @Nullable Assessment counts = null;
      // Outcomes inside a negation are not negated yet: the order of their odds is what matters.
      Set<String> missing = NOTHING;
      for (AssessmentCode code : parts) {
        Assessment part = code.of(facts, subject);
        missing = Sets.union(missing, Sets.union(part.truth().missing(), part.decidedWithout()));
        if (joined == null || counts == null) {
          joined = part.truth();
          counts = part;
        } else {
          joined = all ? joined.and(part.truth()) : joined.or(part.truth());
          if (countsMore(part.truth().odds(), counts.truth().odds(), all)) {
            counts = part;
          }
        }
      }
      Truth result = requireNonNull(joined, "an empty conjunction");
      Set<String> without = missing;
      if (!missing.isEmpty() && !result.missing().isEmpty()) {
        Set<String> rest = new TreeSet<>(missing);
        rest.removeAll(result.missing());
        without = rest;
      }
      return new Assessment(
          result, counts == null ? Optional.empty() : counts.comparison(), without);
    };
  }

  // Of conditions that must all hold the one with the lowest odds counts, of alternatives the one
  // with the highest.
  private static boolean countsMore(Odds odds, Odds than, boolean all) {
    if (all) {
      return odds.low() < than.low() || (odds.low() == than.low() && odds.high() < than.high());
    }
    return odds.high() > than.high() || (odds.high() == than.high() && odds.low() > than.low());
  }
}
