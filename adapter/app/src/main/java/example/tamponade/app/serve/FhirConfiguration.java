package example.tamponade.app.serve;

import example.tamponade.app.access.AccessLog;
import example.tamponade.app.access.AccessLogWriter;
import example.tamponade.app.cards.WarningCards;
import example.tamponade.app.database.Database;
import example.tamponade.app.export.Exports;
import example.tamponade.app.export.GroupedCases;
import example.tamponade.app.measure.Measures;
import example.tamponade.app.measure.MonthOfCare;
import example.tamponade.app.outbox.OutboxStates;
import example.tamponade.app.path.Projector;
import example.tamponade.app.projection.CaseRecords;
import example.tamponade.app.record.ResourceRecord;
import example.tamponade.app.records.RecordParts;
import example.tamponade.app.rest.AuditProvider;
import example.tamponade.app.rest.CaseOperations;
import example.tamponade.app.rest.CompositionProvider;
import example.tamponade.app.rest.ExportKickOff;
import example.tamponade.app.rest.ExportOperations;
import example.tamponade.app.rest.FhirApi;
import example.tamponade.app.rest.GroupProvider;
import example.tamponade.app.rest.MeasureProvider;
import example.tamponade.app.rest.MeasureReports;
import example.tamponade.app.rest.RecordLines;
import example.tamponade.app.rest.RecordVersions;
import example.tamponade.app.rest.ResourceReads;
import example.tamponade.app.rest.SmartConfiguration;
import example.tamponade.app.rest.SubscriptionProvider;
import example.tamponade.app.rest.TypeProvider;
import example.tamponade.app.search.RecordSearch;
import example.tamponade.app.search.SearchIndex;
import example.tamponade.app.subscription.SubscriptionStore;
import example.tamponade.app.web.CardController;
import example.tamponade.app.web.ExportController;
import example.tamponade.app.web.MeasureController;
import example.tamponade.fhir.pseudonym.Pseudonymiser;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.boot.web.servlet.ServletRegistrationBean;
import org.springframework.context.ApplicationContext;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

/** Wires FHIR's RESTful API. */
@Configuration(proxyBeanMethods = false)
class FhirConfiguration {

    @Bean
    RecordSearch recordSearch(Database database) {
        new SearchIndex(database).refresh();
        return new RecordSearch(database);
    }

    @Bean
    GroupedCases groupedCases(Database database) {
        return new GroupedCases(database);
    }

    @Bean
    Exports exports(
            ServerSettings settings,
            RecordSearch search,
            GroupedCases cases,
            ObjectProvider<Pseudonymiser> pseudonymiser,
            Clock clock) {
        RecordLines lines = new RecordLines(pseudonymiser.getIfAvailable());
        return new Exports(settings.data().resolve("exports"), search, cases, lines, clock);
    }

    @Bean
    ExportController exportController(Exports exports) {
        return new ExportController(exports);
    }

    @Bean
    ResourceReads resourceReads(Database database, RecordSearch search, RecordParts parts, Projector projector) {
        return new ResourceReads(search, new RecordVersions(database), parts.conformance(), projector::behind);
    }

    @Bean
    CaseOperations caseOperations(RecordSearch search, ResourceReads reads, CaseRecords records) {
        return new CaseOperations(search, reads, records);
    }

    @Bean
    ExportKickOff exportKickOff(Exports exports, ServerSettings settings) {
        return new ExportKickOff(exports, settings.pseudonyms() != null);
    }

    @Bean
    Measures measures(GroupedCases cases, RecordSearch search) {
        return new Measures(cases, search);
    }

    @Bean
    MeasureReports measureReports(GroupedCases cases, Clock clock, ServerSettings settings) {
        return new MeasureReports(cases, clock, settings.measures().smallest());
    }

    @Bean
    MeasureController measureController(Measures measures, MeasureReports reports, GroupedCases cases) {
        return new MeasureController(measures, reports, new MonthOfCare(measures, cases));
    }

    @Bean
    CardController cardController(RecordSearch search, CaseRecords records, AccessLogWriter log, Clock clock) {
        return new CardController(new WarningCards(search), search, records, log, clock);
    }

    // A servlet is made before all else. It is given its parts when it begins to listen, so that a database that cannot
    // be
    // opened is told as it always is.
    @Bean
    ServletRegistrationBean<FhirApi> fhirApi(ApplicationContext context, ServerSettings settings) {
        SmartConfiguration smart = new SmartConfiguration(
                settings.access().issuer(),
                settings.access().keys(),
                settings.access().tokens());
        FhirApi api = new FhirApi(smart, () -> {
            List<Object> providers = new ArrayList<>(TypeProvider.all(context.getBean(ResourceReads.class)));
            ExportKickOff kickOff = context.getBean(ExportKickOff.class);
            providers.add(context.getBean(CaseOperations.class));
            providers.add(new ExportOperations(kickOff));
            providers.add(new CompositionProvider(
                    context.getBean(RecordSearch.class),
                    context.getBean(ResourceRecord.class),
                    context.getBean(CaseRecords.class),
                    context.getBean(RecordParts.class).bundles()));
            providers.add(new MeasureProvider(context.getBean(Measures.class), context.getBean(MeasureReports.class)));
            providers.add(new SubscriptionProvider(
                    context.getBean(SubscriptionStore.class), new OutboxStates(context.getBean(Database.class))));
            providers.add(new AuditProvider(context.getBean(AccessLog.class)));
            providers.add(new GroupProvider(context.getBean(GroupedCases.class), kickOff));
            return providers;
        });
        ServletRegistrationBean<FhirApi> registration = new ServletRegistrationBean<>(api, FhirApi.PATH + "/*");
        registration.setLoadOnStartup(1);
        return registration;
    }
}
