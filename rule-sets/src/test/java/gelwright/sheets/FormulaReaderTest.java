package gelwright.sheets;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.formula.Amount;
import gelwright.formula.Formula;
import gelwright.formula.Span;
import gelwright.problem.Place;
import gelwright.problem.Problem;
import gelwright.quantity.Quantity;
import gelwright.quantity.Share;
import gelwright.quantity.Unit;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Limits;
import gelwright.sheets.tree.Read;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("formula sheets")
final class FormulaReaderTest {
  private static final FormulaReader READER = new FormulaReader();

  private static Read<Formula> yaml(String text) {
    return READER.read(Samples.utf8(text), "sheet.yaml");
  }

  private static Read<Formula> csv(String text) {
    return READER.read(Samples.utf8(text), "recipes/dew-gel.csv");
  }

  @Test
  @DisplayName("a full sheet gives every part of the formula")
  void fullSheet() {
    Formula formula =
        READER.read(Samples.bytes("wind-shelter.formula.yaml"), "wind-shelter.yaml").orThrow();
    assertEquals("Wind-shelter gel-cream", formula.name());
    assertEquals("3", formula.version());
    assertEquals(Optional.of(new Span(5.0, 5.8)), formula.brief().pH());
    assertEquals(List.of("EU", "NO"), formula.brief().markets());
    assertEquals(Optional.of(Quantity.of(12, Unit.MONTH)), formula.brief().shelfLife());
    assertEquals(new Amount.Rest(), formula.lines().get(0).amount());
    assertEquals(
        new Amount.Stated(Share.parse("1.2 %").orElseThrow()), formula.lines().get(2).amount());
    assertEquals(Share.parse("80 %"), formula.lines().get(4).strength());
    assertEquals(new Amount.ToPH(), formula.lines().get(6).amount());
    assertEquals(Optional.of(Quantity.of(38, Unit.CELSIUS)), formula.method().get(2).temperature());
    assertEquals(Optional.of(5.4), formula.method().get(4).pH());
    assertEquals(Unit.PH, formula.measured().get(0).value().orElseThrow().unit());
    assertEquals(LocalDate.of(2027, 3, 1), formula.accepted().get(0).until());
    assertEquals(List.of("Aqua", "Squalane"), formula.label().orElseThrow().ingredients());
  }

  @Test
  @DisplayName("every part of the formula has its place")
  void places() {
    Formula formula =
        READER.read(Samples.bytes("wind-shelter.formula.yaml"), "wind-shelter.yaml").orThrow();
    String[] lines = Samples.text("wind-shelter.formula.yaml").split("\n", -1);
    Map.of(
            "/product/pH", "5.0 to 5.8",
            "/ingredients/2", "{ phase: A, name: Sclerotium",
            "/ingredients/2/share", "1.2 %",
            "/method/4", "{ do: adjust-pH",
            "/method/4/to", "5.4",
            "/measured/0", "{ what: pH",
            "/accepted/0", "{ rule: oil-load",
            "/label", "ingredients: [Aqua")
        .forEach(
            (pointer, start) -> {
              Place place = formula.place(pointer);
              assertEquals("wind-shelter.yaml", place.file());
              String rest = lines[place.line() - 1].substring(place.column() - 1);
              assertTrue(rest.startsWith(start), pointer + " is at " + rest);
            });
    assertEquals(Place.NOWHERE, formula.place("/batches"));
  }

  @Test
  @DisplayName("the same tree in JSON gives the same formula")
  void json() {
    byte[] yaml = Samples.bytes("wind-shelter.formula.yaml");
    Formula fromYaml = READER.read(yaml, "a.yaml").orThrow();
    Formula fromJson =
        READER
            .read(Samples.utf8(Samples.json(yaml, "a.yaml").toPrettyString()), "a.json")
            .orThrow();
    assertEquals(fromYaml.lines(), fromJson.lines());
    assertEquals(fromYaml.method(), fromJson.method());
    assertEquals(fromYaml.brief(), fromJson.brief());
    assertEquals(fromYaml.measured(), fromJson.measured());
    assertEquals(fromYaml.accepted(), fromJson.accepted());
  }

  @Test
  @DisplayName("three planted mistakes give exactly these three, each at its place")
  void threeMistakes() {
    String sheet =
        Samples.text("wind-shelter.formula.yaml")
            .replace("texture: soft-gel", "texture: soft-gle")
            .replace("share: 6 % }", "share: 106 % }")
            .replace("do: hydrate, phase: A, at: 38 °C", "do: hydrate, phase: A, at: 38 min");
    Read<Formula> read = yaml(sheet);
    assertTrue(read.value().isEmpty());
    assertEquals(
        List.of("8:12 unknown-word", "23:40 out-of-range", "30:34 wrong-dimension"),
        Samples.brief(read.problems()));
    assertEquals("Did you mean soft-gel?", read.problems().get(0).hint());
    assertEquals(
        "\"at\" is \"38 min\"; write a temperature such as 38 °C.",
        read.problems().get(2).message());
  }

  @ParameterizedTest(name = "{0} -> {1}: {2}")
  @CsvSource(
      delimiter = '|',
      value = {
        "share: 105 % | out-of-range | \"share\" must lie between 0 % and 100 %; it is 105 %.",
        "share: -1 | out-of-range | \"share\" must lie between 0 % and 100 %; it is -1 %.",
        "share: 1 %, strength: 120 % | out-of-range | \"strength\" must lie between 0 % and 100 %; it is 120 %.",
        "share: 1 %, size: 0 µm | not-possible | \"size\" must be more than zero; it is 0 µm.",
        "share: '0,5 %' | bad-quantity | \"share\" is \"0,5 %\"; write a share such as 4 %, 400 ppm or the number 4, or rest, or to-pH.",
        "share: 4 g | wrong-dimension | \"share\" is \"4 g\"; write a share such as 4 %, 400 ppm or the number 4, or rest, or to-pH.",
        "share: | empty-value | \"share\" has no value; write a share such as 4 %, 400 ppm or the number 4, or rest, or to-pH, or leave the key out.",
        "shaer: 4 % | missing-key | The key \"share\" is missing in an ingredient line.",
      })
  @DisplayName("a line with")
  void lines(String attributes, String code, String message) {
    Read<Formula> read =
        yaml(
            "formula: x\ningredients:\n  - { name: Aqua, share: rest }\n  - { name: Y, "
                + attributes
                + " }\n");
    assertTrue(
        read.problems().stream()
            .anyMatch(p -> p.code().equals(code) && p.message().equals(message)),
        read.problems().toString());
  }

  @ParameterizedTest(name = "{0} -> {1} at column {2}")
  @CsvSource(
      delimiter = '|',
      value = {
        "{ do: heat, to: 38 } | wrong-dimension | 21",
        "{ do: heat, to: 400 °C } | out-of-range | 21",
        "{ do: heat, to: 40 °C, at: 40 °C } | two-temperatures | 32",
        "{ do: adjust-pH, to: 40 °C } | wrong-dimension | 26",
        "{ do: adjust-pH, to: 19 } | out-of-range | 26",
        "{ do: hydrate, for: 35 } | wrong-dimension | 25",
        "{ do: mix, stir: 800 /s } | wrong-dimension | 22",
        "{ do: mix, stir: 40000 rpm } | out-of-range | 22",
        "{ do: mix, with: [] , speed: 3 } | unknown-key | 27",
        "{ phase: A } | missing-key | 5",
        "{ do: boil } | unknown-word | 11",
      })
  @DisplayName("a step")
  void steps(String step, String code, int column) {
    Read<Formula> read =
        yaml("formula: x\ningredients: [{ name: A, share: rest }]\nmethod:\n  - " + step + "\n");
    assertEquals(List.of("4:" + column + " " + code), Samples.brief(read.problems()));
  }

  @Test
  @DisplayName("no formula comes out of a sheet with a problem, and no key is forgiven")
  void unknownKey() {
    Read<Formula> read = yaml("formula: x\nvesion: 2\ningredients: [{ name: A, share: rest }]\n");
    assertEquals(List.of("2:1 unknown-key"), Samples.brief(read.problems()));
    assertEquals("Did you mean version?", read.problems().get(0).hint());
    assertTrue(read.value().isEmpty());
  }

  @Test
  @DisplayName("a comma that splits an entry is explained")
  void splitByComma() {
    List<Problem> problems =
        yaml("formula: x\ningredients: [{ name: A, share: 0,5 % }]\n").problems();
    assertEquals(List.of("2:35 unknown-key"), Samples.brief(problems));
    assertTrue(problems.get(0).hint().contains("decimals with a point"));
  }

  @Test
  @DisplayName("problems beyond the limit are counted")
  void manyProblems() {
    Limits few = new Limits(1 << 20, 40, 100_000, 10_000, 3);
    String sheet = "formula: x\ningredients: [1, 2, 3, 4, 5]\n";
    List<Problem> problems = new FormulaReader(few).read(Samples.utf8(sheet), "x.yaml").problems();
    assertEquals(4, problems.size());
    assertEquals("There are 2 more problems.", problems.get(3).message());
  }

  // Tables

  @Test
  @DisplayName("a table in any order and case, INCI and % as headings, with blank rows")
  void table() {
    Formula formula =
        csv("%,INCI,Phase\r\nq.s. 100,Aqua,A\r\n,,\r\n0.5,\"Gum, \"\"dew\"\"\",A\r\n400 ppm,X,B\r\n")
            .orThrow();
    assertEquals("dew-gel", formula.name());
    assertEquals(new Amount.Rest(), formula.lines().get(0).amount());
    assertEquals("Gum, \"dew\"", formula.lines().get(1).name());
    assertEquals("A", formula.lines().get(1).phase());
    assertEquals(new Place("recipes/dew-gel.csv", 4, 1, ""), formula.place("/ingredients/1/share"));
    assertEquals(new Place("recipes/dew-gel.csv", 4, 5, ""), formula.place("/ingredients/1/name"));
  }

  @Test
  @DisplayName("decimal commas where the cells are parted by semicolons")
  void decimalComma() {
    Formula formula = csv("phase;name;share\nA;Aqua;rest\nA;Gum;0,5\nA;Salt;1,250 %\n").orThrow();
    assertEquals(
        new Amount.Stated(Share.parse("1.25 %").orElseThrow()), formula.lines().get(2).amount());
  }

  @ParameterizedTest(name = "{0} -> {1}")
  @CsvSource(
      delimiter = '|',
      value = {
        "name,share~Gum,\"0,5\" | 2:5 ambiguous-number",
        "name;share~Gum;1,250 | 2:5 ambiguous-number",
        "name;share~Gum;1.250,5 | 2:5 ambiguous-number",
        "name;share~Gum;0,5~Salt;1.250 | 2:5 ambiguous-number, 3:6 ambiguous-number",
        "name;share~Gum;0.5~Salt;0,25 | 2:5 ambiguous-number, 3:6 ambiguous-number",
        "name,share~Gum,lots | 2:5 bad-quantity",
        "name,share~Gum | 2:1 missing-key",
        "name,share~,4 | 2:1 missing-key",
        "name,share~Gum,4,5 | 2:7 extra-cell",
        "name,shaer~Gum,4 | 1:1 missing-key, 1:6 unknown-column",
        "name,share,%~Gum,4,5 | 1:12 duplicate-key",
        "name,,share~Gum,,4 | 1:6 unknown-column",
        "name,share | 1:1 empty-list",
        "name,share~\"Gum,4 | 2:1 not-csv",
        "name,share~\"Gum\"x,4 | 2:1 not-csv",
      })
  @DisplayName("a table")
  void oddTables(String table, String problems) {
    Read<Formula> read = csv(table.replace('~', '\n') + "\n");
    assertEquals(problems, String.join(", ", Samples.brief(read.problems())));
  }

  @Test
  @DisplayName("a sheet beside the table brings brief and method")
  void beside() {
    Document beside =
        Document.read(
                Samples.utf8("formula: Dew\nproduct: { use: leave-on }\nmethod: [{ do: fill }]\n"),
                "dew.yaml")
            .orThrow();
    Formula formula =
        READER
            .readTable(Samples.utf8("name\tshare\nAqua\trest\n"), "dew.csv", Optional.of(beside))
            .orThrow();
    assertEquals("Dew", formula.name());
    assertEquals(1, formula.method().size());
    assertEquals("dew.yaml", formula.place("/method/0").file());
    assertEquals("dew.csv", formula.place("/ingredients/0").file());
  }

  @Test
  @DisplayName("ingredients in both the table and the sheet beside it are a mistake")
  void ingredientsTwice() {
    Document beside =
        Document.read(Samples.bytes("shade-mist.formula.yaml"), "mist.yaml").orThrow();
    Read<Formula> read =
        READER.readTable(Samples.utf8("name,share\nAqua,rest\n"), "mist.csv", Optional.of(beside));
    assertEquals(List.of("2:1 ingredients-twice"), Samples.brief(read.problems()));
  }
}
