package example.tamponade.app.serve;

import com.zaxxer.hikari.HikariDataSource;
import example.tamponade.app.intake.EventLineFormat;
import example.tamponade.app.intake.EventReader;
import example.tamponade.app.ledger.Ledger;
import example.tamponade.app.path.CaseRecords;
import example.tamponade.app.path.EventPath;
import example.tamponade.app.record.ResourceRecord;
import example.tamponade.app.records.RecordParts;
import example.tamponade.app.web.CaseController;
import example.tamponade.app.web.EventController;
import example.tamponade.app.web.StartController;
import example.tamponade.core.protocol.CareProtocol;
import java.io.IOException;
import java.nio.file.Files;
import java.time.Clock;
import javax.sql.DataSource;
import org.springframework.boot.ApplicationRunner;
import org.springframework.boot.autoconfigure.EnableAutoConfiguration;
import org.springframework.boot.context.properties.EnableConfigurationProperties;
import org.springframework.boot.jdbc.DataSourceBuilder;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;

/** Wires the server. */
@Configuration(proxyBeanMethods = false)
@EnableAutoConfiguration
@EnableConfigurationProperties(ServerSettings.class)
public class ServerConfiguration {

    @Bean
    Clock clock() {
        return Clock.systemUTC();
    }

    @Bean
    CareProtocol careProtocol(ServerSettings settings) throws IOException {
        return CareProtocol.of(settings.protocol());
    }

    // A commit is on disk when it returns: write-ahead log and full synchronisation. One writer at a time is all that
    // SQLite has, so one connection serves all.
    @Bean
    DataSource dataSource(ServerSettings settings) throws IOException {
        Files.createDirectories(settings.data());
        HikariDataSource source = DataSourceBuilder.create()
                .type(HikariDataSource.class)
                .url("jdbc:sqlite:" + settings.data().resolve("tamponade.sqlite")
                        + "?journal_mode=WAL&synchronous=FULL&foreign_keys=true")
                .build();
        source.setMaximumPoolSize(1);
        return source;
    }

    @Bean
    RecordParts recordParts() {
        return RecordParts.shared();
    }

    @Bean
    Ledger ledger(JdbcClient jdbc) {
        return new Ledger(jdbc);
    }

    @Bean
    ResourceRecord resourceRecord(JdbcClient jdbc, PlatformTransactionManager transactions) {
        return new ResourceRecord(jdbc, new TransactionTemplate(transactions));
    }

    @Bean
    CaseRecords caseRecords(
            CareProtocol protocol, Ledger ledger, ResourceRecord record, RecordParts parts, Clock clock) {
        return new CaseRecords(protocol, ledger, record, parts, clock);
    }

    @Bean
    EventReader eventReader(CareProtocol protocol, Clock clock) {
        return new EventReader(protocol, clock);
    }

    @Bean
    EventPath eventPath(EventReader reader, Ledger ledger, CaseRecords records, Clock clock) {
        return new EventPath(reader, ledger, records, clock);
    }

    @Bean
    ApplicationRunner catchUp(EventPath path) {
        return arguments -> path.catchUp();
    }

    @Bean
    StartController startController() {
        return new StartController();
    }

    @Bean
    EventController eventController(EventPath path, EventReader reader, RecordParts parts) {
        return new EventController(path, new EventLineFormat(reader), parts);
    }

    @Bean
    CaseController caseController(Ledger ledger, ResourceRecord record, CaseRecords records, RecordParts parts) {
        return new CaseController(ledger, record, records, parts);
    }
}
