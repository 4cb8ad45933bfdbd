package gelwright.reports;

import com.networknt.schema.Error;
import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Objects;

/** Holds documents against a JSON Schema from the class path. */
final class SchemaCheck {
  private final Schema schema;

  private SchemaCheck(Schema schema) {
    this.schema = schema;
  }

  static SchemaCheck of(String resource, SpecificationVersion version) {
    try (InputStream in =
        Objects.requireNonNull(SchemaCheck.class.getResourceAsStream(resource), resource)) {
      String text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
      return new SchemaCheck(
          SchemaRegistry.withDefaultDialect(version).getSchema(text, InputFormat.JSON));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** What is wrong with a document, in words. */
  List<String> errors(String document) {
    return schema
        .validate(
            document,
            InputFormat.JSON,
            context -> context.executionConfig(config -> config.formatAssertionsEnabled(true)))
        .stream()
        .map(Error::toString)
        .toList();
  }
}
