package gelwright.sheets.tree;

import static java.util.Objects.requireNonNull;

import gelwright.problem.Place;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** A part of a document. */
public sealed interface Node {
  /** Where it starts: its first character, or its opening quote or bracket. */
  Place place();

  /** What it is, in words for a message. */
  String inWords();

  /** What a scalar is by its spelling. */
  enum Kind {
    /** Text. */
    TEXT,
    /** An unquoted number. */
    NUMBER,
    /** An unquoted true or false. */
    TRUTH,
    /** Nothing: an empty value, {@code null} or {@code ~}. */
    NOTHING,
    /** A part that could not be read; its problem has been told. */
    BROKEN
  }

  /**
   * A piece of text, a number, a truth value or nothing.
   *
   * @param place where it starts
   * @param textPlace place of the first character of the text: inside the quotes, or on the first
   *     line of a block
   * @param text as written, without quotes; a number keeps its digits
   * @param kind what it is by its spelling
   */
  record Scalar(Place place, Place textPlace, String text, Kind kind) implements Node {
    public Scalar {
      requireNonNull(place, "place");
      requireNonNull(textPlace, "textPlace");
      requireNonNull(text, "text");
      requireNonNull(kind, "kind");
    }

    /** Text that no document holds, such as a name taken from a file name. */
    public static Scalar text(String text, Place place) {
      return new Scalar(place, place, text, Kind.TEXT);
    }

    @Override
    public String inWords() {
      return switch (kind) {
        case TEXT -> "text";
        case NUMBER -> "a number";
        case TRUTH -> "yes or no";
        case NOTHING, BROKEN -> "nothing";
      };
    }
  }

  /** A list. */
  record Sequence(Place place, List<Node> items) implements Node {
    public Sequence {
      requireNonNull(place, "place");
      items = List.copyOf(items);
    }

    @Override
    public String inWords() {
      return "a list";
    }
  }

  /**
   * Keys with their values, in the order written.
   *
   * @param place of its first key or its opening bracket
   * @param entries by key
   * @param flow whether it is written in curly brackets
   */
  record Mapping(Place place, Map<String, Entry> entries, boolean flow) implements Node {
    public Mapping {
      requireNonNull(place, "place");
      entries = Collections.unmodifiableMap(new LinkedHashMap<>(entries));
    }

    public Optional<Node> get(String key) {
      return Optional.ofNullable(entries.get(key)).map(Entry::value);
    }

    @Override
    public String inWords() {
      return "a mapping with keys";
    }
  }

  /**
   * A key with its value.
   *
   * @param key as written
   * @param keyPlace place of the key's first character, with the pointer of the value
   * @param value what it holds
   */
  record Entry(String key, Place keyPlace, Node value) {
    public Entry {
      requireNonNull(key, "key");
      requireNonNull(keyPlace, "keyPlace");
      requireNonNull(value, "value");
    }
  }
}
