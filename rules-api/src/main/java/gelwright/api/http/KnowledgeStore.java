package gelwright.api.http;

import gelwright.batch.BatchSheets;
import gelwright.comparison.Comparer;
import gelwright.labelling.LabelDrafts;
import gelwright.prediction.Predictor;
import gelwright.problem.Place;
import gelwright.problem.Problem;
import gelwright.review.Reviewer;
import gelwright.rule.RuleSet;
import gelwright.sheets.Bundled;
import gelwright.sheets.Library;
import gelwright.sheets.OwnSheets;
import gelwright.sheets.tree.Limits;
import gelwright.sheets.tree.Read;
import gelwright.stability.StabilityPlans;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Stream;

/**
 * The knowledge at hand: bundled sheets with the own ones on top. A change is read and compiled
 * beside what is in use and takes its place as a whole, or not at all.
 */
final class KnowledgeStore {
  private final Library bundled;
  private final List<Path> own;
  private volatile Snapshot current;
  private Map<String, String> seen;

  /** Knowledge that belongs together; a request works with one from its beginning to its end. */
  static final class Snapshot {
    private final Library library;
    private final Reviewer reviewer;
    private final Predictor predictor;
    private final Comparer comparer;
    private final BatchSheets batchSheets;
    private final LabelDrafts labelDrafts;
    private final StabilityPlans stabilityPlans;
    private final Map<String, Representation> resources = new ConcurrentHashMap<>();

    Snapshot(OwnSheets.Ready ready) {
      this.library = ready.library();
      this.reviewer = Reviewer.using(ready.knowledge());
      this.predictor = Predictor.using(ready.knowledge());
      this.comparer = Comparer.using(ready.knowledge());
      this.batchSheets = BatchSheets.using(ready.knowledge());
      this.labelDrafts = LabelDrafts.using(ready.knowledge());
      this.stabilityPlans = StabilityPlans.using(ready.knowledge());
    }

    Library library() {
      return library;
    }

    Reviewer reviewer() {
      return reviewer;
    }

    Predictor predictor() {
      return predictor;
    }

    Comparer comparer() {
      return comparer;
    }

    BatchSheets batchSheets() {
      return batchSheets;
    }

    LabelDrafts labelDrafts() {
      return labelDrafts;
    }

    StabilityPlans stabilityPlans() {
      return stabilityPlans;
    }

    List<RuleSet> ruleSets() {
      return library.ruleSets();
    }

    /** Resources by their canonical name, made once. */
    Map<String, Representation> resources() {
      return resources;
    }
  }

  /**
   * What loading came to.
   *
   * @param problems why nothing was taken over, or none
   */
  record Loaded(List<Problem> problems) {
    boolean isOk() {
      return problems.isEmpty();
    }
  }

  private KnowledgeStore(Library bundled, List<Path> own, Snapshot first) {
    this.bundled = bundled;
    this.own = List.copyOf(own);
    this.current = first;
    this.seen = fingerprint();
  }

  /** Loads the bundled sheets and those of the folders. */
  static Read<KnowledgeStore> open(List<Path> ruleFolders, List<Path> ingredientFolders) {
    Library bundled = Bundled.load();
    List<Path> own = new ArrayList<>(ingredientFolders);
    own.addAll(ruleFolders);
    return OwnSheets.read(bundled, own, Limits.USUAL)
        .ready()
        .map(ready -> new KnowledgeStore(bundled, own, new Snapshot(ready)));
  }

  Snapshot current() {
    return current;
  }

  /** The bundled sheets alone with a posted one on top. */
  Library library() {
    return current.library();
  }

  boolean hasOwn() {
    return !own.isEmpty();
  }

  /** Reads the folders again. What is wrong is told with the names of files, not of folders. */
  synchronized Loaded reload() {
    seen = fingerprint();
    Read<OwnSheets.Ready> read = OwnSheets.read(bundled, own, Limits.USUAL).ready();
    if (read.value().isPresent()) {
      current = new Snapshot(read.value().get());
      return new Loaded(List.of());
    }
    return new Loaded(read.problems().stream().map(this::withoutFolder).toList());
  }

  /** Whether a file has come, gone or changed since the folders were last read. */
  synchronized boolean hasChanged() {
    return hasOwn() && !seen.equals(fingerprint());
  }

  private Problem withoutFolder(Problem problem) {
    Place place = problem.place();
    return new Problem(
        new Place(bare(place.file()), place.line(), place.column(), place.pointer()),
        problem.code(),
        bare(problem.message()),
        bare(problem.hint()));
  }

  private String bare(String text) {
    String bare = text;
    for (Path folder : own) {
      bare = bare.replace(folder + "/", "").replace(folder.toString(), "an own folder");
    }
    return bare;
  }

  /** Size and time of every file, by its name. */
  private Map<String, String> fingerprint() {
    Map<String, String> files = new TreeMap<>();
    for (Path folder : own) {
      try (Stream<Path> all = Files.walk(folder)) {
        for (Path file : (Iterable<Path>) all::iterator) {
          BasicFileAttributes about = Files.readAttributes(file, BasicFileAttributes.class);
          if (about.isRegularFile()) {
            files.put(
                file.toString(),
                about.size() + " " + about.lastModifiedTime() + " " + about.fileKey());
          }
        }
      } catch (IOException | UncheckedIOException unreadable) {
        files.put(folder.toString(), "unreadable");
      }
    }
    return files;
  }
}
