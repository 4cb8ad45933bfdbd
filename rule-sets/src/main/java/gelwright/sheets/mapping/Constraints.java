package gelwright.sheets.mapping;

import gelwright.problem.Place;
import gelwright.quantity.Quantity;
import gelwright.quantity.Share;
import gelwright.sheets.tree.Words;
import jakarta.validation.ConstraintViolation;
import jakarta.validation.Path;
import jakarta.validation.Validation;
import jakarta.validation.Validator;
import jakarta.validation.ValidatorFactory;
import java.util.Locale;
import java.util.Map;
import org.hibernate.validator.HibernateValidator;
import org.hibernate.validator.messageinterpolation.ParameterMessageInterpolator;

/**
 * Checks document records by their constraints and tells each violation at the place of the value.
 *
 * <p>A component of a document record is named after its key ({@code shelfLife} is {@code
 * shelf-life}); where that cannot be, {@link #KEYS} says so. Messages are the end of a sentence
 * that begins with the key: "must be more than zero".
 */
public final class Constraints {
  /** Keys that are no Java names. */
  private static final Map<String, String> KEYS = Map.of("lasting", "for", "target", "to");

  private Constraints() {}

  /** Building the factory costs more than a review, so it is built once, on first use. */
  private static final class Lazy {
    static final Validator VALIDATOR = validator();

    private static Validator validator() {
      ValidatorFactory factory =
          Validation.byProvider(HibernateValidator.class)
              .configure()
              .ignoreXmlConfiguration()
              // No expression language: messages have parameters only.
              .messageInterpolator(new ParameterMessageInterpolator())
              .buildValidatorFactory();
      return factory.getValidator();
    }
  }

  /**
   * Tells what a record's constraints find.
   *
   * @param document record with constraints
   * @param places of the document's parts by pointer
   * @param problems takes the violations
   */
  public static <T> void check(T document, Map<String, Place> places, Problems problems) {
    for (ConstraintViolation<T> violation : Lazy.VALIDATOR.validate(document)) {
      String pointer = pointer(violation.getPropertyPath());
      String key = pointer.substring(pointer.lastIndexOf('/') + 1);
      String value = shown(violation.getInvalidValue());
      problems.add(
          place(pointer, places),
          violation.getMessage().startsWith("must lie") ? "out-of-range" : "not-possible",
          Words.quoted(key)
              + " "
              + violation.getMessage()
              + (value.isEmpty() ? "" : "; it is " + value)
              + ".");
    }
  }

  private static String shown(Object value) {
    if (value instanceof Quantity || value instanceof Share || value instanceof Double) {
      return value.toString();
    }
    return "";
  }

  private static String pointer(Path path) {
    StringBuilder pointer = new StringBuilder();
    for (Path.Node node : path) {
      if (node.getIndex() != null) {
        pointer.append('/').append(node.getIndex());
      }
      if (node.getName() != null && !node.getName().startsWith("<")) {
        pointer.append('/').append(key(node.getName()));
      }
    }
    return pointer.toString();
  }

  private static String key(String component) {
    if (component.equals("pH")) {
      return component;
    }
    return KEYS.getOrDefault(
        component, component.replaceAll("([A-Z])", "-$1").toLowerCase(Locale.ROOT));
  }

  /** The place of the nearest part of the document that has one. */
  private static Place place(String pointer, Map<String, Place> places) {
    String part = pointer;
    while (!places.containsKey(part) && !part.isEmpty()) {
      part = part.substring(0, part.lastIndexOf('/'));
    }
    return places.getOrDefault(part, Place.NOWHERE);
  }
}
