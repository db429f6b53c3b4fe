package example.tamponade.app.serve;

import example.tamponade.app.correction.Corrections;
import example.tamponade.app.database.Database;
import example.tamponade.app.database.OwnersFolder;
import example.tamponade.app.formats.Formats;
import example.tamponade.app.keys.PseudonymFile;
import example.tamponade.app.ledger.Ledger;
import example.tamponade.app.outbox.Outbox;
import example.tamponade.app.outbox.OutboxStates;
import example.tamponade.app.path.EventPath;
import example.tamponade.app.path.IntakeWriter;
import example.tamponade.app.path.Projector;
import example.tamponade.app.projection.CaseRecords;
import example.tamponade.app.quarantine.Quarantine;
import example.tamponade.app.record.ResourceRecord;
import example.tamponade.app.records.RecordParts;
import example.tamponade.app.records.SiteProblems;
import example.tamponade.app.search.RecordSearch;
import example.tamponade.app.summary.SummaryBuilder;
import example.tamponade.app.web.BodyPlaces;
import example.tamponade.app.web.CaseController;
import example.tamponade.app.web.CasePageController;
import example.tamponade.app.web.EventController;
import example.tamponade.app.web.IntakeController;
import example.tamponade.app.web.IntakeProblems;
import example.tamponade.app.web.OperationsController;
import example.tamponade.app.web.ProblemController;
import example.tamponade.app.web.QuarantineController;
import example.tamponade.app.web.RequestGuard;
import example.tamponade.app.web.ResponseHeaders;
import example.tamponade.app.web.RunningInputs;
import example.tamponade.app.web.StartController;
import example.tamponade.core.protocol.CareProtocol;
import example.tamponade.fhir.pseudonym.Pseudonymiser;
import example.tamponade.fhir.terms.Terms;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Objects;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.boot.ApplicationRunner;
import org.springframework.boot.autoconfigure.EnableAutoConfiguration;
import org.springframework.boot.autoconfigure.condition.ConditionalOnProperty;
import org.springframework.boot.context.properties.EnableConfigurationProperties;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.context.annotation.Import;
import org.springframework.core.annotation.Order;

/** Wires the server. */
@Configuration(proxyBeanMethods = false)
@EnableAutoConfiguration
@EnableConfigurationProperties(ServerSettings.class)
@Import({
    AccessConfiguration.class,
    DeliveryConfiguration.class,
    FhirConfiguration.class,
    HealthConfiguration.class,
    MessageConfiguration.class,
    TopicConfiguration.class
})
public class ServerConfiguration {

    private static final Logger LOG = LoggerFactory.getLogger(ServerConfiguration.class);

    @Bean
    Clock clock() {
        return Clock.systemUTC();
    }

    @Bean
    CareProtocol careProtocol(ServerSettings settings) throws IOException {
        return CareProtocol.of(settings.protocol());
    }

    @Bean
    Database database(ServerSettings settings) throws IOException {
        return Database.open(settings.databaseSettings());
    }

    @Bean
    RecordParts recordParts(ServerSettings settings) throws IOException {
        List<Path> packages = settings.site().packages();
        return RecordParts.of(
                packages,
                settings.site().adaptation(),
                packages.isEmpty() ? null : OwnersFolder.make(settings.data()),
                new SiteProblems(it -> LOG.warn("the site's package refuses: {}", it)));
    }

    @Bean
    @ConditionalOnProperty("tamponade.pseudonyms")
    Pseudonymiser pseudonymiser(ServerSettings settings, RecordParts parts) throws IOException {
        return parts.bundles().pseudonymiser(PseudonymFile.key(Objects.requireNonNull(settings.pseudonyms())));
    }

    @Bean
    Ledger ledger(Database database) {
        return new Ledger(database);
    }

    @Bean
    Quarantine quarantine(Database database) {
        return new Quarantine(database);
    }

    @Bean
    ResourceRecord resourceRecord(Database database, Outbox outbox, Clock clock) {
        return new ResourceRecord(database, outbox, clock);
    }

    @Bean
    CaseRecords caseRecords(
            CareProtocol protocol,
            Database database,
            Ledger ledger,
            ResourceRecord record,
            RecordParts parts,
            Clock clock) {
        return new CaseRecords(protocol, database, ledger, record, parts, clock);
    }

    @Bean
    IntakeWriter intakeWriter(
            ServerSettings settings, Database database, Ledger ledger, Quarantine quarantine, Clock clock) {
        return new IntakeWriter(
                database, ledger, quarantine, clock, settings.intake().waiting());
    }

    @Bean
    Projector projector(CaseRecords records, Clock clock) {
        return new Projector(records, clock);
    }

    @Bean
    EventPath eventPath(IntakeWriter writer, Projector projector, ServerSettings settings) {
        return new EventPath(writer, projector, settings.intake().behind());
    }

    @Bean
    ApplicationRunner catchUp(Projector projector) {
        return arguments -> projector.start();
    }

    @Bean
    Formats formats(CareProtocol protocol, ServerSettings settings, Clock clock) {
        return new Formats(protocol, settings.knownFacilities(), clock);
    }

    @Bean
    @Order(2)
    RequestGuard requestGuard(ServerSettings settings) {
        return new RequestGuard(settings.hosts());
    }

    @Bean
    @Order(0)
    ResponseHeaders responseHeaders() {
        return new ResponseHeaders();
    }

    // Before the guard: the body of a request that is refused is read too, so that its sender gets the answer.
    @Bean
    @Order(1)
    BodyPlaces bodyPlaces(ServerSettings settings) {
        ServerSettings.Intake intake = settings.intake();
        return new BodyPlaces(
                intake.bodies(),
                intake.longBodies(),
                intake.patience(),
                intake.longest().toBytes());
    }

    @Bean
    ProblemController problemController() {
        return new ProblemController();
    }

    @Bean
    StartController startController() {
        return new StartController();
    }

    @Bean
    RunningInputs runningInputs(ServerSettings settings) {
        return new RunningInputs(
                settings.intake().inputs(), settings.intake().longest().toBytes());
    }

    @Bean
    EventController eventController(EventPath path, Formats formats, RunningInputs inputs, RecordParts parts) {
        return new EventController(path, formats, inputs, parts);
    }

    @Bean
    IntakeController intakeController(
            Database database,
            Ledger ledger,
            ResourceRecord record,
            Quarantine quarantine,
            IntakeWriter writer,
            RunningInputs inputs,
            Projector projector) {
        return new IntakeController(database, ledger, record, quarantine, writer, inputs, projector);
    }

    @Bean
    OperationsController operationsController(
            Database database, Ledger ledger, ResourceRecord record, Projector projector, Quarantine quarantine) {
        return new OperationsController(ledger, record, projector, quarantine, new OutboxStates(database));
    }

    @Bean
    Corrections corrections(Quarantine quarantine, Formats formats, EventPath path, Clock clock) {
        return new Corrections(quarantine, formats, path, clock);
    }

    @Bean
    QuarantineController quarantineController(Quarantine quarantine, Corrections corrections, Formats formats) {
        return new QuarantineController(quarantine, corrections, formats);
    }

    @Bean
    IntakeProblems intakeProblems() {
        return new IntakeProblems();
    }

    @Bean
    CasePageController casePageController(
            Ledger ledger, CaseRecords records, ResourceRecord record, RecordSearch search, Clock clock) {
        return new CasePageController(ledger, records, record, search, new SummaryBuilder(Terms.read()), clock);
    }

    @Bean
    CaseController caseController(
            Ledger ledger,
            ResourceRecord record,
            CaseRecords records,
            RecordParts parts,
            RecordSearch search,
            ObjectProvider<Pseudonymiser> pseudonymiser) {
        return new CaseController(ledger, record, records, parts, search, pseudonymiser.getIfAvailable());
    }
}
