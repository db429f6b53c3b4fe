package example.tamponade.app.record;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import org.hl7.fhir.r4.model.Resource;

/** The latest versions of resources: of all cases in a database, or of those being converted in memory. */
public interface VersionStore {

    /** The latest version, as JSON, of those of these resources ({@code Type/id}) that have one. */
    Map<String, String> latest(Collection<String> names);

    /** The latest version of every resource of a case or facility, by type and id. */
    List<Resource> ofCase(String caseKey);

    /** Up to where everything of a case is on record. */
    Checkpoint checkpoint(String caseKey);

    /**
     * Stores new versions; all of it or nothing.
     *
     * @param caseKey the case or facility that the resources belong to
     * @param names the resources that it is told by, {@code Type/id}, those that stay as they are among them
     * @param changed versions that passed conformance
     * @param upTo up to where the case is on record then
     */
    void store(String caseKey, Collection<String> names, List<NewVersion> changed, Checkpoint upTo);

    /** The events of a case that are set aside, in their order. */
    List<SetAside> setAside(String caseKey);

    /**
     * Sets an event of a case aside, with its reason, or says that another version of the software has failed at it too.
     *
     * @param reason why it cannot be put on record
     */
    void setAside(String caseKey, SetAside event, String reason);
}
