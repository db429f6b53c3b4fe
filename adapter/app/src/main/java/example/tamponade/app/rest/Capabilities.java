package example.tamponade.app.rest;

import ca.uhn.fhir.rest.server.RestfulServer;
import ca.uhn.fhir.rest.server.provider.ServerCapabilityStatementProvider;
import ca.uhn.fhir.util.FhirTerser;
import example.tamponade.app.records.RecordParts;
import example.tamponade.app.search.PackageDefinitions;
import example.tamponade.app.search.SearchParameter;
import example.tamponade.app.search.SearchParameters;
import example.tamponade.fhir.mapping.CaseMapper;
import java.util.Locale;
import java.util.Map;
import org.hl7.fhir.instance.model.api.IBase;
import org.hl7.fhir.instance.model.api.IBaseConformance;
import org.hl7.fhir.r4.model.CapabilityStatement;
import org.hl7.fhir.r4.model.CapabilityStatement.CapabilityStatementRestResourceComponent;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Enumerations.SearchParamType;

/** What the server can do, as a CapabilityStatement; what the library sees by itself is completed here. */
final class Capabilities extends ServerCapabilityStatementProvider {

    private final Map<String, String> profiles = PackageDefinitions.profiles();

    Capabilities(RestfulServer server) {
        super(server);
        setPublisher("Tamponade record adapter");
    }

    @Override
    protected void postProcess(FhirTerser terser, IBaseConformance conformance) {
        CapabilityStatement statement = (CapabilityStatement) conformance;
        statement.setDescription(CaseMapper.CAUTION);
        statement.setName("TamponadeRecordAdapter");
        statement
                .getRestFirstRep()
                .getSecurity()
                .setCors(false)
                .setDescription(
                        "Access tokens (JWT) with scopes of SMART App Launch 2 say which types may be read, their claim"
                                + " facilities of which facilities; every request is written down as an AuditEvent.")
                .addService(new CodeableConcept(new Coding(
                        "http://terminology.hl7.org/CodeSystem/restful-security-service",
                        "SMART-on-FHIR",
                        "SMART-on-FHIR")));
        statement.getSoftware().setVersion(RecordParts.SOFTWARE_VERSION);
        statement.getImplementation().setDescription("Records of postpartum haemorrhage and uterine balloon tamponade");
    }

    @Override
    protected void postProcessRestResource(FhirTerser terser, IBase resource, String type) {
        if (!SearchParameters.standard().types().contains(type)) {
            // The operations, which the library describes by itself.
            return;
        }
        CapabilityStatementRestResourceComponent served = (CapabilityStatementRestResourceComponent) resource;
        profiles.forEach((address, of) -> {
            if (of.equals(type)) {
                served.addSupportedProfile(address);
            }
        });
        served.setVersioning(CapabilityStatement.ResourceVersionPolicy.VERSIONED);
        served.setReadHistory(true);
        served.getSearchParam().clear();
        served.getSearchInclude().clear();
        SearchParameters.standard().of(type).values().stream()
                .filter(it -> it.kind() == SearchParameter.Kind.REFERENCE)
                .forEach(it -> served.addSearchInclude(type + ":" + it.name()));
        add(served, "_id", SearchParamType.TOKEN, "http://hl7.org/fhir/SearchParameter/Resource-id");
        add(served, "_lastUpdated", SearchParamType.DATE, "http://hl7.org/fhir/SearchParameter/Resource-lastUpdated");
        SearchParameters.standard()
                .of(type)
                .values()
                .forEach(it -> add(
                        served,
                        it.name(),
                        SearchParamType.fromCode(it.kind().name().toLowerCase(Locale.ROOT)),
                        it.definition()));
    }

    private static void add(
            CapabilityStatementRestResourceComponent served, String name, SearchParamType type, String definition) {
        served.addSearchParam().setName(name).setType(type).setDefinition(definition);
    }
}
