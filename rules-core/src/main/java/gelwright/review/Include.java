package gelwright.review;

/** What a review carries only when asked for. */
public enum Include {
  /** Every sub-expression's value behind each finding. */
  TRACE
}
