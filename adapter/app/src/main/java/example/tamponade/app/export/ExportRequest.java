package example.tamponade.app.export;

import example.tamponade.app.access.Compartment;
import java.util.Set;

/**
 * What is to be exported.
 *
 * @param request the request as it came, as the manifest names it
 * @param base address of the server, as the request named it
 * @param level of what
 * @param group the group's id; empty for another level
 * @param types the types of resources; none: all
 * @param since only what went on record then or later, as the database writes it; empty: all
 * @param owner who asked for it, and alone gets it
 * @param compartment of which cases
 * @param isPseudonymised whether what tells whose a case is is left out
 */
public record ExportRequest(
        String request,
        String base,
        Level level,
        String group,
        Set<String> types,
        String since,
        String owner,
        Compartment compartment,
        boolean isPseudonymised) {

    /** Of what something is exported. */
    public enum Level {
        /** Everything on record. */
        SYSTEM,
        /** Everything of the cases. */
        PATIENT,
        /** Everything of the cases of a group. */
        GROUP
    }
}
