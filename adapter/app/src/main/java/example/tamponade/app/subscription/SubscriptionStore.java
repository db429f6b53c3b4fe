package example.tamponade.app.subscription;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.app.database.Database;
import example.tamponade.app.outbox.Outbox;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.hl7.fhir.r4.model.Subscription;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.support.TransactionOperations;

/** The subscriptions that there are. */
public final class SubscriptionStore {

    private static final String DESTINATION = "subscription-";

    private final FhirContext fhir = FhirContext.forR4Cached();
    private final JdbcClient jdbc;
    private final JdbcClient reader;
    private final TransactionOperations transactions;
    private final Outbox outbox;

    /** Kept in that database; what is new from then on is collected in that outbox. */
    public SubscriptionStore(Database database, Outbox outbox) {
        this.jdbc = database.jdbc();
        this.reader = database.reader();
        this.transactions = database.transactions();
        this.outbox = outbox;
    }

    /** The destination by which deliveries name a subscription. */
    public static String destination(Subscription subscription) {
        return DESTINATION + subscription.getIdPart();
    }

    /**
     * Keeps a subscription: whatever goes on record from then on is held against it.
     *
     * @return the subscription with the id that it was given
     * @throws SubscriptionRefusedException when it cannot be kept as it is
     */
    public Subscription add(Subscription asked) {
        SubscriptionCriteria.demand(asked);
        Subscription kept = asked.copy();
        kept.setId(UUID.randomUUID().toString());
        kept.setStatus(Subscription.SubscriptionStatus.ACTIVE);
        transactions.executeWithoutResult(status -> {
            jdbc.sql("insert into subscription (id, content) values (:id, :content)")
                    .param("id", kept.getIdPart())
                    .param("content", fhir.newJsonParser().encodeResourceToString(kept))
                    .update();
            outbox.collectFromNow(destination(kept), kept.getChannel().getEndpoint(), kept.getCriteria());
        });
        return kept;
    }

    /** All of them. */
    public List<Subscription> all() {
        return reader.sql("select content from subscription order by id").query(String.class).list().stream()
                .map(it -> fhir.newJsonParser().parseResource(Subscription.class, it))
                .toList();
    }

    /** The subscription with that id; empty when there is none. */
    public Optional<Subscription> find(String id) {
        return reader.sql("select content from subscription where id = :id")
                .param("id", id)
                .query(String.class)
                .optional()
                .map(it -> fhir.newJsonParser().parseResource(Subscription.class, it));
    }

    /** Ends a subscription; what it was not told of yet it is not told of any more. */
    public void remove(Subscription subscription) {
        transactions.executeWithoutResult(status -> {
            jdbc.sql("delete from subscription where id = :id")
                    .param("id", subscription.getIdPart())
                    .update();
            outbox.forget(destination(subscription));
        });
    }
}
