package gelwright.review;

/**
 * What a review carries only when asked for. Remedies and headroom cost many reviews; a thread that
 * is interrupted meanwhile ends with a {@link java.util.concurrent.CancellationException}.
 */
public enum Include {
  /** Every sub-expression's value behind each finding. */
  TRACE,
  /** What would put each finding right. */
  REMEDIES,
  /** How far each share, the pH and each temperature can move. */
  HEADROOM
}
