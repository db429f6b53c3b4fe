package example.tamponade.fhir.bundle;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertThrows;

import example.tamponade.fhir.PackageFiles;
import example.tamponade.fhir.Shared;
import java.util.Set;
import org.junit.jupiter.api.Test;

class SectionTest {

    @Test
    void everyProfileOfACaseHasASection() {
        Set<String> notOfACase = Set.of(
                "case-bundle",
                "case-composition",
                "case-transaction",
                "refusal",
                "readiness",
                "readiness-share",
                "days-since-readiness-check",
                "stored-tamponade-set");
        assertThat(PackageFiles.profiles())
                .filteredOn(it -> !notOfACase.contains(it))
                .allSatisfy(it -> assertThat(Section.of(it)).isNotNull());
    }

    @Test
    void everySectionIsOneOfTheCodeSystem() {
        assertThat(Section.values())
                .allSatisfy(it -> assertThat(
                                Shared.TERMS.local("bundle-section", it.code()).getText())
                        .isNotBlank());
    }

    @Test
    void aProfileWithoutSectionIsRefused() {
        assertThrows(IllegalArgumentException.class, () -> Section.of("refusal"));
    }
}
