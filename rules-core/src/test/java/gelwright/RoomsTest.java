package gelwright;

import static com.tngtech.archunit.base.DescribedPredicate.not;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.belongToAnyOf;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.lang.conditions.ArchConditions.accessField;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.fields;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaCall;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaField;
import com.tngtech.archunit.core.domain.JavaModifier;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchCondition;
import com.tngtech.archunit.lang.ArchRule;
import com.tngtech.archunit.lang.ConditionEvents;
import com.tngtech.archunit.lang.SimpleConditionEvent;
import java.io.File;
import java.io.Serializable;
import java.net.URI;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.concurrent.atomic.AtomicLong;
import java.util.logging.Logger;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Which room of the engine may know which, and what none of them may touch.
 *
 * <p>Every prohibition is shown to bite: it is held against the engine, which must keep it, and
 * against a small offender at the foot of this file, which must be caught.
 */
@DisplayName("rooms of the engine")
final class RoomsTest {
  private static final JavaClasses ENGINE =
      new ClassFileImporter()
          .withImportOption(new ImportOption.DoNotIncludeTests())
          .importPackages("gelwright");

  /** Each room, and the rooms it may know besides itself. */
  private static final Map<String, List<String>> ROOMS =
      Map.ofEntries(
          Map.entry("problem", List.of()),
          Map.entry("quantity", List.of()),
          Map.entry("science", List.of("quantity")),
          Map.entry("formula", List.of("quantity", "problem")),
          Map.entry("ingredient", List.of("quantity", "problem")),
          Map.entry("rule", List.of("quantity", "problem")),
          Map.entry(
              "profile",
              List.of("quantity", "problem", "science", "formula", "ingredient", "rule")),
          Map.entry(
              "review",
              List.of(
                  "quantity", "problem", "science", "formula", "ingredient", "profile", "rule")),
          Map.entry(
              "prediction",
              List.of("quantity", "problem", "formula", "ingredient", "profile", "rule", "review")),
          Map.entry(
              "comparison",
              List.of(
                  "quantity",
                  "problem",
                  "formula",
                  "ingredient",
                  "profile",
                  "rule",
                  "review",
                  "prediction")),
          Map.entry(
              "calibration",
              List.of("quantity", "problem", "science", "ingredient", "profile", "prediction")),
          Map.entry(
              "batch",
              List.of(
                  "quantity",
                  "problem",
                  "science",
                  "formula",
                  "ingredient",
                  "profile",
                  "rule",
                  "review")),
          Map.entry(
              "labelling",
              List.of("quantity", "problem", "formula", "ingredient", "profile", "rule", "review")),
          Map.entry(
              "stability",
              List.of(
                  "quantity", "problem", "formula", "ingredient", "profile", "rule", "review")));

  private static Stream<Arguments> rooms() {
    return ROOMS.entrySet().stream()
        .sorted(Map.Entry.comparingByKey())
        .map(room -> Arguments.of(room.getKey(), room.getValue()));
  }

  @ParameterizedTest(name = "{0} knows {1} and no other room")
  @MethodSource("rooms")
  void roomKnowsOnly(String room, List<String> known) {
    String[] allowed =
        Stream.concat(Stream.of(room), known.stream())
            .map(RoomsTest::packageOf)
            .toArray(String[]::new);
    noClasses()
        .that()
        .resideInAPackage(packageOf(room))
        .should()
        .dependOnClassesThat(resideInAPackage("gelwright..").and(not(resideInAnyPackage(allowed))))
        .allowEmptyShould(true)
        .check(ENGINE);
  }

  @Test
  @DisplayName("every class of the engine stands in one of the rooms")
  void noOtherRooms() {
    classes()
        .should()
        .resideInAnyPackage(
            ROOMS.keySet().stream().map(RoomsTest::packageOf).toArray(String[]::new))
        .allowEmptyShould(true)
        .check(ENGINE);
  }

  @Test
  @DisplayName("no two rooms know each other, by whatever way round")
  void noCycles() {
    slices()
        .matching("gelwright.(*)..")
        .should()
        .beFreeOfCycles()
        .allowEmptyShould(true)
        .check(ENGINE);
  }

  @Test
  @DisplayName("the engine knows neither the sheets nor the program around it")
  void nothingAroundTheEngine() {
    noClasses()
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage("gelwright.sheets..", "gelwright.rulesets..", "gelwright.api..")
        .allowEmptyShould(true)
        .check(ENGINE);
  }

  private static Stream<Arguments> prohibitions() {
    return Stream.of(
        Arguments.of(
            "no file, stream or connection",
            dependOnNone(
                resideInAnyPackage("java.io..", "java.nio.file..", "java.nio.channels..")
                    .or(resideInAnyPackage("java.net..", "javax.net.."))
                    .and(not(belongToAnyOf(Serializable.class)))),
            List.of(FileOffender.class, PathOffender.class, ConnectionOffender.class)),
        Arguments.of(
            "no clock and no time zone of the machine",
            noClasses()
                .should()
                .dependOnClassesThat()
                .areAssignableTo(Clock.class)
                .orShould()
                .callMethodWhere(
                    anyMethodOf("now", resideInAPackage("java.time.."))
                        .or(anyMethodOf("systemDefault", belongToAnyOf(ZoneId.class)))
                        .or(anyMethodOf("currentTimeMillis|nanoTime", belongToAnyOf(System.class))))
                .orShould()
                .dependOnClassesThat()
                .haveFullyQualifiedName("java.util.Date")
                .orShould()
                .dependOnClassesThat()
                .haveFullyQualifiedName("java.util.Calendar"),
            List.of(
                ClockOffender.class,
                TodayOffender.class,
                NowOffender.class,
                MillisOffender.class,
                NanosOffender.class,
                ZoneOffender.class)),
        Arguments.of(
            "no logging and no printing",
            noClasses()
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("java.util.logging..", "org.slf4j..")
                .orShould()
                .dependOnClassesThat()
                .areAssignableTo(System.Logger.class)
                .orShould(accessField(System.class, "out"))
                .orShould(accessField(System.class, "err"))
                .orShould(accessField(System.class, "in")),
            List.of(LogOffender.class, PrintOffender.class)),
        Arguments.of(
            "no reflection",
            noClasses()
                .should()
                .dependOnClassesThat()
                .resideInAPackage("java.lang.reflect..")
                .orShould()
                .callMethodWhere(
                    anyMethodOf(
                        "forName|newInstance"
                            + "|get(Declared)?(Class|Constructor|Field|Method|Annotation)e?s?"
                            + "|getRecordComponents|getPermittedSubclasses|getResource.*",
                        belongToAnyOf(Class.class))),
            List.of(ReflectionOffender.class, ForNameOffender.class)),
        Arguments.of(
            "nothing asked of the surrounding process",
            noClasses()
                .should()
                .callMethodWhere(
                    anyMethodOf("getProperty|getenv|exit", belongToAnyOf(System.class))),
            List.of(PropertyOffender.class)),
        Arguments.of(
            "no mutable static field",
            fields().that().areStatic().should(neverChange()),
            List.of(
                StaticVariableOffender.class,
                StaticCounterOffender.class,
                StaticListOffender.class,
                StaticArrayOffender.class)));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("prohibitions")
  void engineKeeps(String name, ArchRule rule, List<Class<?>> offenders) {
    rule.because("the engine is a function of its arguments").allowEmptyShould(true).check(ENGINE);
    for (Class<?> offender : offenders) {
      assertTrue(
          rule.allowEmptyShould(true)
              .evaluate(new ClassFileImporter().importClasses(offender))
              .hasViolation(),
          () -> "\"" + name + "\" does not catch " + offender.getSimpleName());
    }
  }

  private static String packageOf(String room) {
    return "gelwright." + room + "..";
  }

  private static ArchRule dependOnNone(DescribedPredicate<? super JavaClass> which) {
    return noClasses().should().dependOnClassesThat(which);
  }

  private static DescribedPredicate<JavaCall<?>> anyMethodOf(
      String names, DescribedPredicate<? super JavaClass> owner) {
    return DescribedPredicate.describe(
        names + " of a class that does " + owner.getDescription(),
        call -> call.getName().matches(names) && owner.test(call.getTargetOwner()));
  }

  /**
   * A static field never changes if it is final and its declared type cannot change. A collection
   * declared by its interface passes, since {@code List.of} and its like have no type of their own;
   * an array passes if it is private, so that its class alone can write to it.
   */
  private static ArchCondition<JavaField> neverChange() {
    return new ArchCondition<>("never change") {
      @Override
      public void check(JavaField field, ConditionEvents events) {
        boolean isFinal = field.getModifiers().contains(JavaModifier.FINAL);
        boolean isPrivate = field.getModifiers().contains(JavaModifier.PRIVATE);
        JavaClass type = field.getRawType();
        boolean openArray = type.isArray() && !isPrivate;
        boolean changeableCollection =
            !type.isInterface()
                && (type.isAssignableTo(Collection.class) || type.isAssignableTo(Map.class));
        boolean holder =
            type.getPackageName().startsWith("java.util.concurrent")
                || type.isAssignableTo(ThreadLocal.class)
                || type.isAssignableTo(StringBuilder.class);
        // The compiler's own table for a switch over an enum: written by no source.
        boolean madeByCompiler = field.getModifiers().contains(JavaModifier.SYNTHETIC);
        boolean fine =
            madeByCompiler || (isFinal && !openArray && !changeableCollection && !holder);
        events.add(new SimpleConditionEvent(field, fine, field.getDescription() + " can change"));
      }
    };
  }

  // The offenders: each breaks one prohibition, in the plainest way.

  private static final class FileOffender {
    File file = new File("sheet");
  }

  private static final class PathOffender {
    Path path = Path.of("sheet");
  }

  private static final class ConnectionOffender {
    URI address = URI.create("sheet");
  }

  private static final class ClockOffender {
    Clock clock = Clock.systemUTC();
  }

  private static final class TodayOffender {
    LocalDate today = LocalDate.now(ZoneId.of("UTC"));
  }

  private static final class NowOffender {
    Instant now = Instant.now();
  }

  private static final class MillisOffender {
    long now = System.currentTimeMillis();
  }

  private static final class NanosOffender {
    long now = System.nanoTime();
  }

  private static final class ZoneOffender {
    ZoneId zone = ZoneId.systemDefault();
  }

  private static final class LogOffender {
    Logger logger = Logger.getLogger("engine");
  }

  private static final class PrintOffender {
    PrintOffender() {
      System.out.println();
    }
  }

  private static final class ReflectionOffender {
    int parts = Offended.class.getDeclaredMethods().length;
  }

  private static final class ForNameOffender {
    Class<?> type;

    ForNameOffender() throws ClassNotFoundException {
      type = Class.forName("gelwright.RoomsTest");
    }
  }

  private record Offended() {}

  private static final class PropertyOffender {
    String name = System.getProperty("user.name");
  }

  private static final class StaticVariableOffender {
    static int count = 0;
  }

  private static final class StaticCounterOffender {
    static final AtomicLong COUNT = new AtomicLong();
  }

  private static final class StaticListOffender {
    static final ArrayList<String> SEEN = new ArrayList<>();
  }

  private static final class StaticArrayOffender {
    static final double[] SHARED = {1.0};
  }
}
