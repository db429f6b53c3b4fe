package example.tamponade.core.quantity;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.math.RoundingMode;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.BigRange;
import net.jqwik.api.constraints.Scale;
import org.assertj.core.data.Percentage;
import org.fhir.ucum.Decimal;
import org.fhir.ucum.UcumEssenceService;
import org.fhir.ucum.UcumException;
import org.fhir.ucum.UcumService;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class UcumTest {

    private static final UcumService REFERENCE = reference();

    @ParameterizedTest
    @CsvFileSource(resources = "/published/ucum/exact-conversions.csv", numLinesToSkip = 1)
    void convertsAsTheUcumDefinitionsSay(BigDecimal value, String from, String to, BigDecimal expected) {
        assertThat(Ucum.convert(value, from, to)).isEqualTo(new Conversion.Converted(expected));
    }

    @ParameterizedTest
    @CsvFileSource(resources = "/published/ucum/sums.csv", numLinesToSkip = 1)
    void addsAmountsInUnlikeUnits(
            int row,
            BigDecimal first,
            String firstUnit,
            BigDecimal second,
            String secondUnit,
            String to,
            BigDecimal nineDecimals,
            BigDecimal oneDecimal) {
        BigDecimal sum = converted(first, firstUnit, to).add(converted(second, secondUnit, to));

        assertThat(sum.setScale(9, RoundingMode.HALF_UP)).isEqualTo(nineDecimals);
        assertThat(sum.setScale(1, RoundingMode.HALF_UP)).isEqualTo(oneDecimal);
    }

    // Deep enough to end the stack of the parser, or to keep it busy for minutes, when asked without a bound.
    @ParameterizedTest
    @ValueSource(strings = {"cm9999.dm-9996", "Ym999.ym-996", "m-99", "m+10", "[in_i]99", "m{of gauze}12"})
    void refusesPowersThatNoUnitHas(String unit) {
        assertThat(Ucum.convert(BigDecimal.ONE, unit, "mL")).isInstanceOf(Conversion.Refused.class);
        assertThat(Ucum.isUnit(unit)).isFalse();
    }

    @Test
    void refusesAUnitOfAnyLengthAndNamesItsBeginning() {
        String unit = "(".repeat(100_000) + "m";
        assertThat(Ucum.convert(BigDecimal.ONE, unit, "mL"))
                .isInstanceOfSatisfying(
                        Conversion.Refused.class, it -> assertThat(it.reason()).hasSizeLessThan(200));
    }

    // The unit library fails at naming this one.
    @Test
    void refusesAUnitThatTheLibraryCannotName() {
        assertThat(Ucum.convert(BigDecimal.ONE, "m9{a}", "mL")).isInstanceOf(Conversion.Refused.class);
    }

    @Property
    void answersForAnyTextOfUcumsCharacters(@ForAll("units") String unit) {
        assertThat(Ucum.convert(BigDecimal.TEN, unit, "mL")).isNotNull();
        assertThat(Ucum.isUnit(unit)).isIn(true, false);
    }

    // UCUM, sections 2 to 4: prefixes, atoms, terms, powers, brackets and annotations.
    @Provide
    Arbitrary<String> units() {
        return Arbitraries.of(
                        "m", "L", "Y", "y", "k", "g", "[in_i]", "[iU]", "%", "Cel", "9", "-9", "+", "0", "10*", "10^",
                        ".", "/", "(", ")", "{a}", "[", "}", "99", "1", "mo_s", "bar", "'", " ")
                .list()
                .ofMaxSize(16)
                .map(it -> String.join("", it));
    }

    @Test
    void anArbitraryUnitConvertsToItself() {
        assertThat(converted(BigDecimal.TEN, "[iU]", "[iU]")).isEqualTo(BigDecimal.TEN);
    }

    // The reference library org.fhir:ucum rounds to the digits of its input, so it is compared to 3 digits only.
    @ParameterizedTest
    @CsvSource({
        "0.5, L, mL",
        "12, cL, mL",
        "3, dL, mL",
        "0.185, kg, g",
        "16, kPa, mm[Hg]",
        "1.62, m, cm",
        "2, h, min",
        "1.5, Hz, /min",
        "120, mg, g",
        "14, d, wk",
        "135, g/L, g/dL",
        "0.41, 1, %",
        "250, 10*3/uL, 10*9/L",
        "2.1, mmol/L, umol/L"
    })
    void agreesWithTheReferenceUcumLibrary(BigDecimal value, String from, String to) throws UcumException {
        BigDecimal reference = new BigDecimal(
                REFERENCE.convert(new Decimal(value.toPlainString()), from, to).asDecimal());

        BigDecimal ours = converted(value, from, to);

        assertThat(ours.doubleValue()).isCloseTo(reference.doubleValue(), Percentage.withPercentage(0.5));
    }

    @ParameterizedTest
    @CsvSource({"g, mL", "[iU], mL", "mL, g", "Cel, mm[Hg]", "min, mL"})
    void refusesUnitsOfAnotherKind(String from, String to) {
        assertThat(Ucum.convert(BigDecimal.ONE, from, to))
                .isInstanceOfSatisfying(
                        Conversion.Refused.class, it -> assertThat(it.reason()).contains("same kind"));
    }

    @ParameterizedTest
    @CsvSource({"furlongx", "mls", "cc", "''", "mL mL"})
    void refusesWhatIsNoUnit(String unit) {
        assertThat(Ucum.convert(BigDecimal.ONE, unit, "mL"))
                .isInstanceOfSatisfying(
                        Conversion.Refused.class, it -> assertThat(it.reason()).contains("not a UCUM unit"));
        assertThat(Ucum.isUnit(unit)).isFalse();
    }

    @Property(tries = 200)
    void thereAndBackIsTheSame(@ForAll @BigRange(min = "0.1", max = "5000") @Scale(2) BigDecimal millilitres) {
        BigDecimal ounces = converted(millilitres, "mL", "[foz_us]");
        BigDecimal back = converted(ounces, "[foz_us]", "mL");

        assertThat(back.setScale(6, RoundingMode.HALF_UP)).isEqualByComparingTo(millilitres);
    }

    private static BigDecimal converted(BigDecimal value, String from, String to) {
        return ((Conversion.Converted) Ucum.convert(value, from, to)).value();
    }

    private static UcumService reference() {
        try {
            return new UcumEssenceService(UcumEssenceService.class.getResourceAsStream("/ucum-essence.xml"));
        } catch (UcumException e) {
            throw new IllegalStateException(e);
        }
    }
}
