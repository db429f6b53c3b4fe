package example.tamponade.app.projection;

import example.tamponade.app.database.Database;
import java.util.concurrent.locks.Lock;
import java.util.concurrent.locks.ReentrantLock;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.springframework.dao.DuplicateKeyException;

/**
 * Lets one adapter at a time work on a case. On a shared database the case is locked there until the work is committed; the
 * embedded database belongs to one adapter, whose threads take turns on a case.
 */
final class CaseLocks {

    private static final int ATTEMPTS = 5;

    private static final int STRIPES = 256;

    private final Database database;
    private final Lock[] threads =
            Stream.generate(ReentrantLock::new).limit(STRIPES).toArray(Lock[]::new);

    CaseLocks(Database database) {
        this.database = database;
    }

    /** Does the work while no other thread of this adapter works on that case. */
    <T> T alone(String caseKey, Supplier<T> work) {
        Lock lock = threads[Math.floorMod(caseKey.hashCode(), STRIPES)];
        lock.lock();
        try {
            return work.get();
        } finally {
            lock.unlock();
        }
    }

    /**
     * Does the work while nobody else works on that case. It is done again when it met another case's work on a resource
     * that both have, as their facility.
     */
    <T> T holding(String caseKey, Supplier<T> work) {
        if (!database.dialect().shared()) {
            return work.get();
        }
        for (int attempt = 1; ; attempt++) {
            try {
                return locked(caseKey, work);
            } catch (DuplicateKeyException e) {
                if (attempt == ATTEMPTS) {
                    throw e;
                }
            }
        }
    }

    private <T> T locked(String caseKey, Supplier<T> work) {
        return database.transactions().execute(status -> {
            database.dialect().waitForTurn(database.jdbc(), caseKey);
            return work.get();
        });
    }
}
