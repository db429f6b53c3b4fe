package example.tamponade.core.event;

import java.util.regex.Pattern;

/** The bedside or laboratory quantity measured. */
public enum Analyte implements Coded {
    /** Haemoglobin in blood. */
    HAEMOGLOBIN("g/dL", Analyte.IN_VOLUME),
    /** Haematocrit. */
    HAEMATOCRIT("%", "%|1|10[*]-2|[{].*[}]|[a-z]*[Ll]/[a-z]*[Ll]"),
    /** Platelet count. */
    PLATELETS("10*9/L", "(10[*^][0-9]+|[{].*[}])?/[a-z]*([Ll]|m3)"),
    /** Fibrinogen in plasma. */
    FIBRINOGEN("g/L", Analyte.IN_VOLUME),
    /** Bedside whole blood clotting time. */
    CLOTTING_TIME("min", "[a-z]*(s|min|h)"),
    /** Lactate in blood. */
    LACTATE("mmol/L", Analyte.IN_VOLUME);

    // A mass or an amount by volume.
    private static final String IN_VOLUME = "[a-z]*(g|mol|eq)/(100[.]?)?[a-z]*([Ll]|m3)";

    private final String unit;
    private final Pattern reported;

    Analyte(String unit, String reported) {
        this.unit = unit;
        this.reported = Pattern.compile(reported);
    }

    /** The UCUM unit it is commonly given in; a result comes in this or in a unit of the same kind. */
    public String unit() {
        return unit;
    }

    /**
     * Whether results are written in that UCUM unit: it has the form that the profile of laboratory results asks. A unit may
     * be of the same kind and yet be none that a laboratory reports in, as a clotting time in days.
     */
    public boolean isReportedIn(String code) {
        return reported.matcher(code).matches();
    }
}
