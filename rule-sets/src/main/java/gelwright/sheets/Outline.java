package gelwright.sheets;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.events.CollectionEndEvent;
import org.snakeyaml.engine.v2.events.CollectionStartEvent;
import org.snakeyaml.engine.v2.events.Event;
import org.snakeyaml.engine.v2.events.MappingStartEvent;
import org.snakeyaml.engine.v2.events.ScalarEvent;
import org.snakeyaml.engine.v2.parser.ParserImpl;
import org.snakeyaml.engine.v2.scanner.StreamReader;

/**
 * Which characters of a text each part of its tree takes: {@code start} is the first, {@code end}
 * the one after the last. A list or a mapping without brackets ends with its last part.
 *
 * <p>Only for a text that has been read as a document already: limits and mistakes are the readers'
 * business.
 */
sealed interface Outline {
  int start();

  int end();

  /** A text, number or other single value, its quotes included. */
  record Single(int start, int end) implements Outline {}

  /** A list; {@code flow} where it has brackets. */
  record Listing(int start, int end, boolean flow, List<Outline> items) implements Outline {
    public Listing {
      items = List.copyOf(items);
    }
  }

  /** A mapping; {@code flow} where it has brackets. */
  record Keyed(int start, int end, boolean flow, List<Pair> pairs) implements Outline {
    public Keyed {
      pairs = List.copyOf(pairs);
    }

    Optional<Pair> pair(String key) {
      return pairs.stream().filter(pair -> pair.key().equals(key)).findFirst();
    }
  }

  /**
   * A key with its value.
   *
   * @param key as read, without quotes
   * @param keyAt where the key stands, its quotes included
   * @param value what it holds
   */
  record Pair(String key, Single keyAt, Outline value) {
    int start() {
      return keyAt.start();
    }

    int end() {
      return Math.max(keyAt.end(), value.end());
    }
  }

  /** Of a text in YAML. */
  static Outline ofYaml(String text) {
    return new Yaml(text).read();
  }

  /** Of a text in JSON. */
  static Outline ofJson(String text) {
    return new Json(text).value();
  }

  /** From the events of the parser, whose marks count code points. */
  final class Yaml {
    private static final class Frame {
      final int start;
      final boolean mapping;
      final boolean flow;
      final List<Outline> parts = new ArrayList<>();
      final List<String> keys = new ArrayList<>();

      Frame(int start, boolean mapping, boolean flow) {
        this.start = start;
        this.mapping = mapping;
        this.flow = flow;
      }
    }

    private final String text;
    private final int[] offsets;

    Yaml(String text) {
      this.text = text;
      this.offsets = offsets(text);
    }

    private static int[] offsets(String text) {
      int[] offsets = new int[text.codePointCount(0, text.length()) + 1];
      int at = 0;
      for (int i = 0; i < offsets.length; i++) {
        offsets[i] = at;
        at += at < text.length() ? Character.charCount(text.codePointAt(at)) : 0;
      }
      return offsets;
    }

    private int start(Event event) {
      return offsets[event.getStartMark().orElseThrow().getIndex()];
    }

    private int end(Event event) {
      return offsets[event.getEndMark().orElseThrow().getIndex()];
    }

    Outline read() {
      LoadSettings settings =
          LoadSettings.builder().setUseMarks(true).setCodePointLimit(Integer.MAX_VALUE).build();
      ParserImpl parser = new ParserImpl(settings, new StreamReader(settings, text));
      Deque<Frame> open = new ArrayDeque<>();
      Frame top = new Frame(0, false, true);
      open.push(top);
      while (parser.hasNext()) {
        Event event = parser.next();
        if (event instanceof ScalarEvent scalar) {
          add(open.element(), single(scalar), scalar.getValue());
        } else if (event instanceof CollectionStartEvent start) {
          open.push(new Frame(start(start), event instanceof MappingStartEvent, start.isFlow()));
        } else if (event instanceof CollectionEndEvent) {
          Frame done = open.pop();
          add(open.element(), closed(done, end(event)), "");
        }
      }
      return top.parts.get(0);
    }

    private static void add(Frame frame, Outline part, String key) {
      if (frame.mapping && frame.parts.size() % 2 == 0) {
        frame.keys.add(key);
      }
      frame.parts.add(part);
    }

    private Single single(ScalarEvent scalar) {
      int start = start(scalar);
      int end = end(scalar);
      // A block of lines ends where the next part begins; what belongs to it ends with its text.
      while (end > start && Character.isWhitespace(text.charAt(end - 1))) {
        end--;
      }
      return new Single(start, end);
    }

    private static Outline closed(Frame frame, int flowEnd) {
      List<Outline> parts = frame.parts;
      int last = parts.isEmpty() ? frame.start : parts.get(parts.size() - 1).end();
      int end = frame.flow ? flowEnd : last;
      if (!frame.mapping) {
        return new Listing(frame.start, end, frame.flow, parts);
      }
      List<Pair> pairs = new ArrayList<>();
      for (int i = 0; i + 1 < parts.size(); i += 2) {
        pairs.add(new Pair(frame.keys.get(i / 2), (Single) parts.get(i), parts.get(i + 1)));
      }
      return new Keyed(frame.start, end, frame.flow, pairs);
    }
  }

  /** By walking over the characters: the text is known to be sound and not deep. */
  final class Json {
    private final String text;
    private int at;

    Json(String text) {
      this.text = text;
    }

    private char next() {
      while (Character.isWhitespace(text.charAt(at)) || text.charAt(at) == ',') {
        at++;
      }
      return text.charAt(at);
    }

    Outline value() {
      char first = next();
      int start = at;
      if (first == '[') {
        List<Outline> items = new ArrayList<>();
        at++;
        while (next() != ']') {
          items.add(value());
        }
        return new Listing(start, ++at, true, items);
      }
      if (first == '{') {
        List<Pair> pairs = new ArrayList<>();
        at++;
        while (next() != '}') {
          Single key = single();
          while (text.charAt(at) != ':') {
            at++;
          }
          at++;
          pairs.add(new Pair(unescaped(key), key, value()));
        }
        return new Keyed(start, ++at, true, pairs);
      }
      return single();
    }

    private Single single() {
      int start = at;
      if (text.charAt(at) == '"') {
        at++;
        while (text.charAt(at) != '"') {
          at += text.charAt(at) == '\\' ? 2 : 1;
        }
        return new Single(start, ++at);
      }
      while (at < text.length() && ",]}: \t\r\n".indexOf(text.charAt(at)) < 0) {
        at++;
      }
      return new Single(start, at);
    }

    private String unescaped(Single key) {
      StringBuilder name = new StringBuilder();
      for (int i = key.start() + 1; i < key.end() - 1; i++) {
        char character = text.charAt(i);
        if (character != '\\') {
          name.append(character);
          continue;
        }
        char escaped = text.charAt(++i);
        if (escaped == 'u') {
          name.append((char) Integer.parseInt(text.substring(i + 1, i + 5), 16));
          i += 4;
        } else {
          int plain = "bfnrt".indexOf(escaped);
          name.append(plain < 0 ? escaped : "\b\f\n\r\t".charAt(plain));
        }
      }
      return name.toString();
    }
  }
}
