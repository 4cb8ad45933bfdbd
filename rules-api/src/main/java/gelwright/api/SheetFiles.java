package gelwright.api;

import gelwright.problem.Place;
import gelwright.problem.Problem;
import gelwright.reports.Unreadable;
import java.io.IOException;
import java.nio.file.FileSystems;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.nio.file.PathMatcher;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.PatternSyntaxException;

/**
 * Finds the formula sheets that a command line names: files, folders with all beneath them, and
 * patterns with {@code *} in them. Hidden folders are not entered, links not followed.
 *
 * <p>A folder may also hold sheets that are no formulas: own ingredients, sources, rules, and the
 * briefs of tables. They are left out and named.
 *
 * @param files in the order of their names, each once
 * @param skipped sheets that are no formulas
 * @param unreadable what was named and is not there
 */
record SheetFiles(List<Path> files, List<Path> skipped, List<Unreadable> unreadable) {
  private static final List<String> ENDINGS = List.of(".yaml", ".yml", ".json", ".csv");
  private static final String PATTERN_CHARACTERS = "*?[{";

  SheetFiles {
    files = List.copyOf(files);
    skipped = List.copyOf(skipped);
    unreadable = List.copyOf(unreadable);
  }

  /**
   * Finds sheets.
   *
   * @param named as written on the command line
   * @param apart folders that hold other sheets and are not entered, unless they are named
   */
  static SheetFiles find(List<String> named, List<Path> apart) {
    Set<Path> found = new TreeSet<>();
    Set<Path> skipped = new TreeSet<>();
    List<Unreadable> unreadable = new ArrayList<>();
    for (String name : named) {
      Set<Path> here = new TreeSet<>();
      try {
        here.addAll(sheets(name, apart));
      } catch (InvalidPathException e) {
        unreadable.add(not(name, "no-such-file", "This is no name of a file."));
        continue;
      } catch (IOException e) {
        unreadable.add(not(name, "folder-unreadable", "This folder could not be read."));
        continue;
      }
      if (here.isEmpty()) {
        unreadable.add(nothing(name));
      }
      for (Path file : here) {
        (SheetKind.isFormula(file) ? found : skipped).add(file);
      }
    }
    return new SheetFiles(List.copyOf(found), List.copyOf(skipped), unreadable);
  }

  private static Set<Path> sheets(String name, List<Path> apart) throws IOException {
    Set<Path> found = new TreeSet<>();
    if (hasPattern(name) && !exists(name)) {
      glob(name, apart, found);
      return found;
    }
    Path path = Path.of(name);
    if (Files.isDirectory(path)) {
      walk(path, SheetFiles::isSheet, apart, found);
    } else if (Files.exists(path)) {
      found.add(path.normalize());
    }
    return found;
  }

  private static boolean exists(String name) {
    try {
      return Files.exists(Path.of(name));
    } catch (InvalidPathException e) {
      return false;
    }
  }

  private static Unreadable nothing(String name) {
    if (hasPattern(name) && !exists(name)) {
      return not(name, "no-match", "No file matches this pattern.");
    }
    return Files.isDirectory(Path.of(name))
        ? not(name, "no-sheets", "There is no sheet in this folder (.yaml, .yml, .json, .csv).")
        : not(name, "no-such-file", "There is no such file or folder.");
  }

  static Unreadable not(String file, String code, String message) {
    return new Unreadable(file, List.of(Problem.of(new Place(file, 0, 0, ""), code, message)));
  }

  private static boolean hasPattern(String name) {
    return name.chars().anyMatch(c -> PATTERN_CHARACTERS.indexOf(c) >= 0);
  }

  private static boolean isSheet(Path file) {
    String name = String.valueOf(file.getFileName()).toLowerCase(Locale.ROOT);
    return ENDINGS.stream().anyMatch(name::endsWith);
  }

  /** From the last folder before the first pattern character on. */
  private static void glob(String pattern, List<Path> apart, Set<Path> found) {
    int first = 0;
    while (PATTERN_CHARACTERS.indexOf(pattern.charAt(first)) < 0) {
      first++;
    }
    int slash = Math.max(pattern.lastIndexOf('/', first), pattern.lastIndexOf('\\', first));
    Path base = Path.of(slash < 0 ? "" : pattern.substring(0, slash + 1));
    String rest = pattern.substring(slash + 1);
    try {
      PathMatcher matcher = FileSystems.getDefault().getPathMatcher("glob:" + rest);
      walk(base, file -> matcher.matches(base.relativize(file)), apart, found);
    } catch (PatternSyntaxException | IOException noMatch) {
      // A pattern that matches nothing finds nothing, and the caller says so.
      return;
    }
  }

  private static void walk(
      Path root, java.util.function.Predicate<Path> wanted, List<Path> apart, Set<Path> found)
      throws IOException {
    if (!Files.isDirectory(root) && !root.toString().isEmpty()) {
      return;
    }
    Set<Path> left = new TreeSet<>();
    apart.forEach(folder -> left.add(folder.toAbsolutePath().normalize()));
    Files.walkFileTree(
        root,
        new SimpleFileVisitor<>() {
          @Override
          public FileVisitResult preVisitDirectory(Path folder, BasicFileAttributes attributes) {
            if (folder.equals(root)) {
              return FileVisitResult.CONTINUE;
            }
            boolean skip =
                String.valueOf(folder.getFileName()).startsWith(".")
                    || left.contains(folder.toAbsolutePath().normalize());
            return skip ? FileVisitResult.SKIP_SUBTREE : FileVisitResult.CONTINUE;
          }

          @Override
          public FileVisitResult visitFile(Path file, BasicFileAttributes attributes) {
            if (attributes.isRegularFile() && wanted.test(file)) {
              found.add(file.normalize());
            }
            return FileVisitResult.CONTINUE;
          }
        });
  }
}
