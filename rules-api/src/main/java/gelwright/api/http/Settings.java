package gelwright.api.http;

import static java.util.Objects.requireNonNull;

import jakarta.validation.ConstraintViolation;
import jakarta.validation.Valid;
import jakarta.validation.Validation;
import jakarta.validation.ValidatorFactory;
import jakarta.validation.constraints.Max;
import jakarta.validation.constraints.Min;
import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.Pattern;
import java.io.PrintStream;
import java.net.InetAddress;
import java.net.UnknownHostException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import org.hibernate.validator.messageinterpolation.ParameterMessageInterpolator;

/**
 * How the service is to run.
 *
 * @param host address to listen on
 * @param port to listen on; 0 takes a free one
 * @param token what a client has to show, if anything
 * @param withoutToken whether it may listen on an address of the network without a token
 * @param corsOrigins web origins whose pages may call it
 * @param ruleFolders folders with own rule sets
 * @param ingredientFolders folders with own ingredients
 * @param watch whether changes in those folders are looked for
 * @param accessLog whether each request is logged
 * @param log where the log goes, a JSON object a line
 * @param today asked for where a request names no day
 * @param guards bounds
 */
public record Settings(
    @NotBlank String host,
    @Min(0) @Max(65_535) int port,
    Optional<@Pattern(regexp = "[A-Za-z0-9._~+/-]{16,512}=*") String> token,
    boolean withoutToken,
    List<@Pattern(regexp = "https?://[A-Za-z0-9.:\\[\\]-]+") String> corsOrigins,
    List<Path> ruleFolders,
    List<Path> ingredientFolders,
    boolean watch,
    boolean accessLog,
    PrintStream log,
    Supplier<LocalDate> today,
    @Valid Guards guards) {
  public Settings {
    requireNonNull(host, "host");
    requireNonNull(token, "token");
    corsOrigins = List.copyOf(corsOrigins);
    ruleFolders = List.copyOf(ruleFolders);
    ingredientFolders = List.copyOf(ingredientFolders);
    requireNonNull(log, "log");
    requireNonNull(today, "today");
    requireNonNull(guards, "guards");
  }

  /** What is wrong with these settings, a sentence each. */
  public List<String> problems() {
    List<String> problems = new ArrayList<>();
    try (ValidatorFactory factory =
        Validation.byDefaultProvider()
            .configure()
            .messageInterpolator(new ParameterMessageInterpolator())
            .buildValidatorFactory()) {
      for (ConstraintViolation<Settings> violation : factory.getValidator().validate(this)) {
        String path = violation.getPropertyPath().toString();
        // A token that is refused is still a secret: its name is told, its value is not.
        problems.add(
            path.startsWith("token")
                ? "The token must have 16 to 512 characters out of letters, digits and ._~+/-."
                : path.replaceFirst("^guards\\.", "") + ": " + violation.getMessage() + ".");
      }
    }
    if (problems.isEmpty() && token.isEmpty() && !withoutToken && !isLoopback()) {
      problems.add(
          "The address "
              + host
              + " can be reached from the network, and there is no token. Set one, listen on"
              + " 127.0.0.1, or say --without-token.");
    }
    problems.sort(null);
    return problems;
  }

  /** Whether it listens where only this machine can call. */
  boolean isLoopback() {
    try {
      for (InetAddress address : InetAddress.getAllByName(host)) {
        if (!address.isLoopbackAddress()) {
          return false;
        }
      }
      return true;
    } catch (UnknownHostException unknown) {
      return false;
    }
  }
}
