package gelwright.ingredient;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;

/**
 * Two gums that thicken more together than apart.
 *
 * @param gum the flow law of both, in their joint concentration; empty where it is known that they
 *     strengthen each other but not by how much
 * @param least share of the gum that names the pair in the two, %, from which on the law holds
 * @param most share up to which it holds, %
 * @param sources ids of the sources that tell of the pair
 */
public record GumPair(Optional<Gum> gum, double least, double most, List<String> sources) {
  public GumPair {
    requireNonNull(gum, "gum");
    sources = List.copyOf(sources);
    if (!(least >= 0 && least < most && most <= 100)) {
      throw new IllegalArgumentException("share " + least + " to " + most + " is empty");
    }
  }
}
