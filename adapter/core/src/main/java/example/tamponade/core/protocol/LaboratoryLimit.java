package example.tamponade.core.protocol;

import example.tamponade.core.event.Analyte;
import example.tamponade.core.event.Coded;
import example.tamponade.core.event.Laboratory;
import example.tamponade.core.quantity.Conversion;
import example.tamponade.core.quantity.Ucum;
import java.math.BigDecimal;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** The limits that laboratory results are judged by; their values and sources stand in the care protocol. */
public enum LaboratoryLimit implements Coded {
    /** Haemoglobin below which there is anaemia. */
    ANAEMIA(Analyte.HAEMOGLOBIN, Setting.ANAEMIA_BELOW, Side.BELOW, false, "Haemoglobin is low: postpartum anaemia."),
    /** Haemoglobin that is not to be fallen short of. */
    HAEMOGLOBIN(
            Analyte.HAEMOGLOBIN, Setting.HAEMOGLOBIN_KEPT_ABOVE, Side.AT_OR_BELOW, true, "Haemoglobin is very low."),
    /** Platelets that call for platelets. */
    PLATELETS(Analyte.PLATELETS, Setting.PLATELETS_GIVEN_BELOW, Side.BELOW, false, "Platelets are low."),
    /** Platelets at a critical level. */
    PLATELETS_CRITICAL(
            Analyte.PLATELETS, Setting.PLATELETS_CRITICAL_BELOW, Side.BELOW, true, "Platelets are very low."),
    /** Fibrinogen that tells a severe haemorrhage. */
    FIBRINOGEN(
            Analyte.FIBRINOGEN,
            Setting.FIBRINOGEN_LOW,
            Side.AT_OR_BELOW,
            true,
            "Fibrinogen is low: the haemorrhage is likely to become severe."),
    /** Failure of the blood to clot. */
    CLOTTING_TIME(
            Analyte.CLOTTING_TIME,
            Setting.CLOTTING_TIME_ABOVE,
            Side.ABOVE,
            true,
            "The blood does not clot in time: clotting fails."),
    /** Lactate above the normal. */
    LACTATE_RAISED(Analyte.LACTATE, Setting.LACTATE_RAISED_ABOVE, Side.ABOVE, false, "Lactate is raised."),
    /** Lactate at which massive transfusion is likely. */
    LACTATE_HIGH(Analyte.LACTATE, Setting.LACTATE_HIGH_ABOVE, Side.ABOVE, true, "Lactate is high.");

    private enum Side {
        BELOW,
        AT_OR_BELOW,
        ABOVE
    }

    private final Analyte analyte;
    private final Setting setting;
    private final Side side;
    private final boolean critical;
    private final String words;

    LaboratoryLimit(Analyte analyte, Setting setting, Side side, boolean critical, String words) {
        this.analyte = analyte;
        this.setting = setting;
        this.side = side;
        this.critical = critical;
        this.words = words;
    }

    /** The limits of an analyte, the milder first; none for one that the protocol does not judge. */
    public static List<LaboratoryLimit> of(Analyte analyte) {
        return Arrays.stream(values()).filter(it -> it.analyte == analyte).toList();
    }

    /** The setting that holds its value. */
    public Setting setting() {
        return setting;
    }

    /** Whether what is beyond it calls for action now. */
    public boolean isCritical() {
        return critical;
    }

    /** Whether results beyond it are too high; otherwise they are too low. */
    public boolean isUpper() {
        return side == Side.ABOVE;
    }

    /** What a result beyond it says, in words. */
    public String words() {
        return words;
    }

    /** How a result beyond it compares with it, as a sign. */
    public String relation() {
        return switch (side) {
            case BELOW -> "<";
            case AT_OR_BELOW -> "<=";
            case ABOVE -> ">";
        };
    }

    /** Whether a value is beyond the limit; both are in the setting's unit. */
    public boolean isBeyond(BigDecimal value, BigDecimal limit) {
        int compared = value.compareTo(limit);
        return switch (side) {
            case BELOW -> compared < 0;
            case AT_OR_BELOW -> compared <= 0;
            case ABOVE -> compared > 0;
        };
    }

    /**
     * The result in the one unit that the limits of its analyte have; null where it is another quantity, as an amount of
     * substance beside a mass, and where the protocol has no limit.
     */
    public static @Nullable BigDecimal comparable(Laboratory result) {
        List<LaboratoryLimit> limits = of(result.analyte());
        return !limits.isEmpty()
                        && Ucum.convert(
                                        result.value(),
                                        result.unit(),
                                        limits.get(0).setting.unit())
                                instanceof Conversion.Converted converted
                ? converted.value()
                : null;
    }
}
