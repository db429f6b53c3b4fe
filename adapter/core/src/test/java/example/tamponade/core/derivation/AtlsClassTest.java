package example.tamponade.core.derivation;

import static example.tamponade.core.derivation.Figures.amount;
import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

class AtlsClassTest {

    private static final BigDecimal JUST_MORE = new BigDecimal("0.01");
    private static final BigDecimal AT_TERM = new BigDecimal(100);
    private static final AtlsClass.Bounds BY_VOLUME =
            new AtlsClass.Bounds(new BigDecimal(750), new BigDecimal(1500), new BigDecimal(2000));
    private static final AtlsClass.Bounds BY_SHARE =
            new AtlsClass.Bounds(new BigDecimal(15), new BigDecimal(30), new BigDecimal(40));

    @ParameterizedTest(name = "{0}")
    @CsvFileSource(resources = "/published/atls/table-2010.csv", numLinesToSkip = 1)
    void aClassBeginsAboveOneBoundAndIncludesTheNext(
            String expected,
            @Nullable BigDecimal aboveMl,
            @Nullable BigDecimal toMl,
            @Nullable BigDecimal abovePercent,
            @Nullable BigDecimal toPercent) {
        assertReaches(expected, aboveMl, toMl, BY_VOLUME);
        assertReaches(expected, abovePercent, toPercent, BY_SHARE);
    }

    @ParameterizedTest
    @CsvFileSource(resources = "/published/atls/table-2019.csv", numLinesToSkip = 1)
    void agreesWithTheTenthEditionButForTheMarkedBound(
            BigDecimal percent, String expected, String baseDeficit, @Nullable String notMetBecause) {
        assertThat(AtlsClass.of(percent, BY_SHARE).code().equals(expected)).isEqualTo(notMetBecause == null);
    }

    @ParameterizedTest
    @CsvFileSource(resources = "/published/atls/worked-figures.csv", numLinesToSkip = 1)
    void givesAClassByVolumeAndAClassByShare(
            int row, BigDecimal weightKg, BigDecimal lostMl, String byVolume, String byShare) {
        BigDecimal bloodVolumeMl =
                EstimatedBloodVolume.ofWeight(weightKg, AT_TERM).value();
        BigDecimal share = amount(ShareLost.of(lostMl, bloodVolumeMl)).value();

        assertThat(AtlsClass.of(lostMl, BY_VOLUME).code()).isEqualTo(byVolume);
        assertThat(AtlsClass.of(share, BY_SHARE).code()).isEqualTo(byShare);
    }

    private static void assertReaches(
            String expected, @Nullable BigDecimal above, @Nullable BigDecimal to, AtlsClass.Bounds bounds) {
        if (above != null) {
            assertThat(AtlsClass.of(above.add(JUST_MORE), bounds).code()).isEqualTo(expected);
        }
        if (to != null) {
            assertThat(AtlsClass.of(to, bounds).code()).isEqualTo(expected);
        }
    }
}
