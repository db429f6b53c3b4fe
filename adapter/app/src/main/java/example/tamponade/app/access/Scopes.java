package example.tamponade.app.access;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Which types of resources somebody may read and search: the scopes of
 * <a href="https://hl7.org/fhir/smart-app-launch/STU2.2/scopes-and-launch-context.html">SMART App Launch 2.2.0</a>, version 2,
 * as {@code system/Observation.rs}. One that is narrowed by a search ({@code ?category=...}) gives nothing: it would have to be
 * narrowed here too.
 *
 * @param granted what the scopes give
 * @param ofOnePatient whether one of them speaks of one patient alone
 */
public record Scopes(List<Granted> granted, boolean ofOnePatient) {

    /** Reading and searching everything. */
    public static final Scopes ALL = new Scopes(List.of(new Granted("*", true, true)), false);

    private static final Pattern SCOPE =
            Pattern.compile("(?<context>patient|user|system)/(?<type>[A-Za-z]+|\\*)\\.(?<rights>c?r?u?d?s?)");

    public Scopes {
        granted = List.copyOf(granted);
    }

    /**
     * What one scope gives.
     *
     * @param type a type of resource, or {@code *}
     * @param read whether resources can be read by their ids, former versions too
     * @param search whether they can be searched
     */
    public record Granted(String type, boolean read, boolean search) {

        private boolean covers(String asked, boolean bySearch) {
            return (type.equals("*") || type.equals(asked)) && (bySearch ? search : read);
        }
    }

    /** Reads scopes; what is none of SMART's is passed over. */
    static Scopes of(Set<String> scopes) {
        List<Granted> granted = new ArrayList<>();
        boolean ofOnePatient = false;
        for (String scope : scopes) {
            Matcher matcher = SCOPE.matcher(scope);
            if (matcher.matches()) {
                String rights = matcher.group("rights");
                Granted one = new Granted(matcher.group("type"), rights.contains("r"), rights.contains("s"));
                if (one.read() || one.search()) {
                    granted.add(one);
                    ofOnePatient |= matcher.group("context").equals("patient");
                }
            }
        }
        return new Scopes(granted, ofOnePatient);
    }

    /** Whether they give anything. */
    public boolean isEmpty() {
        return granted.isEmpty();
    }

    /**
     * Demands that resources of these types may be read by their ids.
     *
     * @throws MissingScopeException when one may not
     */
    public void demandRead(String... types) {
        demand(Arrays.asList(types), false);
    }

    /**
     * Demands that resources of these types may be searched.
     *
     * @throws MissingScopeException when one may not
     */
    public void demandSearch(Iterable<String> types) {
        demand(types, true);
    }

    /**
     * Demands that all of the record may be read and searched.
     *
     * @throws MissingScopeException when it may not
     */
    public void demandEverything() {
        demandRead("*");
        demandSearch(List.of("*"));
    }

    private void demand(Iterable<String> types, boolean bySearch) {
        for (String type : types) {
            if (granted.stream().noneMatch(it -> it.covers(type, bySearch))) {
                throw new MissingScopeException("system/" + type + (bySearch ? ".s" : ".r"));
            }
        }
    }
}
