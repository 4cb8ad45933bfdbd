package gelwright.rule;

import gelwright.problem.Problem;
import gelwright.problem.Spelling;
import gelwright.quantity.Dimension;
import gelwright.quantity.Unit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/**
 * Looks up the names of one expression and checks its types and dimensions, collecting every
 * problem.
 *
 * <p>A bare name that is no property is a name to choose; what it may be is only known from the
 * other side of the comparison, so it stays {@link Loose} until that side is checked. A part with a
 * problem is empty, and whatever holds it says nothing further of it: one mistake, one problem.
 */
final class Checker {
  /** What {@code for each} goes through, as far as an expression can see it. */
  sealed interface Context {
    record Nothing() implements Context {}

    record Items(Vocabulary.ItemKind kind) implements Context {}

    record Rows(Table table) implements Context {}

    Context NOTHING = new Nothing();
  }

  private static final String ROW = "row";

  private final Text text;
  private final Vocabulary vocabulary;
  private final Map<String, Table> tables;
  private final Context context;
  private final List<Problem> problems;

  Checker(
      Text text,
      Vocabulary vocabulary,
      Map<String, Table> tables,
      Context context,
      List<Problem> problems) {
    this.text = text;
    this.vocabulary = vocabulary;
    this.tables = tables;
    this.context = context;
    this.problems = problems;
  }

  /** The result of looking at a part: a checked term, a name still without a type, or nothing. */
  private sealed interface Seen {}

  private record Checked(Term term) implements Seen {}

  /** A name that is no property. */
  private record Loose(String name, boolean quoted, int start, int end) implements Seen {}

  private record Names(Syntax.NameList list) implements Seen {}

  private record Wrong() implements Seen {}

  private static final Seen WRONG = new Wrong();

  /** A condition. */
  Optional<Term.OfTruth> condition(Syntax syntax) {
    Seen seen = see(syntax);
    return truth(seen, syntax);
  }

  /** A number or names, to be printed. */
  Optional<Term> printable(Syntax syntax) {
    Seen seen = see(syntax);
    if (seen instanceof Checked checked) {
      if (checked.term() instanceof Term.OfTruth) {
        problem(
            syntax,
            "not-printable",
            "Only numbers and names can stand in a message; this is a condition.",
            "Put the number that decides into the braces.");
        return Optional.empty();
      }
      return Optional.of(checked.term());
    }
    if (seen instanceof Loose loose) {
      unknownName(loose);
    } else if (seen instanceof Names) {
      problem(syntax, "type", "A list can only be given to a function.", "");
    }
    return Optional.empty();
  }

  private Seen see(Syntax syntax) {
    if (syntax instanceof Syntax.Group group) {
      return see(group.inner());
    }
    if (syntax instanceof Syntax.Figure figure) {
      return new Checked(
          new Term.Constant(
              figure.unit().toBase(figure.value()), figure.unit(), figure.start(), figure.end()));
    }
    if (syntax instanceof Syntax.Word word) {
      return word(word);
    }
    if (syntax instanceof Syntax.Quoted quoted) {
      return new Loose(quoted.name(), true, quoted.start(), quoted.end());
    }
    if (syntax instanceof Syntax.NameList list) {
      return new Names(list);
    }
    if (syntax instanceof Syntax.Call call) {
      return call.function().equals("min") || call.function().equals("max")
          ? extreme(call)
          : call(call);
    }
    if (syntax instanceof Syntax.Lookup lookup) {
      return lookup(lookup);
    }
    if (syntax instanceof Syntax.Negative negative) {
      return negative(negative);
    }
    if (syntax instanceof Syntax.Arithmetic arithmetic) {
      return arithmetic(arithmetic);
    }
    if (syntax instanceof Syntax.Compare compare) {
      return compare(compare);
    }
    if (syntax instanceof Syntax.Within within) {
      return within(within);
    }
    if (syntax instanceof Syntax.In in) {
      return in(in);
    }
    if (syntax instanceof Syntax.Has has) {
      return has(has);
    }
    if (syntax instanceof Syntax.Is is) {
      return known(is);
    }
    if (syntax instanceof Syntax.Not not) {
      Optional<Term.OfTruth> operand = truth(see(not.operand()), not.operand());
      return operand.isEmpty()
          ? WRONG
          : new Checked(new Term.Not(operand.get(), not.start(), not.end()));
    }
    boolean all = syntax instanceof Syntax.And;
    List<Syntax> parts = all ? ((Syntax.And) syntax).parts() : ((Syntax.Or) syntax).parts();
    List<Term.OfTruth> terms = new ArrayList<>();
    for (Syntax part : parts) {
      truth(see(part), part).ifPresent(terms::add);
    }
    if (terms.size() < parts.size()) {
      return WRONG;
    }
    return new Checked(
        all
            ? new Term.And(terms, syntax.start(), syntax.end())
            : new Term.Or(terms, syntax.start(), syntax.end()));
  }

  // Names

  private Seen word(Syntax.Word word) {
    String name = word.name();
    int dot = name.indexOf('.');
    String first = dot < 0 ? name : name.substring(0, dot);
    String rest = dot < 0 ? "" : name.substring(dot + 1);
    if (dot > 0 && context instanceof Context.Rows rows && first.equals(ROW)) {
      return column(rows.table(), rest, word);
    }
    if (dot > 0 && context instanceof Context.Items items && first.equals(items.kind().name())) {
      Vocabulary.Property property = items.kind().properties().get(rest);
      if (property != null) {
        return property(property, name, Term.Scope.ITEM, word);
      }
      if (rest.equals("name")) {
        return new Checked(
            new Term.SubjectName(new Type.Choice(Set.of()), word.start(), word.end()));
      }
    }
    Optional<Vocabulary.Property> property = vocabulary.property(name);
    if (property.isPresent()) {
      return property(property.get(), name, Term.Scope.FORMULA, word);
    }
    if (dot > 0 && first.equals(ROW)) {
      problem(
          word,
          "outside-for-each",
          "'" + name + "' only means something where a rule goes through the rows of a table.",
          "Add 'for each: row of TABLE'.");
      return WRONG;
    }
    Optional<Vocabulary.ItemKind> kind = dot > 0 ? vocabulary.kind(first) : Optional.empty();
    if (kind.isPresent() && (kind.get().properties().containsKey(rest) || rest.equals("name"))) {
      problem(
          word,
          "outside-for-each",
          "'" + name + "' belongs to one " + first + ", and this rule does not go through them.",
          "Add 'for each: " + first + "'.");
      return WRONG;
    }
    Loose loose = new Loose(name, false, word.start(), word.end());
    if (dot > 0) {
      unknownName(loose);
      return WRONG;
    }
    return loose;
  }

  private Seen property(Vocabulary.Property property, String name, Term.Scope scope, Syntax word) {
    if (property.type() instanceof Type.Number number) {
      return new Checked(
          new Term.NumberProperty(
              property, number.dimension(), name, scope, word.start(), word.end()));
    }
    if (property.type() instanceof Type.Truth) {
      return new Checked(new Term.TruthProperty(property, name, scope, word.start(), word.end()));
    }
    return new Checked(new Term.NamesProperty(property, name, scope, word.start(), word.end()));
  }

  private Seen column(Table table, String name, Syntax.Word word) {
    Table.Column column = table.columns().get(name);
    if (column == null) {
      if (name.equals("key")) {
        return new Checked(new Term.SubjectName(keys(table), word.start(), word.end()));
      }
      unknownColumn(table, name, word.start() + ROW.length() + 1);
      return WRONG;
    }
    if (column.type() instanceof Type.Number number) {
      return new Checked(
          new Term.NumberColumn(table, column, number.dimension(), word.start(), word.end()));
    }
    return new Checked(new Term.NamesColumn(table, column, word.start(), word.end()));
  }

  private static Type.Choice keys(Table table) {
    Set<String> keys = new TreeSet<>();
    table.rows().forEach(row -> keys.add(row.key()));
    return new Type.Choice(keys);
  }

  private Seen lookup(Syntax.Lookup lookup) {
    Table table = tables.get(lookup.table());
    Seen key = see(lookup.key());
    if (table == null) {
      problem(
          lookup,
          "unknown-table",
          "There is no table '" + lookup.table() + "'.",
          Spelling.hint(lookup.table(), tables.keySet()));
      return WRONG;
    }
    Optional<Term.OfNames> checkedKey = Optional.empty();
    if (key instanceof Loose loose) {
      checkedKey = adopt(loose, keys(table), "unknown-row", "table " + table.name());
    } else if (key instanceof Checked checked) {
      if (checked.term() instanceof Term.OfNames names && names.type() instanceof Type.Choice) {
        checkedKey = Optional.of(names);
      } else {
        problem(
            lookup.key(),
            "type",
            "A row of a table is looked up by one name; this is " + describe(checked.term()) + ".",
            "");
      }
    } else if (key instanceof Names) {
      problem(lookup.key(), "type", "A row of a table is looked up by one name, not a list.", "");
    }
    Table.Column column = table.columns().get(lookup.column());
    if (column == null) {
      unknownColumn(table, lookup.column(), lookup.columnStart());
      return WRONG;
    }
    if (checkedKey.isEmpty()) {
      return WRONG;
    }
    if (column.type() instanceof Type.Number number) {
      return new Checked(
          new Term.NumberLookup(
              table, checkedKey.get(), column, number.dimension(), lookup.start(), lookup.end()));
    }
    return new Checked(
        new Term.NamesLookup(table, checkedKey.get(), column, lookup.start(), lookup.end()));
  }

  private void unknownColumn(Table table, String name, int start) {
    problems.add(
        new Problem(
            Places.of(text, start),
            "unknown-column",
            "Table " + table.name() + " has no column '" + name + "'.",
            Spelling.hint(name, table.columns().keySet())));
  }

  private void unknownName(Loose loose) {
    Set<String> known = new TreeSet<>();
    vocabulary.properties().forEach(property -> known.add(property.name()));
    if (context instanceof Context.Items items) {
      items
          .kind()
          .properties()
          .keySet()
          .forEach(name -> known.add(items.kind().name() + "." + name));
      known.add(items.kind().name() + ".name");
    } else if (context instanceof Context.Rows rows) {
      rows.table().columns().keySet().forEach(name -> known.add(ROW + "." + name));
    }
    String hint = loose.quoted() ? "" : Spelling.hint(loose.name(), known);
    if (hint.isEmpty() && vocabulary.function(loose.name()).isPresent()) {
      hint = "'" + loose.name() + "' is a function: write what it is of in parentheses.";
    }
    if (hint.isEmpty() && loose.name().indexOf('.') >= 0 && !loose.quoted()) {
      hint = "If it is a name to choose, put it in quotation marks.";
    }
    add(
        loose.start(),
        "unknown-name",
        loose.quoted()
            ? "A name cannot stand here; a number or a property is expected."
            : "There is no property '" + loose.name() + "'.",
        hint);
  }

  // A name takes its type from the other side.
  private Optional<Term.OfNames> adopt(Loose loose, Type.Choice type, String code, String ofWhat) {
    if (!type.options().isEmpty() && !type.options().contains(loose.name())) {
      String hint = Spelling.hint(loose.name(), type.options());
      if (hint.isEmpty() && type.options().size() <= 12) {
        hint = "Possible: " + String.join(", ", new TreeSet<>(type.options())) + ".";
      }
      add(loose.start(), code, "'" + loose.name() + "' is not a name of " + ofWhat + ".", hint);
      return Optional.empty();
    }
    return Optional.of(
        new Term.NamesConstant(Set.of(loose.name()), type, loose.start(), loose.end()));
  }

  private static Set<String> options(Type type) {
    return type instanceof Type.Choice choice ? choice.options() : ((Type.Choices) type).options();
  }

  private String written(Term term) {
    return text.text().substring(term.start(), term.end()).strip();
  }

  // Functions

  private Seen call(Syntax.Call call) {
    List<Seen> seen = call.arguments().stream().map(this::see).toList();
    Optional<Vocabulary.Function> found = vocabulary.function(call.function());
    if (found.isEmpty()) {
      Set<String> known = new TreeSet<>(Set.of("min", "max"));
      vocabulary.functions().forEach(function -> known.add(function.name()));
      String hint = Spelling.hint(call.function(), known);
      if (hint.isEmpty() && vocabulary.property(call.function()).isPresent()) {
        hint = "'" + call.function() + "' is a property: write it without parentheses.";
      }
      problem(call, "unknown-function", "There is no function '" + call.function() + "'.", hint);
      return WRONG;
    }
    Vocabulary.Function function = found.get();
    if (seen.size() != function.parameters().size()) {
      arity(call, function.parameters().size());
      return WRONG;
    }
    List<Term> arguments = new ArrayList<>();
    for (int i = 0; i < seen.size(); i++) {
      argument(seen.get(i), call.arguments().get(i), function.parameters().get(i), function.name())
          .ifPresent(arguments::add);
    }
    if (arguments.size() < seen.size()) {
      return WRONG;
    }
    return new Checked(new Term.NumberCall(function, arguments, call.start(), call.end()));
  }

  private void arity(Syntax.Call call, int expected) {
    problem(
        call,
        "arity",
        "'"
            + call.function()
            + "' needs "
            + expected
            + (expected == 1 ? " value" : " values")
            + " in parentheses, not "
            + call.arguments().size()
            + ".",
        "");
  }

  private Optional<Term> argument(Seen seen, Syntax syntax, Type parameter, String function) {
    if (parameter instanceof Type.Number number) {
      Optional<Term.OfNumber> term = number(seen, syntax);
      if (term.isPresent() && !term.get().dimension().equals(number.dimension())) {
        problem(
            syntax,
            "dimension",
            "'"
                + function
                + "' needs "
                + words(number.dimension())
                + " here, not "
                + words(term.get().dimension())
                + ".",
            unitHint(term.get(), number.dimension()));
        return Optional.empty();
      }
      return term.map(value -> value);
    }
    Type.Choice options = new Type.Choice(options(parameter));
    boolean several = parameter instanceof Type.Choices;
    if (seen instanceof Loose loose) {
      return adopt(loose, options, "unknown-option", "those '" + function + "' knows")
          .map(
              name ->
                  new Term.NamesConstant(
                      Set.of(loose.name()), parameter, loose.start(), loose.end()));
    }
    if (seen instanceof Names names && several) {
      return names(names.list(), options, "those '" + function + "' knows")
          .map(set -> new Term.NamesConstant(set, parameter, syntax.start(), syntax.end()));
    }
    if (seen instanceof Checked checked
        && checked.term() instanceof Term.OfNames names
        && (several || names.type() instanceof Type.Choice)) {
      return Optional.of(names);
    }
    if (!(seen instanceof Wrong)) {
      problem(
          syntax,
          "type",
          "'" + function + "' needs " + (several ? "names" : "one name") + " here.",
          "");
    }
    return Optional.empty();
  }

  private Optional<Set<String>> names(Syntax.NameList list, Type.Choice options, String ofWhat) {
    Set<String> names = new LinkedHashSet<>();
    boolean right = true;
    for (Syntax element : list.names()) {
      Loose loose =
          element instanceof Syntax.Quoted quoted
              ? new Loose(quoted.name(), true, element.start(), element.end())
              : new Loose(((Syntax.Word) element).name(), false, element.start(), element.end());
      right &= adopt(loose, options, "unknown-option", ofWhat).isPresent();
      if (!names.add(loose.name())) {
        add(loose.start(), "duplicate-name", "'" + loose.name() + "' is in this list twice.", "");
        right = false;
      }
    }
    return right ? Optional.of(names) : Optional.empty();
  }

  private Seen extreme(Syntax.Call call) {
    List<Seen> seen = call.arguments().stream().map(this::see).toList();
    if (seen.size() != 2) {
      arity(call, 2);
      return WRONG;
    }
    Optional<Term.OfNumber> left = number(seen.get(0), call.arguments().get(0));
    Optional<Term.OfNumber> right = number(seen.get(1), call.arguments().get(1));
    if (left.isEmpty() || right.isEmpty()) {
      return WRONG;
    }
    if (!alike(left.get(), right.get(), call, "compared")) {
      return WRONG;
    }
    return new Checked(
        new Term.Extreme(
            call.function().equals("min"), left.get(), right.get(), call.start(), call.end()));
  }

  // Arithmetic

  private Optional<Term.OfNumber> number(Seen seen, Syntax syntax) {
    if (seen instanceof Checked checked) {
      if (checked.term() instanceof Term.OfNumber number) {
        return Optional.of(number);
      }
      problem(
          syntax,
          "type",
          "A number is expected here; this is " + describe(checked.term()) + ".",
          "");
    } else if (seen instanceof Loose loose) {
      unknownName(loose);
    } else if (seen instanceof Names) {
      problem(syntax, "type", "A number is expected here; this is a list of names.", "");
    }
    return Optional.empty();
  }

  private Optional<Term.OfTruth> truth(Seen seen, Syntax syntax) {
    if (seen instanceof Checked checked) {
      if (checked.term() instanceof Term.OfTruth truth) {
        return Optional.of(truth);
      }
      problem(
          syntax,
          "type",
          "A condition is expected here; this is " + describe(checked.term()) + ".",
          "Compare it with something.");
    } else if (seen instanceof Loose loose) {
      unknownName(loose);
    } else if (seen instanceof Names) {
      problem(syntax, "type", "A condition is expected here; this is a list of names.", "");
    }
    return Optional.empty();
  }

  private Seen negative(Syntax.Negative negative) {
    Optional<Term.OfNumber> operand = number(see(negative.operand()), negative.operand());
    if (operand.isEmpty()) {
      return WRONG;
    }
    if (operand.get().dimension().point()) {
      temperature(negative);
      return WRONG;
    }
    return new Checked(new Term.Negative(operand.get(), negative.start(), negative.end()));
  }

  private Seen arithmetic(Syntax.Arithmetic arithmetic) {
    Optional<Term.OfNumber> left = number(see(arithmetic.left()), arithmetic.left());
    Optional<Term.OfNumber> right = number(see(arithmetic.right()), arithmetic.right());
    if (left.isEmpty() || right.isEmpty()) {
      return WRONG;
    }
    Optional<Dimension> dimension =
        arithmetic.operator().isSum()
            ? sum(arithmetic, left.get(), right.get())
            : product(arithmetic, left.get().dimension(), right.get().dimension());
    if (dimension.isEmpty()) {
      return WRONG;
    }
    return new Checked(
        new Term.Arithmetic(
            arithmetic.operator(),
            left.get(),
            right.get(),
            dimension.get(),
            arithmetic.start(),
            arithmetic.end()));
  }

  private Optional<Dimension> sum(
      Syntax.Arithmetic arithmetic, Term.OfNumber left, Term.OfNumber right) {
    Dimension a = left.dimension();
    Dimension b = right.dimension();
    boolean minus = arithmetic.operator() == Syntax.Operator.MINUS;
    if (a.point() && b.point()) {
      if (minus) {
        return Optional.of(a.difference());
      }
      temperature(arithmetic);
      return Optional.empty();
    }
    if (a.point() && a.difference().equals(b)) {
      return Optional.of(a);
    }
    if (b.point() && b.difference().equals(a)) {
      if (!minus) {
        return Optional.of(b);
      }
      temperature(arithmetic);
      return Optional.empty();
    }
    return alike(left, right, arithmetic, minus ? "subtracted" : "added")
        ? Optional.of(a)
        : Optional.empty();
  }

  private Optional<Dimension> product(Syntax.Arithmetic arithmetic, Dimension a, Dimension b) {
    if (a.point() || b.point()) {
      temperature(arithmetic);
      return Optional.empty();
    }
    return Optional.of(arithmetic.operator() == Syntax.Operator.TIMES ? a.times(b) : a.per(b));
  }

  private void temperature(Syntax syntax) {
    problem(
        syntax,
        "temperature",
        "Temperatures in °C can only be compared or subtracted, or moved up and down by a difference.",
        "Write a difference of temperatures as 5 K.");
  }

  private boolean alike(Term.OfNumber left, Term.OfNumber right, Syntax whole, String done) {
    Dimension a = left.dimension();
    Dimension b = right.dimension();
    if (a.equals(b)) {
      return true;
    }
    boolean temperatures = a.difference().equals(b.difference());
    String hint = temperatures ? "Write a difference of temperatures as 5 K." : unitHint(right, a);
    if (hint.isEmpty()) {
      hint = unitHint(left, b);
    }
    problem(
        whole,
        temperatures ? "temperature" : "dimension",
        "'"
            + written(left)
            + "' is "
            + words(a)
            + " and '"
            + written(right)
            + "' is "
            + words(b)
            + ": they cannot be "
            + done
            + ".",
        hint);
    return false;
  }

  // A number written without a unit most likely misses it.
  private String unitHint(Term.OfNumber written, Dimension wanted) {
    if (!(written instanceof Term.Constant constant) || constant.unit() != Unit.NONE) {
      return "";
    }
    return Printing.unitOf(wanted)
        .map(unit -> "Write the unit: '" + written(written) + " " + unit.symbol() + "'.")
        .orElse("");
  }

  static String words(Dimension dimension) {
    return dimension.isNumber() ? "a plain number" : dimension.inWords();
  }

  private static String describe(Term term) {
    if (term instanceof Term.OfNumber number) {
      return words(number.dimension());
    }
    if (term instanceof Term.OfNames names) {
      return names.type() instanceof Type.Choice ? "a name" : "several names";
    }
    return "a condition";
  }

  // Conditions

  private Seen compare(Syntax.Compare compare) {
    Seen left = see(compare.left());
    Seen right = see(compare.right());
    if ((left instanceof Wrong && right instanceof Loose)
        || (left instanceof Loose && right instanceof Wrong)) {
      // What the name may be is only known from the side that is wrong.
      return WRONG;
    }
    boolean equality =
        compare.relation() == Relation.EQUAL || compare.relation() == Relation.NOT_EQUAL;
    if (equality
        && (isNames(left) || isNames(right) || (left instanceof Loose && right instanceof Loose))) {
      return sameName(compare, left, right);
    }
    Optional<Term.OfNumber> a = number(left, compare.left());
    Optional<Term.OfNumber> b = number(right, compare.right());
    if (a.isEmpty() || b.isEmpty() || !alike(a.get(), b.get(), compare, "compared")) {
      return WRONG;
    }
    if (equality && !(isExact(a.get()) && isExact(b.get()))) {
      problem(
          compare,
          "not-exact",
          "A computed number is never exactly equal to another.",
          "Use 'within', '<=' or '>='.");
      return WRONG;
    }
    return new Checked(
        new Term.Compare(compare.relation(), a.get(), b.get(), compare.start(), compare.end()));
  }

  private static boolean isNames(Seen seen) {
    return seen instanceof Checked checked && checked.term() instanceof Term.OfNames;
  }

  private Seen sameName(Syntax.Compare compare, Seen left, Seen right) {
    if (left instanceof Loose a && right instanceof Loose b) {
      Loose suspect = a.quoted() ? b : a;
      unknownName(suspect);
      return WRONG;
    }
    Optional<Term.OfNames> a = side(left, right, compare.left());
    Optional<Term.OfNames> b = side(right, left, compare.right());
    if (a.isEmpty() || b.isEmpty()) {
      return WRONG;
    }
    if (!comparable(a.get().type(), b.get().type())) {
      problem(
          compare,
          "type",
          "'"
              + written(a.get())
              + "' and '"
              + written(b.get())
              + "' have no name in common, so they are never equal.",
          "");
      return WRONG;
    }
    return new Checked(
        new Term.SameName(
            a.get(),
            b.get(),
            compare.relation() == Relation.EQUAL,
            compare.start(),
            compare.end()));
  }

  private static boolean comparable(Type a, Type b) {
    Set<String> mine = options(a);
    Set<String> theirs = options(b);
    return mine.isEmpty() || theirs.isEmpty() || mine.stream().anyMatch(theirs::contains);
  }

  private Optional<Term.OfNames> side(Seen mine, Seen other, Syntax syntax) {
    if (mine instanceof Checked checked) {
      if (checked.term() instanceof Term.OfNames names) {
        if (names.type() instanceof Type.Choice) {
          return Optional.of(names);
        }
        problem(
            syntax,
            "type",
            "'" + written(names) + "' may hold several names, so it is not equal to one.",
            "Use 'has'.");
        return Optional.empty();
      }
      problem(
          syntax, "type", "A name is expected here; this is " + describe(checked.term()) + ".", "");
      return Optional.empty();
    }
    if (mine instanceof Loose loose
        && other instanceof Checked checked
        && checked.term() instanceof Term.OfNames names) {
      return adopt(
          loose,
          new Type.Choice(options(names.type())),
          "unknown-option",
          "'" + written(names) + "'");
    }
    if (mine instanceof Names) {
      problem(syntax, "type", "A list is not equal to a name.", "Use 'in'.");
    }
    return Optional.empty();
  }

  private Seen within(Syntax.Within within) {
    Optional<Term.OfNumber> operand = number(see(within.operand()), within.operand());
    Optional<Term.OfNumber> from = number(see(within.from()), within.from());
    Optional<Term.OfNumber> to = number(see(within.to()), within.to());
    if (operand.isEmpty() || from.isEmpty() || to.isEmpty()) {
      return WRONG;
    }
    boolean right = alike(operand.get(), from.get(), within.from(), "compared");
    right &= alike(operand.get(), to.get(), within.to(), "compared");
    if (!right) {
      return WRONG;
    }
    if (from.get() instanceof Term.Constant low
        && to.get() instanceof Term.Constant high
        && low.base() > high.base()) {
      problem(
          within.from(),
          "within-reversed",
          "The lower limit '"
              + written(low)
              + "' is above the upper limit '"
              + written(high)
              + "'.",
          "Write the lower limit first.");
      return WRONG;
    }
    return new Checked(
        new Term.Within(operand.get(), from.get(), to.get(), within.start(), within.end()));
  }

  private Seen in(Syntax.In in) {
    Seen operand = see(in.operand());
    if (operand instanceof Checked checked && checked.term() instanceof Term.OfNames names) {
      if (!(names.type() instanceof Type.Choice choice)) {
        problem(
            in.operand(),
            "type",
            "'" + written(names) + "' may hold several names.",
            "Use 'has', joined with 'or'.");
        return WRONG;
      }
      Optional<Set<String>> list = names(in.names(), choice, "'" + written(names) + "'");
      return list.isEmpty()
          ? WRONG
          : new Checked(new Term.OneOf(names, list.get(), in.start(), in.end()));
    }
    notNames(operand, in.operand());
    return WRONG;
  }

  private void notNames(Seen seen, Syntax syntax) {
    if (seen instanceof Loose loose) {
      unknownName(loose);
    } else if (seen instanceof Checked checked) {
      problem(
          syntax, "type", "A name is expected here; this is " + describe(checked.term()) + ".", "");
    } else if (seen instanceof Names) {
      problem(syntax, "type", "A property is expected here, not a list.", "");
    }
  }

  private Seen has(Syntax.Has has) {
    Seen left = see(has.left());
    Seen right = see(has.right());
    if (!(left instanceof Checked checked) || !(checked.term() instanceof Term.OfNames several)) {
      notNames(left, has.left());
      return WRONG;
    }
    if (!(several.type() instanceof Type.Choices choices)) {
      problem(has.left(), "type", "'" + written(several) + "' holds one name.", "Use '=' or 'in'.");
      return WRONG;
    }
    Optional<Term.OfNames> one = Optional.empty();
    if (right instanceof Loose loose) {
      one =
          adopt(
              loose,
              new Type.Choice(choices.options()),
              "unknown-option",
              "'" + written(several) + "'");
    } else if (right instanceof Checked other
        && other.term() instanceof Term.OfNames names
        && names.type() instanceof Type.Choice) {
      if (comparable(choices, names.type())) {
        one = Optional.of(names);
      } else {
        problem(
            has,
            "type",
            "'" + written(several) + "' and '" + written(names) + "' have no name in common.",
            "");
      }
    } else if (!(right instanceof Wrong)) {
      problem(has.right(), "type", "One name is expected after 'has'.", "");
    }
    return one.isEmpty()
        ? WRONG
        : new Checked(new Term.Has(several, one.get(), has.start(), has.end()));
  }

  private Seen known(Syntax.Is is) {
    Seen operand = see(is.operand());
    if (operand instanceof Loose loose) {
      unknownName(loose);
      return WRONG;
    }
    if (operand instanceof Names) {
      problem(is.operand(), "type", "A list as written is always known.", "");
      return WRONG;
    }
    if (!(operand instanceof Checked checked)) {
      return WRONG;
    }
    if (!readsAnything(checked.term())) {
      problem(
          is.operand(),
          "type",
          "'" + written(checked.term()) + "' is always known.",
          "Ask it of a property.");
      return WRONG;
    }
    return new Checked(new Term.Known(checked.term(), is.known(), is.start(), is.end()));
  }

  // What a term reads

  /** The terms directly inside a term. */
  static List<? extends Term> parts(Term term) {
    if (term instanceof Term.NumberLookup lookup) {
      return List.of(lookup.key());
    }
    if (term instanceof Term.NamesLookup lookup) {
      return List.of(lookup.key());
    }
    if (term instanceof Term.NumberCall call) {
      return call.arguments();
    }
    if (term instanceof Term.Arithmetic arithmetic) {
      return List.of(arithmetic.left(), arithmetic.right());
    }
    if (term instanceof Term.Negative negative) {
      return List.of(negative.operand());
    }
    if (term instanceof Term.Extreme extreme) {
      return List.of(extreme.left(), extreme.right());
    }
    if (term instanceof Term.Compare compare) {
      return List.of(compare.left(), compare.right());
    }
    if (term instanceof Term.Within within) {
      return List.of(within.operand(), within.from(), within.to());
    }
    if (term instanceof Term.SameName same) {
      return List.of(same.left(), same.right());
    }
    if (term instanceof Term.OneOf oneOf) {
      return List.of(oneOf.operand());
    }
    if (term instanceof Term.Has has) {
      return List.of(has.left(), has.right());
    }
    if (term instanceof Term.Known known) {
      return List.of(known.operand());
    }
    if (term instanceof Term.Not not) {
      return List.of(not.operand());
    }
    if (term instanceof Term.And and) {
      return and.parts();
    }
    if (term instanceof Term.Or or) {
      return or.parts();
    }
    return List.of();
  }

  private static boolean readsAnything(Term term) {
    if (term instanceof Term.Constant
        || term instanceof Term.NamesConstant
        || term instanceof Term.SubjectName) {
      return false;
    }
    if (term instanceof Term.NumberLookup
        || term instanceof Term.NamesLookup
        || term instanceof Term.NumberCall) {
      return true;
    }
    List<? extends Term> parts = parts(term);
    return parts.isEmpty() || parts.stream().anyMatch(Checker::readsAnything);
  }

  // Exact by arithmetic: nothing in it is measured or modelled.
  private static boolean isExact(Term term) {
    if (term instanceof Term.NumberProperty property) {
      return property.property().alwaysKnown();
    }
    if (term instanceof Term.NumberCall) {
      return false;
    }
    if (term instanceof Term.NumberLookup || term instanceof Term.NamesLookup) {
      return true;
    }
    return parts(term).stream().allMatch(Checker::isExact);
  }

  /** The names of the properties and functions a term reads. */
  static void inputs(Term term, Collection<String> into) {
    if (term instanceof Term.NumberProperty property) {
      into.add(property.name());
    } else if (term instanceof Term.NamesProperty property) {
      into.add(property.name());
    } else if (term instanceof Term.TruthProperty property) {
      into.add(property.name());
    } else if (term instanceof Term.NumberCall call) {
      into.add(call.function().name());
    }
    parts(term).forEach(part -> inputs(part, into));
  }

  /**
   * What a term reads that can be unknown, in words; nothing when it is proved to be always known.
   */
  static void canBeUnknown(Term term, Collection<String> into) {
    if (term instanceof Term.Known) {
      return;
    }
    if (term instanceof Term.NumberProperty property && !property.property().alwaysKnown()) {
      into.add(property.name());
    } else if (term instanceof Term.NamesProperty property && !property.property().alwaysKnown()) {
      into.add(property.name());
    } else if (term instanceof Term.TruthProperty property && !property.property().alwaysKnown()) {
      into.add(property.name());
    } else if (term instanceof Term.NumberCall call) {
      into.add(call.function().name() + "(…)");
    } else if (term instanceof Term.NumberColumn column) {
      emptyCells(column.table(), column.column(), Set.of(), into);
    } else if (term instanceof Term.NamesColumn column) {
      emptyCells(column.table(), column.column(), Set.of(), into);
    } else if (term instanceof Term.NumberLookup lookup) {
      emptyLookups(lookup.table(), lookup.key(), lookup.column(), into);
    } else if (term instanceof Term.NamesLookup lookup) {
      emptyLookups(lookup.table(), lookup.key(), lookup.column(), into);
    } else if (term instanceof Term.Arithmetic arithmetic
        && arithmetic.operator() == Syntax.Operator.DIVIDE
        && !(arithmetic.right() instanceof Term.Constant constant && constant.base() != 0)) {
      into.add("a quotient whose divisor may be zero");
    }
    parts(term).forEach(part -> canBeUnknown(part, into));
  }

  private static void emptyLookups(
      Table table, Term.OfNames key, Table.Column column, Collection<String> into) {
    Set<String> asked =
        key instanceof Term.NamesConstant constant ? constant.names() : options(key.type());
    if (asked.isEmpty()) {
      into.add("row of table " + table.name() + " for any name");
      return;
    }
    Set<String> keys = keys(table).options();
    for (String name : new TreeSet<>(asked)) {
      if (!keys.contains(name)) {
        into.add(Cells.missingRow(table, name));
      }
    }
    emptyCells(table, column, asked, into);
  }

  private static void emptyCells(
      Table table, Table.Column column, Set<String> only, Collection<String> into) {
    for (Table.Row row : table.rows()) {
      if ((only.isEmpty() || only.contains(row.key())) && row.cell(column.name()).isEmpty()) {
        into.add(Cells.missingCell(table, row.key(), column.name()));
      }
    }
  }

  private void problem(Syntax where, String code, String message, String hint) {
    add(where.start(), code, message, hint);
  }

  private void add(int start, String code, String message, String hint) {
    problems.add(new Problem(Places.of(text, start), code, message, hint));
  }
}
