package example.tamponade.app.rest;

import ca.uhn.fhir.rest.annotation.IdParam;
import ca.uhn.fhir.rest.annotation.Operation;
import ca.uhn.fhir.rest.api.server.RequestDetails;
import ca.uhn.fhir.rest.server.exceptions.InvalidRequestException;
import ca.uhn.fhir.rest.server.exceptions.ResourceNotFoundException;
import example.tamponade.app.access.Caller;
import example.tamponade.app.projection.CaseRecords;
import example.tamponade.app.search.FoundVersion;
import example.tamponade.app.search.RecordSearch;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.IdType;

/**
 * What FHIR defines beyond reading and searching: everything of a mother or a stay, and the latest of each observation. FHIR
 * R4, <a href="http://hl7.org/fhir/R4/operations.html">Operations</a>.
 */
public final class CaseOperations {

    private static final Set<String> OF_THE_ANSWER = Set.of("_format", "_pretty", "_elements", "_summary");

    private final RecordSearch search;
    private final ResourceReads reads;
    private final CaseRecords records;

    /** Tells of that record. */
    public CaseOperations(RecordSearch search, ResourceReads reads, CaseRecords records) {
        this.search = search;
        this.reads = reads;
        this.records = records;
    }

    /** Everything of the case of a mother, warnings up to now included. */
    @Operation(name = "$everything", typeName = "Patient", idempotent = true)
    public Bundle everythingOfPatient(@IdParam IdType id, RequestDetails request) {
        return everything("Patient", id, request);
    }

    /** Everything of the case that a stay is of, warnings up to now included. */
    @Operation(name = "$everything", typeName = "Encounter", idempotent = true)
    public Bundle everythingOfEncounter(@IdParam IdType id, RequestDetails request) {
        return everything("Encounter", id, request);
    }

    private Bundle everything(String type, IdType id, RequestDetails request) {
        Caller.current().scopes().demandRead(type);
        Set<String> types = types(request);
        String caseKey = search.caseKey(type, id.getIdPart(), Caller.current().compartment())
                .orElseThrow(
                        () -> new ResourceNotFoundException("nothing on record at " + type + "/" + id.getIdPart()));
        records.letTimePass(caseKey);
        List<FoundVersion> found = search.ofCase(caseKey).stream()
                .filter(it -> types.isEmpty() || types.contains(it.type()))
                .toList();
        return reads.whole(found, request);
    }

    private static Set<String> types(RequestDetails request) {
        Set<String> types = new TreeSet<>();
        request.getParameters().forEach((name, values) -> {
            if (name.equals("_type")) {
                Arrays.stream(values).forEach(it -> types.addAll(List.of(it.split(","))));
            } else if (!OF_THE_ANSWER.contains(name)) {
                throw new InvalidRequestException("$everything has no '" + name + "' here; it has _type");
            }
        });
        return types;
    }

    /**
     * The latest observations of each code, {@code max} of them (default 1). What was entered in error or is cancelled counts
     * only where the request names a status: a reading that does not hold would hide the one before it.
     */
    @Operation(name = "$lastn", typeName = "Observation", idempotent = true)
    public Bundle latest(RequestDetails request) {
        return reads.latest(request);
    }
}
