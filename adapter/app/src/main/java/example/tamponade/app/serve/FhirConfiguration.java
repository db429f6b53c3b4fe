package example.tamponade.app.serve;

import example.tamponade.app.database.Database;
import example.tamponade.app.path.Projector;
import example.tamponade.app.projection.CaseRecords;
import example.tamponade.app.rest.CaseOperations;
import example.tamponade.app.rest.FhirApi;
import example.tamponade.app.rest.RecordVersions;
import example.tamponade.app.rest.ResourceReads;
import example.tamponade.app.search.RecordSearch;
import example.tamponade.app.search.SearchIndex;
import org.springframework.boot.web.servlet.ServletRegistrationBean;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

/** Wires FHIR's RESTful API. */
@Configuration(proxyBeanMethods = false)
class FhirConfiguration {

    @Bean
    ServletRegistrationBean<FhirApi> fhirApi(Database database, CaseRecords records, Projector projector) {
        new SearchIndex(database).refresh();
        RecordSearch search = new RecordSearch(database);
        ResourceReads reads = new ResourceReads(search, new RecordVersions(database), projector::behind);
        FhirApi api = new FhirApi(reads, new CaseOperations(search, reads, records));
        return new ServletRegistrationBean<>(api, FhirApi.PATH + "/*");
    }
}
