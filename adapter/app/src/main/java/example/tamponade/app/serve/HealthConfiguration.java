package example.tamponade.app.serve;

import example.tamponade.app.access.AccessLogWriter;
import example.tamponade.app.database.Database;
import example.tamponade.app.delivery.DeliverySettings;
import example.tamponade.app.outbox.DestinationState;
import example.tamponade.app.outbox.OutboxStates;
import example.tamponade.app.path.IntakeWriter;
import example.tamponade.app.path.Projector;
import example.tamponade.app.quarantine.Quarantine;
import example.tamponade.app.quarantine.QuarantineState;
import example.tamponade.app.record.ResourceRecord;
import io.micrometer.core.instrument.Gauge;
import io.micrometer.core.instrument.MeterRegistry;
import io.micrometer.core.instrument.binder.MeterBinder;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.function.ToDoubleFunction;
import org.springframework.boot.health.contributor.Health;
import org.springframework.boot.health.contributor.HealthIndicator;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

/** Wires how the server says that it is well, and what it measures; nothing of it is of one patient. */
@Configuration(proxyBeanMethods = false)
class HealthConfiguration {

    // What is acknowledged and not on record for so long is not only busy.
    private static final Duration LONG_BEHIND = Duration.ofMinutes(10);

    @Bean
    HealthIndicator databaseHealthIndicator(Database database) {
        return () -> {
            try {
                database.demandSameFiles();
                database.jdbc().sql("select 1").query(Integer.class).single();
                return Health.up().build();
            } catch (RuntimeException e) {
                return Health.down(e).build();
            }
        };
    }

    @Bean
    HealthIndicator recordHealthIndicator(Projector projector) {
        return () -> {
            Duration behind = projector.oldest();
            return (behind.compareTo(LONG_BEHIND) < 0 ? Health.up() : Health.outOfService())
                    .withDetail("oldestBehindRecordSeconds", behind.toSeconds())
                    .build();
        };
    }

    @Bean
    MeterBinder intakeMeters(IntakeWriter writer, Projector projector, AccessLogWriter accessLog) {
        return registry -> {
            gauge(
                    registry,
                    "tamponade.intake.waiting",
                    "Pieces that wait to be written down",
                    writer,
                    it -> it.waitingPieces());
            gauge(
                    registry,
                    "tamponade.record.behind",
                    "Events acknowledged and not on record yet",
                    projector,
                    it -> it.behind());
            gauge(
                    registry,
                    "tamponade.record.behind.oldest.seconds",
                    "For how long the oldest of them has waited",
                    projector,
                    it -> it.oldest().toSeconds());
            gauge(
                    registry,
                    "tamponade.access.waiting",
                    "Entries of the access log not on disk yet",
                    accessLog,
                    it -> it.waiting());
        };
    }

    @Bean
    MeterBinder recordMeters(ResourceRecord record, Quarantine quarantine) {
        return registry -> {
            gauge(
                    registry,
                    "tamponade.record.set.aside",
                    "Events that the adapter failed to put on record",
                    record,
                    it -> it.countSetAside());
            gauge(
                    registry,
                    "tamponade.quarantine.open",
                    "Refused pieces that nobody has dealt with",
                    quarantine,
                    it -> it.count(QuarantineState.OPEN));
        };
    }

    @Bean
    MeterBinder deliveryMeters(DeliverySettings settings, Database database, Clock clock) {
        OutboxStates states = new OutboxStates(database);
        return registry -> settings.destinations().keySet().forEach(name -> {
            destination(
                    registry, states, name, "tamponade.delivery.due", "Resources that are due", it -> it.resources());
            destination(
                    registry,
                    states,
                    name,
                    "tamponade.delivery.parked",
                    "Cases that it refused",
                    it -> it.parkedCases());
            destination(
                    registry,
                    states,
                    name,
                    "tamponade.delivery.oldest.seconds",
                    "For how long the oldest of them has been due",
                    it -> it.oldest() == null
                            ? 0
                            : Duration.between(Instant.parse(it.oldest()), clock.instant())
                                    .toSeconds());
        });
    }

    private static <T> void gauge(MeterRegistry registry, String name, String what, T of, ToDoubleFunction<T> measure) {
        Gauge.builder(name, of, measure).description(what).register(registry);
    }

    private static void destination(
            MeterRegistry registry,
            OutboxStates states,
            String destination,
            String name,
            String what,
            ToDoubleFunction<DestinationState> measure) {
        Gauge.builder(
                        name,
                        states,
                        it -> it.states().stream()
                                .filter(one -> one.name().equals(destination))
                                .mapToDouble(measure)
                                .sum())
                .description(what)
                .tag("destination", destination)
                .register(registry);
    }
}
