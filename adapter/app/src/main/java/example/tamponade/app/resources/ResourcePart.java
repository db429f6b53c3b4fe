package example.tamponade.app.resources;

import example.tamponade.app.intake.Reason;
import java.util.List;

/**
 * A resource of an input, or what stands where one should.
 *
 * @param place where in the input, for example {@code line 3, Bundle.entry[2].resource}
 * @param bytes its bytes
 * @param reasons why no resource could be cut out; empty when one was
 */
@SuppressWarnings("ArrayRecordComponent") // Read once and never compared.
public record ResourcePart(String place, byte[] bytes, List<Reason> reasons) {

    ResourcePart(String place, byte[] bytes, Reason reason) {
        this(place, bytes, List.of(reason));
    }
}
