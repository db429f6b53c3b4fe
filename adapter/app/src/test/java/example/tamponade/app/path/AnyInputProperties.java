package example.tamponade.app.path;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.AwkwardText;
import example.tamponade.app.Samples;
import example.tamponade.app.access.TestCaller;
import example.tamponade.app.database.Database;
import example.tamponade.app.database.TestDatabase;
import example.tamponade.app.formats.Formats;
import example.tamponade.app.intake.Facilities;
import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Pieces;
import example.tamponade.app.ledger.ChainCheck;
import example.tamponade.app.ledger.Ledger;
import example.tamponade.app.quarantine.Quarantine;
import example.tamponade.core.protocol.CareProtocol;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.time.Clock;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.ShrinkingMode;
import net.jqwik.api.lifecycle.AfterContainer;
import net.jqwik.api.lifecycle.BeforeContainer;

/**
 * Whatever is handed in, in whatever format: nothing fails, what is acknowledged has its row, and what is refused is kept
 * whole. The number of tries is the system property {@code jqwik.tries.default}.
 */
class AnyInputProperties {

    private static TestDatabase where;
    private static Database database;
    private static IntakeWriter writer;
    private static Quarantine quarantine;
    private static EventPath path;
    private static Formats formats;
    private static final Map<InputFormat, List<byte[]>> SEEDS = new EnumMap<>(InputFormat.class);
    private static final Set<UUID> ACKNOWLEDGED = new HashSet<>();
    private static long pieces;
    private static long refusals;

    @BeforeContainer
    static void open() throws IOException {
        where = TestDatabase.of(TestDatabase.Kind.SQLITE);
        database = Database.open(where.settings());
        quarantine = new Quarantine(database);
        writer = new IntakeWriter(database, new Ledger(database), quarantine, Clock.systemUTC(), 4000);
        path = new EventPath(writer);
        formats =
                new Formats(CareProtocol.standard(), new Facilities(Map.of(), ZoneId.of("+05:45")), Clock.systemUTC());
        for (InputFormat format : InputFormat.values()) {
            SEEDS.put(format, originals(format));
        }
    }

    @AfterContainer
    static void close() {
        ChainCheck check = new ChainCheck(database);
        assertThat(check.caseKeys().stream().flatMap(it -> check.check(it, List.of()).faults().stream()))
                .isEmpty();
        assertThat(new Ledger(database).size()).isEqualTo(ACKNOWLEDGED.size());
        System.out.printf(
                "any input: %d pieces, %d events acknowledged and stored, %d refused and kept%n",
                pieces, ACKNOWLEDGED.size(), refusals);
        writer.close();
        database.close();
        where.close();
    }

    // Two of every sample: the first piece and one in the middle.
    private static List<byte[]> originals(InputFormat format) throws IOException {
        List<byte[]> originals = new ArrayList<>();
        for (byte[] sample : Samples.of(format)) {
            List<byte[]> all = new ArrayList<>();
            try (Pieces read = formats.of(format).open(new ByteArrayInputStream(sample))) {
                for (Piece piece = read.next(); piece != null && all.size() < 60; piece = read.next()) {
                    all.add(piece.original().bytes());
                }
            }
            originals.add(all.get(0));
            originals.add(all.get(all.size() / 2));
        }
        return originals;
    }

    @Property(shrinking = ShrinkingMode.OFF)
    void anyBytesAreTakenOrKept(@ForAll InputFormat format, @ForAll byte[] bytes) throws IOException {
        handIn(format, bytes);
    }

    @Property(shrinking = ShrinkingMode.OFF)
    void anySpoiltSampleIsTakenOrKept(@ForAll InputFormat format, @ForAll("changes") List<Change> changes)
            throws IOException {
        List<byte[]> seeds = SEEDS.get(format);
        byte[] spoilt = seeds.get(Math.floorMod(changes.get(0).at(), seeds.size()));
        for (Change change : changes) {
            spoilt = change.of(spoilt);
        }
        handIn(format, spoilt);
    }

    private record Change(int kind, int at, int length, String token) {

        byte[] of(byte[] bytes) {
            int from = bytes.length == 0 ? 0 : Math.floorMod(at, bytes.length);
            int to = Math.min(bytes.length, from + length);
            ByteArrayOutputStream changed = new ByteArrayOutputStream();
            changed.write(bytes, 0, from);
            switch (kind) {
                case 0 -> changed.writeBytes(token.getBytes(UTF_8));
                case 1 -> changed.write(bytes, from, to - from);
                default -> {
                    // The part is left out.
                }
            }
            int rest = kind == 2 ? to : from;
            changed.write(bytes, rest, bytes.length - rest);
            return changed.toByteArray();
        }
    }

    @Provide
    Arbitrary<List<Change>> changes() {
        return Combinators.combine(
                        Arbitraries.integers().between(0, 2),
                        Arbitraries.integers().greaterOrEqual(0),
                        Arbitraries.integers().between(1, 40),
                        Arbitraries.oneOf(
                                Arbitraries.of(AwkwardText.TOKENS),
                                Arbitraries.strings().ofMaxLength(6)))
                .as(Change::new)
                .list()
                .ofMinSize(1)
                .ofMaxSize(4);
    }

    private static void handIn(InputFormat format, byte[] bytes) throws IOException {
        try (Pieces read = formats.of(format).open(new ByteArrayInputStream(bytes))) {
            path.takeAll(TestCaller.SENDER, read, AnyInputProperties::check);
        }
    }

    private static void check(Piece piece, Receipt receipt) {
        pieces++;
        if (receipt instanceof Receipt.Stored stored) {
            ACKNOWLEDGED.add(stored.eventId());
            assertThat(rows(stored.eventId())).isEqualTo(1);
        } else if (receipt instanceof Receipt.Refused refused) {
            refusals++;
            assertThat(refused.reasons())
                    .isNotEmpty()
                    .allSatisfy(it -> assertThat(it.remedy()).isNotBlank());
            assertThat(quarantine
                            .entry(refused.quarantineId())
                            .orElseThrow()
                            .content()
                            .bytes())
                    .isEqualTo(piece.original().bytes());
        }
    }

    private static int rows(UUID eventId) {
        return database.jdbc()
                .sql("select count(*) from ledger where event_id = :id")
                .param("id", eventId.toString())
                .query(Integer.class)
                .single();
    }
}
