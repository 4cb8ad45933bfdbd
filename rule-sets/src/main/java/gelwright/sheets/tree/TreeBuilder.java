package gelwright.sheets.tree;

import gelwright.problem.Place;
import gelwright.problem.Problem;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Builds a tree from the events of a parser, without recursion, and keeps to the limits: a document
 * is given up before it is deep or large, not after.
 */
final class TreeBuilder {
  /** Reading cannot go on; the problem has been added. */
  static final class Stop extends RuntimeException {
    Stop() {
      super("stopped reading", null, false, false);
    }
  }

  private static final class Frame {
    final Place place;
    final boolean mapping;
    final boolean flow;
    final List<Node> items = new ArrayList<>();
    final Map<String, Node.Entry> entries = new LinkedHashMap<>();
    @Nullable String key;
    Place keyPlace = Place.NOWHERE;

    /** The value of the key at hand is not kept: the key was there before. */
    boolean dropped;

    Frame(Place place, boolean mapping, boolean flow) {
      this.place = place;
      this.mapping = mapping;
      this.flow = flow;
    }
  }

  private final String file;
  private final Limits limits;
  private final Deque<Frame> open = new ArrayDeque<>();
  private final List<Problem> problems = new ArrayList<>();
  private int nodes;
  private @Nullable Node root;

  TreeBuilder(String file, Limits limits) {
    this.file = file;
    this.limits = limits;
  }

  /** Whether the next scalar is a key. */
  boolean expectsKey() {
    Frame frame = open.peek();
    return frame != null && frame.mapping && frame.key == null;
  }

  private String pointer() {
    StringBuilder pointer = new StringBuilder();
    open.descendingIterator()
        .forEachRemaining(
            frame ->
                pointer
                    .append('/')
                    .append(
                        frame.mapping
                            ? Pointers.escape(frame.key == null ? "" : frame.key)
                            : String.valueOf(frame.items.size())));
    return pointer.toString();
  }

  /** A place with the pointer of what comes next. */
  Place place(int line, int column) {
    return new Place(file, line, column, expectsKey() ? "" : pointer());
  }

  void key(String key, int line, int column) {
    Frame frame = open.element();
    count(line, column);
    frame.key = key;
    frame.keyPlace = new Place(file, line, column, pointer());
    checkLength(key, frame.keyPlace);
    var before = frame.entries.get(key);
    frame.dropped = before != null;
    if (before != null) {
      Place first = before.keyPlace();
      problem(
          frame.keyPlace,
          "duplicate-key",
          "The key " + Words.quoted(key) + " is given twice.",
          "The first is on line " + first.line() + ".");
    }
  }

  void scalar(Node.Scalar scalar) {
    count(scalar.place().line(), scalar.place().column());
    add(checkLength(scalar.text(), scalar.place()) ? scalar : broken(scalar.place()));
  }

  static Node.Scalar broken(Place place) {
    return new Node.Scalar(place, place, "", Node.Kind.BROKEN);
  }

  void open(boolean mapping, boolean flow, int line, int column) {
    count(line, column);
    Place place = place(line, column);
    if (open.size() >= limits.depth()) {
      throw stop(
          place,
          "too-deep",
          "Lists and mappings stand inside one another more than "
              + limits.depth()
              + " levels deep here.",
          "");
    }
    open.push(new Frame(place, mapping, flow));
  }

  void close() {
    Frame frame = open.pop();
    add(
        frame.mapping
            ? new Node.Mapping(frame.place, frame.entries, frame.flow)
            : new Node.Sequence(frame.place, frame.items));
  }

  private void add(Node node) {
    Frame frame = open.peek();
    if (frame == null) {
      root = node;
    } else if (!frame.mapping) {
      frame.items.add(node);
    } else {
      String key = frame.key;
      if (key != null && !frame.dropped) {
        frame.entries.put(key, new Node.Entry(key, frame.keyPlace, node));
      }
      frame.key = null;
    }
  }

  private void count(int line, int column) {
    if (++nodes > limits.nodes()) {
      throw stop(
          new Place(file, line, column, ""),
          "too-many-nodes",
          "The document has more than " + limits.nodes() + " parts.",
          "");
    }
  }

  private boolean checkLength(String text, Place place) {
    if (text.length() <= limits.scalarLength()) {
      return true;
    }
    problem(
        place,
        "too-long",
        "A text of "
            + text.length()
            + " characters starts here; at most "
            + limits.scalarLength()
            + " are read.",
        "");
    return false;
  }

  void problem(Place place, String code, String message, String hint) {
    if (problems.size() >= limits.problems()) {
      throw new Stop();
    }
    problems.add(new Problem(place, code, message, hint));
  }

  Stop stop(Place place, String code, String message, String hint) {
    problems.add(new Problem(place, code, message, hint));
    return new Stop();
  }

  Read<Document> finished() {
    Node tree = root;
    if (tree == null) {
      return Read.failed(
          List.of(
              Problem.of(new Place(file, 1, 1, ""), "empty-document", "The document is empty.")));
    }
    return Read.ok(new Document(file, tree, problems));
  }

  Read<Document> failed() {
    return Read.failed(problems);
  }
}
