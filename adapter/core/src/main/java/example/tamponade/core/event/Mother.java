package example.tamponade.core.event;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
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

    /**
     * Whether the two are certainly not one woman: they have no number in common, and differ in the number of one register,
     * in name, in date of birth or in age. What only one of them says shows nothing.
     */
    public boolean isAnotherThan(Mother other) {
        if (identifiers.stream().anyMatch(other.identifiers::contains)) {
            return false;
        }
        return hasOtherNumberThan(other)
                || name != null && other.name != null && !written(name).equals(written(other.name))
                || birthDate != null && other.birthDate != null && !birthDate.equals(other.birthDate)
                || ageYears != null && other.ageYears != null && !ageYears.equals(other.ageYears);
    }

    private boolean hasOtherNumberThan(Mother other) {
        return identifiers.stream()
                .anyMatch(it -> other.identifiers.stream()
                        .anyMatch(that -> that.system().equals(it.system())));
    }

    private static String written(String name) {
        return name.strip().replaceAll("\\s+", " ").toLowerCase(Locale.ROOT);
    }
}
