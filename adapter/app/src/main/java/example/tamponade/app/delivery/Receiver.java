package example.tamponade.app.delivery;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import org.hl7.fhir.r4.model.Resource;

/** Where resources are put. */
interface Receiver extends AutoCloseable {

    /**
     * Puts each resource at its own address: all of them or none.
     *
     * @param caseKey the case or facility that they are of
     * @param etags the version that a resource ({@code Type/id}) is to replace, where it is known
     */
    Answer put(String caseKey, List<Resource> resources, Map<String, String> etags);

    /**
     * Asks which versions it has.
     *
     * @param names resources, {@code Type/id}
     * @return how it names the version of each that it has; an empty text where it does not say
     * @throws java.io.UncheckedIOException when it does not answer
     */
    Map<String, String> versions(Collection<String> names);

    @Override
    default void close() {}
}
