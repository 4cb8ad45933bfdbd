package gelwright.rule;

import gelwright.quantity.Unit;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The names a rule may use: properties of the formula, properties of items, functions; each with
 * its type and the slot by which a compiled rule asks for it. Immutable.
 */
public final class Vocabulary {
  private final Map<String, Property> properties;
  private final Map<String, ItemKind> kinds;
  private final Map<String, Function> functions;

  private Vocabulary(Builder builder) {
    this.properties = Map.copyOf(builder.properties);
    this.kinds = Map.copyOf(builder.kinds);
    this.functions = Map.copyOf(builder.functions);
  }

  /**
   * A property of the formula or of an item.
   *
   * @param name as rules write it; for an item's property without the kind ("peak-temperature")
   * @param type its type
   * @param unit how its value is printed; {@link Unit#NONE} for what is not a number
   * @param alwaysKnown whether it can never be unknown, whatever the sheet leaves out
   * @param meaning one sentence for the reference
   * @param slot where {@link Facts} finds it
   */
  public record Property(
      String name, Type type, Unit unit, boolean alwaysKnown, String meaning, int slot) {}

  /**
   * A kind of item that {@code for each} goes through.
   *
   * @param name "preservative", "gum", "step"
   * @param properties by name
   * @param membershipAlwaysKnown whether it is always known which items are of this kind
   * @param slot where {@link Facts#items} finds it
   */
  public record ItemKind(
      String name, Map<String, Property> properties, boolean membershipAlwaysKnown, int slot) {
    public ItemKind {
      properties = Map.copyOf(properties);
    }
  }

  /**
   * A function of literals or names.
   *
   * @param name as rules write it
   * @param parameters types of its arguments
   * @param result a number
   * @param unit how its value is printed
   * @param meaning one sentence for the reference
   * @param ofIngredients whether names given to it are those of ingredients, and it is zero where
   *     the recipe has none of them and no ingredient that is not known
   * @param slot where {@link Facts#call} finds it
   */
  public record Function(
      String name,
      List<Type> parameters,
      Type.Number result,
      Unit unit,
      String meaning,
      boolean ofIngredients,
      int slot) {
    public Function {
      parameters = List.copyOf(parameters);
    }
  }

  public Optional<Property> property(String name) {
    return Optional.ofNullable(properties.get(name));
  }

  public Optional<ItemKind> kind(String name) {
    return Optional.ofNullable(kinds.get(name));
  }

  public Optional<Function> function(String name) {
    return Optional.ofNullable(functions.get(name));
  }

  public List<Property> properties() {
    return properties.values().stream().sorted((a, b) -> a.name().compareTo(b.name())).toList();
  }

  public List<ItemKind> kinds() {
    return kinds.values().stream().sorted((a, b) -> a.name().compareTo(b.name())).toList();
  }

  public List<Function> functions() {
    return functions.values().stream().sorted((a, b) -> a.name().compareTo(b.name())).toList();
  }

  public static Builder builder() {
    return new Builder();
  }

  /** Collects names; slots are numbered in the order of declaration, per table. */
  public static final class Builder {
    private final Map<String, Property> properties = new LinkedHashMap<>();
    private final Map<String, ItemKind> kinds = new LinkedHashMap<>();
    private final Map<String, Function> functions = new LinkedHashMap<>();

    private Builder() {}

    public Builder property(
        String name, Type type, Unit unit, boolean alwaysKnown, String meaning) {
      Property property = new Property(name, type, unit, alwaysKnown, meaning, properties.size());
      if (properties.put(name, property) != null) {
        throw new IllegalArgumentException("property declared twice: " + name);
      }
      return this;
    }

    public Builder kind(String name, boolean membershipAlwaysKnown, List<Property> itemProperties) {
      Map<String, Property> byName = new LinkedHashMap<>();
      for (Property property : new ArrayList<>(itemProperties)) {
        byName.put(property.name(), property);
      }
      if (kinds.put(name, new ItemKind(name, byName, membershipAlwaysKnown, kinds.size()))
          != null) {
        throw new IllegalArgumentException("kind declared twice: " + name);
      }
      return this;
    }

    public Builder function(
        String name, List<Type> parameters, Type.Number result, Unit unit, String meaning) {
      return function(name, parameters, result, unit, meaning, false);
    }

    public Builder function(
        String name,
        List<Type> parameters,
        Type.Number result,
        Unit unit,
        String meaning,
        boolean ofIngredients) {
      Function function =
          new Function(name, parameters, result, unit, meaning, ofIngredients, functions.size());
      if (functions.put(name, function) != null) {
        throw new IllegalArgumentException("function declared twice: " + name);
      }
      return this;
    }

    public Vocabulary build() {
      return new Vocabulary(this);
    }
  }
}
