package example.tamponade.conformance.check;

/** Advice of FHIR R4 on observations: worth a warning. */
final class BestPractice {

    private BestPractice() {}

    static void check(Element resource, Findings findings) {
        if (!resource.type().equals("Observation")) {
            return;
        }
        if (resource.child("subject") == null) {
            findings.warning(
                    resource, "Best Practice Recommendation: In general, all observations should have a subject");
        }
        if (resource.child("effective") == null) {
            findings.warning(
                    resource, "Best Practice Recommendation: In general, all observations should have an effective[x]");
        }
    }
}
