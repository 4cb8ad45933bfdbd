package gelwright.api.http;

import java.util.Locale;
import java.util.Optional;

/** Everything that an answer can say went wrong. Each has a page under {@code /problems}. */
enum ProblemType {
  MALFORMED_REQUEST(
      400,
      "The request is malformed",
      "The request is no sound HTTP, its address is written in an ambiguous way, or a query"
          + " parameter is unknown, given twice or has a value that is not taken.",
      "Read the detail; the addresses and parameters are in /openapi.json."),
  MALFORMED_DOCUMENT(
      400,
      "The body is not a readable document",
      "The body is not well-formed JSON or YAML in UTF-8, or it is deeper, has more parts or longer"
          + " texts than are read.",
      "Each error says where it is, by line and column, and where known by JSON Pointer."),
  UNAUTHORIZED(
      401,
      "A token is needed",
      "This service asks for a bearer token, and the request has none or a wrong one.",
      "Send the header Authorization: Bearer TOKEN. Whoever runs the service knows the token."),
  NOT_FOUND(
      404,
      "There is no such resource",
      "No rule, ingredient, schema or page has this address. Names are those of the lists.",
      "Look at the list above the address: /v1/rules, /v1/ingredients, /v1/schemas."),
  METHOD_NOT_ALLOWED(
      405,
      "The resource does not take this method",
      "The address exists, but not for this method.",
      "The header Allow lists the methods it takes."),
  NOT_ACCEPTABLE(
      406,
      "No form that you accept is available",
      "The header Accept leaves nothing that this resource can be written as.",
      "The detail lists what is available."),
  TOO_SLOW(
      408,
      "The request arrived too slowly",
      "The body, or a line of a stream, did not arrive in the time and at the least rate asked for.",
      "Send it again in one go."),
  TOO_LARGE(
      413,
      "The body is too large",
      "The body, or a line of a stream, has more bytes than are read.",
      "The detail says how many are. A formula sheet needs a few thousand."),
  ADDRESS_TOO_LONG(
      414,
      "The address is too long",
      "The request line has more bytes than are read.",
      "Formulas go into the body, not into the address."),
  UNSUPPORTED_MEDIA_TYPE(
      415,
      "The form of the body is not read",
      "The header Content-Type is missing or names a form that is not read here, its charset is not"
          + " UTF-8, or the body has a content coding.",
      "The detail and the header Accept-Post list what is read."),
  MISDIRECTED(
      421,
      "The request was meant for another host",
      "The service has no token and serves this machine alone, and the request names another host."
          + " A page of the web that has its own name point to this machine would look like that.",
      "Ask for localhost or 127.0.0.1, or run the service with a token."),
  NOT_A_FORMULA(
      422,
      "The document is not a formula",
      "The document is well-formed, but it is not a formula sheet. Nothing of it was reviewed.",
      "Each error says where it is, by JSON Pointer, line and column. The form of a sheet is"
          + " /v1/schemas/formula."),
  NO_CALIBRATION(
      422,
      "The readings cannot be calibrated with",
      "The document is well-formed, but it is no readings sheet, or its readings are too few or make"
          + " no sense. Nothing was fitted.",
      "Each error says where it is, by JSON Pointer, line and column. The form of a sheet is"
          + " /v1/schemas/readings."),
  NOT_EDITED(
      422,
      "The edits cannot be made",
      "The body is no sheet with edits, its sheet cannot be read, or the edits were made for another"
          + " sheet. Nothing was changed.",
      "Each error says where it is: by JSON Pointer in the body, or, where its file is \"sheet\", by"
          + " pointer, line and column in the text of the sheet."),
  NOT_TAKEN_OVER(
      422,
      "The changed sheets were not taken over",
      "The own rule or ingredient sheets have problems. The knowledge from before is still in use.",
      "Mend the errors listed and ask for the reload again."),
  HEADERS_TOO_LARGE(
      431,
      "The headers are too large",
      "The headers of the request have more bytes than are read.",
      "Leave out what the service does not need, such as cookies."),
  INTERNAL(
      500,
      "Something went wrong that should not",
      "The service met a fault of its own. Nothing was kept.",
      "Tell whoever runs the service; the log of that moment says more."),
  TOO_LONG_TO_EVALUATE(
      503,
      "The evaluation took too long",
      "The evaluation did not end within its time, its wait for a turn included.",
      "Try again after the time in the header Retry-After, or send less at once."),
  FULL(
      503,
      "The service is full",
      "As many requests as are taken on are being evaluated or waiting.",
      "Try again after the time in the header Retry-After."),
  STOPPING(
      503,
      "The service is stopping",
      "The service finishes what is under way and takes nothing new.",
      "Try again after the time in the header Retry-After.");

  private final int status;
  private final String title;
  private final String meaning;
  private final String remedy;

  ProblemType(int status, String title, String meaning, String remedy) {
    this.status = status;
    this.title = title;
    this.meaning = meaning;
    this.remedy = remedy;
  }

  int status() {
    return status;
  }

  String title() {
    return title;
  }

  String meaning() {
    return meaning;
  }

  String remedy() {
    return remedy;
  }

  String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** Address of its page, which is its name in answers too. */
  String address() {
    return "/problems/" + word();
  }

  static Optional<ProblemType> of(String word) {
    for (ProblemType type : values()) {
      if (type.word().equals(word)) {
        return Optional.of(type);
      }
    }
    return Optional.empty();
  }

  /** The type for a status that the web server itself gives. */
  static ProblemType ofStatus(int status) {
    return switch (status) {
      case 401 -> UNAUTHORIZED;
      case 404 -> NOT_FOUND;
      case 405, 501 -> METHOD_NOT_ALLOWED;
      case 406 -> NOT_ACCEPTABLE;
      case 408 -> TOO_SLOW;
      case 413 -> TOO_LARGE;
      case 414 -> ADDRESS_TOO_LONG;
      case 415 -> UNSUPPORTED_MEDIA_TYPE;
      case 431 -> HEADERS_TOO_LARGE;
      case 503 -> STOPPING;
      default -> status >= 500 && status != 505 ? INTERNAL : MALFORMED_REQUEST;
    };
  }
}
