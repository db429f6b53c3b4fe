package example.tamponade.app.records;

import example.tamponade.fhir.bundle.CaseBundles;
import example.tamponade.fhir.conformance.Conformance;
import example.tamponade.fhir.mapping.CaseMapper;
import example.tamponade.fhir.refusal.Refusals;
import example.tamponade.fhir.terms.Terms;

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

    private static RecordParts build() {
        Terms terms = Terms.read();
        CaseMapper mapper = new CaseMapper(terms, SOFTWARE_VERSION);
        return new RecordParts(mapper, new CaseBundles(terms, mapper), Conformance.compiled(), new Refusals(terms));
    }

    private static final class Holder {

        private static final RecordParts PARTS = build();
    }
}
