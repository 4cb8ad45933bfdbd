package gelwright.api.http;

import gelwright.problem.Problem;
import gelwright.sheets.tree.Read;
import io.javalin.Javalin;
import io.javalin.compression.CompressionStrategy;
import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import io.javalin.http.HandlerType;
import io.javalin.http.HttpResponseException;
import java.io.IOException;
import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.eclipse.jetty.ee10.servlet.ServletContextHandler;
import org.eclipse.jetty.http.HttpCompliance;
import org.eclipse.jetty.http.UriCompliance;
import org.eclipse.jetty.server.HttpConfiguration;
import org.eclipse.jetty.server.HttpConnectionFactory;
import org.eclipse.jetty.server.NetworkConnectionLimit;
import org.eclipse.jetty.server.Server;
import org.eclipse.jetty.server.ServerConnector;
import org.eclipse.jetty.server.handler.GracefulHandler;
import org.eclipse.jetty.util.VirtualThreads;
import org.eclipse.jetty.util.thread.QueuedThreadPool;

/**
 * The service while it runs.
 *
 * <p>Requests come on threads of the web server: virtual ones where the platform has them, a
 * bounded number of platform threads elsewhere. They read and write; whatever computes runs in the
 * {@link Evaluator}.
 *
 * <p>It stops in three steps. First it says that it is not ready and goes on serving, each answer
 * closing its connection, so that balancers and clients go elsewhere. Then it takes no new
 * connection. At last it waits for what is under way, up to a time, and ends.
 */
public final class Service implements AutoCloseable {
  /** On every answer. Nothing here may be framed, run or guessed at by a browser. */
  static final Map<String, String> SECURITY =
      Map.of(
          "X-Content-Type-Options", "nosniff",
          "Content-Security-Policy", "default-src 'none'; frame-ancestors 'none'; base-uri 'none'",
          "Referrer-Policy", "no-referrer",
          "Cross-Origin-Resource-Policy", "same-origin");

  /**
   * What the libraries would write of their own accord. The web server complains of each malformed
   * request, in its words; the router tells faults that stand in the log already. Of the rest only
   * warnings are asked for. Held here, or the platform forgets the levels.
   */
  private static final Map<Logger, Level> LOGGERS =
      Map.of(
          Logger.getLogger("org.eclipse.jetty"), Level.WARNING,
          Logger.getLogger("org.eclipse.jetty.http"), Level.OFF,
          Logger.getLogger("org.eclipse.jetty.server"), Level.SEVERE,
          Logger.getLogger("io.javalin"), Level.OFF,
          Logger.getLogger("org.hibernate.validator"), Level.WARNING);

  private static final String ROUTE = "route";
  private static final String BEGUN = "begun";
  private static final int THREADS = 200;
  private static final Duration WATCH_EVERY = Duration.ofSeconds(1);

  private final Settings settings;
  private final Guards guards;
  private final KnowledgeStore store;
  private final Evaluator evaluator;
  private final Watchdog watchdog;
  private final Metrics metrics;
  private final Semaphore streams;
  private final Log log;
  private final Access access;
  private final Map<String, Set<String>> routes = new LinkedHashMap<>();
  private final AtomicBoolean draining = new AtomicBoolean();
  private final CountDownLatch stopped = new CountDownLatch(1);
  private final ScheduledExecutorService watch;
  private final Javalin web;

  /**
   * What starting came to: a service that runs, or why there is none.
   *
   * @param service there is one exactly when there are no problems
   * @param problems a sentence each
   */
  public record Started(Optional<Service> service, List<String> problems) {
    public Started {
      problems = List.copyOf(problems);
    }
  }

  /** Loads the knowledge and listens. Comes back when requests are taken. */
  public static Started start(Settings settings) {
    return start(settings, Map.of());
  }

  /** With further resources to post to; benchmarks compare with them. */
  static Started start(Settings settings, Map<String, Handling> more) {
    LOGGERS.forEach(Logger::setLevel);
    List<String> wrong = settings.problems();
    if (!wrong.isEmpty()) {
      return new Started(Optional.empty(), wrong);
    }
    Read<KnowledgeStore> store =
        KnowledgeStore.open(settings.ruleFolders(), settings.ingredientFolders());
    if (store.value().isEmpty()) {
      return new Started(
          Optional.empty(), store.problems().stream().map(Problem::toString).toList());
    }
    Service service = new Service(settings, store.value().get(), more);
    try {
      service.web.start();
    } catch (RuntimeException cannotListen) {
      service.close();
      return new Started(
          Optional.empty(),
          List.of(
              "It cannot listen on "
                  + settings.host()
                  + ", port "
                  + settings.port()
                  + ": "
                  + reason(cannotListen)
                  + "."));
    }
    service.log.event("started", json -> json.writeNumberField("port", service.port()));
    return new Started(Optional.of(service), List.of());
  }

  private static String reason(Throwable problem) {
    Throwable cause = problem;
    while (cause.getCause() != null) {
      cause = cause.getCause();
    }
    return String.valueOf(cause.getMessage());
  }

  private Service(Settings settings, KnowledgeStore store, Map<String, Handling> more) {
    this.settings = settings;
    this.guards = settings.guards();
    this.store = store;
    this.evaluator = new Evaluator(guards);
    this.watchdog = new Watchdog(guards);
    this.streams = new Semaphore(guards.streams());
    this.metrics = new Metrics(evaluator, () -> guards.streams() - streams.availablePermits());
    this.log = new Log(settings.log(), settings.accessLog());
    this.access = new Access(settings.token(), settings.corsOrigins(), settings.isLoopback());
    this.web =
        Javalin.create(
            config -> {
              configure(config);
              more.forEach((path, handling) -> post(config, path, handling));
            });
    this.watch =
        Executors.newSingleThreadScheduledExecutor(
            task -> {
              Thread thread = new Thread(task, "folder-watch");
              thread.setDaemon(true);
              return thread;
            });
    if (settings.watch() && store.hasOwn()) {
      long pause = WATCH_EVERY.toMillis();
      ScheduledFuture<?> unused =
          watch.scheduleWithFixedDelay(this::lookForChanges, pause, pause, TimeUnit.MILLISECONDS);
    }
  }

  /** The port that it listens on. */
  public int port() {
    return web.port();
  }

  /** Methods by path, as routed. */
  Map<String, Set<String>> routes() {
    return routes;
  }

  Metrics metrics() {
    return metrics;
  }

  Watchdog watchdog() {
    return watchdog;
  }

  private void configure(JavalinConfig config) {
    config.startup.showJavalinBanner = false;
    config.startup.showOldJavalinVersionWarning = false;
    config.startup.startupWatcherEnabled = false;
    config.http.prefer405over404 = true;
    config.http.maxRequestSize = guards.bodyBytes();
    // Answers are compressed as a whole, with a tag of their own; see Representation.
    config.http.compressionStrategy = CompressionStrategy.NONE;
    config.router.ignoreTrailingSlashes = false;
    config.router.javaLangErrorHandler((response, error) -> log.fault(error));
    config.jetty.host = settings.host();
    config.jetty.port = settings.port();
    config.jetty.threadPool = threads();
    config.jetty.addConnector(this::connector);
    config.jetty.modifyServer(
        server -> {
          server.insertHandler(new GracefulHandler());
          server.setStopTimeout(guards.stop().toMillis());
          server.setErrorHandler(new BareErrors());
          server.addBean(new NetworkConnectionLimit(guards.connections(), server));
        });
    config.jetty.modifyServletContextHandler(Service::bare);
    config.requestLogger.http((context, milliseconds) -> finished(context));
    config.routes.before(this::begin);
    config.routes.exception(
        HttpResponseException.class, (problem, context) -> fail(context, problem));
    config.routes.exception(Exception.class, (problem, context) -> fail(context, problem));
    route(config);
  }

  /** No cookie, and no page of the server's own. */
  private static void bare(ServletContextHandler context) {
    context.getSessionHandler().setUsingCookies(false);
    context.setErrorHandler(new BareErrors());
  }

  private static QueuedThreadPool threads() {
    QueuedThreadPool threads = new QueuedThreadPool(THREADS, 8, 60_000);
    threads.setName("http");
    if (VirtualThreads.areSupported()) {
      threads.setVirtualThreadsExecutor(VirtualThreads.getNamedVirtualThreadsExecutor("http-"));
    }
    return threads;
  }

  private ServerConnector connector(Server server, HttpConfiguration http) {
    http.setSendServerVersion(false);
    http.setSendDateHeader(true);
    http.setUriCompliance(UriCompliance.DEFAULT);
    http.setHttpCompliance(HttpCompliance.RFC7230);
    http.setRequestHeaderSize(guards.headerBytes());
    http.setMaxErrorDispatches(0);
    http.setIdleTimeout(guards.idle().toMillis());
    ServerConnector connector = new ServerConnector(server, 1, 1, new HttpConnectionFactory(http));
    connector.setHost(settings.host());
    connector.setPort(settings.port());
    connector.setIdleTimeout(guards.idle().toMillis());
    connector.setAcceptQueueSize(Math.min(guards.connections(), 1_024));
    connector.setShutdownIdleTimeout(Math.min(500, guards.idle().toMillis()));
    connector.addBean(watchdog);
    return connector;
  }

  /** Handles an exchange. */
  @FunctionalInterface
  interface Handling {
    void handle(Exchange exchange);
  }

  private void route(JavalinConfig config) {
    Reviews reviews = new Reviews(store, evaluator, metrics, guards, settings.today());
    ReviewStreams lines =
        new ReviewStreams(store, evaluator, metrics, guards, streams, settings.today(), log::fault);
    Predictions predictions = new Predictions(store, evaluator, guards, settings.today());
    Headrooms headrooms = new Headrooms(store, evaluator, guards, settings.today());
    Comparisons comparisons = new Comparisons(store, evaluator, guards, settings.today());
    Calibrations calibrations = new Calibrations(store, evaluator, guards);
    SheetChanges changes = new SheetChanges(evaluator, guards);
    PaperDocuments papers = new PaperDocuments(store, evaluator, guards, settings.today());
    RuleChecks checks = new RuleChecks(store, evaluator, guards, settings.today());
    KnowledgeResources knowledge = new KnowledgeResources(store);
    ReviewPage page = ReviewPage.load();
    Representation description = new Representation(OpenApi.document(), MediaType.JSON);
    get(config, "/", page::page);
    get(config, "/page/<file>", page::file);
    post(config, "/v1/reviews", reviews::post);
    post(config, "/v1/review-streams", lines::post);
    post(config, "/v1/predictions", predictions::post);
    post(config, "/v1/headroom", headrooms::post);
    post(config, "/v1/comparisons", comparisons::post);
    post(config, "/v1/calibrations", calibrations::post);
    post(config, "/v1/sheet-edits", changes::post);
    post(config, "/v1/batch-sheets", papers::batch);
    post(config, "/v1/label-drafts", papers::label);
    post(config, "/v1/stability-plans", papers::stability);
    post(config, "/v1/rule-checks", checks::post);
    get(config, "/v1/rules", knowledge::rules);
    get(config, "/v1/rules/{id}", knowledge::rule);
    get(config, "/v1/ingredients", knowledge::ingredients);
    // A name may have slashes in it.
    get(config, "/v1/ingredients/<name>", knowledge::ingredient);
    get(config, "/v1/textures", knowledge::textures);
    get(config, "/v1/sources", knowledge::sources);
    get(config, "/v1/schemas", knowledge::schemas);
    get(config, "/v1/schemas/{name}", knowledge::schema);
    get(
        config,
        "/openapi.json",
        exchange -> {
          exchange.query(Set.of());
          MediaType.best(exchange.header("Accept"), List.of(MediaType.JSON));
          exchange.answer(description);
        });
    get(config, "/problems", ProblemPages::all);
    get(config, "/problems/{name}", ProblemPages::one);
    get(config, "/health/live", exchange -> health(exchange, true));
    get(config, "/health/ready", exchange -> health(exchange, !draining.get()));
    get(config, "/metrics", this::metrics);
    post(config, "/v1/reloads", this::reload);
  }

  private void get(JavalinConfig config, String path, Handling handling) {
    add(config, HandlerType.GET, path, handling);
    add(config, HandlerType.HEAD, path, handling);
  }

  private void post(JavalinConfig config, String path, Handling handling) {
    add(config, HandlerType.POST, path, handling);
  }

  private void add(JavalinConfig config, HandlerType method, String path, Handling handling) {
    String template = path.replace('<', '{').replace('>', '}');
    routes.computeIfAbsent(template, key -> new TreeSet<>()).add(method.name());
    config.routes.addHttpHandler(
        method,
        path,
        context -> {
          context.attribute(ROUTE, template);
          handling.handle(new Exchange(context, guards, watchdog));
        });
  }

  private void begin(Context context) {
    context.attribute(BEGUN, System.nanoTime());
    watchdog.begun(Exchange.connection(context));
    SECURITY.forEach(context.res()::setHeader);
    context.res().setHeader("Link", "</openapi.json>; rel=\"service-desc\"");
    if (draining.get()) {
      context.res().setHeader("Connection", "close");
    }
    access.checkHost(Objects.requireNonNullElse(context.req().getHeader("Host"), ""));
    String address = context.req().getRequestURI();
    if (address.contains("//") || address.contains(";")) {
      throw Trouble.of(
          ProblemType.MALFORMED_REQUEST, "The address has an empty part or a semicolon.");
    }
    if (crossOrigin(context)) {
      context.skipRemainingHandlers();
      return;
    }
    if (!open(context.path())) {
      access.check(Optional.ofNullable(context.req().getHeader("Authorization")));
    }
  }

  /**
   * What is told to everybody: how the service is, and the page, which asks for the token itself.
   */
  private static boolean open(String path) {
    return path.startsWith("/health/") || path.equals("/") || path.startsWith("/page/");
  }

  /**
   * Tells browsers that pages of the allowed origins may read the answer; whether it was only
   * asked.
   */
  private boolean crossOrigin(Context context) {
    if (!access.hasOrigins()) {
      return false;
    }
    context.res().setHeader("Vary", "Origin");
    String origin = context.req().getHeader("Origin");
    if (origin == null || !access.allows(origin)) {
      return false;
    }
    context.res().setHeader("Access-Control-Allow-Origin", origin);
    context.res().setHeader("Access-Control-Expose-Headers", "ETag, Link, Retry-After");
    context.res().setHeader("Cross-Origin-Resource-Policy", "cross-origin");
    if (!context.method().equals(HandlerType.OPTIONS)
        || context.req().getHeader("Access-Control-Request-Method") == null) {
      return false;
    }
    context.res().setHeader("Access-Control-Allow-Methods", "GET, HEAD, POST");
    context
        .res()
        .setHeader(
            "Access-Control-Allow-Headers", "Accept, Authorization, Content-Type, If-None-Match");
    context.res().setHeader("Access-Control-Max-Age", "600");
    context.res().setStatus(204);
    context.attribute(ROUTE, "preflight");
    return true;
  }

  private void fail(Context context, Exception problem) {
    Trouble trouble = trouble(problem);
    if (context.res().isCommitted()) {
      return;
    }
    if (trouble.type() == ProblemType.INTERNAL) {
      log.fault(problem);
    }
    // Nothing of an answer begun before may stay.
    context.res().setHeader("ETag", null);
    context.res().setHeader("Content-Encoding", null);
    context.res().setHeader("Cache-Control", "no-store");
    trouble.headers().forEach(context.res()::setHeader);
    new Exchange(context, guards, watchdog)
        .answer(
            trouble.type().status(), MediaType.PROBLEM, Json.problem(trouble, OptionalInt.empty()));
  }

  private Trouble trouble(Exception problem) {
    if (problem instanceof Trouble trouble) {
      return trouble;
    }
    if (problem instanceof HttpResponseException refused) {
      ProblemType type = ProblemType.ofStatus(refused.getStatus());
      Trouble trouble = Trouble.of(type, type.meaning());
      String methods = refused.getDetails().get("availableMethods");
      String forPages = refused.getDetails().get("Available methods");
      String allow = methods == null ? forPages : methods;
      return allow == null ? trouble : trouble.with("Allow", allow);
    }
    if (problem instanceof IOException) {
      return Exchange.unread(problem);
    }
    return Trouble.of(ProblemType.INTERNAL, ProblemType.INTERNAL.meaning());
  }

  private void finished(Context context) {
    watchdog.ended(Exchange.connection(context));
    Long begun = context.attribute(BEGUN);
    double seconds = begun == null ? 0 : (System.nanoTime() - begun) / 1e9;
    String route = Optional.<String>ofNullable(context.attribute(ROUTE)).orElse("none");
    // Methods are a closed set; anything else is counted together.
    String named = context.method().name().toUpperCase(Locale.ROOT);
    String method =
        List.of("GET", "HEAD", "POST", "OPTIONS", "PUT", "DELETE", "PATCH").contains(named)
            ? named
            : "other";
    Long bytes = context.attribute("bytes");
    int status = context.attribute("gone") == null ? context.res().getStatus() : 499;
    metrics.answered(route, method, status, seconds);
    log.access(method, route, status, seconds, bytes == null ? 0 : bytes);
  }

  private static void health(Exchange exchange, boolean well) {
    exchange.query(Set.of());
    exchange.header("Cache-Control", "no-store");
    exchange.answer(
        well ? 200 : 503,
        MediaType.JSON,
        Json.object(json -> json.writeStringField("status", well ? "up" : "stopping")));
  }

  private void metrics(Exchange exchange) {
    exchange.query(Set.of());
    MediaType form =
        MediaType.best(
            exchange.header("Accept"), List.of(MediaType.OPEN_METRICS, MediaType.PLAIN_METRICS));
    exchange.header("Cache-Control", "no-store");
    exchange.headerMore("Vary", "Accept");
    exchange.answer(200, form, metrics.text(form));
  }

  private void reload(Exchange exchange) {
    exchange.query(Set.of());
    MediaType form = MediaType.best(exchange.header("Accept"), List.of(MediaType.JSON));
    KnowledgeStore.Loaded loaded = evaluator.now(this::reloadNow);
    if (!loaded.isOk()) {
      throw Trouble.of(
          ProblemType.NOT_TAKEN_OVER, ProblemType.NOT_TAKEN_OVER.meaning(), loaded.problems());
    }
    exchange.header("Cache-Control", "no-store");
    exchange.answer(
        200,
        form,
        Json.object(
            json -> {
              json.writeObjectFieldStart("rule-sets");
              for (var set : store.current().ruleSets()) {
                json.writeStringField(set.id(), set.edition());
              }
              json.writeEndObject();
            }));
  }

  private KnowledgeStore.Loaded reloadNow() {
    KnowledgeStore.Loaded loaded = store.reload();
    metrics.reloaded(loaded.isOk());
    log.event(
        loaded.isOk() ? "knowledge-taken-over" : "knowledge-refused",
        json -> {
          if (!loaded.isOk()) {
            Json.problems(json, "errors", loaded.problems());
          }
        });
    return loaded;
  }

  /** Takes changed folders over; what is wrong with them stands in the log. */
  void lookForChanges() {
    try {
      if (store.hasChanged()) {
        reloadNow();
      }
    } catch (RuntimeException fault) {
      // The next look shall come.
      log.fault(fault);
    }
  }

  /** From now on it says that it is not ready; it serves on. */
  void drain() {
    if (draining.compareAndSet(false, true)) {
      log.event("draining", json -> {});
    }
  }

  /** Drains, finishes what is under way, and stops. Comes back when that is done. */
  public void stop() {
    drain();
    try {
      TimeUnit.NANOSECONDS.sleep(guards.drain().toNanos());
    } catch (InterruptedException hurry) {
      Thread.currentThread().interrupt();
    }
    close();
  }

  /** Waits until it is stopped. */
  public void await() throws InterruptedException {
    stopped.await();
  }

  /** Finishes what is under way and stops. */
  @Override
  public void close() {
    draining.set(true);
    watch.shutdownNow();
    web.stop();
    evaluator.close();
    watchdog.close();
    if (stopped.getCount() > 0) {
      log.event("stopped", json -> {});
    }
    stopped.countDown();
  }
}
