package gelwright.api;

import gelwright.sheets.FormulaReader;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Limits;
import gelwright.sheets.tree.Node;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;

/** Tells formula sheets from the other sheets that may lie in the same folder. */
final class SheetKind {
  /** The brief of {@code shade-mist.csv} is {@code shade-mist.brief.yaml}. */
  private static final String BRIEF = ".brief.yaml";

  private static final Set<String> KNOWLEDGE =
      Set.of("ingredients", "lots", "sources", "rule-set", "readings-of");
  private static final Pattern FORMULA = Pattern.compile("(?m)^[\\s{\"']*formula[\"']?\\s*:");

  private SheetKind() {}

  /** Whether a file may be a formula sheet; one that cannot be read may be, and is told as such. */
  static boolean isFormula(Path file) {
    String name = file.toString();
    if (FormulaReader.isTable(name)) {
      return true;
    }
    if (name.endsWith(BRIEF)) {
      String table = name.substring(0, name.length() - BRIEF.length()) + ".csv";
      return !Files.isRegularFile(Path.of(table));
    }
    byte[] bytes;
    try (InputStream in = Files.newInputStream(file)) {
      bytes = in.readNBytes(Limits.USUAL.bytes() + 1);
    } catch (IOException unreadable) {
      return true;
    }
    if (FORMULA.matcher(new String(bytes, StandardCharsets.UTF_8)).find()) {
      return true;
    }
    return Document.read(bytes, name, Document.Format.of(name), Limits.USUAL)
        .value()
        .map(document -> !isKnowledge(document.root()))
        .orElse(true);
  }

  private static boolean isKnowledge(Node root) {
    return root instanceof Node.Mapping mapping
        && !mapping.entries().containsKey("formula")
        && mapping.entries().keySet().stream().anyMatch(KNOWLEDGE::contains);
  }

  /** The sheet beside a table that holds its brief, method and the rest, if there is one. */
  static Optional<Path> brief(Path table) {
    String name = table.toString();
    if (!FormulaReader.isTable(name)) {
      return Optional.empty();
    }
    Path brief = Path.of(name.substring(0, name.lastIndexOf('.')) + BRIEF);
    return Files.exists(brief) ? Optional.of(brief) : Optional.empty();
  }
}
