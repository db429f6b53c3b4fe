package example.tamponade.app.rest;

import ca.uhn.fhir.rest.api.server.IBundleProvider;
import ca.uhn.fhir.rest.api.server.RequestDetails;
import ca.uhn.fhir.rest.server.exceptions.InvalidRequestException;
import ca.uhn.fhir.rest.server.exceptions.ResourceNotFoundException;
import example.tamponade.app.access.Caller;
import example.tamponade.app.database.Instants;
import example.tamponade.app.search.FoundPage;
import example.tamponade.app.search.FoundVersion;
import example.tamponade.app.search.RecordSearch;
import example.tamponade.app.search.SearchRefusedException;
import example.tamponade.app.search.SearchRequest;
import example.tamponade.app.search.SearchRequestReader;
import example.tamponade.fhir.conformance.Conformance;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.LongSupplier;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.IdType;
import org.hl7.fhir.r4.model.InstantType;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;

/** Reads and searches, as the API answers them. */
public final class ResourceReads {

    private final RecordSearch search;
    private final RecordVersions versions;
    private final LongSupplier behind;
    private final Conformance conformance;

    /**
     * Reads from that record.
     *
     * @param conformance holds resources to their profiles
     * @param behind how many events are acknowledged and not on record yet
     */
    public ResourceReads(RecordSearch search, RecordVersions versions, Conformance conformance, LongSupplier behind) {
        this.conformance = conformance;
        this.search = search;
        this.versions = versions;
        this.behind = behind;
    }

    Resource read(String type, IdType id) {
        Caller caller = Caller.current();
        caller.scopes().demandRead(type);
        FoundVersion version = id.hasVersionIdPart()
                ? versions.version(type, id.getIdPart(), id.getVersionIdPart(), caller.compartment())
                : search.current(List.of(type + "/" + id.getIdPart()), caller.compartment()).stream()
                        .findFirst()
                        .orElse(null);
        if (version == null) {
            throw new ResourceNotFoundException("nothing on record at " + type + "/" + id.getIdPart()
                    + (id.hasVersionIdPart() ? "/_history/" + id.getVersionIdPart() : ""));
        }
        return Content.resource(version);
    }

    IBundleProvider history(String type, String id, @Nullable InstantType since) {
        String from = since == null || since.getValue() == null
                ? ""
                : Instants.text(since.getValue().toInstant());
        Caller caller = Caller.current();
        if (id.isEmpty()) {
            caller.scopes().demandSearch(List.of(type));
        } else {
            caller.scopes().demandRead(type);
        }
        if (!id.isEmpty()
                && search.current(List.of(type + "/" + id), caller.compartment())
                        .isEmpty()) {
            throw new ResourceNotFoundException("nothing on record at " + type + "/" + id);
        }
        return versions.history(type, id, from, caller.compartment());
    }

    Bundle search(String type, RequestDetails request) {
        Map<String, List<String>> parameters = parameters(request);
        try {
            SearchRequest understood =
                    SearchRequestReader.read(type, parameters, base(request), Preferences.isLenient(request));
            Caller caller = Caller.current();
            caller.scopes().demandSearch(understood.types());
            long waiting = behind.getAsLong();
            FoundPage page = search.find(understood, caller.compartment());
            caller.scopes().demandSearch(types(page.others()));
            return new SearchAnswer(base(request)).of(understood, parameters, page, waiting);
        } catch (SearchRefusedException e) {
            throw new InvalidRequestException(e.getMessage(), e);
        }
    }

    OperationOutcome validate(Resource resource) {
        return conformance.check(resource).toOutcome();
    }

    /** All of this in one answer. */
    Bundle whole(List<FoundVersion> found, RequestDetails request) {
        Caller.current().scopes().demandSearch(types(found));
        return new SearchAnswer(base(request)).whole(found, request.getCompleteUrl(), behind.getAsLong());
    }

    /** The latest observations of each code. */
    Bundle latest(RequestDetails request) {
        Map<String, List<String>> parameters = parameters(request);
        List<String> max = parameters.getOrDefault("max", List.of("1"));
        parameters.remove("max");
        if (max.size() != 1 || !max.get(0).matches("[1-9]\\d{0,3}")) {
            throw new InvalidRequestException("max: say how many of each code, from 1 to 9999");
        }
        boolean isOfOne =
                parameters.keySet().stream().anyMatch(it -> it.matches("(patient|subject)(:[A-Z]\\w*)?(\\.\\w+)?"));
        if (!isOfOne) {
            throw new InvalidRequestException("$lastn: say whose observations, by patient or subject");
        }
        if (parameters.keySet().stream().noneMatch(it -> it.matches("status(:.*)?"))) {
            parameters.put("status:not", List.of("entered-in-error,cancelled"));
        }
        try {
            SearchRequest understood =
                    SearchRequestReader.read("Observation", parameters, base(request), Preferences.isLenient(request));
            Caller caller = Caller.current();
            caller.scopes().demandSearch(understood.types());
            return whole(search.latest(understood, Integer.parseInt(max.get(0)), caller.compartment()), request);
        } catch (SearchRefusedException e) {
            throw new InvalidRequestException(e.getMessage(), e);
        }
    }

    private static List<String> types(List<FoundVersion> found) {
        return found.stream().map(FoundVersion::type).distinct().toList();
    }

    private static String base(RequestDetails request) {
        return request.getFhirServerBase();
    }

    private static Map<String, List<String>> parameters(RequestDetails request) {
        Map<String, List<String>> parameters = new TreeMap<>();
        request.getParameters().forEach((name, values) -> parameters.put(name, Arrays.asList(values)));
        return parameters;
    }
}
