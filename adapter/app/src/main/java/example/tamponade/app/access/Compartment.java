package example.tamponade.app.access;

import java.util.Collection;
import java.util.List;
import java.util.Set;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * Of which cases somebody sees the record: of those that one of his facilities numbered or recorded something in, and where
 * he is one patient's, of hers.
 *
 * @param facilities the facilities; null: all
 * @param patient the id of the patient; null: any
 */
public record Compartment(
        @Nullable Set<String> facilities, @Nullable String patient) {

    /** Everything. */
    public static final Compartment EVERYTHING = new Compartment(null, null);

    public Compartment {
        facilities = facilities == null ? null : Set.copyOf(facilities);
    }

    /** Whether nothing is kept from him. */
    public boolean isEverything() {
        return facilities == null && patient == null;
    }

    /** Whether he may act for that facility. */
    public boolean covers(String facilityId) {
        return facilities == null || facilities.contains(facilityId);
    }

    /**
     * The condition, in SQL, that rows are of a case in it.
     *
     * @param key the column with the key of a case
     * @param bind names a value
     */
    public String ofCase(String key, Function<Object, String> bind) {
        String condition = "true";
        if (facilities != null) {
            condition = key + " in (select seen.case_key from case_facility seen where seen.facility_id in ("
                    + bind.apply(ids(facilities)) + "))";
        }
        if (patient != null) {
            condition += " and " + key + " in (select hers.case_key from case_resource hers"
                    + " where hers.type = 'Patient' and hers.id = " + bind.apply(patient) + ")";
        }
        return condition;
    }

    /**
     * The condition, in SQL, that rows are of a resource that a case in it is told by.
     *
     * @param row the name of the rows, which have a type and an id
     * @param bind names a value
     */
    public String ofResource(String row, Function<Object, String> bind) {
        return isEverything()
                ? "true"
                : "exists (select 1 from case_resource told where told.type = " + row + ".type and told.id = " + row
                        + ".id and " + ofCase("told.case_key", bind) + ")";
    }

    // A list with nothing in it is no SQL.
    private static Collection<String> ids(Set<String> facilities) {
        return facilities.isEmpty() ? List.of("") : facilities;
    }
}
