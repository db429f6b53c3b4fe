package example.tamponade.app;

import static com.tngtech.archunit.core.domain.JavaCall.Predicates.target;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.assignableTo;
import static com.tngtech.archunit.core.domain.properties.HasName.Predicates.name;
import static com.tngtech.archunit.core.domain.properties.HasOwner.Predicates.With.owner;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchRule;
import example.tamponade.app.record.VersionStore;
import java.time.Clock;
import org.junit.jupiter.api.Test;

class ArchitectureTest {

    private static final JavaClasses CLASSES = new ClassFileImporter()
            .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
            .importPackages("example.tamponade");

    @Test
    void featuresFormNoCycles() {
        check(slices().matching("example.tamponade.(*).(*)..")
                .should()
                .beFreeOfCycles()
                .because("a feature that needs another must not be needed by it"));
    }

    @Test
    void derivationsKnowOnlyEventsAndTheProtocol() {
        check(noClasses()
                .that()
                .resideInAPackage("..core.derivation..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("..core.casefile..", "..core.quantity..")
                .because("a formula must be readable and testable without a case"));
    }

    @Test
    void coreKnowsNeitherFhirNorSpring() {
        check(noClasses()
                .that()
                .resideInAPackage("example.tamponade.core..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("org.hl7..", "ca.uhn..", "org.springframework..", "tools.jackson..")
                .because("the arrows go app, fhir, core and never back"));
    }

    @Test
    void conformanceKnowsNothingOfThisAdapter() {
        check(noClasses()
                .that()
                .resideInAPackage("example.tamponade.conformance..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage(
                        "example.tamponade.core..",
                        "example.tamponade.fhir..",
                        "example.tamponade.app..",
                        "example.tamponade.profiles..",
                        "example.tamponade.terminology..")
                .because("it takes any FHIR package, so that it can be read, tested and used alone"));
    }

    @Test
    void onlyTheProjectionPutsResourcesOnRecord() {
        check(noClasses()
                .that()
                .resideOutsideOfPackages("..app.projection..", "..app.record..")
                .should()
                .callMethodWhere(target(owner(assignableTo(VersionStore.class))).and(target(name("store"))))
                .because("there is one way from events to resources"));
    }

    @Test
    void fhirModelTypesStayOutOfIntakeAndLedger() {
        check(noClasses()
                .that()
                .resideInAnyPackage("..app.intake..", "..app.ledger..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("org.hl7.fhir..", "ca.uhn.fhir..")
                .because("what was received is kept apart from how it is published"));
    }

    @Test
    void onlyTheEntrancesReadTheSystemClock() {
        check(noClasses()
                .that()
                .resideOutsideOfPackages("..app.serve..", "..app.convert..", "..app.summary..", "..app.operate..")
                .should()
                .callMethod(Clock.class, "systemUTC")
                .orShould()
                .callMethod(Clock.class, "systemDefaultZone")
                .orShould()
                .callMethod(java.time.Instant.class, "now")
                .orShould()
                .callMethod(java.time.OffsetDateTime.class, "now")
                .because("a case replays to the same bytes only if nobody looks at the clock"));
    }

    private static void check(ArchRule rule) {
        rule.check(CLASSES);
    }
}
