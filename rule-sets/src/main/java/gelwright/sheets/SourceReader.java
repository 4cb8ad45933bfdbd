package gelwright.sheets;

import static java.util.Objects.requireNonNull;

import gelwright.ingredient.Source;
import gelwright.sheets.mapping.Keys;
import gelwright.sheets.mapping.Problems;
import gelwright.sheets.mapping.Values;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Limits;
import gelwright.sheets.tree.Node;
import gelwright.sheets.tree.Read;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/** Reads sheets of sources: ids with citation and standing. */
public final class SourceReader {
  static final List<String> STANDINGS =
      Arrays.stream(Source.Standing.values()).map(Source.Standing::word).toList();

  private final Limits limits;

  /** A reader with the usual limits. */
  public SourceReader() {
    this(Limits.USUAL);
  }

  public SourceReader(Limits limits) {
    this.limits = requireNonNull(limits, "limits");
  }

  /** The sources of a sheet, in the order written. */
  public Read<List<Source>> read(byte[] bytes, String file) {
    return Document.read(bytes, file, Document.Format.of(file), limits).then(this::read);
  }

  /** The sources of a sheet that is a tree already. */
  public Read<List<Source>> read(Document document) {
    Problems problems = Problems.of(document, limits);
    List<Source> sources =
        Keys.of(document.root(), "a sheet of sources", problems, List.of("sources"))
            .flatMap(keys -> keys.required("sources", SourceReader::sources))
            .orElse(List.of());
    return problems.orElse(() -> sources);
  }

  /** The mapping under {@code sources}. */
  static Optional<List<Source>> sources(Node node, String what, Problems problems) {
    return Keys.names(node, what, problems)
        .map(
            mapping -> {
              List<Source> sources = new ArrayList<>();
              for (Node.Entry entry : mapping.entries().values()) {
                source(entry, problems).ifPresent(sources::add);
              }
              return sources;
            });
  }

  private static Optional<Source> source(Node.Entry entry, Problems problems) {
    Optional<String> id =
        Values.ID.read(
            Node.Scalar.text(entry.key(), entry.keyPlace()), "The name of a source", problems);
    Optional<Keys> keys =
        Keys.of(entry.value(), "a source", problems, List.of("citation", "standing"));
    Optional<String> citation = keys.flatMap(k -> k.required("citation", Values.TEXT));
    Optional<Source.Standing> standing =
        keys.flatMap(k -> k.required("standing", Values.word(STANDINGS)))
            .flatMap(Source.Standing::of);
    if (id.isEmpty() || citation.isEmpty() || standing.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(new Source(id.get(), citation.get(), standing.get()));
  }
}
