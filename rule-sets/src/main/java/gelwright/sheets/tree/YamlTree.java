package gelwright.sheets.tree;

import gelwright.problem.Place;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.events.AliasEvent;
import org.snakeyaml.engine.v2.events.CollectionStartEvent;
import org.snakeyaml.engine.v2.events.Event;
import org.snakeyaml.engine.v2.events.MappingStartEvent;
import org.snakeyaml.engine.v2.events.NodeEvent;
import org.snakeyaml.engine.v2.events.ScalarEvent;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;
import org.snakeyaml.engine.v2.parser.ParserImpl;
import org.snakeyaml.engine.v2.scanner.StreamReader;

/**
 * Reads YAML 1.2 with the core schema, less what a sheet has no use for: anchors, aliases, tags and
 * further documents are problems.
 *
 * <p>It works on the parser's events. Composing nodes would recurse once per level, and a few
 * thousand opening brackets overflow the stack; the stream of events is given up at the level of
 * {@link Limits#depth()}, before anything recurses over it.
 */
final class YamlTree {
  /** A number of the core schema (YAML 1.2.2 section 10.3.2) in the decimal system. */
  private static final Pattern NUMBER =
      Pattern.compile("[-+]?(\\.[0-9]+|[0-9]+(\\.[0-9]*)?)([eE][-+]?[0-9]+)?");

  private static final Set<String> NOTHING = Set.of("", "~", "null", "Null", "NULL");
  private static final Set<String> TRUTH =
      Set.of("true", "True", "TRUE", "false", "False", "FALSE");

  private final String text;
  private final String file;
  private final TreeBuilder tree;

  private YamlTree(String text, String file, Limits limits) {
    this.text = text;
    this.file = file;
    this.tree = new TreeBuilder(file, limits);
  }

  static Read<Document> read(String text, String file, Limits limits) {
    YamlTree yaml = new YamlTree(text, file, limits);
    try {
      yaml.parse();
      return yaml.tree.finished();
    } catch (TreeBuilder.Stop stop) {
      return yaml.tree.failed();
    }
  }

  private void parse() {
    LoadSettings settings =
        LoadSettings.builder()
            .setLabel(file)
            .setUseMarks(true)
            // The bytes have been counted already.
            .setCodePointLimit(Integer.MAX_VALUE)
            .build();
    try {
      int documents = 0;
      ParserImpl parser = new ParserImpl(settings, new StreamReader(settings, text));
      while (parser.hasNext()) {
        Event event = parser.next();
        if (event.getEventId() == Event.ID.DocumentStart && ++documents > 1) {
          Mark mark = start(event);
          throw tree.stop(
              new Place(file, mark.getLine() + 1, mark.getColumn() + 1, ""),
              "several-documents",
              "A second document starts here; a sheet is one document.",
              "Put each sheet in a file of its own.");
        }
        take(event);
      }
    } catch (MarkedYamlEngineException exception) {
      Optional<Mark> mark = exception.getProblemMark().or(exception::getContextMark);
      throw tree.stop(
          new Place(
              file,
              mark.map(m -> m.getLine() + 1).orElse(1),
              mark.map(m -> m.getColumn() + 1).orElse(1),
              ""),
          "not-yaml",
          "This is not well-formed YAML: " + oneLine(exception.getProblem()) + ".",
          hint(exception));
    } catch (YamlEngineException exception) {
      throw tree.stop(
          new Place(file, 1, 1, ""),
          "not-yaml",
          "This is not well-formed YAML: " + oneLine(String.valueOf(exception.getMessage())) + ".",
          "");
    }
  }

  private static String oneLine(String message) {
    String line = message.strip().replaceAll("\\s+", " ");
    return line.endsWith(".") ? line.substring(0, line.length() - 1) : line;
  }

  private static String hint(MarkedYamlEngineException exception) {
    String problem = exception.getProblem();
    if (problem.contains("mapping values are not allowed")) {
      return "A text with a colon and a space in it needs quotes; check the indentation, too.";
    }
    if (problem.contains("TAB")) {
      return "Indent with spaces.";
    }
    if (problem.contains("<block end>")) {
      return "Check the indentation, and that every bracket and quote is closed.";
    }
    if (problem.contains("cannot start any token")) {
      return "Put the text in quotes.";
    }
    return "";
  }

  private static Mark start(Event event) {
    return event
        .getStartMark()
        .orElseThrow(() -> new IllegalStateException("the parser keeps marks"));
  }

  private void take(Event event) {
    if (event instanceof ScalarEvent scalar) {
      scalar(scalar);
    } else if (event instanceof AliasEvent) {
      Mark mark = start(event);
      Place place = tree.place(mark.getLine() + 1, mark.getColumn() + 1);
      tree.problem(
          place, "alias", "Aliases (*name) are not read.", "Write the part out where it is used.");
      if (tree.expectsKey()) {
        throw new TreeBuilder.Stop();
      }
      tree.scalar(TreeBuilder.broken(place));
    } else if (event instanceof CollectionStartEvent collection) {
      Mark mark = start(event);
      int line = mark.getLine() + 1;
      int column = mark.getColumn() + 1;
      if (tree.expectsKey()) {
        throw tree.stop(
            tree.place(line, column),
            "key-not-text",
            "A key must be a text; here it is a list or a mapping.",
            "");
      }
      refuseExtras(collection, collection.getTag(), line, column);
      tree.open(event instanceof MappingStartEvent, collection.isFlow(), line, column);
    } else if (event.getEventId() == Event.ID.SequenceEnd
        || event.getEventId() == Event.ID.MappingEnd) {
      tree.close();
    }
  }

  private void scalar(ScalarEvent event) {
    Mark mark = start(event);
    int line = mark.getLine() + 1;
    int column = mark.getColumn() + 1;
    refuseExtras(event, event.getTag(), line, column);
    if (tree.expectsKey()) {
      boolean quoted = event.isSQuoted() || event.isDQuoted();
      tree.key(event.getValue(), line, quoted ? column + 1 : column);
      return;
    }
    Place place = tree.place(line, column);
    String value = event.getValue();
    if (event.isPlain()) {
      Node.Kind kind =
          NOTHING.contains(value)
              ? Node.Kind.NOTHING
              : TRUTH.contains(value)
                  ? Node.Kind.TRUTH
                  : NUMBER.matcher(value).matches() ? Node.Kind.NUMBER : Node.Kind.TEXT;
      tree.scalar(new Node.Scalar(place, place, value, kind));
    } else {
      Place textPlace =
          event.isSQuoted() || event.isDQuoted() ? place.plusColumns(1) : firstLine(mark, place);
      tree.scalar(new Node.Scalar(place, textPlace, value, Node.Kind.TEXT));
    }
  }

  /** Where the text of a block starts whose {@code >} or {@code |} stands at the mark. */
  private Place firstLine(Mark mark, Place indicator) {
    int index = text.offsetByCodePoints(0, mark.getIndex());
    int line = indicator.line();
    while (true) {
      while (index < text.length() && text.charAt(index) != '\n' && text.charAt(index) != '\r') {
        index++;
      }
      if (index >= text.length()) {
        return indicator;
      }
      index += text.startsWith("\r\n", index) ? 2 : 1;
      line++;
      int column = 1;
      while (index < text.length() && text.charAt(index) == ' ') {
        index++;
        column++;
      }
      if (index < text.length() && text.charAt(index) != '\n' && text.charAt(index) != '\r') {
        return new Place(file, line, column, indicator.pointer());
      }
    }
  }

  private void refuseExtras(NodeEvent event, Optional<String> tag, int line, int column) {
    if (event.getAnchor().isPresent()) {
      tree.problem(
          new Place(file, line, column, tree.place(line, column).pointer()),
          "anchor",
          "Anchors (&name) are not read.",
          "Write the part out where it is used.");
    }
    if (tag.isPresent()) {
      tree.problem(
          new Place(file, line, column, tree.place(line, column).pointer()),
          "tag",
          "Tags (" + Words.quoted(tag.get()) + ") are not read.",
          "Leave the tag out.");
    }
  }
}
