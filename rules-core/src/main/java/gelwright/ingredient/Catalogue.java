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

/** Ingredients by name, and the sources they cite. Case, spaces and hyphens do not matter. */
public final class Catalogue {
  private final Map<String, Ingredient> byName;
  private final Map<String, Ingredient> byKey;
  // By every name and synonym as spelled, which is how names usually come.
  private final Map<String, Ingredient> bySpelling;
  private final Map<String, Source> sources;
  private final Map<String, Source> sourcesById;
  private final List<String> names;

  private Catalogue(
      Map<String, Ingredient> byName, Map<String, Ingredient> byKey, Map<String, Source> sources) {
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
    return new Catalogue(byName, byKey, bySourceId);
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
    return of(all, allSources);
  }
}
