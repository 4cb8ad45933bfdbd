package gelwright.api;

import gelwright.api.http.Guards;
import gelwright.api.http.Service;
import gelwright.api.http.Settings;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/**
 * The HTTP service. Each option can be given as an environment variable too; only what runs the
 * service touches the web server, so that no other command loads it.
 */
@Command(
    name = "serve",
    mixinStandardHelpOptions = true,
    description = {
      "Serves reviews and the knowledge over HTTP until it is told to stop (SIGTERM, Ctrl+C).",
      "Each option can be given as an environment variable, such as GELWRIGHT_PORT for --port."
    })
final class ServeCommand implements Callable<Integer> {
  /** Before the name of an option, in upper case and with underscores. */
  private static final String VARIABLE = "GELWRIGHT_";

  private static final String TOKEN = VARIABLE + "TOKEN";

  private final Terminal terminal;

  @Spec private CommandSpec spec = CommandSpec.create();

  @Mixin private KnowledgeOptions knowledge = new KnowledgeOptions();

  @Option(
      names = "--host",
      paramLabel = "ADDRESS",
      defaultValue = "127.0.0.1",
      description = "Address to listen on.")
  private String host = "";

  @Option(
      names = "--port",
      paramLabel = "PORT",
      defaultValue = "8080",
      description = "Port to listen on; 0 takes a free one.")
  private int port;

  @Option(
      names = "--token-file",
      paramLabel = "FILE",
      description =
          "File whose first line is the token that clients have to show. The token itself can be"
              + " given as GELWRIGHT_TOKEN.")
  private Optional<Path> tokenFile = Optional.empty();

  @Option(
      names = "--without-token",
      description = "Listen on an address of the network although there is no token.")
  private boolean withoutToken;

  @Option(
      names = "--cors-origin",
      paramLabel = "ORIGIN",
      split = ",",
      description =
          "Web origin whose pages may call the service, such as https://example.org; may be given"
              + " several times.")
  private List<String> corsOrigins = new ArrayList<>();

  @Option(
      names = "--no-watch",
      description = "Do not look for changes in the folders of --rules and --ingredients.")
  private boolean noWatch;

  @Option(names = "--no-access-log", description = "Do not log requests.")
  private boolean noAccessLog;

  @Option(
      names = "--body-bytes",
      paramLabel = "N",
      defaultValue = "262144",
      description = "Largest body.")
  private int bodyBytes;

  @Option(
      names = "--line-bytes",
      paramLabel = "N",
      defaultValue = "262144",
      description = "Largest line of a stream.")
  private int lineBytes;

  @Option(
      names = "--header-bytes",
      paramLabel = "N",
      defaultValue = "8192",
      description = "Largest request line with headers.")
  private int headerBytes;

  @Option(
      names = "--depth",
      paramLabel = "N",
      defaultValue = "20",
      description = "How deep lists and mappings may stand inside one another.")
  private int depth;

  @Option(
      names = "--nodes",
      paramLabel = "N",
      defaultValue = "20000",
      description = "How many parts a document may have.")
  private int nodes;

  @Option(
      names = "--text-length",
      paramLabel = "N",
      defaultValue = "5000",
      description = "Longest text or key, in characters.")
  private int textLength;

  @Option(
      names = "--number-length",
      paramLabel = "N",
      defaultValue = "50",
      description = "Longest number, in characters.")
  private int numberLength;

  @Option(
      names = "--formula-parts",
      paramLabel = "N",
      defaultValue = "200",
      description = "How many ingredients, steps, measurements and acceptances a formula may have.")
  private int formulaParts;

  @Option(
      names = "--idle",
      paramLabel = "SECONDS",
      defaultValue = "15",
      description = "How long nothing may arrive, or nothing be taken.")
  private int idle;

  @Option(
      names = "--receive",
      paramLabel = "SECONDS",
      defaultValue = "30",
      description = "How long a body, or a line of a stream, may take to arrive.")
  private int receive;

  @Option(
      names = "--bytes-per-second",
      paramLabel = "N",
      defaultValue = "512",
      description = "Least rate of arriving bodies and of answers being taken.")
  private int bytesPerSecond;

  @Option(
      names = "--evaluations",
      paramLabel = "N",
      description =
          "How many evaluations run at once; as many as there are processors if not given.")
  private Optional<Integer> evaluations = Optional.empty();

  @Option(
      names = "--waiting",
      paramLabel = "N",
      defaultValue = "256",
      description = "How many more evaluations may wait for their turn.")
  private int waiting;

  @Option(
      names = "--budget",
      paramLabel = "SECONDS",
      defaultValue = "30",
      description = "How long an evaluation may take, with its wait.")
  private int budget;

  @Option(
      names = "--streams",
      paramLabel = "N",
      defaultValue = "16",
      description = "How many streams may be open.")
  private int streams;

  @Option(
      names = "--connections",
      paramLabel = "N",
      defaultValue = "1024",
      description = "How many connections may be open.")
  private int connections;

  @Option(
      names = "--drain",
      paramLabel = "SECONDS",
      defaultValue = "2",
      description = "How long to serve on, not ready any more, when told to stop.")
  private int drain;

  @Option(
      names = "--stop",
      paramLabel = "SECONDS",
      defaultValue = "20",
      description = "How long what is under way may take after that.")
  private int stop;

  private ServeCommand(Terminal terminal) {
    this.terminal = terminal;
  }

  static CommandLine line(Terminal terminal) {
    return new CommandLine(new ServeCommand(terminal))
        .setDefaultValueProvider(argument -> variable(argument, terminal));
  }

  /** The environment variable of an option, if it is set; null leaves it at its default. */
  @SuppressWarnings("NullAway") // picocli takes null for "no value"
  private static String variable(ArgSpec argument, Terminal terminal) {
    return argument instanceof OptionSpec option
        ? terminal.environment().get(variable(option))
        : null;
  }

  static String variable(OptionSpec option) {
    return VARIABLE + option.longestName().substring(2).toUpperCase(Locale.ROOT).replace('-', '_');
  }

  @Override
  public Integer call() throws InterruptedException {
    Service.Started started = Service.start(settings());
    started.problems().forEach(problem -> terminal.complain(Plain.line(problem) + "\n"));
    if (started.service().isEmpty()) {
      return ExitStatus.WRONG;
    }
    Service service = started.service().get();
    try {
      Runtime.getRuntime().addShutdownHook(new Thread(service::stop, "stop"));
    } catch (IllegalStateException toldToStopAlready) {
      service.stop();
    }
    service.await();
    return ExitStatus.FINE;
  }

  private Settings settings() {
    return new Settings(
        host,
        port,
        token(),
        withoutToken,
        corsOrigins,
        knowledge.ruleFolders(),
        knowledge.ingredientFolders(),
        !noWatch,
        !noAccessLog,
        new PrintStream(terminal.out(), false, StandardCharsets.UTF_8),
        terminal.today(),
        new Guards(
            bodyBytes,
            lineBytes,
            headerBytes,
            depth,
            nodes,
            textLength,
            numberLength,
            formulaParts,
            Duration.ofSeconds(idle),
            Duration.ofSeconds(receive),
            bytesPerSecond,
            evaluations.orElseGet(() -> Runtime.getRuntime().availableProcessors()),
            waiting,
            Duration.ofSeconds(budget),
            streams,
            connections,
            Duration.ofSeconds(drain),
            Duration.ofSeconds(stop)));
  }

  private Optional<String> token() {
    if (tokenFile.isEmpty()) {
      return Optional.ofNullable(terminal.environment().get(TOKEN)).filter(text -> !text.isEmpty());
    }
    try {
      return Optional.of(
          Files.readString(tokenFile.get()).lines().findFirst().map(String::strip).orElse(""));
    } catch (IOException unreadable) {
      throw new ParameterException(
          spec.commandLine(), "The file of --token-file cannot be read: " + tokenFile.get() + ".");
    }
  }
}
