package example.tamponade.conformance.fhirpath;

import java.util.List;
import org.jspecify.annotations.Nullable;

/** What an expression sees of an element of a resource. */
public interface Node {

    /** The name of the element; of a choice the part before its type, as {@code value}. */
    String name();

    /** Its FHIR type, for example {@code Quantity}; of a resource its own. */
    String type();

    /** Whether it is of a type of numbers. */
    boolean isNumber();

    /** What a primitive holds, as text; null where it holds nothing or is no primitive. */
    @Nullable
    String text();

    /** The elements in it, in order; an extension of a primitive among them. */
    List<? extends Node> children();
}
