package example.tamponade.fhir.pseudonym;

import java.time.OffsetDateTime;
import java.util.List;
import org.hl7.fhir.r4.model.Resource;

/** One case as others may see it. */
public final class PseudonymisedCase {

    private final PseudonymKey key;
    private final String base;
    private final TimeShift shift;

    PseudonymisedCase(PseudonymKey key, String base, TimeShift shift) {
        this.key = key;
        this.base = base;
        this.shift = shift;
    }

    /** These resources of it, without what tells whose they are; they themselves are not changed. */
    public List<Resource> of(List<Resource> resources) {
        return resources.stream()
                .map(it -> new PseudonymWalk(key, base, shift).of(it))
                .toList();
    }

    /** The logical id in place of another. */
    public String id(String id) {
        return key.id(id);
    }

    /** The time in place of another, in UTC. */
    public OffsetDateTime time(OffsetDateTime time) {
        return shift.moved(time);
    }
}
