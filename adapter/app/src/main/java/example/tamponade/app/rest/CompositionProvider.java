package example.tamponade.app.rest;

import ca.uhn.fhir.rest.annotation.IdParam;
import ca.uhn.fhir.rest.annotation.Operation;
import ca.uhn.fhir.rest.annotation.OptionalParam;
import ca.uhn.fhir.rest.annotation.Read;
import ca.uhn.fhir.rest.annotation.Search;
import ca.uhn.fhir.rest.param.ReferenceParam;
import ca.uhn.fhir.rest.server.IResourceProvider;
import ca.uhn.fhir.rest.server.exceptions.InvalidRequestException;
import ca.uhn.fhir.rest.server.exceptions.ResourceNotFoundException;
import example.tamponade.app.access.Caller;
import example.tamponade.app.projection.CaseRecords;
import example.tamponade.app.record.ResourceRecord;
import example.tamponade.app.search.RecordSearch;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.fhir.bundle.CaseBundles;
import example.tamponade.fhir.bundle.CaseView;
import java.util.List;
import org.hl7.fhir.instance.model.api.IBaseResource;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Composition;
import org.hl7.fhir.r4.model.IdType;
import org.jspecify.annotations.Nullable;

/**
 * The document of each case, made when it is asked for, warnings up to now included; its Composition has the id of the case's
 * EpisodeOfCare. FHIR R4, <a href="http://hl7.org/fhir/R4/composition-operation-document.html">Generate a Document</a>.
 */
public final class CompositionProvider implements IResourceProvider {

    private final RecordSearch search;
    private final ResourceRecord record;
    private final CaseRecords records;
    private final CaseBundles bundles;

    /** Makes documents of that record. */
    public CompositionProvider(RecordSearch search, ResourceRecord record, CaseRecords records, CaseBundles bundles) {
        this.search = search;
        this.record = record;
        this.records = records;
        this.bundles = bundles;
    }

    @Override
    public Class<? extends IBaseResource> getResourceType() {
        return Composition.class;
    }

    /** The Composition of a case. */
    @Read
    public Composition read(@IdParam IdType id) {
        return (Composition) document(id).getEntryFirstRep().getResource();
    }

    /** The Compositions of a mother's cases. */
    @Search
    public List<Composition> ofPatient(@OptionalParam(name = Composition.SP_PATIENT) @Nullable ReferenceParam patient) {
        if (patient == null || patient.getChain() != null) {
            throw new InvalidRequestException(
                    "Composition: say whose, by patient and the id of a Patient; search for her first");
        }
        Caller caller = Caller.current();
        caller.scopes().demandEverything();
        return search.caseKey("Patient", patient.getIdPart(), caller.compartment()).stream()
                .flatMap(it -> search.ofCase(it).stream())
                .filter(it -> it.type().equals("EpisodeOfCare"))
                .map(it -> Content.found(read(new IdType(it.type(), it.id()))))
                .toList();
    }

    /** The document of a case, whole. */
    @Operation(name = "$document", idempotent = true)
    public Bundle document(@IdParam IdType id) {
        Caller caller = Caller.current();
        caller.scopes().demandEverything();
        String caseKey = search.caseKey("EpisodeOfCare", id.getIdPart(), caller.compartment())
                .orElseThrow(() -> new ResourceNotFoundException("no case has the Composition " + id.getIdPart()
                        + "; GET " + FhirApi.PATH + "/Composition?patient=ID tells those of a mother"));
        CaseFile file = records.letTimePass(caseKey);
        return bundles.document(file, CaseView.FULL, bundles.view(CaseView.FULL, record.ofCase(caseKey)));
    }
}
