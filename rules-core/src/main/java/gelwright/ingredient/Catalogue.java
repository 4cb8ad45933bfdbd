package gelwright.ingredient;

import gelwright.problem.Spelling;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * Ingredients by name, lots of them that were measured, and the sources they cite. Case, spaces and
 * hyphens do not matter.
 */
public final class Catalogue {
  private final Map<String, Ingredient> byName;
  private final Map<String, Ingredient> byKey;
  // By every name and synonym as spelled, which is how names usually come.
  private final Map<String, Ingredient> bySpelling;
  private final Map<String, Source> sources;
  private final Map<String, Source> sourcesById;
  private final List<String> names;
  // By the key of the ingredient's INCI name, a line feed, and the key of the lot.
  private final Map<String, Lot> lots;

  private Catalogue(
      Map<String, Ingredient> byName,
      Map<String, Ingredient> byKey,
      Map<String, Source> sources,
      Map<String, Lot> lots) {
    this.lots = java.util.Collections.unmodifiableMap(lots);
    this.byName = java.util.Collections.unmodifiableMap(byName);
    this.byKey = Map.copyOf(byKey);
    this.sources = java.util.Collections.unmodifiableMap(sources);
    this.sourcesById = Map.copyOf(sources);
    List<String> all = new ArrayList<>();
    for (Ingredient ingredient : byName.values()) {
      all.add(ingredient.name());
      all.addAll(ingredient.synonyms());
    }
    this.names = List.copyOf(all);
    Map<String, Ingredient> spelled = new HashMap<>();
    for (String name : all) {
      Ingredient ingredient = byKey.get(key(name));
      if (ingredient != null) {
        spelled.put(name, ingredient);
      }
    }
    this.bySpelling = spelled;
  }

  /**
   * A catalogue of these ingredients. A later ingredient of the same name replaces an earlier one,
   * so that own sheets beat bundled ones; a name always beats a synonym.
   */
  public static Catalogue of(Collection<Ingredient> ingredients, Collection<Source> sources) {
    return of(ingredients, sources, List.of());
  }

  /** The same with lots; a later lot of the same name replaces an earlier one. */
  public static Catalogue of(
      Collection<Ingredient> ingredients, Collection<Source> sources, Collection<Lot> lots) {
    Map<String, Ingredient> byName = new TreeMap<>();
    Map<String, String> nameByKey = new LinkedHashMap<>();
    for (Ingredient ingredient : ingredients) {
      String key = key(ingredient.name());
      String previous = nameByKey.put(key, ingredient.name());
      if (previous != null) {
        byName.remove(previous);
      }
      byName.put(ingredient.name(), ingredient);
    }
    Map<String, Ingredient> byKey = new HashMap<>();
    for (Ingredient ingredient : byName.values()) {
      for (String synonym : ingredient.synonyms()) {
        byKey.putIfAbsent(key(synonym), ingredient);
      }
    }
    for (Ingredient ingredient : byName.values()) {
      byKey.put(key(ingredient.name()), ingredient);
    }
    Map<String, Source> bySourceId = new TreeMap<>();
    for (Source source : sources) {
      bySourceId.put(source.id(), source);
    }
    Map<String, Lot> byLot = new TreeMap<>();
    for (Lot lot : lots) {
      Ingredient named = byKey.get(key(lot.ingredient()));
      byLot.put(lotKey(named == null ? lot.ingredient() : named.name(), lot.name()), lot);
    }
    return new Catalogue(byName, byKey, bySourceId, byLot);
  }

  private static String lotKey(String ingredient, String lot) {
    return key(ingredient) + '\n' + key(lot);
  }

  /**
   * A lot of an ingredient.
   *
   * @param ingredient INCI name or synonym
   * @param lot as a recipe's line writes it
   */
  public Optional<Lot> lot(String ingredient, String lot) {
    String name = find(ingredient).map(Ingredient::name).orElse(ingredient);
    return Optional.ofNullable(lots.get(lotKey(name, lot)));
  }

  /** All lots in the order of their ingredients. */
  public Collection<Lot> lots() {
    return lots.values();
  }

  /** A name without case, spaces, hyphens and full stops. */
  static String key(String name) {
    StringBuilder key = new StringBuilder(name.length());
    String lower = name.toLowerCase(Locale.ROOT);
    for (int i = 0; i < lower.length(); i++) {
      char character = lower.charAt(i);
      if (!Character.isWhitespace(character) && character != '-' && character != '.') {
        key.append(character);
      }
    }
    return key.toString();
  }

  /** The ingredient of this INCI name or synonym. */
  public Optional<Ingredient> find(String name) {
    Ingredient spelledSo = bySpelling.get(name);
    return Optional.ofNullable(spelledSo != null ? spelledSo : byKey.get(key(name)));
  }

  /** Known names nearest to an unknown one, nearest first. */
  public List<String> closest(String name, int most) {
    return Spelling.closest(name, names, most);
  }

  /** All ingredients in the order of their names. */
  public Collection<Ingredient> ingredients() {
    return byName.values();
  }

  public Optional<Source> source(String id) {
    return Optional.ofNullable(sourcesById.get(id));
  }

  /** All sources in the order of their ids. */
  public Collection<Source> sources() {
    return sources.values();
  }

  /** This catalogue with further ingredients and sources; later ones win. */
  public Catalogue with(Collection<Ingredient> more, Collection<Source> moreSources) {
    List<Ingredient> all = new ArrayList<>(byName.values());
    all.addAll(more);
    List<Source> allSources = new ArrayList<>(sources.values());
    allSources.addAll(moreSources);
    return of(all, allSources, lots.values());
  }

  /** This catalogue with further lots; later ones win. */
  public Catalogue withLots(Collection<Lot> more) {
    List<Lot> all = new ArrayList<>(lots.values());
    all.addAll(more);
    return of(byName.values(), sources.values(), all);
  }
}
