package gelwright.sheets;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import gelwright.formula.Amount;
import gelwright.formula.Edit;
import gelwright.formula.Formula;
import gelwright.formula.Line;
import gelwright.formula.Step;
import gelwright.problem.Problem;
import gelwright.quantity.Quantity;
import gelwright.quantity.Share;
import gelwright.quantity.Unit;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Limits;
import gelwright.sheets.tree.Read;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

@DisplayName("edits in the text of a sheet")
final class SheetEditorTest {
  private static final Path EXAMPLES = Path.of("..", "docs", "examples");
  private static final SheetEditor EDITOR = new SheetEditor();
  private static final FormulaReader READER = new FormulaReader();

  /** How many ways an example is written in each manner; {@code -Dtries=N} for more. */
  private static final int SEEDS = Integer.getInteger("tries", 5);

  static List<Path> examples() throws IOException {
    try (Stream<Path> files = Files.list(EXAMPLES)) {
      List<Path> found = files.filter(file -> file.toString().endsWith(".yaml")).sorted().toList();
      assertEquals(8, found.size());
      return found;
    }
  }

  /** How a sheet is written. */
  enum Manner {
    AS_IS("sheet.yaml"),
    BLOCK("sheet.yaml"),
    FLOW("sheet.yaml"),
    PRETTY("sheet.json"),
    MINIFIED("sheet.json"),
    COMMAS("sheet.csv"),
    DECIMAL_COMMAS("sheet.csv"),
    TABS("sheet.tsv");

    private final String file;

    Manner(String file) {
      this.file = file;
    }

    boolean table() {
      return file.endsWith("sv");
    }
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

  private static Formula read(String text, String file) {
    return placeless(READER.read(Samples.utf8(text.replace("\uFEFF", "")), file).orThrow());
  }

  // The heart: what is written is what was meant

  @ParameterizedTest(name = "{0}: the changed text says what the edits say, and the rest stands")
  @EnumSource(Manner.class)
  void says(Manner manner) throws IOException {
    for (Path example : examples()) {
      String sheet = Files.readString(example);
      for (int seed = 1; seed <= SEEDS; seed++) {
        Random random = new Random(seed);
        String what = example.getFileName() + " " + manner + " seed " + seed;
        String text = written(sheet, manner, random);
        Formula before = read(text, manner.file);
        RandomEdits edits = new RandomEdits(random);
        List<Edit> list = new ArrayList<>();
        Formula wanted = before;
        for (int i = 1 + random.nextInt(3); i > 0; i--) {
          Edit edit = manner.table() ? edits.ofLine(wanted) : edits.of(wanted);
          list.add(edit);
          wanted = edit.in(wanted);
        }
        Read<String> changed = EDITOR.apply(list, text, manner.file);
        String context = what + "\n" + list + "\n" + text;
        assertEquals(List.of(), changed.problems(), () -> context);
        String now = changed.orThrow();
        String both = context + "\n-->\n" + now;
        assertEquals(wanted, read(now, manner.file), () -> both);
        if (list.size() == 1 && manner != Manner.MINIFIED) {
          stands(text, now, concerned(list.get(0), before, manner), list.get(0), both);
        }
        assertEquals(
            text.endsWith("\n") || text.endsWith("\r"),
            now.endsWith("\n") || now.endsWith("\r"),
            () -> both);
        assertEquals(text.contains("\r\n"), now.contains("\r\n"), () -> both);
        assertEquals(text.startsWith("\uFEFF"), now.startsWith("\uFEFF"), () -> both);
        if (text.contains("\r\n")) {
          assertEquals(
              now.chars().filter(c -> c == '\r').count(),
              now.chars().filter(c -> c == '\n').count(),
              () -> both);
        }
      }
    }
  }

  /** How many of the lines that were there may be others now. */
  private static int concerned(Edit edit, Formula before, Manner manner) {
    if (edit instanceof Edit.Substitution each) {
      long named =
          before.method().stream().filter(step -> step.with().contains(each.ingredient())).count();
      return (manner == Manner.AS_IS || manner.table() ? 1 : 9)
          + (int) named * (manner == Manner.AS_IS ? 1 : 3);
    }
    if (edit instanceof Edit.Removal || edit instanceof Edit.Move) {
      return manner == Manner.AS_IS || manner.table() ? 1 : 11;
    }
    boolean areas = edit instanceof Edit.OfBrief each && each.promise() == Edit.Promise.AREA;
    return areas ? (manner == Manner.AS_IS ? 1 : 4) : 1;
  }

  private static void stands(String before, String after, int most, Edit edit, String context) {
    List<String> gone = new ArrayList<>(before.lines().toList());
    List<String> kept = new ArrayList<>();
    List<String> now = new ArrayList<>(after.lines().toList());
    for (String line : List.copyOf(gone)) {
      if (now.remove(line)) {
        gone.remove(line);
        kept.add(line);
      }
    }
    assertTrue(gone.size() <= most, () -> gone.size() + " lines changed: " + gone + "\n" + context);
    for (String line : gone) {
      // What stands within the lines of an item goes or moves with it.
      boolean within = edit instanceof Edit.Removal || edit instanceof Edit.Move;
      assertTrue(within || !line.strip().startsWith("#"), () -> "lost " + line + "\n" + context);
      boolean takesAlong = edit instanceof Edit.Removal || edit instanceof Edit.Substitution;
      boolean areas = edit instanceof Edit.OfBrief each && each.promise() == Edit.Promise.AREA;
      int comment = line.indexOf("  # kept");
      if (comment >= 0 && !takesAlong && !areas) {
        assertTrue(after.contains(line.substring(comment)), () -> "lost " + line + "\n" + context);
      }
    }
  }

  private static String written(String sheet, Manner manner, Random random) throws IOException {
    Document document =
        Document.read(Samples.utf8(sheet), "sheet.yaml", Document.Format.YAML, Limits.USUAL)
            .orThrow();
    ObjectNode tree = (ObjectNode) Printed.json(document.root());
    if (manner != Manner.AS_IS && random.nextInt(4) == 0) {
      List<String> keys = List.of("product", "batch", "method", "equipment");
      tree.remove(keys.get(random.nextInt(keys.size())));
    }
    if (manner != Manner.AS_IS && random.nextInt(4) == 0) {
      ObjectNode line = (ObjectNode) tree.get("ingredients").get(random.nextInt(5));
      line.put("strength", "80 %").put("grade", "fine").put("lot", "L 4");
    }
    String text =
        switch (manner) {
          case AS_IS -> sheet;
          case BLOCK -> Printed.block(tree, random);
          case FLOW -> Printed.flow(tree, random);
          case PRETTY -> Printed.pretty(tree);
          case MINIFIED -> Printed.minified(tree);
          case COMMAS -> table(read(sheet, "sheet.yaml"), ',', false);
          case DECIMAL_COMMAS -> table(read(sheet, "sheet.yaml"), ';', true);
          case TABS -> table(read(sheet, "sheet.yaml"), '\t', false);
        };
    if (manner == Manner.AS_IS || manner == Manner.BLOCK) {
      text = commented(text, random);
    }
    if (random.nextInt(3) == 0) {
      text = text.strip();
    }
    if (random.nextInt(3) == 0) {
      text = text.replace("\n", "\r\n");
    }
    return (random.nextInt(5) == 0 ? "\uFEFF" : "") + text;
  }

  /** Comments on lines of their own and behind lines, blank lines, spaces at ends of lines. */
  private static String commented(String text, Random random) {
    StringBuilder commented = new StringBuilder();
    for (String line : text.lines().toList()) {
      boolean part = !line.strip().startsWith("-") && line.startsWith("    ");
      if (!part && random.nextInt(8) == 0) {
        commented.append(" ".repeat(random.nextInt(5)));
        commented.append("# kept: \"it's, [a] {note}\" \uD83C\uDF3F ");
        commented.append(random.nextInt(1_000_000)).append('\n');
      }
      if (!part && random.nextInt(12) == 0) {
        commented.append(random.nextBoolean() ? "\n" : "   \n");
      }
      commented.append(line);
      if (random.nextInt(6) == 0) {
        commented.append("  # kept, ").append(random.nextInt(1_000_000));
      }
      commented.append(random.nextInt(8) == 0 ? " \n" : "\n");
    }
    return commented.toString();
  }

  private static String table(Formula formula, char separator, boolean comma) {
    StringBuilder table = new StringBuilder();
    String sep = String.valueOf(separator);
    table.append(String.join(sep, "Phase", "INCI", "Share", "Size", "Grade", "Remark"));
    table.setLength(table.length() - sep.length() - "Remark".length());
    table.append('\n');
    for (Line line : formula.lines()) {
      String share = WrittenEdit.amount(line.amount());
      table
          .append(line.phase())
          .append(sep)
          .append(line.name().length() % 2 == 0 ? "\"" + line.name() + "\"" : line.name())
          .append(sep)
          .append(comma ? share.replace('.', ',') : share)
          .append(line.size().map(size -> sep + WrittenEdit.quantity(size)).orElse(""))
          .append('\n');
    }
    return table.toString();
  }

  /** Sheets that no program would write, and a person may. */
  static List<String> odd() {
    return List.of(
        "---\n# header\nformula: Odd\ningredients: [{name: Aqua, share: rest}, {name: Xanthan Gum,"
            + " share: 1 %, lot: \"4\"},]\nmethod: [ {do: fill} ]\n...\n",
        "formula: Odd\ningredients:\n- {name: Aqua, share: rest} # {\n-\n  # lone dash\n  name: >-\n"
            + "    Xanthan\n    Gum\n  share: 1 %\nmethod:\n-   do: disperse # ,\n    with:\n    - Xanthan"
            + " Gum # [\n    - Aqua\n-   do: fill",
        "formula:\tOdd\t# tabs\ningredients:\n- {\tname: Aqua,\tshare: rest\t}\t# a\n- name:\tXanthan"
            + " Gum\t# b\n  share:\t1 %\n",
        "{ formula: Odd, # ] }\n  ingredients: [ # first\n    { name: Aqua, share: rest } # no, comma"
            + "\n    , { name: 'Xanthan Gum', # two, 'lines'\n        share: 1 % } # c\n  ], method: []}",
        "\"formula\": 'It''s \uD83C\uDF3F'   \n\n'ingredients':   # list\n\n    - \"name\": Xanthan\n       "
            + " Gum\n      'share': 1\n\n    - {\"name\":\"\uD83C\uDF3F \\u0041qua\", \"share\":rest}\n\n\n# end",
        "formula: Odd\ringredients:\r  - name: Aqua\r    share: rest\r  - name: Xanthan Gum # gum\r"
            + "    share: 1 %\r    size: 300 µm\r",
        "{\"formula\":\"Odd\",\n\t\"ingredients\":[\n\t\t{\"name\":\"Aqua, \\\"x\\\" {\",\"share\":99}\n\t\t,"
            + "{\"n\\u0061me\":\"Xanthan Gum\",\n\t\t \"share\":1e0}],\"product\":{},\"method\":[ ]\n}\n",
        "formula: Odd\ningredients: [{name: Aqua, share: rest}, # one\n  {name: Gum, share: 1 %}]  # two\n"
            + "method: [{do: mix},  # a\n {do: hold}, {do: fill}] # b",
        "product: {area: face}\nformula: Odd\nbatch: 1 kg\ningredients:\n  - {name: Aqua, share: rest}\n"
            + "  - {name: Xanthan Gum, share: 1 %,}\n\nmethod:\n  - do: adjust-pH\n    to: 5\n");
  }

  @ParameterizedTest(name = "row {index}")
  @DisplayName("odd sheets: what is written is what was meant")
  @MethodSource("odd")
  void odd(String sheet) {
    String file = sheet.contains("{\"formula") ? "odd.json" : "odd.yaml";
    for (int seed = 1; seed <= 4 * SEEDS; seed++) {
      Random random = new Random(seed);
      RandomEdits edits = new RandomEdits(random);
      Formula wanted = read(sheet, file);
      List<Edit> list = new ArrayList<>();
      for (int i = 1 + random.nextInt(3); i > 0; i--) {
        list.add(edits.of(wanted));
        wanted = list.get(list.size() - 1).in(wanted);
      }
      Read<String> changed = EDITOR.apply(list, sheet, file);
      String context = "seed " + seed + "\n" + list + "\n" + sheet;
      assertEquals(List.of(), changed.problems(), () -> context);
      String both = context + "\n-->\n" + changed.orThrow();
      assertEquals(wanted, read(changed.orThrow(), file), () -> both);
    }
  }

  @Test
  @DisplayName("keys behind question marks: written as meant, or told, never written otherwise")
  void questions() {
    String sheet =
        "? formula\n: Odd\n? ingredients\n: - name: Aqua\n    share: rest\n  - name: Gum\n    share: 1 %\n";
    Formula formula = read(sheet, "odd.yaml");
    int told = 0;
    for (int seed = 1; seed <= 40; seed++) {
      Edit edit = new RandomEdits(new Random(seed)).of(formula);
      Read<String> changed = EDITOR.apply(List.of(edit), sheet, "odd.yaml");
      if (changed.isOk()) {
        assertEquals(edit.in(formula), read(changed.orThrow(), "odd.yaml"));
      } else {
        assertEquals("cannot-be-written", changed.problems().get(0).code());
        told++;
      }
    }
    assertTrue(told > 0 && told < 40, "" + told);
  }

  // What is written, to the letter

  private static Amount percent(String share) {
    return new Amount.Stated(Share.parse(share).orElseThrow());
  }

  private static final String NOTES =
      """
      formula: Notes   # the name
      ingredients:
        # water first
        - { phase: A, name: Aqua, share: rest }  # tap

        - phase: 'A'
          name: "Xanthan Gum"   # food grade
          share: 1 %
          lot: L1  # of the shelf
        # the end
      batch: 5e2 g
      """;

  @Test
  @DisplayName("another share: the number alone is written")
  void share() {
    Edit edit = new Edit.OfAmount(1, "Xanthan Gum", percent("1 %"), percent("1.25 %"));
    assertEquals(NOTES.replace("1 %", "1.25 %"), made(NOTES, "a.yaml", edit));
  }

  @Test
  @DisplayName("another ingredient: quotes stay, its lot goes, comments of other lines stay")
  void substitution() {
    Edit edit = new Edit.Substitution(1, "Xanthan Gum", "Gum #1", percent("1 %"), percent("2 %"));
    assertEquals(
        NOTES
            .replace("\"Xanthan Gum\"", "\"Gum #1\"")
            .replace("1 %", "2 %")
            .replace("    lot: L1  # of the shelf\n", ""),
        made(NOTES, "a.yaml", edit));
  }

  @Test
  @DisplayName(
      "a new line after a line in brackets has brackets, and the comment of the next stays")
  void addition() {
    Edit edit = new Edit.Addition(1, "A", "1,2-Hexanediol", percent("1 %"));
    assertEquals(
        NOTES.replace("# tap\n", "# tap\n  - { phase: A, name: '1,2-Hexanediol', share: 1 % }\n"),
        made(NOTES, "a.yaml", edit));
    Edit last = new Edit.Addition(2, "B", "1,2-Hexanediol", percent("1 %"));
    assertEquals(
        NOTES.replace(
            "# of the shelf\n",
            "# of the shelf\n  - phase: B\n    name: 1,2-Hexanediol\n    share: 1 %\n"),
        made(NOTES, "a.yaml", last));
  }

  @Test
  @DisplayName("sections that are not there yet come where a sheet has them")
  void sections() {
    assertEquals(
        NOTES.replace("# the name\n", "# the name\nproduct:\n  pH: 4.3 to 5.0\n"),
        made(NOTES, "a.yaml", new Edit.OfBrief(Edit.Promise.PH, "", "4.3 to 5.0")));
    Step step =
        new Step(
            Step.Action.HOLD,
            Optional.of("A"),
            List.of("Aqua", "Xanthan Gum"),
            Optional.empty(),
            Optional.of(Quantity.of(40, Unit.CELSIUS)),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty());
    assertEquals(
        NOTES + "method:\n  - { do: hold, phase: A, with: [Aqua, Xanthan Gum], at: 40 °C }\n",
        made(NOTES, "a.yaml", new Edit.Insertion(0, step)));
  }

  @Test
  @DisplayName("JSON: a share that is a number stays one, and becomes a text where it is a word")
  void json() {
    String sheet =
        "{\"formula\":\"J\",\"ingredients\":[{\"name\":\"Aqua\",\"share\":99},"
            + "{\"name\":\"Glycerin\",\"share\":1.0}]}";
    assertEquals(
        sheet.replace("1.0", "2.5"),
        made(sheet, "a.json", new Edit.OfAmount(1, "Glycerin", percent("1 %"), percent("2.5 %"))));
    assertEquals(
        sheet.replace("99", "\"rest\""),
        made(sheet, "a.json", new Edit.OfAmount(0, "Aqua", percent("99 %"), new Amount.Rest())));
    assertEquals(
        sheet.replace("{\"name\":\"Aqua\",\"share\":99},", ""),
        made(sheet, "a.json", new Edit.Removal(0, "Aqua", percent("99 %"))));
    assertEquals(
        sheet.replace("\"share\":1.0", "\"share\":1.0,\"size\":\"300 µm\""),
        made(
            sheet,
            "a.json",
            new Edit.OfSize(1, "Glycerin", Optional.empty(), Quantity.of(300, Unit.MICROMETRE))));
  }

  @Test
  @DisplayName("tables: decimal commas, bare percents, quotes and short rows")
  void tables() {
    String sheet = "INCI;%;phase\r\nAqua;rest\r\n\"Glycerin\"; 4,5 ;A\r\nGum;0,5;A";
    assertEquals(
        sheet.replace("4,5", "1,25"),
        made(
            sheet, "a.csv", new Edit.OfAmount(1, "Glycerin", percent("4.5 %"), percent("1.25 %"))));
    assertEquals(
        sheet.replace("Aqua;rest", "Aqua;rest;B"),
        made(sheet, "a.csv", new Edit.OfPhase(0, "Aqua", "", "B")));
    assertEquals(
        sheet.replace("\"Glycerin\"", "\"A;B\"").replace("4,5", "1"),
        made(
            sheet,
            "a.csv",
            new Edit.Substitution(1, "Glycerin", "A;B", percent("4.5 %"), percent("1 %"))));
    assertEquals(
        sheet + "\r\nCarrageenan;0,75;C",
        made(sheet, "a.csv", new Edit.Addition(3, "C", "Carrageenan", percent("0.75 %"))));
    assertEquals(
        sheet.replace("\r\nGum;0,5;A", ""),
        made(sheet, "a.csv", new Edit.Removal(2, "Gum", percent("0.5 %"))));
  }

  @Test
  @DisplayName("tables: a quote opens a cell at its beginning alone")
  void quotesInTables() {
    String sheet =
        "name,share,grade\nAqua,rest,\nGum 5\" pack,1,a\n\"Oil, \"\"wild\"\"\" ,2,\"b\nc\"\nWax,3,\n";
    assertEquals(
        sheet.replace("pack,1", "pack,1.5"),
        made(
            sheet,
            "a.csv",
            new Edit.OfAmount(1, "Gum 5\" pack", percent("1 %"), percent("1.5 %"))));
    assertEquals(
        sheet.replace(",2,", ",2.5,"),
        made(
            sheet,
            "a.csv",
            new Edit.OfAmount(2, "Oil, \"wild\"", percent("2 %"), percent("2.5 %"))));
    assertEquals(
        sheet.replace("\"Oil, \"\"wild\"\"\" ,2,\"b\nc\"\n", ""),
        made(sheet, "a.csv", new Edit.Removal(2, "Oil, \"wild\"", percent("2 %"))));
    assertEquals(
        sheet.replace("Wax,3", "\"Wax, \"\"soft\"\"\",3"),
        made(
            sheet,
            "a.csv",
            new Edit.Substitution(3, "Wax", "Wax, \"soft\"", percent("3 %"), percent("3 %"))));
  }

  private static String made(String sheet, String file, Edit edit) {
    return EDITOR.apply(List.of(edit), sheet, file).orThrow();
  }

  // What is refused

  static List<org.junit.jupiter.params.provider.Arguments> refusals() {
    return List.of(
        refusal(
            "another ingredient",
            "a.yaml",
            new Edit.OfAmount(1, "Guar Gum", percent("1 %"), percent("2 %")),
            "other-ingredient"),
        refusal(
            "another share by now",
            "a.yaml",
            new Edit.OfAmount(1, "Xanthan Gum", percent("3 %"), percent("2 %")),
            "changed-since"),
        refusal(
            "another batch by now",
            "a.yaml",
            new Edit.OfBatch(Optional.of(Quantity.of(400, Unit.GRAM)), Quantity.of(300, Unit.GRAM)),
            "changed-since"),
        refusal(
            "no such line",
            "a.yaml",
            new Edit.Removal(2, "Guar Gum", percent("1 %")),
            "no-such-part"),
        refusal("no such step", "a.yaml", new Edit.Move(0, 0), "no-such-part"),
        refusal(
            "a share that no sheet may have",
            "a.yaml",
            new Edit.OfAmount(1, "Xanthan Gum", percent("1 %"), percent("101 %")),
            "cannot-be-written"));
  }

  private static org.junit.jupiter.params.provider.Arguments refusal(
      String what, String file, Edit edit, String code) {
    return org.junit.jupiter.params.provider.Arguments.of(what, file, edit, code);
  }

  @ParameterizedTest(name = "{0} -> {3}")
  @MethodSource("refusals")
  void refused(String what, String file, Edit edit, String code) {
    assertEquals(
        List.of(code),
        EDITOR.apply(List.of(edit), NOTES, file).problems().stream().map(Problem::code).toList());
  }

  @Test
  @DisplayName("a change of the method is none of a table; a sheet with mistakes is told as such")
  void refusedToo() {
    Read<String> table =
        EDITOR.apply(List.of(new Edit.OfPH(Optional.empty(), 5)), "name,share\nAqua,99", "a.csv");
    assertEquals("not-in-table", table.problems().get(0).code());
    Read<String> none = EDITOR.apply(List.of(new Edit.Move(0, 0)), "formula: [", "a.yaml");
    assertEquals("not-yaml", none.problems().get(0).code());
    Read<String> half = EDITOR.apply(List.of(new Edit.Move(0, 0)), "formula: \uD83C", "a.yaml");
    assertEquals("wrong-encoding", half.problems().get(0).code());
  }

  @Test
  @DisplayName("no edits, no change")
  void nothing() {
    assertEquals(NOTES, EDITOR.apply(List.of(), NOTES, "a.yaml").orThrow());
    JsonNode tree = Samples.json(Samples.utf8(NOTES), "a.yaml");
    assertEquals("Notes", tree.get("formula").textValue());
  }
}
