package example.tamponade.app.rest;

import ca.uhn.fhir.parser.DataFormatException;
import ca.uhn.fhir.rest.api.server.RequestDetails;
import ca.uhn.fhir.rest.server.exceptions.BaseServerResponseException;
import ca.uhn.fhir.rest.server.exceptions.InvalidRequestException;
import example.tamponade.app.access.Caller;
import example.tamponade.app.access.Role;
import example.tamponade.app.database.Instants;
import example.tamponade.app.export.CaseGroup;
import example.tamponade.app.export.ExportRequest;
import example.tamponade.app.export.Exports;
import example.tamponade.app.export.TooManyExportsException;
import example.tamponade.app.search.SearchParameters;
import jakarta.servlet.http.HttpServletResponse;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.InstantType;
import org.springframework.http.HttpHeaders;

/**
 * Takes requests for exports: <a href="https://hl7.org/fhir/uv/bulkdata/STU2/export.html">Bulk Data Access 2.0.0</a>,
 * kick-off request.
 */
public final class ExportKickOff {

    private static final Set<String> FORMATS =
            Set.of("application/fhir+ndjson", "application/fhir ndjson", "application/ndjson", "ndjson");

    private static final int TOO_MANY = 429;

    private final Exports exports;
    private final boolean hasPseudonyms;

    /**
     * Has exports taken there.
     *
     * @param hasPseudonyms whether there is a pseudonymised form
     */
    public ExportKickOff(Exports exports, boolean hasPseudonyms) {
        this.hasPseudonyms = hasPseudonyms;
        this.exports = exports;
    }

    void ofSystem(RequestDetails request, HttpServletResponse response) {
        take(ExportRequest.Level.SYSTEM, "", request, response);
    }

    void ofPatients(RequestDetails request, HttpServletResponse response) {
        take(ExportRequest.Level.PATIENT, "", request, response);
    }

    void ofGroup(CaseGroup group, RequestDetails request, HttpServletResponse response) {
        take(ExportRequest.Level.GROUP, group.id(), request, response);
    }

    private void take(ExportRequest.Level level, String group, RequestDetails request, HttpServletResponse response) {
        if (!Preferences.of(request).contains("respond-async")) {
            throw new InvalidRequestException(
                    "an export takes a while: send the header Prefer: respond-async, and ask at the address that is"
                            + " answered in Content-Location");
        }
        String server = request.getFhirServerBase().replaceFirst(FhirApi.PATH + "$", "");
        Caller caller = Caller.current();
        Set<String> types = types(request);
        // Whoever may read nothing but the pseudonymised form gets that.
        boolean isPseudonymised = !caller.is(Role.READER);
        if (isPseudonymised) {
            demandPseudonyms();
        } else {
            caller.scopes().demandSearch(types.isEmpty() ? Set.of("*") : types);
        }
        ExportRequest asked = new ExportRequest(
                request.getCompleteUrl(),
                server,
                level,
                group,
                types,
                since(request),
                caller.name(),
                caller.compartment(),
                isPseudonymised);
        refuseOthers(request);
        try {
            response.setHeader(HttpHeaders.CONTENT_LOCATION, Exports.address(server, exports.take(asked)));
            response.setStatus(HttpServletResponse.SC_ACCEPTED);
        } catch (TooManyExportsException e) {
            throw BaseServerResponseException.newInstance(TOO_MANY, e.getMessage());
        }
    }

    private void demandPseudonyms() {
        if (!hasPseudonyms) {
            throw new InvalidRequestException(
                    "no pseudonymised form: the server has no key of pseudonyms; set tamponade.pseudonyms");
        }
    }

    private static Stream<String> values(RequestDetails request, String name) {
        String[] values = request.getParameters().get(name);
        return values == null ? Stream.of() : Arrays.stream(values);
    }

    private static Set<String> types(RequestDetails request) {
        Set<String> known = SearchParameters.standard().types();
        Set<String> types = new TreeSet<>();
        values(request, "_type").flatMap(it -> Arrays.stream(it.split(","))).forEach(types::add);
        List<String> unknown = types.stream().filter(it -> !known.contains(it)).toList();
        if (!unknown.isEmpty() && !Preferences.isLenient(request)) {
            throw new InvalidRequestException("_type: there are no resources of type " + String.join(", ", unknown)
                    + " here; there are " + String.join(", ", known));
        }
        return types;
    }

    private static String since(RequestDetails request) {
        List<String> since = values(request, "_since").toList();
        if (since.isEmpty()) {
            return "";
        }
        try {
            return Instants.text(new InstantType(since.get(since.size() - 1).replace(' ', '+'))
                    .getValue()
                    .toInstant());
        } catch (DataFormatException | IllegalArgumentException e) {
            throw new InvalidRequestException(
                    "_since: '" + since.get(0) + "' is no instant; write for example 2026-02-11T17:00:00Z", e);
        }
    }

    private static void refuseOthers(RequestDetails request) {
        values(request, "_outputFormat").filter(it -> !FORMATS.contains(it)).forEach(it -> {
            throw new InvalidRequestException("_outputFormat: '" + it + "'; files are application/fhir+ndjson alone");
        });
        request.getParameters().keySet().stream()
                .filter(it ->
                        !Set.of("_type", "_since", "_outputFormat", "_format").contains(it))
                .filter(it -> !Preferences.isLenient(request))
                .forEach(it -> {
                    throw new InvalidRequestException(
                            "$export has no '" + it + "' here; it has _type, _since and _outputFormat");
                });
    }
}
