package example.tamponade.core.event;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What is known of the mother when the case opens.
 *
 * @param identifiers her numbers in registers; may be empty
 * @param name her name as written
 * @param birthDate her date of birth
 * @param ageYears her age in whole years, where the date of birth is not known
 * @param weightKg body weight, kg
 * @param heightCm body height, cm
 * @param gravida number of pregnancies, this one counted
 * @param para number of earlier births after viability
 * @param gestationWeeks gestation at birth, weeks
 */
public record Mother(
        List<Identifier> identifiers,
        @Nullable String name,
        @Nullable LocalDate birthDate,
        @Nullable Integer ageYears,
        @Nullable BigDecimal weightKg,
        @Nullable BigDecimal heightCm,
        @Nullable Integer gravida,
        @Nullable Integer para,
        @Nullable BigDecimal gestationWeeks) {
    public Mother {
        identifiers = List.copyOf(identifiers);
    }
}
