package gelwright.rule;

/** How one number is compared with another, or with two. */
public enum Relation {
  LESS("<"),
  AT_MOST("<="),
  MORE(">"),
  AT_LEAST(">="),
  EQUAL("="),
  NOT_EQUAL("!="),
  /** Between two limits, both included. */
  WITHIN("within"),
  /** Not between two limits. */
  OUTSIDE("not within");

  private final String sign;

  Relation(String sign) {
    this.sign = sign;
  }

  /** As a rule writes it. */
  public String sign() {
    return sign;
  }

  /** The relation that holds exactly where this one does not. */
  public Relation negated() {
    return switch (this) {
      case LESS -> AT_LEAST;
      case AT_MOST -> MORE;
      case MORE -> AT_MOST;
      case AT_LEAST -> LESS;
      case EQUAL -> NOT_EQUAL;
      case NOT_EQUAL -> EQUAL;
      case WITHIN -> OUTSIDE;
      case OUTSIDE -> WITHIN;
    };
  }

  /** The relation of the second number to the first. */
  public Relation mirrored() {
    return switch (this) {
      case LESS -> MORE;
      case AT_MOST -> AT_LEAST;
      case MORE -> LESS;
      case AT_LEAST -> AT_MOST;
      default -> this;
    };
  }
}
