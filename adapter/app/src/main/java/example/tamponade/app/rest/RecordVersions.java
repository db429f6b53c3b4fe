package example.tamponade.app.rest;

import ca.uhn.fhir.rest.api.server.IBundleProvider;
import example.tamponade.app.access.Binding;
import example.tamponade.app.access.Compartment;
import example.tamponade.app.database.Database;
import example.tamponade.app.search.FoundVersion;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;

/** The versions that are on record, former ones too. */
public final class RecordVersions {

    private static final String COLUMNS = "select type, id, version, stored_at, content from resource_version ";

    private final JdbcClient jdbc;

    /** Reads from that database. */
    public RecordVersions(Database database) {
        this.jdbc = database.reader();
    }

    /** One version of a resource in that compartment; null when there is none. */
    @Nullable
    FoundVersion version(String type, String id, String number, Compartment compartment) {
        if (!number.matches("[1-9]\\d{0,8}")) {
            return null;
        }
        Binding binding = new Binding();
        return jdbc.sql(COLUMNS + "where type = :type and id = :id and version = :version and "
                        + compartment.ofResource("resource_version", binding::bind))
                .params(binding.values())
                .param("type", type)
                .param("id", id)
                .param("version", Integer.parseInt(number))
                .query((row, n) -> FoundVersion.of(row))
                .optional()
                .orElse(null);
    }

    /**
     * The versions of one resource or of all of a type, the last first, as they are now: what is added later is not among
     * them, so that their pages stay as they are.
     *
     * @param id the resource; empty: all of the type
     * @param compartment of which cases
     * @param since only versions that went on record then or later, as the database writes it; empty: all
     */
    IBundleProvider history(String type, String id, String since, Compartment compartment) {
        String last = jdbc.sql("select coalesce(max(stored_at), '') from resource_version where type = :type")
                .param("type", type)
                .query(String.class)
                .single();
        return new VersionHistory(jdbc, type, id, since, last, compartment);
    }
}
