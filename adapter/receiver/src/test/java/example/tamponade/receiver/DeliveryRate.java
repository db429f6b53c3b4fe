package example.tamponade.receiver;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.jpa.test.config.TestR4Config;
import ca.uhn.fhir.rest.client.api.IGenericClient;
import ca.uhn.fhir.rest.client.api.ServerValidationModeEnum;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.hl7.fhir.r4.model.Bundle;
import org.springframework.context.annotation.AnnotationConfigApplicationContext;

/**
 * How many resources a second the adapter delivers to HAPI's JPA server, beside HAPI's own client that posts bundles of the
 * same cases to the same server, one at a time each. Run by hand, see DEVELOPERS.md.
 */
final class DeliveryRate {

    private static final int CASES = 4;
    private static final int ROUNDS = 3;

    private DeliveryRate() {}

    /** Prints a line for each round; the first warms everything up. */
    public static void main(String[] arguments) throws Exception {
        FhirContext fhir = FhirContext.forR4Cached();
        fhir.getRestfulClientFactory().setServerValidationMode(ServerValidationModeEnum.NEVER);
        fhir.getRestfulClientFactory().setSocketTimeout(120_000);
        try (AnnotationConfigApplicationContext context = new AnnotationConfigApplicationContext(TestR4Config.class);
                RunningReceiver receiver = RunningReceiver.start(context)) {
            IGenericClient client = fhir.newRestfulGenericClient(receiver.address());
            for (int round = 0; round < ROUNDS; round++) {
                Path folder = Files.createTempDirectory("delivery-rate");
                List<Bundle> bundles = recorded("r" + round + "-", folder);
                long resources =
                        bundles.stream().mapToLong(it -> it.getEntry().size()).sum();
                List<Bundle> others = recorded("c" + round + "-", Files.createTempDirectory("delivery-rate"));
                double delivered = resources / delivered(receiver.address(), folder);
                long began = System.nanoTime();
                others.forEach(it -> client.transaction().withBundle(it).execute());
                double posted = resources / seconds(began);
                System.out.printf(
                        "round %d: adapter %.0f, client %.0f resources a second (%.0f %%)%n",
                        round, delivered, posted, 100 * delivered / posted);
            }
        }
    }

    // On record in a database of its own, and as bundles.
    private static List<Bundle> recorded(String facility, Path folder) throws Exception {
        List<Bundle> bundles = new ArrayList<>();
        try (RunningAdapter adapter = RunningAdapter.start(folder, Map.of())) {
            for (int number = 0; number < CASES; number++) {
                adapter.post(Adapter.eventsOf("referred", Integer.MAX_VALUE, facility + number));
            }
            adapter.waitUntilItSays("/ledger", "\"casesBehind\":0");
            for (int number = 0; number < CASES; number++) {
                String path = "/cases/" + facility + number + "-marrowby-cross/MRX-2026-0048?as=transaction";
                bundles.add(FhirContext.forR4Cached().newJsonParser().parseResource(Bundle.class, adapter.get(path)));
            }
        }
        return bundles;
    }

    private static double delivered(String address, Path folder) throws Exception {
        Map<String, String> destination = Map.of(
                "TAMPONADE_DESTINATIONS_RECORD_ADDRESS", address,
                "TAMPONADE_DESTINATIONS_RECORD_BATCH", "5000",
                "TAMPONADE_DESTINATIONS_RECORD_PATIENCE", "120s",
                "TAMPONADE_DESTINATIONS_RECORD_WORKERS", "1");
        try (RunningAdapter adapter = RunningAdapter.start(folder, destination)) {
            long began = System.nanoTime();
            adapter.waitUntilItSays("/deliveries", "\"resources\":0");
            return seconds(began);
        }
    }

    private static double seconds(long began) {
        return (System.nanoTime() - began) / 1e9;
    }
}
