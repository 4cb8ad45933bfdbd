package gelwright.api.http;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.List;
import java.util.Optional;

/** Who may call: the token, and the web origins whose pages may. */
final class Access {
  private static final String SCHEME = "Bearer ";

  private final Optional<byte[]> token;
  private final List<String> origins;

  Access(Optional<String> token, List<String> origins) {
    this.token = token.map(Access::digest);
    this.origins = List.copyOf(origins);
  }

  /** Refuses a request without the right token; how long that takes tells nothing of the token. */
  void check(Optional<String> authorization) {
    if (token.isEmpty()) {
      return;
    }
    String header = authorization.orElse("");
    boolean bearer = header.regionMatches(true, 0, SCHEME, 0, SCHEME.length());
    byte[] shown = digest(bearer ? header.substring(SCHEME.length()).strip() : "");
    if (!MessageDigest.isEqual(token.get(), shown) || !bearer) {
      throw Trouble.of(ProblemType.UNAUTHORIZED, "Send the header Authorization: Bearer TOKEN.")
          .with("WWW-Authenticate", "Bearer");
    }
  }

  boolean hasOrigins() {
    return !origins.isEmpty();
  }

  boolean allows(String origin) {
    return origins.contains(origin);
  }

  private static byte[] digest(String text) {
    try {
      return MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
    } catch (NoSuchAlgorithmException impossible) {
      throw new IllegalStateException("every Java platform has SHA-256", impossible);
    }
  }
}
