package example.tamponade.app.serve;

import example.tamponade.app.database.DatabaseSettings;
import example.tamponade.app.intake.Facilities;
import java.io.IOException;
import java.net.InetAddress;
import java.net.URI;
import java.nio.file.Path;
import java.time.Duration;
import java.time.ZoneId;
import java.util.List;
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
 * @param site what the site adds to the resources
 * @param zone the zone of times without an offset, where their facility has none; absent: such times are refused
 * @param facilities what is known of each facility, by its id
 * @param pseudonyms the file with the key of pseudonyms; absent: there is no pseudonymised form
 * @param hosts names beside the loopback's that requests may name as their host
 * @param access who is let in
 * @param mllp HL7 version 2 over MLLP, where it has a port
 * @param intake limits of what is taken at once
 * @param measures what an audit is told
 */
@ConfigurationProperties("tamponade")
public record ServerSettings(
        Path data,
        @DefaultValue Server database,
        @Nullable Path protocol,
        @DefaultValue Site site,
        @Nullable ZoneId zone,
        @DefaultValue Map<String, Facilities.Facility> facilities,
        @Nullable Path pseudonyms,
        @DefaultValue Set<String> hosts,
        @DefaultValue Access access,
        @DefaultValue Mllp mllp,
        @DefaultValue Intake intake,
        @DefaultValue Audit measures) {

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
     * Who is let in, beside whoever has the operator's key.
     *
     * @param issuer the authorization server whose access tokens count; absent: none do
     * @param keys the address of its public keys, a JWK Set (RFC 7517)
     * @param audience what its tokens must be for
     * @param tokens the address where it gives tokens, told to clients
     * @param unencrypted whether the server may listen on a network without TLS, as behind a proxy or tunnel that encrypts
     */
    public record Access(
            @Nullable URI issuer,
            @Nullable URI keys,
            @Nullable String audience,
            @Nullable URI tokens,
            @DefaultValue("false") boolean unencrypted) {

        /**
         * Demands that what listens on a network is encrypted.
         *
         * @param address where it listens; null: everywhere
         * @param remedy the setting that would encrypt it
         * @throws IOException when it is not
         */
        void demandEncryption(@Nullable InetAddress address, boolean isEncrypted, String remedy) throws IOException {
            boolean isOnNetwork = address == null || !address.isLoopbackAddress();
            if (isOnNetwork && !isEncrypted && !unencrypted) {
                throw new IOException("the server would listen on " + (address == null ? "every address" : address)
                        + " without TLS: give it a certificate (" + remedy + "), or say by"
                        + " tamponade.access.unencrypted that a proxy or tunnel encrypts");
            }
        }
    }

    /**
     * HL7 version 2 over MLLP.
     *
     * @param port the port; absent: off
     * @param tls the SSL bundle by which both sides show certificates; absent: no TLS
     * @param address the address to listen on
     * @param connections how many connections are served at a time
     */
    public record Mllp(
            @DefaultValue("0") int port,
            @Nullable String tls,
            @DefaultValue("127.0.0.1") String address,
            @DefaultValue("16") int connections) {}

    /**
     * What the site adds to the resources.
     *
     * @param packages its FHIR packages
     * @param adaptation its adaptation file; absent: nothing is added
     */
    public record Site(
            @DefaultValue List<Path> packages, @Nullable Path adaptation) {}

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

    /**
     * What an audit is told.
     *
     * @param smallest the smallest number of cases that a summary tells; smaller ones but 0 are left out
     */
    public record Audit(@DefaultValue("1") int smallest) {}

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
