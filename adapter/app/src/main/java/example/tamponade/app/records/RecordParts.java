package example.tamponade.app.records;

import example.tamponade.fhir.bundle.CaseBundles;
import example.tamponade.fhir.conformance.Conformance;
import example.tamponade.fhir.mapping.CaseMapper;
import example.tamponade.fhir.refusal.Refusals;
import example.tamponade.fhir.terms.Terms;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Resource;

/**
 * Everything between a folded case and its FHIR form.
 *
 * @param mapper makes the resources
 * @param bundles puts them together
 * @param conformance holds them to their profiles
 * @param refusals tells refusals in FHIR
 */
public record RecordParts(CaseMapper mapper, CaseBundles bundles, Conformance conformance, Refusals refusals) {

    /** The version of this software, as the resources name it. */
    public static final String SOFTWARE_VERSION = "0.1.0";

    /** The parts; built at the first call, which takes seconds, and shared from then on. */
    public static RecordParts shared() {
        return Holder.PARTS;
    }

    /** All of the resources, one of each id: of two with one id the one that comes first. */
    @SafeVarargs
    public static List<Resource> distinct(List<Resource>... resources) {
        Map<String, Resource> byId = new LinkedHashMap<>();
        Stream.of(resources)
                .flatMap(List::stream)
                .forEach(it -> byId.putIfAbsent(it.fhirType() + "/" + it.getIdPart(), it));
        return List.copyOf(byId.values());
    }

    private static RecordParts build() {
        Terms terms = Terms.read();
        CaseMapper mapper = new CaseMapper(terms, SOFTWARE_VERSION);
        return new RecordParts(mapper, new CaseBundles(terms, mapper), Conformance.compiled(), new Refusals(terms));
    }

    private static final class Holder {

        private static final RecordParts PARTS = build();
    }
}
