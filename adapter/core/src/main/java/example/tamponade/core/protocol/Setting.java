package example.tamponade.core.protocol;

import example.tamponade.core.event.Coded;

/** The single values of the care protocol; each has one unit, so that no value can be read in another. */
public enum Setting implements Coded {
    /** Density that turns a weight of blood into a volume. */
    BLOOD_DENSITY("g/mL"),
    /** How far apart pulse and pressure may lie to make a pair. */
    PAIRING_WINDOW("min"),
    /** How far an event may lie after the time it was recorded or received. */
    CLOCK_TOLERANCE("min"),
    /** From how long after the event a record counts as a late entry. */
    LATE_ENTRY_AFTER("min"),
    /** From how long before its receipt the clock of a sender that sends at once is doubted. */
    CLOCK_DOUBT_AFTER("min"),
    /** Cumulative blood loss that is a postpartum haemorrhage. */
    HAEMORRHAGE_VOLUME("mL"),
    /** Cumulative blood loss that is a severe postpartum haemorrhage. */
    SEVERE_HAEMORRHAGE_VOLUME("mL");

    private final String unit;

    Setting(String unit) {
        this.unit = unit;
    }

    /** The UCUM unit that the value must have. */
    public String unit() {
        return unit;
    }
}
