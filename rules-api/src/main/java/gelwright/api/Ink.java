package gelwright.api;

import gelwright.rule.Severity;

/** Colour for a terminal; nothing at all elsewhere. Colour never says what words do not. */
enum Ink {
  PLAIN,
  COLOURED;

  String strong(String text) {
    return paint("1", text);
  }

  String quiet(String text) {
    return paint("2", text);
  }

  String level(Severity level, String text) {
    return switch (level) {
      case ERROR -> paint("31", text);
      case WARNING -> paint("33", text);
      case NOTE -> paint("36", text);
    };
  }

  private String paint(String code, String text) {
    return this == PLAIN || text.isEmpty() ? text : "\u001b[" + code + "m" + text + "\u001b[0m";
  }
}
