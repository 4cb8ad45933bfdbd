package gelwright.api.http;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * Who may call: the token, the web origins whose pages may, and, where there is no token, only
 * those who call this machine by one of its own names.
 */
final class Access {
  private static final String SCHEME = "Bearer ";

  /** Names that stand for this machine wherever they are looked up. */
  private static final Pattern LOCAL =
      Pattern.compile("(?:localhost|127(?:\\.[0-9]{1,3}){3}|\\[::1])(?::[0-9]{1,5})?");

  private final Optional<byte[]> token;
  private final List<String> origins;
  private final boolean localOnly;

  /**
   * The rules of access.
   *
   * @param token to be shown, if any
   * @param origins web origins whose pages may call
   * @param loopback whether it listens on an address of this machine alone
   */
  Access(Optional<String> token, List<String> origins, boolean loopback) {
    this.token = token.map(Access::digest);
    this.origins = List.copyOf(origins);
    this.localOnly = loopback && token.isEmpty();
  }

  /**
   * Refuses a request that calls this machine by a name that somebody else can give it. A page of
   * the web whose name is made to point here would pass for a page of this service otherwise.
   */
  void checkHost(String host) {
    if (localOnly && !LOCAL.matcher(host.toLowerCase(Locale.ROOT)).matches()) {
      throw Trouble.of(ProblemType.MISDIRECTED, "The header Host names another machine.");
    }
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
