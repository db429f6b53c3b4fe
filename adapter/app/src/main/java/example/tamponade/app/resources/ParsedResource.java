package example.tamponade.app.resources;

import example.tamponade.app.intake.Reason;
import java.util.List;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;

/**
 * What reading a resource came to.
 *
 * @param resource the resource; null when it cannot be read at all
 * @param reasons what is wrong with it; empty when it is R4 throughout
 */
public record ParsedResource<T extends Resource>(@Nullable T resource, List<Reason> reasons) {

    /** A resource that cannot be read. */
    static <T extends Resource> ParsedResource<T> refused(Reason reason) {
        return new ParsedResource<>(null, List.of(reason));
    }
}
