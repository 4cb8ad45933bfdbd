package gelwright.sheets;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.databind.node.TextNode;
import gelwright.formula.Formula;
import gelwright.problem.Problem;
import gelwright.sheets.tree.Read;
import java.nio.charset.Charset;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/**
 * Sheets that nobody can read: each gives at least one problem with a place, a code and a sentence;
 * none gives an exception, half a formula, or a wait.
 */
@DisplayName("malformed sheets")
final class MalformedSheetsTest {
  private static final String SAMPLE = Samples.text("wind-shelter.formula.yaml");
  private static final String HEAD = "formula: x\ningredients: [{ name: Aqua, share: rest }]\n";

  /** A guard against hanging, not a measurement: a sheet takes milliseconds. */
  private static final Duration LONG = Duration.ofSeconds(60);

  private record Sheet(String what, String file, byte[] bytes) {}

  private static Sheet yaml(String what, String text) {
    return new Sheet(what, "sheet.yaml", Samples.utf8(text));
  }

  private static Sheet json(String what, String text) {
    return new Sheet(what, "sheet.json", Samples.utf8(text));
  }

  private static Sheet csv(String what, String text) {
    return new Sheet(what, "sheet.csv", Samples.utf8(text));
  }

  @Test
  @DisplayName("there are at least 200 of them")
  void enough() {
    int count = all().size();
    assertTrue(count >= 200, "only " + count);
  }

  @TestFactory
  @DisplayName("sheet")
  Stream<DynamicTest> each() {
    return all().stream().map(sheet -> dynamicTest(sheet.what(), () -> refused(sheet)));
  }

  private static void refused(Sheet sheet) {
    Read<Formula> read =
        assertTimeoutPreemptively(
            LONG, () -> new FormulaReader().read(sheet.bytes(), sheet.file()));
    assertTrue(read.value().isEmpty(), "was read: " + read.value());
    assertFalse(read.problems().isEmpty());
    for (Problem problem : read.problems()) {
      assertTrue(problem.place().line() >= 1, problem + " has no line");
      assertTrue(problem.place().column() >= 1, problem + " has no column");
      assertTrue(problem.place().file().equals(sheet.file()), problem + " has no file");
      assertTrue(problem.code().matches("[a-z0-9]+(-[a-z0-9]+)*"), problem.code());
      assertTrue(problem.message().endsWith("."), problem.message());
      assertTrue(problem.message().length() < 600, problem.message());
    }
  }

  @Test
  @DisplayName("random bytes in a good sheet never give an exception [seed 20261125]")
  void damaged() {
    Random random = new Random(20261125);
    for (String file : List.of("x.yaml", "x.json", "x.csv")) {
      byte[] good =
          switch (file) {
            case "x.yaml" -> Samples.bytes("wind-shelter.formula.yaml");
            case "x.json" ->
                Samples.utf8(
                    Samples.json(Samples.bytes("wind-shelter.formula.yaml"), "x.yaml").toString());
            default -> Samples.utf8("phase;name;share\nA;Aqua;rest\nA;\"Gum\";0,5\n");
          };
      for (int i = 0; i < 400; i++) {
        byte[] bytes = good.clone();
        for (int j = 0; j <= random.nextInt(4); j++) {
          bytes[random.nextInt(bytes.length)] =
              (byte)
                  (random.nextBoolean()
                      ? "{}[]:,-'\"\n #&*!|>%@`?\\".charAt(random.nextInt(22))
                      : random.nextInt(256));
        }
        Read<Formula> read =
            assertTimeoutPreemptively(LONG, () -> new FormulaReader().read(bytes, file));
        read.problems().forEach(p -> assertTrue(p.place().line() >= 1, p.toString()));
      }
    }
  }

  private static List<Sheet> all() {
    List<Sheet> all = new ArrayList<>();
    truncated(all);
    wrongTypes(all);
    encodings(all);
    yaml(all);
    jsons(all);
    tables(all);
    values(all);
    return all;
  }

  private static void truncated(List<Sheet> all) {
    String json =
        Samples.json(Samples.bytes("wind-shelter.formula.yaml"), "x.yaml").toPrettyString();
    for (int i = 1; i < 40; i++) {
      int end = json.length() * i / 40;
      all.add(json("JSON cut off after " + end + " characters", json.substring(0, end)));
    }
    // Cut in the middle of a line's brackets, so that what is left cannot be a whole sheet.
    int from = SAMPLE.indexOf("ingredients:");
    int cut = 0;
    for (int at = SAMPLE.indexOf(", ", from);
        at > 0 && cut < 30;
        at = SAMPLE.indexOf(", ", at + 40)) {
      all.add(yaml("YAML cut off after " + at + " characters", SAMPLE.substring(0, at)));
      cut++;
    }
  }

  private static void wrongTypes(List<Sheet> all) {
    JsonNode sample = Samples.json(Samples.bytes("wind-shelter.formula.yaml"), "x.yaml");
    List<String> pointers = new ArrayList<>();
    collect(sample, "", pointers);
    for (String pointer : pointers) {
      JsonNode there = sample.at(pointer);
      JsonNode wrong =
          there.isContainerNode()
              ? TextNode.valueOf("dew")
              : JsonNodeFactory.instance.arrayNode().add(JsonNodeFactory.instance.objectNode());
      if (pointer.isEmpty()) {
        all.add(json("text in place of the sheet", "\"dew\""));
        continue;
      }
      JsonNode copy = sample.deepCopy();
      String parent = pointer.substring(0, pointer.lastIndexOf('/'));
      String last = pointer.substring(parent.length() + 1);
      if (copy.at(parent) instanceof ObjectNode object) {
        object.set(last, wrong);
      } else {
        ((ArrayNode) copy.at(parent)).set(Integer.parseInt(last), wrong);
      }
      all.add(json("wrong type at " + pointer, copy.toPrettyString()));
    }
  }

  private static void collect(JsonNode node, String pointer, List<String> pointers) {
    pointers.add(pointer);
    node.fieldNames()
        .forEachRemaining(name -> collect(node.get(name), pointer + "/" + name, pointers));
    for (int i = 0; node.isArray() && i < node.size(); i++) {
      collect(node.get(i), pointer + "/" + i, pointers);
    }
  }

  private static void encodings(List<Sheet> all) {
    for (String charset : List.of("UTF-16", "UTF-16LE", "UTF-16BE", "UTF-32", "ISO-8859-1")) {
      for (String file : List.of("sheet.yaml", "sheet.json", "sheet.csv")) {
        all.add(
            new Sheet(charset + " as " + file, file, SAMPLE.getBytes(Charset.forName(charset))));
      }
    }
    for (String file : List.of("sheet.yaml", "sheet.json", "sheet.csv")) {
      all.add(new Sheet("nothing as " + file, file, new byte[0]));
      all.add(new Sheet("blanks as " + file, file, Samples.utf8(" \n\n  \n")));
      all.add(
          new Sheet(
              "a byte order mark alone as " + file,
              file,
              new byte[] {(byte) 0xEF, (byte) 0xBB, (byte) 0xBF}));
      all.add(new Sheet("NUL bytes as " + file, file, new byte[200]));
      byte[] noise = new byte[5000];
      new Random(7).nextBytes(noise);
      all.add(new Sheet("noise as " + file, file, noise));
      all.add(
          new Sheet(
              "the start of a ZIP archive as " + file,
              file,
              new byte[] {'P', 'K', 3, 4, 20, 0, 0, 0, 8, 0}));
      byte[] cut = Arrays.copyOf(Samples.utf8("formula: µ"), 10);
      all.add(new Sheet("half a character as " + file, file, cut));
      all.add(
          new Sheet(
              "an overlong zero as " + file,
              file,
              new byte[] {'a', ':', ' ', (byte) 0xC0, (byte) 0x80}));
      all.add(
          new Sheet(
              "a lone surrogate as " + file,
              file,
              new byte[] {'a', ':', ' ', (byte) 0xED, (byte) 0xA0, (byte) 0x80}));
      all.add(new Sheet("a bell as " + file, file, Samples.utf8("formula: \u0007\n")));
      all.add(
          new Sheet(
              "more than a mebibyte as " + file, file, Samples.utf8("# " + "x".repeat(1 << 20))));
    }
  }

  private static void yaml(List<Sheet> all) {
    all.add(yaml("100000 opening brackets", "[".repeat(100_000)));
    all.add(yaml("100000 opening braces", "{".repeat(100_000)));
    all.add(yaml("100000 nested mappings", "{a: ".repeat(100_000)));
    all.add(yaml("100000 dashes", "- ".repeat(100_000)));
    all.add(yaml("100000 question marks", "? ".repeat(100_000)));
    StringBuilder stairs = new StringBuilder();
    for (int i = 0; i < 1000; i++) {
      stairs.append(" ".repeat(i)).append("a:\n");
    }
    all.add(yaml("a thousand steps of indentation", stairs.toString()));
    StringBuilder laughs = new StringBuilder("a0: &a0 [x, x]\n");
    for (int i = 1; i < 30; i++) {
      laughs.append(
          String.format(Locale.ROOT, "a%d: &a%d [*a%d, *a%d, *a%d]%n", i, i, i - 1, i - 1, i - 1));
    }
    all.add(yaml("a billion laughs", laughs.toString()));
    all.add(yaml("an anchor that holds itself", HEAD + "label: &a { ingredients: [*a] }\n"));
    all.add(yaml("an alias to nothing", HEAD + "version: *nowhere\n"));
    all.add(yaml("an alias as key", HEAD + "*a : 3\n"));
    all.add(yaml("an anchor nobody uses", HEAD + "version: &v 3\n"));
    all.add(yaml("a merge key", HEAD + "<<: { version: 3 }\n"));
    all.add(yaml("a tag", HEAD + "version: !!str 3\n"));
    all.add(yaml("a tag of a program's type", HEAD + "version: !!java.net.URL [x]\n"));
    all.add(yaml("an own tag", HEAD + "version: !mine 3\n"));
    all.add(yaml("a tag on the sheet", "--- !!map\n" + HEAD));
    all.add(yaml("two documents", HEAD + "---\n" + HEAD));
    all.add(yaml("a second, empty document", HEAD + "---\n"));
    all.add(yaml("a key twice", HEAD + "formula: y\n"));
    all.add(
        yaml(
            "a key twice in a line",
            "formula: x\ningredients: [{ name: A, name: B, share: 1 }]\n"));
    all.add(yaml("a list as key", HEAD + "? [a, b]\n: c\n"));
    all.add(yaml("a mapping as key", HEAD + "{ a: b }: c\n"));
    all.add(yaml("an empty key", HEAD + ": c\n"));
    all.add(yaml("null as key", HEAD + "null: c\n"));
    all.add(yaml("a tab for indentation", "formula: x\ningredients:\n\t- name: A\n"));
    all.add(yaml("a tab before a key", "formula: x\n\tversion: 3\n"));
    all.add(yaml("an open double quote", HEAD + "version: \"3\n"));
    all.add(yaml("an open single quote", HEAD + "version: '3\n"));
    all.add(yaml("an open bracket", HEAD + "method: [\n"));
    all.add(yaml("an open brace", HEAD + "product: { kind: gel\n"));
    all.add(yaml("a bracket closed by a brace", HEAD + "method: [}\n"));
    all.add(yaml("a closing bracket too many", HEAD + "method: []]\n"));
    all.add(yaml("a bad escape", HEAD + "version: \"\\q\"\n"));
    all.add(yaml("an escape cut short", HEAD + "version: \"\\u12\"\n"));
    all.add(yaml("a colon in a plain text", HEAD + "version: a: b\n"));
    all.add(yaml("wrong indentation", "formula: x\n  version: 3\n" + "ingredients: []\n"));
    all.add(yaml("an at sign", HEAD + "version: @3\n"));
    all.add(yaml("a backtick", HEAD + "version: `3`\n"));
    all.add(yaml("a percent sign at the start", HEAD + "version: %3\n"));
    all.add(yaml("an unknown directive version", "%YAML 9.9\n---\n" + HEAD));
    all.add(yaml("a block scalar with odd header", HEAD + "version: |99\n  x\n"));
    all.add(yaml("a text alone", "dew\n"));
    all.add(yaml("a number alone", "5\n"));
    all.add(yaml("null alone", "~\n"));
    all.add(yaml("a list alone", "- formula: x\n"));
    all.add(yaml("a comment alone", "# dew\n"));
    all.add(yaml("a document marker alone", "---\n"));
    all.add(yaml("an end marker alone", "...\n"));
    all.add(
        yaml("a line of a million characters", HEAD + "version: " + "x".repeat(1_000_000) + "\n"));
    all.add(
        yaml(
            "a quoted text of a million characters",
            HEAD + "version: \"" + "x ".repeat(500_000) + "\"\n"));
    all.add(yaml("a key of 900 characters", HEAD + "x".repeat(900) + ": 3\n"));
    all.add(yaml("200000 list items", HEAD + "method: [" + "a,".repeat(200_000) + "]\n"));
    all.add(yaml("60000 unknown keys", HEAD + keys(60_000)));
    all.add(yaml("JSON with a trailing comma at the root", "{\"formula\": \"x\",, }"));
  }

  private static String keys(int count) {
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < count; i++) {
      text.append('k').append(i).append(": 1\n");
    }
    return text.toString();
  }

  private static void jsons(List<Sheet> all) {
    String good = "\"formula\":\"x\",\"ingredients\":[{\"name\":\"A\",\"share\":\"rest\"}]";
    all.add(json("100000 opening brackets in JSON", "[".repeat(100_000)));
    all.add(json("100000 nested objects in JSON", "{\"a\":".repeat(100_000)));
    all.add(
        json(
            "a number of a million digits",
            "{" + good + ",\"version\":" + "9".repeat(1_000_000) + "}"));
    all.add(json("a key twice in JSON", "{" + good + ",\"formula\":\"y\"}"));
    all.add(json("NaN", "{" + good + ",\"batch\":NaN}"));
    all.add(json("Infinity", "{" + good + ",\"batch\":-Infinity}"));
    all.add(json("a trailing comma", "{" + good + ",}"));
    all.add(json("a comment", "{" + good + "/* dew */}"));
    all.add(json("single quotes", "{'formula':'x'}"));
    all.add(json("a bare key", "{formula:\"x\"}"));
    all.add(json("text after the end", "{" + good + "} dew"));
    all.add(json("a second object", "{" + good + "}{" + good + "}"));
    all.add(json("two brackets too many", "{" + good + "}]]"));
    all.add(json("a line break in a text", "{\"formula\":\"x\ny\"}"));
    all.add(json("a tab in a text", "{\"formula\":\"x\ty\"}"));
    all.add(json("a bad escape in JSON", "{\"formula\":\"\\q\"}"));
    all.add(json("a leading zero", "{" + good + ",\"batch\":007}"));
    all.add(json("a leading plus", "{" + good + ",\"batch\":+7}"));
    all.add(json("a hexadecimal number", "{" + good + ",\"batch\":0x7}"));
    all.add(json("a misspelt word", "{" + good + ",\"batch\":nul}"));
    all.add(json("null for a value", "{" + good + ",\"version\":null}"));
    all.add(json("true for a text", "{" + good + ",\"version\":true}"));
    all.add(json("an empty key in JSON", "{" + good + ",\"\":1}"));
    all.add(json("YAML called JSON", HEAD));
    all.add(json("a number alone in JSON", "5"));
    all.add(json("null alone in JSON", "null"));
    all.add(json("an empty object", "{}"));
    all.add(json("an empty list", "[]"));
    all.add(
        json("a text of a million characters", "{\"formula\":\"" + "x".repeat(1_000_000) + "\"}"));
    all.add(json("a huge exponent", "{" + good.replace("\"rest\"", "1e999999999") + "}"));
    all.add(json("a tiny exponent", "{" + good.replace("\"rest\"", "1e-999999999") + "}"));
    all.add(
        json(
            "a share of 400 digits", "{" + good.replace("\"rest\"", "0." + "3".repeat(400)) + "}"));
  }

  private static void tables(List<Sheet> all) {
    all.add(csv("a header alone", "phase,name,share\n"));
    all.add(csv("an unknown column", "phase,name,share,supplier\nA,X,1,Y\n"));
    all.add(csv("no share column", "phase,name\nA,X\n"));
    all.add(csv("no header", "A,Aqua,50\nA,Glycerin,50\n"));
    all.add(csv("a column twice", "name,INCI,share\nX,X,1\n"));
    all.add(csv("an open quote", "name,share\n\"X,1\n"));
    all.add(csv("text after a quote", "name,share\n\"X\"Y,1\n"));
    all.add(csv("a quote in a cell", "name,share\n\"X\"\"\"Y,1\n"));
    all.add(csv("a row too long", "name,share\nX,1,2,3\n"));
    all.add(csv("a row too short", "name,share\nX\n"));
    all.add(csv("a comma decimal between commas", "name,share\nX,0,5\n"));
    all.add(csv("a quoted comma decimal between commas", "name,share\nX,\"0,5\"\n"));
    all.add(csv("a comma that may part thousands", "name;share\nX;1,250\n"));
    all.add(csv("points and commas", "name;share\nX;0,5\nY;0.5\n"));
    all.add(csv("thousands and decimals", "name;share\nX;1.000,50\n"));
    all.add(csv("a share of 150", "name,share\nX,150\n"));
    all.add(csv("a share in grams", "name,share\nX,5 g\n"));
    all.add(csv("a blank name", "name,share\n ,5\n"));
    all.add(csv("a blank share", "name,share\nX, \n"));
    all.add(csv("semicolons under commas", "name,share\nX;5\n"));
    all.add(csv("a cell of 20000 characters", "name,share\n" + "x".repeat(20_000) + ",5\n"));
    all.add(csv("200000 rows", "name,share\n" + "x,1\n".repeat(200_000)));
    all.add(csv("100000 columns", "name" + ",".repeat(100_000) + "\n"));
    all.add(csv("YAML called a table", HEAD));
  }

  private static void values(List<Sheet> all) {
    for (String share :
        List.of(
            ".nan",
            ".inf",
            "-.inf",
            "NaN",
            "1e400",
            "1e99 %",
            "0x10",
            "0o17",
            "1_000",
            "4%%",
            "% 4",
            "four",
            "4 percents",
            "1/2",
            "0.123456789 %",
            "-0.0001",
            "100.0000001",
            "4 % 5",
            "~",
            "true",
            "'0,5'",
            "٤",
            "１",
            "1e-400",
            "9999999999999999999",
            "q.s.",
            "REST",
            "4 kg")) {
      all.add(
          yaml(
              "share: " + share, "formula: x\ningredients: [{ name: A, share: " + share + " }]\n"));
    }
    for (String line :
        List.of(
            "formula: ''",
            "formula: ' '",
            "version:",
            "version: [3]",
            "batch: 500",
            "batch: 500 mL",
            "batch: -1 g",
            "batch: 0 g",
            "batch: lots",
            "product:",
            "product: gel",
            "product: { pH: 5.8 to 5.0 }",
            "product: { pH: 40 }",
            "product: { pH: '5,5' }",
            "product: { pH: five }",
            "product: { markets: [no] }",
            "product: { markets: [XX] }",
            "product: { area: [nose] }",
            "product: { shelf-life: 12 }",
            "product: { Kind: gel }",
            "equipment: { balance: 0 g }",
            "equipment: { vessel: 85 mm }",
            "equipment: { vessel: { diameter: 85 } }",
            "equipment: { room: { humidity: 120 % } }",
            "equipment: { room: { temperature: 295 K } }",
            "equipment: { stirrer: { type: spoon } }",
            "method: none",
            "method: {}",
            "method: [heat]",
            "method: [{ do: }]",
            "method: [{ do: heat, to: 1e9 °C }]",
            "method: [{ do: adjust-pH, to: acid }]",
            "method: [{ do: hold, for: -5 min }]",
            "method: [{ do: mix, with: [] , into: }]",
            "measured: [{ what: pH }]",
            "measured: [{ what: pH, value: 20 }]",
            "measured: [{ what: pH, value: 5 Pa }]",
            "measured: [{ what: viscosity, value: 4 Pa·s }]",
            "measured: [{ what: viscosity, value: 4, shear-rate: 1 /s }]",
            "measured: [{ what: flow-curve }]",
            "measured: [{ what: flow-curve, points: [] }]",
            "measured: [{ what: flow-curve, points: [{ shear-rate: 1 /s }] }]",
            "measured: [{ what: flow-curve, value: 3, points: [{ shear-rate: 1 /s, stress: 1 Pa }] }]",
            "measured: [{ what: smell, value: 3 }]",
            "measured: [{ value: 3 }]",
            "label: [Aqua]",
            "label: { ingredients: Aqua }",
            "label: { ingredients: [''] }",
            "accepted: [{ rule: oil, because: x, until: 2027-03-01 }]",
            "accepted: [{ rule: a.b, because: '', until: 2027-03-01 }]",
            "accepted: [{ rule: a.b, because: x, until: 2027-02-30 }]",
            "accepted: [{ rule: a.b, because: x, until: soon }]",
            "accepted: [{ rule: a.b, because: x }]",
            "accepted: [{ rule: a.b, until: 2027-03-01 }]",
            "accepted: [{ rule: a.b, because: x, until: 2027-03-01, observed: much }]",
            "accepted: [{ rule: a.b, because: held, see book, until: 2027-03-01 }]")) {
      String head = line.startsWith("formula:") ? HEAD.substring(HEAD.indexOf('\n') + 1) : HEAD;
      all.add(yaml(line, head + line + "\n"));
    }
    all.add(yaml("no ingredients", "formula: x\n"));
    all.add(yaml("no formula", "ingredients: [{ name: A, share: rest }]\n"));
    all.add(yaml("an empty recipe", "formula: x\ningredients: []\n"));
    all.add(yaml("a line that is null", "formula: x\ningredients: [~]\n"));
  }
}
