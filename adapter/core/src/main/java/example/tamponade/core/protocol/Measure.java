package example.tamponade.core.protocol;

import example.tamponade.core.event.Coded;

/** The kinds of value whose possible and plausible range the care protocol limits. */
public enum Measure implements Coded {
    PULSE("/min"),
    SYSTOLIC("mm[Hg]"),
    DIASTOLIC("mm[Hg]"),
    RESPIRATIONS("/min"),
    OXYGEN_SATURATION("%"),
    TEMPERATURE("Cel"),
    LOSS_READING("mL"),
    ITEM_WEIGHT("g"),
    OTHER_FLUID("mL"),
    FUNDAL_HEIGHT("cm"),
    URINE_VOLUME("mL"),
    CHAMBER_STEP("mL"),
    CHAMBER_CAPACITY("mL"),
    PRODUCT_VOLUME("mL"),
    PRODUCT_UNITS("{count}"),
    BAG_VOLUME("mL"),
    INFUSION_RATE("mL/h"),
    BODY_WEIGHT("kg"),
    BODY_HEIGHT("cm"),
    AGE("a"),
    GESTATION("wk"),
    PREGNANCIES("{count}"),
    THEATRE_MINUTES("min");

    private final String unit;

    Measure(String unit) {
        this.unit = unit;
    }

    /** The UCUM unit of the range. */
    public String unit() {
        return unit;
    }
}
