package gelwright.sheets;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("neighbours of the sheets")
final class NeighboursTest {
  private static final JavaClasses OURS =
      new ClassFileImporter()
          .withImportOption(new ImportOption.DoNotIncludeTests())
          .importPackages("gelwright");

  @Test
  @DisplayName("neither engine nor sheets know the program around them")
  void nothingKnowsTheProgram() {
    noClasses()
        .that()
        .resideOutsideOfPackage("gelwright.api..")
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage("gelwright.api..", "io.javalin..", "picocli..")
        .allowEmptyShould(true)
        .check(OURS);
  }

  @Test
  @DisplayName(
      "the engine does not know the sheets; reports do, which write edits and lots in their words")
  void engineDoesNotKnowSheets() {
    noClasses()
        .that()
        .resideOutsideOfPackages(
            "gelwright.sheets..", "gelwright.rulesets..", "gelwright.reports..")
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage("gelwright.sheets..", "gelwright.rulesets..")
        .allowEmptyShould(true)
        .check(OURS);
  }

  @Test
  @DisplayName("the sheets do not know the reports")
  void sheetsDoNotKnowReports() {
    noClasses()
        .that()
        .resideInAPackage("gelwright.sheets..")
        .should()
        .dependOnClassesThat()
        .resideInAPackage("gelwright.reports..")
        .check(OURS);
  }

  @Test
  @DisplayName("only the charts know the chart library")
  void chartLibrary() {
    noClasses()
        .that()
        .resideOutsideOfPackage("gelwright.charts..")
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage("org.jetbrains..", "kotlin..")
        .check(OURS);
  }
}
