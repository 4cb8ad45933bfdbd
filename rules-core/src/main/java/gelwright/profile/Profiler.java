package gelwright.profile;

import static java.util.Objects.requireNonNull;

import gelwright.formula.Formula;
import gelwright.ingredient.Catalogue;
import gelwright.ingredient.Ingredient;
import java.time.LocalDate;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;

/**
 * Makes the profiles of formulas from one catalogue. Thread-safe; what depends on the catalogue
 * alone is worked out once.
 */
public final class Profiler {
  // Rules ask the same few hundred sets of names of every formula. Which ingredients they mean is
  // found once for each set that stands in a rule or a table; those are the same objects every
  // time, so identity tells them apart.
  private final Catalogue catalogue;
  private final Map<Same, Set<String>> meanings = new ConcurrentHashMap<>();

  /** One very set of names. */
  private record Same(Set<String> names) {
    @Override
    public boolean equals(Object other) {
      return other instanceof Same same && same.names == names;
    }

    @Override
    public int hashCode() {
      return System.identityHashCode(names);
    }
  }

  private Profiler(Catalogue catalogue) {
    this.catalogue = catalogue;
  }

  /** Profiles of formulas whose ingredients are looked up in a catalogue. */
  public static Profiler using(Catalogue catalogue) {
    return new Profiler(requireNonNull(catalogue, "catalogue"));
  }

  /** The profile of a formula. */
  public Profile profile(Formula formula) {
    return new Profile(requireNonNull(formula, "formula"), this, List.of(), Optional.empty());
  }

  /** The profile of a formula on a day: what the law asks for changes with the day. */
  public Profile profile(Formula formula, LocalDate on) {
    return new Profile(requireNonNull(formula, "formula"), this, List.of(), Optional.of(on));
  }

  Catalogue catalogue() {
    return catalogue;
  }

  /** INCI names of the ingredients a set of names means; a name nobody knows stands for itself. */
  Set<String> meaning(Set<String> names, boolean lasting) {
    Same key = new Same(names);
    Set<String> known = meanings.get(key);
    if (known != null) {
      return known;
    }
    Set<String> found = new HashSet<>();
    for (String name : names) {
      found.add(catalogue.find(name).map(Ingredient::name).orElse(name));
    }
    Set<String> meaning = Set.copyOf(found);
    if (lasting) {
      meanings.put(key, meaning);
    }
    return meaning;
  }
}
