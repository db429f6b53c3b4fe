package example.tamponade.core.event;

/** The bedside or laboratory quantity measured. */
public enum Analyte implements Coded {
    /** Haemoglobin in blood. */
    HAEMOGLOBIN("g/dL"),
    /** Haematocrit. */
    HAEMATOCRIT("%"),
    /** Platelet count. */
    PLATELETS("10*9/L"),
    /** Fibrinogen in plasma. */
    FIBRINOGEN("g/L"),
    /** Bedside whole blood clotting time. */
    CLOTTING_TIME("min"),
    /** Lactate in blood. */
    LACTATE("mmol/L");

    private final String unit;

    Analyte(String unit) {
        this.unit = unit;
    }

    /** The UCUM unit it is commonly given in; a result comes in this or in a unit of the same kind. */
    public String unit() {
        return unit;
    }
}
