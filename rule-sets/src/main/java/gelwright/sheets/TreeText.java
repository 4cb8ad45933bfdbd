package gelwright.sheets;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;

/**
 * The text of a sheet in YAML or JSON, changed a part at a time.
 *
 * <p>Nothing is ever written anew from the tree: a change cuts characters out or puts some in, in
 * the manner of what stands beside them (brackets or indentation, quotes, spaces, line ends), and
 * the text is outlined again. A line taken out takes the comment behind it along; comments on lines
 * of their own stay.
 *
 * <p>Values are texts, lists of texts, or mappings of these.
 */
final class TreeText {
  private static final Pattern NUMBER = Pattern.compile("-?[0-9]+(\\.[0-9]+)?");
  private static final Set<String> TAKEN =
      Set.of("null", "true", "false", "yes", "no", "on", "off", "~");

  /** The text is written in a manner that a change was not made for; it is given up. */
  static final class Lost extends RuntimeException {
    Lost(String message) {
      super(message, null, false, false);
    }
  }

  private String text;
  private final boolean json;
  private final String lineBreak;
  private Outline root;

  TreeText(String text, boolean json) {
    this.text = text;
    this.json = json;
    this.lineBreak = lineBreak(text);
    this.root = outlined();
  }

  /** The first line break of a text; a line feed where it has none. */
  static String lineBreak(String text) {
    for (int i = 0; i < text.length(); i++) {
      if (text.charAt(i) == '\n') {
        return "\n";
      }
      if (text.charAt(i) == '\r') {
        return text.startsWith("\r\n", i) ? "\r\n" : "\r";
      }
    }
    return "\n";
  }

  String text() {
    return text;
  }

  private Outline outlined() {
    try {
      return json ? Outline.ofJson(text) : Outline.ofYaml(text);
    } catch (YamlEngineException broken) {
      throw new Lost("the text is no YAML any more");
    }
  }

  private void splice(int from, int to, String with) {
    text = text.substring(0, from) + with + text.substring(to);
  }

  private void done() {
    root = outlined();
  }

  // Finding parts

  /** The part under these keys and numbers, if there is one. */
  Optional<Outline> find(Object... path) {
    Optional<Outline> part = Optional.of(root);
    for (Object step : path) {
      part =
          part.flatMap(
              in -> {
                if (in instanceof Outline.Keyed keyed && step instanceof String key) {
                  return keyed.pair(key).map(Outline.Pair::value);
                }
                if (in instanceof Outline.Listing list
                    && step instanceof Integer index
                    && index < list.items().size()) {
                  return Optional.of(list.items().get(index));
                }
                return Optional.empty();
              });
    }
    return part;
  }

  private Outline.Keyed keyed(Object... path) {
    return (Outline.Keyed) find(path).orElseThrow();
  }

  private Outline.Listing listing(Object... path) {
    return (Outline.Listing) find(path).orElseThrow();
  }

  // Mappings

  /**
   * Gives a key of a mapping a value.
   *
   * @param order the keys as a sheet has them, for a key that is not there yet
   * @param path of the mapping
   */
  void set(String key, Object value, List<String> order, Object... path) {
    Outline.Keyed in = keyed(path);
    Optional<Outline.Pair> there = in.pair(key);
    if (there.isEmpty()) {
      add(in, key, value, order);
    } else if (value instanceof String scalar && there.get().value() instanceof Outline.Single at) {
      splice(at.start(), at.end(), inPlaceOf(at, scalar, in.flow()));
    } else {
      Outline at = there.get().value();
      splice(at.start(), at.end(), inline(value, Style.plain(this)));
    }
    done();
  }

  /** Gives an item of a list another text. */
  void setItem(int index, String value, Object... path) {
    Outline.Listing list = listing(path);
    Outline.Single at = (Outline.Single) list.items().get(index);
    splice(at.start(), at.end(), inPlaceOf(at, value, list.flow()));
    done();
  }

  /** Takes a key and its value out; nothing is done where it is not there. */
  void drop(String key, Object... path) {
    Outline.Keyed in = keyed(path);
    for (int i = 0; i < in.pairs().size(); i++) {
      if (in.pairs().get(i).key().equals(key)) {
        if (in.flow()) {
          cutFromFlow(in, ranges(in), i);
        } else {
          cutFromBlock(in, i);
        }
        done();
        return;
      }
    }
  }

  private void add(Outline.Keyed in, String key, Object value, List<String> order) {
    int after = in.pairs().size() - 1;
    for (int i = 0; i < in.pairs().size(); i++) {
      int place = order.indexOf(in.pairs().get(i).key());
      if (place >= 0 && place < order.indexOf(key)) {
        after = i;
      }
    }
    Style style = Style.of(this, in);
    String name = style.key(key);
    if (in.flow()) {
      insertInFlow(in, ranges(in), after + 1, name + style.colon() + inline(value, style));
      return;
    }
    Outline.Pair before = in.pairs().get(after);
    String indent = spaces(in.start() - lineStart(in.start()));
    StringBuilder lines = new StringBuilder(indent).append(name).append(':');
    if (value instanceof Map<?, ?> keys) {
      for (Map.Entry<?, ?> each : keys.entrySet()) {
        String inner = style.key(String.valueOf(each.getKey()));
        Object held = each.getValue();
        lines.append(lineBreak).append(indent).append("  ").append(inner).append(": ");
        lines.append(held instanceof String one ? scalar(one, false) : inline(held, style));
      }
    } else {
      lines.append(' ');
      lines.append(value instanceof String one ? scalar(one, false) : inline(value, style));
    }
    insertAfterLine(before.end(), lines.toString());
  }

  private void cutFromBlock(Outline.Keyed in, int index) {
    Outline.Pair pair = in.pairs().get(index);
    int line = lineStart(pair.start());
    if (text.substring(line, pair.start()).isBlank()) {
      cutLines(pair.start(), pair.end());
    } else if (index + 1 < in.pairs().size()) {
      // It stands behind the dash of its item.
      int next = in.pairs().get(index + 1).start();
      String between = text.substring(nextLine(pair.end()), next);
      splice(pair.start(), between.isBlank() ? next : lineEnd(pair.end()), "");
    }
  }

  // Lists

  /**
   * Puts a new item into a list.
   *
   * @param index number it will have
   * @param like a list after whose first item it is written where its own has none
   * @param path of the list
   */
  void insert(int index, Object value, Object like, Object... path) {
    Outline.Listing list = listing(path);
    Optional<Outline> beside = beside(list, index);
    if (list.flow()) {
      Style style =
          beside
              .or(() -> find(like, 0))
              .map(model -> Style.of(this, model))
              .orElseGet(() -> Style.plain(this));
      insertInFlow(list, ranges(list), index, inline(value, style));
    } else {
      String lines = item(value, list, beside.orElseThrow(), dash(list, Math.max(0, index - 1)));
      putItem(list, index, lines);
    }
    done();
  }

  /** A list that is not there yet, with one item; it looks like another list. */
  void start(String key, Object value, List<String> order, String like) {
    Outline.Keyed top = keyed();
    Optional<Outline> model = find(like, 0);
    Outline other = find(like).orElseThrow();
    if (top.flow() || !(other instanceof Outline.Listing list) || list.flow()) {
      Style style = model.map(m -> Style.of(this, m)).orElseGet(() -> Style.plain(this));
      // Filled in two steps, so that the brackets stand as those of any other list.
      set(key, List.of(), order);
      Outline.Listing empty = listing(key);
      splice(empty.start() + 1, empty.end() - 1, inline(value, style));
    } else {
      String lines = item(value, list, model.orElseThrow(), dash(list, 0));
      int after = top.pairs().size() - 1;
      for (int i = 0; i < top.pairs().size(); i++) {
        int place = order.indexOf(top.pairs().get(i).key());
        if (place >= 0 && place < order.indexOf(key)) {
          after = i;
        }
      }
      String indent = spaces(top.start() - lineStart(top.start()));
      insertAfterLine(
          top.pairs().get(after).end(),
          indent + Style.of(this, top).key(key) + ":" + lineBreak + lines);
    }
    done();
  }

  /** Takes an item out of a list. */
  void remove(int index, Object... path) {
    Outline.Listing list = listing(path);
    if (list.flow()) {
      cutFromFlow(list, ranges(list), index);
    } else {
      cutLines(dash(list, index), list.items().get(index).end());
    }
    done();
  }

  /** Moves an item of a list, as it is written. */
  void move(int from, int to, Object... path) {
    if (from == to) {
      return;
    }
    Outline.Listing list = listing(path);
    if (list.flow()) {
      Outline item = list.items().get(from);
      String written = text.substring(item.start(), item.end());
      String comment = commentBehind(list, from);
      cutFromFlow(list, ranges(list), from);
      done();
      Outline.Listing rest = listing(path);
      insertInFlow(rest, ranges(rest), to, written);
      done();
      Outline.Listing moved = listing(path);
      int end = endWithComma(moved, ranges(moved), to);
      if (lineEnd(end) < moved.end() && text.substring(end, lineEnd(end)).isBlank()) {
        splice(end, lineEnd(end), comment);
      }
    } else {
      String written =
          text.substring(lineStart(dash(list, from)), lineEnd(list.items().get(from).end()));
      cutLines(dash(list, from), list.items().get(from).end());
      done();
      putItem(listing(path), to, written);
    }
    done();
  }

  /** Makes a list of texts be these, leaving alone what stays. */
  void become(List<String> now, List<String> then, Object... path) {
    List<String> have = new ArrayList<>(now);
    for (int i = 0; i < then.size(); i++) {
      if (i < have.size() && have.get(i).equals(then.get(i))) {
        continue;
      }
      int later =
          i < have.size() ? have.subList(i, have.size()).indexOf(then.get(i)) + i : have.size();
      if (i < have.size() && later > i) {
        move(later, i, path);
        have.add(i, have.remove(later));
      } else {
        insert(i, then.get(i), "", path);
        have.add(i, then.get(i));
      }
    }
    for (int i = have.size() - 1; i >= then.size(); i--) {
      remove(i, path);
    }
  }

  private static Optional<Outline> beside(Outline.Listing list, int index) {
    return list.items().isEmpty()
        ? Optional.empty()
        : Optional.of(list.items().get(Math.max(0, index - 1)));
  }

  private void putItem(Outline.Listing list, int index, String lines) {
    if (index == 0) {
      int at = lineStart(dash(list, 0));
      splice(at, at, lines + lineBreak);
    } else {
      insertAfterLine(list.items().get(index - 1).end(), lines);
    }
  }

  /** The lines of a new item, without the last line break. */
  private String item(Object value, Outline.Listing list, Outline model, int dash) {
    String lead = text.substring(lineStart(dash), dash);
    String gap =
        lineStart(model.start()) == lineStart(dash) ? text.substring(dash + 1, model.start()) : " ";
    if (!(value instanceof Map<?, ?> keys)) {
      return lead + "-" + gap + scalar(String.valueOf(value), list.flow());
    }
    Style style = Style.of(this, model);
    if (model instanceof Outline.Keyed keyed && !keyed.flow()) {
      return lead
          + "-"
          + gap
          + keys.entrySet().stream()
              .map(
                  each ->
                      style.key(String.valueOf(each.getKey()))
                          + ": "
                          + (each.getValue() instanceof String one
                              ? scalar(one, false)
                              : inline(each.getValue(), style)))
              .collect(Collectors.joining(lineBreak + spaces(lead.length() + 1 + gap.length())));
    }
    return lead + "-" + gap + inline(value, style);
  }

  /** Where the dash of an item without brackets stands. */
  private int dash(Outline.Listing list, int index) {
    if (index == 0) {
      return list.start();
    }
    int column = list.start() - lineStart(list.start());
    int line = nextLine(list.items().get(index - 1).end());
    int last = list.items().get(index).start();
    while (line <= last) {
      int dash = line + column;
      if (dash < text.length()
          && text.charAt(dash) == '-'
          && text.substring(line, dash).isBlank()) {
        return dash;
      }
      line = nextLine(line);
    }
    throw new Lost("item " + index + " has no dash");
  }

  // Lists and mappings in brackets

  /** A part between brackets. */
  private record Range(int start, int end) {}

  private static List<Range> ranges(Outline.Keyed in) {
    return in.pairs().stream().map(pair -> new Range(pair.start(), pair.end())).toList();
  }

  private static List<Range> ranges(Outline.Listing in) {
    return in.items().stream().map(item -> new Range(item.start(), item.end())).toList();
  }

  private void insertInFlow(Outline in, List<Range> parts, int index, String written) {
    if (parts.isEmpty()) {
      splice(in.start() + 1, in.start() + 1, written);
      return;
    }
    Range beside = parts.get(Math.max(0, index - 1));
    boolean ownLine = text.substring(lineStart(beside.start()), beside.start()).isBlank();
    String indent = text.substring(lineStart(beside.start()), beside.start());
    if (index == 0) {
      String between = ownLine ? "," + lineBreak + indent : separator(in, parts, 1);
      splice(beside.start(), beside.start(), written + between);
      return;
    }
    int comma = comma(beside.end(), index < parts.size() ? parts.get(index).start() : in.end() - 1);
    int end = lineEnd(beside.end());
    if (ownLine && end < in.end() && comma < end) {
      String rest = text.substring(comma < 0 ? beside.end() : comma + 1, end).strip();
      if (rest.isEmpty() || rest.startsWith("#")) {
        splice(end, end, lineBreak + indent + written + (comma < 0 ? "" : ","));
        if (comma < 0) {
          splice(beside.end(), beside.end(), ",");
        }
        return;
      }
    }
    splice(beside.end(), beside.end(), separator(in, parts, index) + written);
  }

  /** What parts the items, as it stands before the one of this number. */
  private String separator(Outline in, List<Range> parts, int index) {
    int before = Math.min(index, parts.size() - 1);
    if (before > 0) {
      String between = text.substring(parts.get(before - 1).end(), parts.get(before).start());
      if (!between.contains("#")) {
        return between;
      }
    }
    String opening = text.substring(in.start() + 1, parts.get(0).start());
    boolean lines = opening.indexOf('\n') >= 0 || opening.indexOf('\r') >= 0;
    return lines && !opening.contains("#") ? "," + opening : compact() ? "," : ", ";
  }

  /** Whether a JSON text is written without spaces. */
  private boolean compact() {
    return json
        && root instanceof Outline.Keyed top
        && !top.pairs().isEmpty()
        && top.pairs().get(0).value().start() == top.pairs().get(0).keyAt().end() + 1;
  }

  /** The comma between two parts, or -1; a comment may have commas that do not count. */
  private int comma(int from, int to) {
    for (int i = from; i < to; i++) {
      char character = text.charAt(i);
      if (character == ',') {
        return i;
      }
      if (character == '#') {
        i = lineEnd(i);
      }
    }
    return -1;
  }

  /** Where a part between brackets ends, with the comma behind it. */
  private int endWithComma(Outline in, List<Range> parts, int index) {
    boolean last = index == parts.size() - 1;
    int end = parts.get(index).end();
    int comma = comma(end, last ? in.end() - 1 : parts.get(index + 1).start());
    return comma < 0 ? end : comma + 1;
  }

  /** The comment that stands behind an item between brackets, with the spaces before it. */
  private String commentBehind(Outline.Listing list, int index) {
    int end = endWithComma(list, ranges(list), index);
    String rest = text.substring(end, Math.max(end, lineEnd(end)));
    boolean goesAlong = hasOwnLines(list, ranges(list).get(index), end);
    return goesAlong && rest.strip().startsWith("#") ? rest : "";
  }

  /** Whether nothing but a comment stands on the lines of a part, which ends here. */
  private boolean hasOwnLines(Outline in, Range part, int end) {
    String lead = text.substring(lineStart(part.start()), part.start());
    String rest = text.substring(end, Math.max(end, lineEnd(end))).strip();
    return lead.isBlank()
        && lineStart(part.start()) > in.start()
        && lineEnd(end) < in.end()
        && (rest.isEmpty() || rest.startsWith("#"));
  }

  private void cutFromFlow(Outline in, List<Range> parts, int index) {
    Range part = parts.get(index);
    boolean last = index == parts.size() - 1;
    int end = endWithComma(in, parts, index);
    int before =
        last && end == part.end() && index > 0
            ? comma(parts.get(index - 1).end(), part.start())
            : -1;
    if (hasOwnLines(in, part, end)) {
      cutLines(part.start(), end);
    } else if (!last) {
      int next = end;
      while (text.charAt(next) == ' ' || text.charAt(next) == '\t') {
        next++;
      }
      // The comment behind the item that stays in place keeps a space before it.
      splice(part.start(), text.charAt(next) == '#' ? end : next, "");
    } else {
      int start = part.start();
      while (text.charAt(start - 1) == ' ' || text.charAt(start - 1) == '\t') {
        start--;
      }
      boolean behindBreak = text.charAt(start - 1) == '\n' || text.charAt(start - 1) == '\r';
      splice(behindBreak || index == 0 ? part.start() : start, end, "");
    }
    if (before >= 0) {
      splice(before, before + 1, "");
    }
  }

  // Lines

  private int lineStart(int at) {
    int start = at;
    while (start > 0 && text.charAt(start - 1) != '\n' && text.charAt(start - 1) != '\r') {
      start--;
    }
    return start;
  }

  private int lineEnd(int at) {
    int end = at;
    while (end < text.length() && text.charAt(end) != '\n' && text.charAt(end) != '\r') {
      end++;
    }
    return end;
  }

  private int nextLine(int at) {
    int end = lineEnd(at);
    return end == text.length() ? end : end + (text.startsWith("\r\n", end) ? 2 : 1);
  }

  private void insertAfterLine(int at, String lines) {
    int end = lineEnd(at);
    splice(end, end, lineBreak + lines);
  }

  private void cutLines(int first, int last) {
    int from = lineStart(first);
    int to = nextLine(last);
    if (to == text.length() && lineEnd(last) == to && from > 0) {
      // The last line has no line break; the one before it becomes like it.
      from -= text.startsWith("\r\n", Math.max(0, from - 2)) ? 2 : 1;
    }
    splice(from, to, "");
  }

  private static String spaces(int count) {
    return " ".repeat(count);
  }

  // Writing values

  /** How the keys of a mapping are written. */
  private record Style(String quote, String colon, String comma, String open, String close) {
    static Style plain(TreeText text) {
      boolean compact = text.compact();
      return new Style(
          text.json ? "\"" : "",
          compact ? ":" : ": ",
          compact ? "," : ", ",
          text.json ? "" : " ",
          text.json ? "" : " ");
    }

    static Style of(TreeText in, Outline model) {
      Style plain = plain(in);
      if (!(model instanceof Outline.Keyed keyed) || keyed.pairs().isEmpty()) {
        return plain;
      }
      Outline.Pair first = keyed.pairs().get(0);
      char start = in.text.charAt(first.start());
      String quote = start == '"' || start == '\'' ? String.valueOf(start) : "";
      if (!keyed.flow()) {
        return new Style(quote, plain.colon, plain.comma, plain.open, plain.close);
      }
      String colon = in.text.substring(first.keyAt().end(), first.value().start());
      String open = in.text.substring(keyed.start() + 1, first.start());
      int last = keyed.pairs().get(keyed.pairs().size() - 1).end();
      String close = in.text.substring(last, keyed.end() - 1).replace(",", "");
      String comma =
          keyed.pairs().size() > 1
              ? in.text.substring(first.end(), keyed.pairs().get(1).start())
              : open.isBlank() && open.strip().isEmpty() && open.length() > 1
                  ? "," + open
                  : plain.comma;
      return new Style(
          quote,
          colon.strip().equals(":") ? colon : plain.colon,
          comma.contains("#") ? plain.comma : comma,
          open.isBlank() ? open : plain.open,
          close.isBlank() ? close : plain.close);
    }

    String key(String key) {
      return quote + key + quote;
    }
  }

  /** A value between brackets. */
  private String inline(Object value, Style style) {
    if (value instanceof Map<?, ?> keys) {
      return "{"
          + style.open()
          + keys.entrySet().stream()
              .map(
                  each ->
                      style.key(String.valueOf(each.getKey()))
                          + style.colon()
                          + inline(each.getValue(), style))
              .collect(Collectors.joining(style.comma()))
          + style.close()
          + "}";
    }
    if (value instanceof List<?> items) {
      return "["
          + items.stream()
              .map(item -> inline(item, style))
              .collect(Collectors.joining(compact() ? "," : ", "))
          + "]";
    }
    return scalar(String.valueOf(value), true);
  }

  /** A new text in place of another, quoted as it was. */
  private String inPlaceOf(Outline.Single at, String value, boolean flow) {
    String old = text.substring(at.start(), at.end());
    if (NUMBER.matcher(old).matches()) {
      // A bare number stays one; the share 4 is one of percent.
      String number = value.endsWith(" %") ? value.substring(0, value.length() - 2) : value;
      if (NUMBER.matcher(number).matches()) {
        return number;
      }
    }
    if (json || old.startsWith("\"")) {
      return doubleQuoted(value);
    }
    return old.startsWith("'") && printable(value) ? singleQuoted(value) : scalar(value, flow);
  }

  private String scalar(String value, boolean flow) {
    if (json) {
      return doubleQuoted(value);
    }
    if (isPlain(value, flow)) {
      return value;
    }
    return printable(value) ? singleQuoted(value) : doubleQuoted(value);
  }

  /** Whether YAML reads it as this text without quotes; careful rather than sparing. */
  private static boolean isPlain(String value, boolean flow) {
    if (value.isEmpty()
        || !value.equals(value.strip())
        || !Character.isLetterOrDigit(value.codePointAt(0))
        || !printable(value)
        || TAKEN.contains(value.toLowerCase(Locale.ROOT))) {
      return false;
    }
    for (int i = 0; i < value.length(); i++) {
      char character = value.charAt(i);
      boolean atEnd = i + 1 == value.length();
      if (character == ':' && (flow || atEnd || Character.isWhitespace(value.charAt(i + 1)))) {
        return false;
      }
      if (character == '#' && Character.isWhitespace(value.charAt(i - 1))) {
        return false;
      }
      if (flow && ",[]{}".indexOf(character) >= 0) {
        return false;
      }
    }
    return true;
  }

  private static boolean printable(String value) {
    return value
        .chars()
        .noneMatch(c -> c < 0x20 || (c >= 0x7F && c < 0xA0) || c == 0x2028 || c == 0x2029);
  }

  private static String singleQuoted(String value) {
    return "'" + value.replace("'", "''") + "'";
  }

  /** In quotes that JSON and YAML read alike. */
  private static String doubleQuoted(String value) {
    StringBuilder quoted = new StringBuilder("\"");
    for (int i = 0; i < value.length(); i++) {
      char character = value.charAt(i);
      if (character == '"' || character == '\\') {
        quoted.append('\\').append(character);
      } else if (!printable(String.valueOf(character))) {
        quoted.append(String.format(Locale.ROOT, "\\u%04x", (int) character));
      } else {
        quoted.append(character);
      }
    }
    return quoted.append('"').toString();
  }
}
