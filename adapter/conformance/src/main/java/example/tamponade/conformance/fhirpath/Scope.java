package example.tamponade.conformance.fhirpath;

import org.jspecify.annotations.Nullable;

/** What an expression can reach besides the element that it is about. */
public interface Scope {

    /** The resource that the element stands in. */
    Node resource();

    /** The outermost resource: that which contains the resource, or the resource itself. */
    Node rootResource();

    /**
     * Whether a code, Coding or CodeableConcept is in a value set.
     *
     * @return null when that is not known
     */
    @Nullable
    Boolean memberOf(Node coded, String valueSet);
}
