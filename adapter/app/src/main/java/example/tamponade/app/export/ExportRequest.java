package example.tamponade.app.export;

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
 */
public record ExportRequest(String request, String base, Level level, String group, Set<String> types, String since) {

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
