package example.tamponade.app.serve;

import example.tamponade.app.database.DatabaseSettings;
import example.tamponade.app.intake.Facilities;
import java.nio.file.Path;
import java.time.Duration;
import java.time.ZoneId;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;
import org.springframework.util.unit.DataSize;

/**
 * The settings of the server.
 *
 * @param data folder of the embedded database
 * @param database the PostgreSQL database, where that is used
 * @param protocol the facility's care protocol; absent: the one that comes with the adapter
 * @param zone the zone of times without an offset, where their facility has none; absent: such times are refused
 * @param facilities what is known of each facility, by its id
 * @param pseudonyms the file with the key of pseudonyms; absent: there is no pseudonymised form
 * @param hosts names beside the loopback's that requests may name as their host
 * @param mllp HL7 version 2 over MLLP, where it has a port
 * @param intake limits of what is taken at once
 */
@ConfigurationProperties("tamponade")
public record ServerSettings(
        Path data,
        @DefaultValue Server database,
        @Nullable Path protocol,
        @Nullable ZoneId zone,
        @DefaultValue Map<String, Facilities.Facility> facilities,
        @Nullable Path pseudonyms,
        @DefaultValue Set<String> hosts,
        @DefaultValue Mllp mllp,
        @DefaultValue Intake intake) {

    /**
     * A PostgreSQL database.
     *
     * @param url JDBC address; absent: the embedded database
     * @param user its user
     * @param password its password
     */
    public record Server(
            @Nullable String url,
            @Nullable String user,
            @Nullable String password) {}

    /**
     * HL7 version 2 over MLLP.
     *
     * @param port the port; absent: off
     * @param address the address to listen on
     * @param connections how many connections are served at a time
     */
    public record Mllp(
            @DefaultValue("0") int port,
            @DefaultValue("127.0.0.1") String address,
            @DefaultValue("16") int connections) {}

    /**
     * Limits of intake.
     *
     * @param waiting how many pieces may wait to be written down; beyond it senders are asked to try again
     * @param behind how many events may be acknowledged and not on record yet; long inputs wait at half of it
     * @param inputs how many inputs of several pieces are read at the same time
     * @param longest the longest body that is read
     * @param bodies how many requests with a body are read at the same time
     * @param longBodies how many of them may be longer than 16 KiB
     * @param patience how long a sender is waited for however little comes; after that 1 KiB a second must come
     */
    public record Intake(
            @DefaultValue("8000") int waiting,
            @DefaultValue("4000") long behind,
            @DefaultValue("8") int inputs,
            @DefaultValue("2GB") DataSize longest,
            @DefaultValue("150") int bodies,
            @DefaultValue("16") int longBodies,
            @DefaultValue("10s") Duration patience) {}

    /** What is known of the facilities. */
    Facilities knownFacilities() {
        return new Facilities(facilities, zone);
    }

    /** Which database. */
    DatabaseSettings databaseSettings() {
        return new DatabaseSettings(data, given(database.url()), given(database.user()), given(database.password()));
    }

    private static @Nullable String given(@Nullable String setting) {
        return setting == null || setting.isBlank() ? null : setting;
    }
}
