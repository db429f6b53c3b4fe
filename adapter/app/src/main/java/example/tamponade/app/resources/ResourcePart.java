package example.tamponade.app.resources;

import example.tamponade.app.intake.Original;
import example.tamponade.app.intake.Reason;
import java.util.List;

/**
 * A resource of an input, or what stands where one should.
 *
 * @param place where in the input, for example {@code line 3, Bundle.entry[2].resource}
 * @param original its bytes
 * @param reasons why no resource could be cut out; empty when one was
 */
public record ResourcePart(String place, Original original, List<Reason> reasons) {

    ResourcePart(String place, Original original, Reason reason) {
        this(place, original, List.of(reason));
    }
}
