package example.tamponade.app.ledger;

import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.RecordComponent;
import java.math.BigDecimal;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Whether two events say the same, however their numbers are written: 9.5 and 9.50 are one reading. */
final class SameEvent {

    private SameEvent() {}

    static boolean same(@Nullable Object one, @Nullable Object other) {
        if (one == null || other == null || one.getClass() != other.getClass()) {
            return one instanceof List<?> some && other instanceof List<?> others ? same(some, others) : one == other;
        }
        if (one instanceof BigDecimal number) {
            return number.compareTo((BigDecimal) other) == 0;
        }
        if (one instanceof List<?> some) {
            return same(some, (List<?>) other);
        }
        return one instanceof Record ? sameParts((Record) one, (Record) other) : one.equals(other);
    }

    private static boolean same(List<?> some, List<?> others) {
        boolean same = some.size() == others.size();
        for (int i = 0; same && i < some.size(); i++) {
            same = same(some.get(i), others.get(i));
        }
        return same;
    }

    private static boolean sameParts(Record one, Record other) {
        for (RecordComponent part : one.getClass().getRecordComponents()) {
            if (!same(value(part, one), value(part, other))) {
                return false;
            }
        }
        return true;
    }

    private static @Nullable Object value(RecordComponent part, Record of) {
        try {
            return part.getAccessor().invoke(of);
        } catch (IllegalAccessException | InvocationTargetException e) {
            throw new IllegalStateException("the parts of an event can be read", e);
        }
    }
}
