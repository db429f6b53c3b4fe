package example.tamponade.app.serve;

import example.tamponade.app.database.Database;
import example.tamponade.app.delivery.Deliveries;
import example.tamponade.app.delivery.DeliverySettings;
import example.tamponade.app.delivery.Receivers;
import example.tamponade.app.delivery.Subscriptions;
import example.tamponade.app.outbox.Outbox;
import example.tamponade.app.outbox.OutboxStates;
import example.tamponade.app.outbox.OutboxTurns;
import example.tamponade.app.record.ResourceRecord;
import example.tamponade.app.records.RecordParts;
import example.tamponade.app.search.RecordSearch;
import example.tamponade.app.subscription.SubscriptionStore;
import example.tamponade.app.web.DeliveryController;
import example.tamponade.app.web.KeysController;
import example.tamponade.fhir.pseudonym.Pseudonymiser;
import java.time.Clock;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.boot.context.properties.EnableConfigurationProperties;
import org.springframework.boot.ssl.SslBundles;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

/** Wires the deliveries. */
@Configuration(proxyBeanMethods = false)
@EnableConfigurationProperties(DeliverySettings.class)
class DeliveryConfiguration {

    @Bean
    Outbox outbox(Database database, Clock clock) {
        return new Outbox(database, clock);
    }

    @Bean
    OutboxTurns outboxTurns(Database database, Clock clock) {
        return new OutboxTurns(database, clock);
    }

    @Bean
    Receivers receivers(RecordParts parts, SslBundles certificates, Clock clock) {
        return new Receivers(parts.bundles(), certificates, clock);
    }

    @Bean
    Deliveries deliveries(
            DeliverySettings settings,
            Database database,
            ResourceRecord record,
            RecordParts parts,
            Receivers receivers,
            Outbox outbox,
            OutboxTurns turns,
            ObjectProvider<Pseudonymiser> pseudonymiser) {
        return new Deliveries(
                settings, database, record, parts.bundles(), receivers, outbox, turns, pseudonymiser.getIfAvailable());
    }

    @Bean
    SubscriptionStore subscriptionStore(Database database, Outbox outbox) {
        return new SubscriptionStore(database, outbox);
    }

    @Bean
    Subscriptions subscriptions(
            SubscriptionStore store,
            Deliveries deliveries,
            Receivers receivers,
            OutboxTurns turns,
            RecordSearch search,
            Database database,
            Clock clock) {
        return new Subscriptions(
                store, deliveries, receivers, turns, search, !database.dialect().shared(), clock);
    }

    @Bean
    KeysController keysController(DeliverySettings settings) {
        return new KeysController(settings.keys());
    }

    @Bean
    DeliveryController deliveryController(Outbox outbox, Database database) {
        return new DeliveryController(outbox, new OutboxStates(database));
    }
}
