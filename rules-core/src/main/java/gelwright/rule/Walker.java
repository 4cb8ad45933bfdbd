package gelwright.rule;

import gelwright.quantity.Bounded;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/**
 * Goes through a checked term part by part and keeps what each came to. Slower than the compiled
 * closures and written apart from them: nothing is left off and nothing computed ahead, so that
 * either can be tested against the other.
 */
final class Walker {
  private final Facts facts;
  private final Subject subject;
  private final Text text;

  Walker(Facts facts, Subject subject, Text text) {
    this.facts = facts;
    this.subject = subject;
    this.text = text;
  }

  /** A value and how it came about. */
  private record Walked<V>(V value, Trace trace) {}

  Trace trace(Term.OfTruth term) {
    return truth(term).trace();
  }

  Truth value(Term.OfTruth term) {
    return truth(term).value();
  }

  private Walked<Bounded> number(Term.OfNumber term) {
    List<Trace> parts = new ArrayList<>();
    Bounded value = number(term, parts);
    return new Walked<>(
        value, trace(term, Printing.number(value, Printing.unit(term)), value.missing(), parts));
  }

  private Bounded number(Term.OfNumber term, List<Trace> parts) {
    if (term instanceof Term.Constant constant) {
      return Bounded.exact(constant.base());
    }
    if (term instanceof Term.NumberProperty property) {
      return facts(property.scope()).number(property.property().slot());
    }
    if (term instanceof Term.NumberColumn column) {
      return Cells.number(column.table(), row(), column.column());
    }
    if (term instanceof Term.NumberLookup lookup) {
      Chosen key = keep(names(lookup.key()), parts);
      for (Table.Row row : lookup.table().rows()) {
        if (!key.names().isEmpty() && row.key().equals(Judgement.one(key))) {
          return Cells.number(lookup.table(), row, lookup.column());
        }
      }
      return Bounded.unknown(missingRow(lookup.table(), key));
    }
    if (term instanceof Term.NumberCall call) {
      List<Facts.Argument> arguments = new ArrayList<>();
      for (Term argument : call.arguments()) {
        arguments.add(
            argument instanceof Term.OfNumber number
                ? new Facts.Argument.Number(keep(number(number), parts))
                : new Facts.Argument.Names(keep(names((Term.OfNames) argument), parts), false));
      }
      return facts.call(call.function().slot(), List.copyOf(arguments));
    }
    if (term instanceof Term.Negative negative) {
      return keep(number(negative.operand()), parts).negated();
    }
    if (term instanceof Term.Extreme extreme) {
      Bounded left = keep(number(extreme.left()), parts);
      Bounded right = keep(number(extreme.right()), parts);
      return extreme.smaller() ? left.min(right) : left.max(right);
    }
    Term.Arithmetic arithmetic = (Term.Arithmetic) term;
    Bounded left = keep(number(arithmetic.left()), parts);
    Bounded right = keep(number(arithmetic.right()), parts);
    return switch (arithmetic.operator()) {
      case PLUS -> left.plus(right);
      case MINUS -> left.minus(right);
      case TIMES -> left.times(right);
      case DIVIDE -> left.dividedBy(right);
    };
  }

  private Walked<Chosen> names(Term.OfNames term) {
    List<Trace> parts = new ArrayList<>();
    Chosen value = names(term, parts);
    return new Walked<>(value, trace(term, Printing.names(value), value.missing(), parts));
  }

  private Chosen names(Term.OfNames term, List<Trace> parts) {
    if (term instanceof Term.NamesConstant constant) {
      return Chosen.of(constant.names());
    }
    if (term instanceof Term.NamesProperty property) {
      return facts(property.scope()).choice(property.property().slot());
    }
    if (term instanceof Term.NamesColumn column) {
      return Cells.names(column.table(), row(), column.column());
    }
    if (term instanceof Term.NamesLookup lookup) {
      Chosen key = keep(names(lookup.key()), parts);
      for (Table.Row row : lookup.table().rows()) {
        if (!key.names().isEmpty() && row.key().equals(Judgement.one(key))) {
          return Cells.names(lookup.table(), row, lookup.column());
        }
      }
      return Chosen.unknown(missingRow(lookup.table(), key));
    }
    return Chosen.of(subject.name());
  }

  private static Set<String> missingRow(Table table, Chosen key) {
    if (key.names().isEmpty()) {
      return key.isKnown() ? Set.of("a name to look up in table " + table.name()) : key.missing();
    }
    return Set.of(Cells.missingRow(table, Judgement.one(key)));
  }

  private Walked<Truth> truth(Term.OfTruth term) {
    List<Trace> parts = new ArrayList<>();
    Truth value = truth(term, parts);
    return new Walked<>(value, trace(term, Printing.odds(value.odds()), value.missing(), parts));
  }

  private Truth truth(Term.OfTruth term, List<Trace> parts) {
    if (term instanceof Term.TruthProperty property) {
      return facts(property.scope()).truth(property.property().slot());
    }
    if (term instanceof Term.Compare compare) {
      Bounded left = keep(number(compare.left()), parts);
      return Judgement.compare(compare.relation(), left, keep(number(compare.right()), parts));
    }
    if (term instanceof Term.Within within) {
      Bounded operand = keep(number(within.operand()), parts);
      Bounded from = keep(number(within.from()), parts);
      return Judgement.within(operand, from, keep(number(within.to()), parts));
    }
    if (term instanceof Term.SameName same) {
      Chosen left = keep(names(same.left()), parts);
      Truth equal = Judgement.same(left, keep(names(same.right()), parts));
      return same.same() ? equal : equal.not();
    }
    if (term instanceof Term.OneOf oneOf) {
      return Judgement.oneOf(keep(names(oneOf.operand()), parts), oneOf.names());
    }
    if (term instanceof Term.Has has) {
      Chosen left = keep(names(has.left()), parts);
      return Judgement.has(left, keep(names(has.right()), parts));
    }
    if (term instanceof Term.Known known) {
      return Truth.of(isKnown(known.operand(), parts) == known.known());
    }
    if (term instanceof Term.Not not) {
      return keep(truth(not.operand()), parts).not();
    }
    boolean all = term instanceof Term.And;
    List<Term.OfTruth> terms = all ? ((Term.And) term).parts() : ((Term.Or) term).parts();
    Truth joined = keep(truth(terms.get(0)), parts);
    for (Term.OfTruth part : terms.subList(1, terms.size())) {
      Truth next = keep(truth(part), parts);
      joined = all ? joined.and(next) : joined.or(next);
    }
    return joined;
  }

  private boolean isKnown(Term operand, List<Trace> parts) {
    if (operand instanceof Term.OfNumber number) {
      return Judgement.isKnown(keep(number(number), parts));
    }
    if (operand instanceof Term.OfNames names) {
      return keep(names(names), parts).isKnown();
    }
    return keep(truth((Term.OfTruth) operand), parts).missing().isEmpty();
  }

  private Facts facts(Term.Scope scope) {
    return scope == Term.Scope.FORMULA ? facts : subject.itemFacts();
  }

  private Table.Row row() {
    return subject
        .row()
        .orElseThrow(() -> new IllegalArgumentException("subject is no row: " + subject.name()));
  }

  private <V> V keep(Walked<V> walked, List<Trace> parts) {
    parts.add(walked.trace());
    return walked.value();
  }

  private Trace trace(Term term, String value, Set<String> missing, List<Trace> parts) {
    return new Trace(
        Printing.written(term, text), Places.of(text, term.start()), value, missing, parts);
  }
}
