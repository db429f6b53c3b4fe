package example.tamponade.fhir;

import example.tamponade.fhir.conformance.Conformance;
import example.tamponade.fhir.mapping.CaseMapper;
import example.tamponade.fhir.terms.Terms;

/** What is slow to build and the same for every test. */
public final class Shared {

    public static final Terms TERMS = Terms.read();
    public static final Conformance CONFORMANCE = Conformance.compiled();
    public static final CaseMapper MAPPER = new CaseMapper(TERMS, "0.1.0");

    private Shared() {}
}
