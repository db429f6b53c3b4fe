package example.tamponade.fhir.site;

/**
 * What a site's package refuses of a resource.
 *
 * @param resource the resource, {@code Type/id}
 * @param profile the site's profile that it is without because of this; empty where it is without all that the site adds
 * @param expression where in the resource, as FHIRPath
 * @param message the rule that it breaks; may hold values of the resource
 * @param place the lines of the adaptation file that could mend it
 */
public record SiteProblem(String resource, String profile, String expression, String message, String place) {

    /** Everything, for who may see the record. */
    public String inWords() {
        return resource + " at " + expression + ": " + message + " It is on record without " + without() + "; " + place;
    }

    /** What holds nothing of a patient, for logs. */
    public String withoutValues() {
        return expression + " fails; resources are on record without " + without() + "; " + place;
    }

    private String without() {
        return profile.isEmpty() ? "what the site adds" : profile;
    }
}
