package gelwright.sheets;

import gelwright.ingredient.Catalogue;
import gelwright.problem.Place;
import gelwright.sheets.tree.Limits;
import gelwright.sheets.tree.Read;
import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Stream;

/**
 * The sheets that come with the program, and own sheets on top of them.
 *
 * <p>The bundled resources are listed in {@code gelwright/index.txt}, one a line, because a jar or
 * a module cannot be asked for the names in a folder.
 */
public final class Bundled {
  private static final String INDEX = "gelwright/index.txt";

  private static final Library NOTHING =
      new Library(Catalogue.of(List.of(), List.of()), List.of(), Map.of());

  private Bundled() {}

  /**
   * Reads the bundled sheets anew; keep the result, it is immutable.
   *
   * @throws IllegalStateException when a bundled sheet has a problem, naming all of them: that is a
   *     fault of the program
   */
  public static Library load() {
    Shelf shelf = new Shelf(Limits.USUAL);
    // Reading is most of the time to start, and no sheet waits for another; they are put together
    // in the order of the index.
    List<Shelf> read =
        names().parallelStream()
            .filter(name -> !name.startsWith("gelwright/schemas/"))
            .map(
                name -> {
                  Shelf one = new Shelf(Limits.USUAL);
                  one.add(resource(name), name);
                  return one;
                })
            .toList();
    read.forEach(shelf::add);
    return shelf.onTopOf(NOTHING).orThrow();
  }

  /** Names of the bundled resources, such as {@code gelwright/rules/oil-load.yaml}. */
  public static List<String> names() {
    return new String(resource(INDEX), StandardCharsets.UTF_8)
        .lines()
        .map(String::strip)
        .filter(line -> !line.isEmpty() && !line.startsWith("#"))
        .map(line -> line.startsWith("gelwright/") ? line : "gelwright/" + line)
        .toList();
  }

  /**
   * The JSON Schema (2020-12) of a kind of sheet.
   *
   * @param name formula, ingredients, sources or rule-set
   */
  public static String schema(String name) {
    return new String(
        resource("gelwright/schemas/" + name + ".schema.json"), StandardCharsets.UTF_8);
  }

  private static byte[] resource(String name) {
    try (InputStream in = Bundled.class.getResourceAsStream("/" + name)) {
      if (in == null) {
        throw new FileNotFoundException("no bundled resource " + name);
      }
      return in.readAllBytes();
    } catch (IOException exception) {
      throw new UncheckedIOException(exception);
    }
  }

  /**
   * Own sheets on top of what is known: own ingredients and sources replace those of the same name,
   * own rule sets come after the others.
   *
   * @param known usually what {@link #load()} gave
   * @param places files, and folders searched with all folders in them for {@code .yaml}, {@code
   *     .yml} and {@code .json}; a folder without any such file is a problem
   * @param limits of each sheet
   */
  public static Read<Library> withOwn(Library known, List<Path> places, Limits limits) {
    return shelf(places, limits).onTopOf(known);
  }

  /** What the sheets of these places say, as far as it can be read. */
  static Shelf shelf(List<Path> places, Limits limits) {
    Shelf shelf = new Shelf(limits);
    for (Path place : places) {
      List<Path> files = files(place, shelf);
      for (Path file : files) {
        add(file, shelf, limits);
      }
    }
    return shelf;
  }

  private static List<Path> files(Path place, Shelf shelf) {
    Place here = new Place(place.toString(), 0, 0, "");
    if (Files.isRegularFile(place)) {
      return List.of(place);
    }
    if (!Files.isDirectory(place)) {
      shelf.problem(here, "unreadable", "There is no folder or file " + place + ".", "");
      return List.of();
    }
    try (Stream<Path> all = Files.walk(place)) {
      List<Path> files =
          all.filter(Files::isRegularFile).filter(Bundled::isSheet).sorted().toList();
      if (files.isEmpty()) {
        shelf.problem(
            here,
            "no-sheets",
            "The folder " + place + " has no sheets in it.",
            "A sheet ends in .yaml, .yml or .json.");
      }
      return files;
    } catch (IOException | UncheckedIOException exception) {
      shelf.problem(here, "unreadable", "The folder " + place + " cannot be read.", "");
      return List.of();
    }
  }

  private static boolean isSheet(Path file) {
    String name = file.toString().toLowerCase(Locale.ROOT);
    return name.endsWith(".yaml") || name.endsWith(".yml") || name.endsWith(".json");
  }

  private static void add(Path file, Shelf shelf, Limits limits) {
    try (InputStream in = Files.newInputStream(file)) {
      // One byte more than is read, so that a file too large is told as such and never held whole.
      shelf.add(in.readNBytes(limits.bytes() + 1), file.toString());
    } catch (IOException exception) {
      shelf.problem(
          new Place(file.toString(), 0, 0, ""),
          "unreadable",
          "The file " + file + " cannot be read.",
          "");
    }
  }
}
