package example.tamponade.core.derivation;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

class HaemorrhageGradesTest {

    private static final BigDecimal HAEMORRHAGE_FROM = new BigDecimal(500);
    private static final BigDecimal SEVERE_FROM = new BigDecimal(1000);
    private static final RcogGrade.Bounds RCOG =
            new RcogGrade.Bounds(new BigDecimal(500), new BigDecimal(1000), new BigDecimal(2000));
    private static final ObstetricShockGrade.Bounds HIGHLAND = new ObstetricShockGrade.Bounds(
            new BigDecimal(500), new BigDecimal(1000), new BigDecimal(1500), new BigDecimal(2000));

    @ParameterizedTest
    @CsvFileSource(resources = "/published/who-2012/grades.csv", numLinesToSkip = 1)
    void gradesByWho(BigDecimal lostMl, String grade) {
        assertThat(HaemorrhageGrade.of(lostMl, HAEMORRHAGE_FROM, SEVERE_FROM).code())
                .isEqualTo(grade);
    }

    @ParameterizedTest
    @CsvFileSource(resources = "/published/rcog-gtg52/grades.csv", numLinesToSkip = 1)
    void gradesByRcog(BigDecimal lostMl, String grade) {
        assertThat(RcogGrade.of(lostMl, RCOG).code()).isEqualTo(grade);
    }

    @ParameterizedTest
    @CsvFileSource(resources = "/published/nhs-highland/shock-grades.csv", numLinesToSkip = 1)
    void gradesTheShockToExpect(BigDecimal lostMl, String grade) {
        assertThat(ObstetricShockGrade.of(lostMl, HIGHLAND).code()).isEqualTo(grade);
    }

    @ParameterizedTest
    @CsvFileSource(resources = "/published/rcog-gtg52/periods.csv", numLinesToSkip = 1)
    void tellsPrimaryFromSecondary(Duration afterBirth, String period) {
        Instant birth = OffsetDateTime.parse("2026-02-11T22:41:00+05:45").toInstant();

        assertThat(HaemorrhagePeriod.of(birth, birth.plus(afterBirth), Duration.ofHours(24), Duration.ofDays(84))
                        .code())
                .isEqualTo(period);
    }
}
