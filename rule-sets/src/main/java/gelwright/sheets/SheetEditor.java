package gelwright.sheets;

import static java.util.Objects.requireNonNull;

import gelwright.formula.Amount;
import gelwright.formula.Brief;
import gelwright.formula.Edit;
import gelwright.formula.Formula;
import gelwright.formula.Line;
import gelwright.formula.Span;
import gelwright.formula.Step;
import gelwright.problem.Place;
import gelwright.problem.Problem;
import gelwright.quantity.Quantity;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Limits;
import gelwright.sheets.tree.Read;
import gelwright.sheets.tree.Words;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Makes edits in the text of a formula sheet: YAML, JSON or a table.
 *
 * <p>Only the parts concerned are written; comments, order, blank lines, quotes, line ends and a
 * byte order mark stay as they are. A line taken out takes the comment behind it along. The changed
 * text is read again: it says what the edits say of the formula and nothing else, or there are
 * problems and no text.
 *
 * <p>Immutable and safe to share between threads.
 */
public final class SheetEditor {
  private static final String MARK = "\uFEFF";

  private final FormulaReader reader;

  /** An editor with the usual limits. */
  public SheetEditor() {
    this(Limits.USUAL);
  }

  public SheetEditor(Limits limits) {
    this.reader = new FormulaReader(requireNonNull(limits, "limits"));
  }

  /**
   * Makes edits in a sheet; the file's name tells its format, as for {@link FormulaReader#read}.
   *
   * @param edits made one after the other
   * @param text of the sheet, with or without a byte order mark
   * @param file shown in problems, never opened
   */
  public Read<String> apply(List<Edit> edits, String text, String file) {
    return FormulaReader.isTable(file)
        ? applyToTable(edits, text, file)
        : apply(edits, text, file, Document.Format.of(file));
  }

  /** Makes edits in a sheet in YAML or JSON. */
  public Read<String> apply(List<Edit> edits, String text, String file, Document.Format format) {
    boolean json = format == Document.Format.JSON;
    return apply(
        edits,
        text,
        file,
        body -> reader.read(bytes(body), file, format),
        (edit, formula, body) -> {
          TreeText tree = new TreeText(body, json);
          try {
            new TreeEdit(tree, formula).make(edit);
          } catch (TreeText.Lost lost) {
            // The text as it was does not say what is wanted, so the change is told as not
            // possible.
            return List.of(body);
          }
          return List.of(tree.text());
        });
  }

  /**
   * Makes edits in a recipe as a table. What a table has no place for is a problem: the brief, the
   * batch and the method stand in another file.
   */
  public Read<String> applyToTable(List<Edit> edits, String text, String file) {
    return apply(
        edits,
        text,
        file,
        body -> reader.readTable(bytes(body), file, Optional.empty()),
        (edit, formula, body) -> new TableText(body).changed(edit));
  }

  private static byte[] bytes(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  private interface Reader {
    Read<Formula> read(String body);
  }

  private interface Change {
    /** The changed text, and other ways to write it should that one not be read as it is meant. */
    List<String> of(Edit edit, Formula formula, String body);
  }

  private Read<String> apply(
      List<Edit> edits, String text, String file, Reader reader, Change change) {
    String mark = text.startsWith(MARK) ? MARK : "";
    String body = text.substring(mark.length());
    if (!new String(bytes(body), StandardCharsets.UTF_8).equals(body)) {
      return failed(
          new Place(file, 1, 1, ""), "wrong-encoding", "The text has half a surrogate pair in it.");
    }
    Read<Formula> read = reader.read(body);
    if (!read.isOk()) {
      return Read.failed(read.problems());
    }
    Written now = new Written(body, read.orThrow());
    for (Edit edit : edits) {
      Optional<Problem> problem = FitForEdit.problem(edit, now.formula(), file);
      if (problem.isPresent()) {
        return Read.failed(List.of(problem.get()));
      }
      Read<Written> next = next(edit, now, file, reader, change);
      if (!next.isOk()) {
        return Read.failed(next.problems());
      }
      now = next.orThrow();
    }
    return Read.ok(mark + now.body());
  }

  /** A text and what it says. */
  private record Written(String body, Formula formula) {}

  private static Read<Written> next(
      Edit edit, Written now, String file, Reader reader, Change change) {
    Formula wanted = placeless(edit.in(now.formula()));
    List<String> ways = change.of(edit, now.formula(), now.body());
    if (ways.isEmpty()) {
      return failed(
          new Place(file, 0, 0, ""),
          "not-in-table",
          "This table has no place for the change: " + edit.text());
    }
    List<Problem> problems = List.of();
    for (String way : ways) {
      Read<Formula> after = reader.read(way);
      if (after.value().map(SheetEditor::placeless).filter(wanted::equals).isPresent()) {
        return Read.ok(new Written(way, after.orThrow()));
      }
      problems = after.problems();
    }
    String why = problems.isEmpty() ? "" : " It would say: " + problems.get(0).message();
    return failed(
        new Place(file, 0, 0, ""),
        "cannot-be-written",
        "The change cannot be written into this sheet: " + edit.text() + why);
  }

  private static <T> Read<T> failed(Place place, String code, String message) {
    return Read.failed(List.of(Problem.of(place, code, message)));
  }

  private static Formula placeless(Formula formula) {
    return new Formula(
        formula.name(),
        formula.version(),
        formula.brief(),
        formula.batch(),
        formula.equipment(),
        formula.lines(),
        formula.method(),
        formula.label(),
        formula.measured(),
        formula.accepted(),
        Map.of());
  }

  /** One edit in the text of a tree. */
  private record TreeEdit(TreeText tree, Formula formula) {
    private static final String LINES = "ingredients";
    private static final String METHOD = "method";
    private static final String PRODUCT = "product";

    void make(Edit edit) {
      if (edit instanceof Edit.OfAmount each) {
        line(each.line(), "share", WrittenEdit.amount(each.to()));
      } else if (edit instanceof Edit.Substitution each) {
        substitute(each);
      } else if (edit instanceof Edit.OfPhase each) {
        line(each.line(), "phase", each.to());
      } else if (edit instanceof Edit.OfSize each) {
        line(each.line(), "size", WrittenEdit.quantity(each.to()));
      } else if (edit instanceof Edit.Addition each) {
        tree.insert(each.line(), WrittenEdit.line(each), LINES, LINES);
      } else if (edit instanceof Edit.Removal each) {
        tree.remove(each.line(), LINES);
      } else if (edit instanceof Edit.OfStep each) {
        tree.set(
            field(each), WrittenEdit.quantity(each.to()), FormulaWords.STEP, METHOD, each.step());
      } else if (edit instanceof Edit.Move each) {
        tree.move(each.step(), each.to(), METHOD);
      } else if (edit instanceof Edit.Insertion each) {
        insert(each.step(), each.done());
      } else if (edit instanceof Edit.OfPH each) {
        acidity(each);
      } else if (edit instanceof Edit.OfBrief each) {
        promise(each);
      } else if (edit instanceof Edit.OfBatch each) {
        tree.set("batch", WrittenEdit.quantity(each.to()), FormulaWords.SHEET);
      }
    }

    private void line(int line, String key, String value) {
      tree.set(key, value, FormulaWords.LINE, LINES, line);
    }

    private void substitute(Edit.Substitution edit) {
      line(edit.line(), "name", edit.with());
      line(edit.line(), "share", WrittenEdit.amount(edit.to()));
      for (String key : FormulaWords.OF_ONE_MATERIAL) {
        tree.drop(key, LINES, edit.line());
      }
      for (int i = 0; i < formula.method().size(); i++) {
        List<String> with = formula.method().get(i).with();
        for (int j = 0; j < with.size(); j++) {
          if (!with.get(j).equals(edit.ingredient())) {
            continue;
          }
          if (tree.find(METHOD, i, "with").orElseThrow() instanceof Outline.Listing) {
            tree.setItem(j, edit.with(), METHOD, i, "with");
          } else {
            tree.set("with", edit.with(), FormulaWords.STEP, METHOD, i);
          }
        }
      }
    }

    /** The key that has the number now, else the one that the edit names. */
    private String field(Edit.OfStep edit) {
      boolean adjusts = formula.method().get(edit.step()).action() == Step.Action.ADJUST_PH;
      if (edit.part() != Edit.Part.TEMPERATURE) {
        return edit.part() == Edit.Part.STIR ? "stir" : "for";
      }
      if (adjusts || tree.find(METHOD, edit.step(), "at").isPresent()) {
        return "at";
      }
      return tree.find(METHOD, edit.step(), "to").isPresent() ? "to" : edit.field();
    }

    private void insert(int step, Step done) {
      if (tree.find(METHOD).isPresent()) {
        tree.insert(step, WrittenEdit.step(done), LINES, METHOD);
      } else {
        tree.start(METHOD, WrittenEdit.step(done), FormulaWords.SHEET, LINES);
      }
    }

    private void acidity(Edit.OfPH edit) {
      String written = WrittenEdit.pH(edit.to());
      int last = Edit.OfPH.lastAdjustment(formula);
      if (last >= 0) {
        tree.set("to", written, FormulaWords.STEP, METHOD, last);
      } else if (!formula.method().isEmpty()) {
        insert(Edit.OfPH.place(formula), edit.step(formula));
      } else {
        Span span = edit.in(formula).brief().pH().orElseThrow();
        String from = WrittenEdit.pH(span.from());
        String to = WrittenEdit.pH(span.to());
        product(Edit.Promise.PH.key(), from.equals(to) ? from : from + " to " + to);
      }
    }

    private void promise(Edit.OfBrief edit) {
      if (edit.promise() != Edit.Promise.AREA) {
        product(edit.promise().key(), edit.to());
        return;
      }
      Brief brief = edit.in(formula).brief();
      String key = edit.promise().key();
      Optional<Outline> now = tree.find(PRODUCT, key);
      if (now.filter(Outline.Listing.class::isInstance).isPresent()) {
        tree.become(formula.brief().area(), brief.area(), PRODUCT, key);
      } else if (now.isPresent() && brief.area().size() == 1) {
        product(key, brief.area().get(0));
      } else {
        product(key, brief.area());
      }
    }

    private void product(String key, Object value) {
      if (tree.find(PRODUCT).isPresent()) {
        tree.set(key, value, FormulaWords.PRODUCT, PRODUCT);
      } else {
        tree.set(PRODUCT, Map.of(key, value), FormulaWords.SHEET);
      }
    }
  }

  /** Whether a sheet is the one that an edit was made for. */
  private record FitForEdit(Formula formula, String file) {
    static Optional<Problem> problem(Edit edit, Formula formula, String file) {
      return new FitForEdit(formula, file).problem(edit);
    }

    private Optional<Problem> problem(Edit edit) {
      if (edit instanceof Edit.OfAmount each) {
        return line(each.line(), each.ingredient(), Optional.of(each.from()));
      } else if (edit instanceof Edit.Substitution each) {
        return line(each.line(), each.ingredient(), Optional.of(each.from()));
      } else if (edit instanceof Edit.OfPhase each) {
        return line(each.line(), each.ingredient(), Optional.empty())
            .or(
                () -> {
                  String now = formula.lines().get(each.line()).phase();
                  return changed(
                      now.equals(each.from()),
                      "/ingredients/" + each.line(),
                      each.ingredient() + " is in phase " + Words.quoted(now));
                });
      } else if (edit instanceof Edit.OfSize each) {
        return line(each.line(), each.ingredient(), Optional.empty())
            .or(
                () ->
                    number(
                        "/ingredients/" + each.line() + "/size",
                        each.ingredient() + " has grains of ",
                        formula.lines().get(each.line()).size(),
                        each.from()));
      } else if (edit instanceof Edit.Addition each) {
        return each.line() > formula.lines().size()
            ? none("/ingredients", "line", each.line(), formula.lines().size())
            : Optional.empty();
      } else if (edit instanceof Edit.Removal each) {
        return line(each.line(), each.ingredient(), Optional.of(each.from()));
      } else if (edit instanceof Edit.OfStep each) {
        return step(each.step()).or(() -> stepNumber(each));
      } else if (edit instanceof Edit.Move each) {
        return step(each.step()).or(() -> step(each.to()));
      } else if (edit instanceof Edit.Insertion each) {
        return each.step() > formula.method().size()
            ? none("/method", "step", each.step(), formula.method().size())
            : Optional.empty();
      } else if (edit instanceof Edit.OfBatch each) {
        return number("/batch", "The batch is ", formula.batch(), each.from());
      }
      return Optional.empty();
    }

    private Optional<Problem> stepNumber(Edit.OfStep edit) {
      Step step = formula.method().get(edit.step());
      Optional<Quantity> now =
          switch (edit.part()) {
            case TEMPERATURE -> step.temperature();
            case LASTING -> step.lasting();
            case STIR -> step.stir();
          };
      return number(
          "/method/" + edit.step(), "Step " + (edit.step() + 1) + " has ", now, edit.from());
    }

    private Optional<Problem> number(
        String pointer, String said, Optional<Quantity> now, Optional<Quantity> from) {
      boolean same =
          now.isEmpty()
              || from.isEmpty()
              || (now.get().dimension().equals(from.get().dimension())
                  && Math.abs(now.get().inBase() - from.get().inBase())
                      <= 1e-9 * Math.abs(now.get().inBase()));
      return changed(same, pointer, said + now.map(WrittenEdit::quantity).orElse(""));
    }

    private Optional<Problem> line(int line, String ingredient, Optional<Amount> from) {
      if (line >= formula.lines().size()) {
        return none("/ingredients", "line", line, formula.lines().size());
      }
      Line now = formula.lines().get(line);
      if (!now.name().equals(ingredient)) {
        return Optional.of(
            Problem.of(
                place("/ingredients/" + line),
                "other-ingredient",
                "Line "
                    + (line + 1)
                    + " of the recipe is "
                    + Words.quoted(now.name())
                    + ", not "
                    + Words.quoted(ingredient)
                    + ": the change was made for another sheet."));
      }
      return changed(
          from.isEmpty() || from.get().equals(now.amount()),
          "/ingredients/" + line + "/share",
          ingredient + " has the share " + WrittenEdit.amount(now.amount()));
    }

    private Optional<Problem> step(int step) {
      return step >= formula.method().size()
          ? none("/method", "step", step, formula.method().size())
          : Optional.empty();
    }

    private Optional<Problem> none(String pointer, String part, int number, int count) {
      return Optional.of(
          Problem.of(
              place(pointer),
              "no-such-part",
              "The change is one of "
                  + part
                  + " "
                  + (number + 1)
                  + "; the sheet has "
                  + count
                  + " of them."));
    }

    private Optional<Problem> changed(boolean same, String pointer, String now) {
      return same
          ? Optional.empty()
          : Optional.of(
              new Problem(
                  place(pointer),
                  "changed-since",
                  now + " now, which is not what the change was made for.",
                  "Review the sheet again and take the change from there."));
    }

    private Place place(String pointer) {
      Place place = formula.place(pointer);
      return new Place(file, place.line(), place.column(), pointer);
    }
  }
}
