package gelwright.sheets.tree;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadConstraints;
import gelwright.problem.Place;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Locale;

/** Reads JSON (RFC 8259), nothing beyond it, with the place of every token. */
final class JsonTree {
  private JsonTree() {}

  static Read<Document> read(String text, String file, Limits limits) {
    TreeBuilder tree = new TreeBuilder(file, limits);
    JsonFactory factory =
        JsonFactory.builder()
            .streamReadConstraints(
                StreamReadConstraints.builder()
                    // One more than is read, so that the tree's own message is the one shown.
                    .maxNestingDepth(limits.depth() + 1)
                    .maxStringLength(limits.bytes())
                    .maxNameLength(limits.bytes())
                    .maxNumberLength(limits.bytes())
                    .maxDocumentLength(limits.bytes())
                    .build())
            .build();
    try (JsonParser parser = factory.createParser(text)) {
      JsonToken token = parser.nextToken();
      int depth = 0;
      while (token != null) {
        depth = take(token, parser, tree, depth);
        token = parser.nextToken();
        if (depth == 0 && token != null) {
          JsonLocation at = parser.currentTokenLocation();
          throw tree.stop(
              new Place(file, at.getLineNr(), at.getColumnNr(), ""),
              "several-documents",
              "The document goes on after its end.",
              "A sheet is one JSON object.");
        }
      }
      return tree.finished();
    } catch (JsonProcessingException exception) {
      JsonLocation at = exception.getLocation();
      Place place =
          at == null || at.getLineNr() < 1
              ? new Place(file, 1, 1, "")
              : new Place(file, at.getLineNr(), Math.max(1, at.getColumnNr()), "");
      tree.stop(
          place,
          "not-json",
          "This is not well-formed JSON: " + shorten(exception.getOriginalMessage()) + ".",
          "");
      return tree.failed();
    } catch (TreeBuilder.Stop stop) {
      return tree.failed();
    } catch (IOException exception) {
      throw new UncheckedIOException("a string cannot fail to be read", exception);
    }
  }

  /** The first sentence of the parser's message, which goes on about its own settings. */
  private static String shorten(String message) {
    String line = message.strip().replaceAll("\\s+", " ");
    int end = line.indexOf("(from `");
    String cut = (end > 0 ? line.substring(0, end) : line).strip();
    String shortened = cut.length() > 200 ? cut.substring(0, 200) + "…" : cut;
    String lower =
        shortened.isEmpty()
            ? shortened
            : shortened.substring(0, 1).toLowerCase(Locale.ROOT) + shortened.substring(1);
    return lower.endsWith(".") ? lower.substring(0, lower.length() - 1) : lower;
  }

  private static int take(JsonToken token, JsonParser parser, TreeBuilder tree, int depth)
      throws IOException {
    JsonLocation at = parser.currentTokenLocation();
    int line = at.getLineNr();
    int column = at.getColumnNr();
    switch (token) {
      case START_OBJECT, START_ARRAY -> {
        tree.open(token == JsonToken.START_OBJECT, false, line, column);
        return depth + 1;
      }
      case END_OBJECT, END_ARRAY -> {
        tree.close();
        return depth - 1;
      }
      case FIELD_NAME -> tree.key(parser.currentName(), line, column + 1);
      default -> {
        Place place = tree.place(line, column);
        Node.Kind kind =
            switch (token) {
              case VALUE_NUMBER_INT, VALUE_NUMBER_FLOAT -> Node.Kind.NUMBER;
              case VALUE_TRUE, VALUE_FALSE -> Node.Kind.TRUTH;
              case VALUE_NULL -> Node.Kind.NOTHING;
              default -> Node.Kind.TEXT;
            };
        tree.scalar(
            new Node.Scalar(
                place,
                kind == Node.Kind.TEXT ? place.plusColumns(1) : place,
                kind == Node.Kind.NOTHING ? "" : parser.getText(),
                kind));
      }
    }
    return depth;
  }
}
