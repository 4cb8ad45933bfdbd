package gelwright.api.html;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * What rule sets speak of, as a reader would put it. The table is in {@code topics.txt}.
 *
 * @param bySet name of the topic by the id of the rule set, in the order of a report
 */
record Topics(Map<String, String> bySet) {
  /** The table of the program. */
  static final Topics OF_THE_PROGRAM = read();

  /** Where the rules of a house stand. */
  private static final String HOUSE = "House rules";

  /** The topics in the order of a report. */
  List<String> names() {
    List<String> names = new ArrayList<>(bySet.values().stream().distinct().toList());
    names.add(HOUSE);
    return names;
  }

  /** What a rule speaks of, by its full id. */
  String of(String rule) {
    int dot = rule.indexOf('.');
    return bySet.getOrDefault(dot < 0 ? rule : rule.substring(0, dot), HOUSE);
  }

  private static Topics read() {
    try (InputStream in = Topics.class.getResourceAsStream("topics.txt")) {
      if (in == null) {
        throw new IllegalStateException("topics.txt is not on the class path");
      }
      Map<String, String> bySet = new LinkedHashMap<>();
      for (String line : new String(in.readAllBytes(), StandardCharsets.UTF_8).lines().toList()) {
        int colon = line.indexOf(':');
        if (line.startsWith("#") || colon < 0) {
          continue;
        }
        for (String set : line.substring(colon + 1).split(",", -1)) {
          bySet.put(set.strip(), line.substring(0, colon).strip());
        }
      }
      return new Topics(bySet);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
