package example.tamponade.app.database;

import javax.sql.DataSource;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.jdbc.support.JdbcTransactionManager;
import org.springframework.transaction.TransactionSystemException;
import org.springframework.transaction.support.DefaultTransactionStatus;

/** Transactions that fail with what went wrong first. */
final class Transactions extends JdbcTransactionManager {

    private static final long serialVersionUID = 1L;
    private static final Logger LOG = LoggerFactory.getLogger(Transactions.class);

    Transactions(DataSource source) {
        super(source);
        // A commit that failed must not be tried again behind the answer that it failed.
        setRollbackOnCommitFailure(true);
    }

    // A database that is full or gone ends the transaction itself. That there is nothing to roll back then must not
    // stand in
    // place of the reason.
    @Override
    protected void doRollback(DefaultTransactionStatus status) {
        try {
            super.doRollback(status);
        } catch (TransactionSystemException e) {
            LOG.debug("not rolled back", e);
        }
    }
}
