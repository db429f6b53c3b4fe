package example.tamponade.app.search;

import java.sql.ResultSet;
import java.sql.SQLException;

/**
 * A version of a resource as it is on record.
 *
 * @param type the resource's type
 * @param id its logical id
 * @param version its number
 * @param storedAt when it went on record, for example {@code 2026-02-11T17:13:00.250Z}; empty when nobody knows
 * @param content the resource as JSON
 */
public record FoundVersion(String type, String id, int version, String storedAt, String content) {

    /**
     * Reads type, id, version, time and content from the first columns of a row.
     *
     * @throws SQLException when they are others
     */
    public static FoundVersion of(ResultSet row) throws SQLException {
        return new FoundVersion(row.getString(1), row.getString(2), row.getInt(3), row.getString(4), row.getString(5));
    }
}
