package gelwright.api.http;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/** Forms that documents come in. */
enum MediaType {
  JSON("application/json"),
  YAML("application/yaml"),
  SARIF("application/sarif+json"),
  NDJSON("application/x-ndjson"),
  PROBLEM("application/problem+json"),
  SCHEMA("application/schema+json"),
  HTML("text/html"),
  CSS("text/css"),
  SCRIPT("text/javascript"),
  SVG("image/svg+xml"),
  OPEN_METRICS("application/openmetrics-text; version=1.0.0"),
  PLAIN_METRICS("text/plain; version=0.0.4");

  private final String name;

  MediaType(String name) {
    this.name = name;
  }

  /** As in a header, with charset where one is usual. */
  String header() {
    return switch (this) {
      case HTML, CSS, SCRIPT, OPEN_METRICS, PLAIN_METRICS -> name + "; charset=utf-8";
      default -> name;
    };
  }

  /** Type and subtype. */
  String bare() {
    int semicolon = name.indexOf(';');
    return semicolon < 0 ? name : name.substring(0, semicolon);
  }

  /** The names under which it is read in Content-Type. */
  private List<String> names() {
    return switch (this) {
      case YAML -> List.of(name, "application/x-yaml", "text/yaml", "text/x-yaml");
      case NDJSON -> List.of(name, "application/ndjson", "application/jsonl");
      default -> List.of(bare());
    };
  }

  static String list(List<MediaType> types) {
    return types.stream().map(MediaType::bare).collect(Collectors.joining(", "));
  }

  /**
   * The form of a body.
   *
   * @param contentType the header, or empty
   * @param taken what is read
   */
  static MediaType ofBody(Optional<String> contentType, List<MediaType> taken) {
    String header = contentType.orElse("").strip();
    String[] parts = header.split(";", -1);
    String bare = parts[0].strip().toLowerCase(Locale.ROOT);
    for (MediaType type : taken) {
      if (type.names().contains(bare)) {
        for (int i = 1; i < parts.length; i++) {
          checkCharset(parts[i], taken);
        }
        return type;
      }
    }
    throw unsupported(
        header.isEmpty()
            ? "The header Content-Type is missing. Read are: " + list(taken) + "."
            : "This form is not read here. Read are: " + list(taken) + ".",
        taken);
  }

  private static void checkCharset(String parameter, List<MediaType> taken) {
    String[] pair = parameter.split("=", 2);
    if (pair.length == 2 && pair[0].strip().equalsIgnoreCase("charset")) {
      String charset = pair[1].strip().replace("\"", "");
      if (!charset.equalsIgnoreCase("utf-8") && !charset.equalsIgnoreCase("us-ascii")) {
        throw unsupported("Documents are read in UTF-8 only.", taken);
      }
    }
  }

  static Trouble unsupported(String detail, List<MediaType> taken) {
    return Trouble.of(ProblemType.UNSUPPORTED_MEDIA_TYPE, detail).with("Accept-Post", list(taken));
  }

  /**
   * The best of the forms available for an Accept header (RFC 9110 section 12.5.1): the one with
   * the highest weight, the earlier one of equals. A range that says more of a form beats one that
   * says less.
   */
  static MediaType best(Optional<String> accept, List<MediaType> available) {
    if (accept.isEmpty() || accept.get().isBlank()) {
      return available.get(0);
    }
    List<String> ranges = Arrays.asList(accept.get().toLowerCase(Locale.ROOT).split(",", -1));
    MediaType best = available.get(0);
    double most = 0;
    for (MediaType type : available) {
      double weight = type.weight(ranges);
      if (weight > most) {
        most = weight;
        best = type;
      }
    }
    if (most == 0) {
      throw Trouble.of(ProblemType.NOT_ACCEPTABLE, "Available are: " + list(available) + ".");
    }
    return best;
  }

  private double weight(List<String> ranges) {
    String family = bare().substring(0, bare().indexOf('/') + 1) + "*";
    double weight = 0;
    int closest = -1;
    for (String range : ranges) {
      String[] parts = range.split(";", -1);
      String named = parts[0].strip();
      int close =
          named.equals(bare()) ? 2 : named.equals(family) ? 1 : named.equals("*/*") ? 0 : -1;
      if (close > closest) {
        closest = close;
        weight = quality(parts);
      }
    }
    return weight;
  }

  private static double quality(String[] parts) {
    for (int i = 1; i < parts.length; i++) {
      String parameter = parts[i].strip();
      if (parameter.startsWith("q=")) {
        try {
          double quality = Double.parseDouble(parameter.substring(2));
          return quality >= 0 && quality <= 1 ? quality : 0;
        } catch (NumberFormatException notANumber) {
          return 0;
        }
      }
    }
    return 1;
  }
}
