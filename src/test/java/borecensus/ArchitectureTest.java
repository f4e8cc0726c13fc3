package borecensus;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** Holds the arrows between packages: data flows one way, and Spark stays at the edge. */
class ArchitectureTest {
  private static final JavaClasses CODE =
      new ClassFileImporter()
          .withImportOption(new ImportOption.DoNotIncludeTests())
          .importPackages("borecensus");

  /** For each package, in flow order, the packages of ours that it may look at. */
  private static final Map<String, List<String>> ALLOWED =
      Map.ofEntries(
          Map.entry("domain", List.of()),
          Map.entry("tabular", List.of()),
          Map.entry("tables", List.of()),
          Map.entry("statistics", List.of()),
          Map.entry("publish", List.of()),
          Map.entry("query", List.of()),
          Map.entry("physics", List.of("domain")),
          Map.entry("registers", List.of("domain", "tabular")),
          Map.entry("intake", List.of("domain", "tabular")),
          Map.entry("ledger", List.of("domain", "intake", "physics", "registers")),
          Map.entry(
              "normalise",
              List.of("domain", "intake", "ledger", "physics", "registers", "statistics")),
          Map.entry("norms", List.of("domain", "statistics")),
          Map.entry("screening", List.of("domain", "norms", "statistics")),
          Map.entry("packed", List.of("domain", "intake", "ledger", "registers")),
          Map.entry("causes", List.of("domain")),
          Map.entry("worklist", List.of("causes", "domain", "norms", "screening", "statistics")),
          Map.entry("inspections", List.of("domain", "norms", "screening", "statistics")),
          Map.entry(
              "published",
              List.of(
                  "domain",
                  "intake",
                  "ledger",
                  "normalise",
                  "norms",
                  "packed",
                  "registers",
                  "screening")),
          Map.entry(
              "bay",
              List.of(
                  "domain",
                  "intake",
                  "ledger",
                  "normalise",
                  "norms",
                  "physics",
                  "published",
                  "registers",
                  "screening",
                  "statistics",
                  "tabular",
                  "worklist",
                  "causes",
                  "inspections")),
          Map.entry(
              "report",
              List.of(
                  "causes",
                  "domain",
                  "inspections",
                  "norms",
                  "physics",
                  "screening",
                  "statistics",
                  "worklist")),
          Map.entry(
              "printing",
              List.of(
                  "domain", "intake", "physics", "query", "registers", "statistics", "worklist")),
          Map.entry("simulate", List.of("domain")),
          Map.entry(
              "evaluate",
              List.of(
                  "domain",
                  "intake",
                  "ledger",
                  "normalise",
                  "norms",
                  "physics",
                  "registers",
                  "screening",
                  "statistics")));

  @TestFactory
  Stream<DynamicTest> everyPackageLooksOnlyAtThoseBeforeIt() {
    return ALLOWED.entrySet().stream()
        .map(
            entry ->
                DynamicTest.dynamicTest(
                    entry.getKey() + " looks only at " + entry.getValue(),
                    () ->
                        classes()
                            .that()
                            .resideInAPackage("borecensus." + entry.getKey() + "..")
                            .should()
                            .onlyDependOnClassesThat()
                            .resideInAnyPackage(visible(entry.getKey(), entry.getValue()))
                            .check(CODE)));
  }

  private static String[] visible(String self, List<String> allowed) {
    List<String> visible = new ArrayList<>();
    visible.add("borecensus." + self + "..");
    allowed.forEach(name -> visible.add("borecensus." + name + ".."));
    visible.addAll(List.of("", "java..", "javax..", "org.apache.commons.math3..", "org.duckdb.."));
    visible.addAll(List.of("de.siegmar.fastcsv..", "com.github.mustachejava..", "org.jfree.."));
    visible.addAll(List.of("com.fasterxml.jackson..", "org.apache.parquet.."));
    return visible.toArray(new String[0]);
  }

  @Test
  void onlyTheNightAndItsBenchmarkKnowSpark() {
    noClasses()
        .that()
        .resideOutsideOfPackages("borecensus.night..", "borecensus.benchmark..")
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage("org.apache.spark..", "scala..", "org.apache.hadoop..")
        .check(CODE);
  }

  @Test
  void physicsStatisticsNormsAndScreeningKnowNoFrameworkAtAll() {
    classes()
        .that()
        .resideInAnyPackage(
            "borecensus.domain..",
            "borecensus.physics..",
            "borecensus.statistics..",
            "borecensus.screening..")
        .should()
        .onlyDependOnClassesThat()
        .resideInAnyPackage("", "borecensus..", "java..", "org.apache.commons.math3..")
        .check(CODE);
  }

  @Test
  void nothingLooksAtTheCommands() {
    noClasses()
        .that()
        .resideOutsideOfPackage("borecensus.command..")
        .should()
        .dependOnClassesThat()
        .resideInAPackage("borecensus.command..")
        .check(CODE);
  }

  @Test
  void packagesFormNoCycles() {
    slices().matching("borecensus.(*)..").should().beFreeOfCycles().check(CODE);
  }
}
