package gelwright.api.http;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.zip.GZIPOutputStream;
import org.jspecify.annotations.Nullable;

/** A resource written down, with its tag; compressed when first asked for so. */
final class Representation {
  /** Below this size compression saves no packet. */
  static final int WORTH_COMPRESSING = 1_400;

  private final byte[] bytes;
  private final MediaType type;
  private final String tag;
  private volatile byte @Nullable [] compressed;

  Representation(byte[] bytes, MediaType type) {
    this.bytes = bytes;
    this.type = type;
    try {
      byte[] digest = MessageDigest.getInstance("SHA-256").digest(bytes);
      this.tag = HexFormat.of().formatHex(digest, 0, 16);
    } catch (NoSuchAlgorithmException impossible) {
      throw new IllegalStateException("every Java platform has SHA-256", impossible);
    }
  }

  byte[] bytes() {
    return bytes;
  }

  MediaType type() {
    return type;
  }

  /** An entity tag; each form of the bytes has its own. */
  String tag(boolean gzip) {
    return '"' + tag + (gzip ? "-gzip" : "") + '"';
  }

  byte[] compressed() {
    byte[] ready = compressed;
    if (ready == null) {
      ready = gzip(bytes);
      compressed = ready;
    }
    return ready;
  }

  static byte[] gzip(byte[] bytes) {
    ByteArrayOutputStream out = new ByteArrayOutputStream(bytes.length / 4 + 64);
    try (GZIPOutputStream gzip = new GZIPOutputStream(out)) {
      gzip.write(bytes);
    } catch (IOException impossible) {
      throw new UncheckedIOException(impossible);
    }
    return out.toByteArray();
  }
}
