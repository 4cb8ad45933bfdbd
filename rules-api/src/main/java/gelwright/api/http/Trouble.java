package gelwright.api.http;

import gelwright.problem.Problem;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** A request cannot be answered as asked; carries the answer that it gets instead. */
final class Trouble extends RuntimeException {
  private final transient ProblemType type;
  private final transient String detail;
  private final transient List<Problem> errors;
  private final transient Map<String, String> headers;

  private Trouble(
      ProblemType type, String detail, List<Problem> errors, Map<String, String> headers) {
    super(type.title(), null, false, false);
    this.type = type;
    this.detail = detail;
    this.errors = List.copyOf(errors);
    this.headers = Map.copyOf(headers);
  }

  static Trouble of(ProblemType type, String detail) {
    return new Trouble(type, detail, List.of(), Map.of());
  }

  static Trouble of(ProblemType type, String detail, List<Problem> errors) {
    return new Trouble(type, detail, errors, Map.of());
  }

  /** The same with a header in the answer. */
  Trouble with(String header, String value) {
    Map<String, String> more = new TreeMap<>(headers);
    more.put(header, value);
    return new Trouble(type, detail, errors, more);
  }

  ProblemType type() {
    return type;
  }

  String detail() {
    return detail;
  }

  List<Problem> errors() {
    return errors;
  }

  Map<String, String> headers() {
    return headers;
  }
}
