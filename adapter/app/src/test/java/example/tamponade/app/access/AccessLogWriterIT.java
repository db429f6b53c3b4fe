package example.tamponade.app.access;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.database.Database;
import example.tamponade.app.database.TestDatabase;
import java.io.IOException;
import java.time.Instant;
import org.junit.jupiter.api.Test;

/** A database that cannot be written keeps nobody from reading, and no entry is lost over it. */
class AccessLogWriterIT {

    @Test
    void entriesWaitForADatabaseThatCannotBeWritten() throws IOException, InterruptedException {
        try (TestDatabase where = TestDatabase.of(TestDatabase.Kind.POSTGRESQL);
                Database database = Database.open(where.settings());
                AccessLogWriter writer = new AccessLogWriter(database)) {
            AccessLog log = new AccessLog(database);
            assertThat(writer.add(entry("before"))).isTrue();
            where.refuseConnections();
            assertThat(writer.add(entry("meanwhile"))).isTrue();
            where.allowConnections();
            assertThat(writer.add(entry("after"))).isTrue();
            while (log.count(log.span("", "")) < 3) {
                Thread.sleep(50);
            }
            assertThat(log.entries(log.span("", ""), 0, 10).stream()
                            .map(it -> it.entry().what()))
                    .containsExactly("after", "meanwhile", "before");
        }
    }

    private static AccessEntry entry(String what) {
        Caller caller = TestCaller.SENDER;
        return AccessEntry.of(Instant.EPOCH, caller, "", AccessEntry.Action.READ, what, "", 0);
    }
}
