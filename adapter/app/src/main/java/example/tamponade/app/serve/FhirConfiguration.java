package example.tamponade.app.serve;

import example.tamponade.app.database.Database;
import example.tamponade.app.export.Exports;
import example.tamponade.app.export.GroupedCases;
import example.tamponade.app.path.Projector;
import example.tamponade.app.projection.CaseRecords;
import example.tamponade.app.records.RecordParts;
import example.tamponade.app.rest.CaseOperations;
import example.tamponade.app.rest.Content;
import example.tamponade.app.rest.ExportKickOff;
import example.tamponade.app.rest.ExportOperations;
import example.tamponade.app.rest.FhirApi;
import example.tamponade.app.rest.GroupProvider;
import example.tamponade.app.rest.RecordVersions;
import example.tamponade.app.rest.ResourceReads;
import example.tamponade.app.search.RecordSearch;
import example.tamponade.app.search.SearchIndex;
import example.tamponade.app.web.ExportController;
import java.time.Clock;
import java.util.List;
import org.springframework.boot.web.servlet.ServletRegistrationBean;
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
    Exports exports(ServerSettings settings, RecordSearch search, GroupedCases cases, Clock clock) {
        return new Exports(settings.data().resolve("exports"), search, cases, Content::line, clock);
    }

    @Bean
    ExportController exportController(Exports exports) {
        return new ExportController(exports);
    }

    @Bean
    ServletRegistrationBean<FhirApi> fhirApi(
            Database database,
            RecordParts parts,
            CaseRecords records,
            Projector projector,
            RecordSearch search,
            GroupedCases cases,
            Exports exports) {
        ResourceReads reads =
                new ResourceReads(search, new RecordVersions(database), parts.conformance(), projector::behind);
        ExportKickOff kickOff = new ExportKickOff(exports);
        FhirApi api = new FhirApi(
                reads,
                List.of(
                        new CaseOperations(search, reads, records),
                        new ExportOperations(kickOff),
                        new GroupProvider(cases, kickOff)));
        return new ServletRegistrationBean<>(api, FhirApi.PATH + "/*");
    }
}
