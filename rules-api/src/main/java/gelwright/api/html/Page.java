package gelwright.api.html;

import static java.util.Objects.requireNonNull;

import java.util.List;

/**
 * What stands around the content of a page.
 *
 * @param kind what the page is, such as "Batch sheet"; stands small above the heading
 * @param heading what it is about, such as the name of a formula
 * @param about a line or two below the heading; may be empty
 * @param not what this is not: sentences at the foot of the page
 */
public record Page(String kind, String heading, List<String> about, List<String> not) {
  public Page {
    requireNonNull(kind, "kind");
    requireNonNull(heading, "heading");
    about = List.copyOf(about);
    not = List.copyOf(not);
  }

  /** What a browser shows as the title of the window. */
  public String title() {
    return kind.isEmpty() ? heading : heading + " – " + kind;
  }
}
