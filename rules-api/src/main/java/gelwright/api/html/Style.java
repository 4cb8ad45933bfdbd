package gelwright.api.html;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;

/**
 * The style sheet of all pages, and the policy that lets it be used and nothing else.
 *
 * @param css the sheet; it goes between the tags of one style element, byte for byte
 * @param hash its SHA-256 as a content security policy names it, such as {@code sha256-…}
 */
public record Style(String css, String hash) {
  /** The sheet of the program. */
  public static final Style HOUSE = of(read());

  static Style of(String css) {
    if (css.contains("</")) {
      throw new IllegalArgumentException("css closes its element");
    }
    try {
      byte[] digest =
          MessageDigest.getInstance("SHA-256").digest(css.getBytes(StandardCharsets.UTF_8));
      return new Style(css, "sha256-" + Base64.getEncoder().encodeToString(digest));
    } catch (NoSuchAlgorithmException impossible) {
      throw new IllegalStateException("every Java platform has SHA-256", impossible);
    }
  }

  /** What a page may do, for its own head: be styled by this sheet. */
  public String policy() {
    return "default-src 'none'; style-src '" + hash + "'; base-uri 'none'; form-action 'none'";
  }

  /** The same for an answer over HTTP, where it can also forbid being framed. */
  public String policyOfAnswer() {
    return policy() + "; frame-ancestors 'none'";
  }

  private static String read() {
    try (InputStream in = Style.class.getResourceAsStream("house.css")) {
      if (in == null) {
        throw new IllegalStateException("house.css is not on the class path");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8).replace("\r\n", "\n");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
