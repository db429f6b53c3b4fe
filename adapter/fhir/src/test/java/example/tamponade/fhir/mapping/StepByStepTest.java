package example.tamponade.fhir.mapping;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.core.casefile.CaseChange;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.casefile.DerivedValue;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.fhir.InventedCase;
import example.tamponade.fhir.Mapped;
import example.tamponade.fhir.Shared;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Provenance;
import org.hl7.fhir.r4.model.Resource;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A server that maps only what each event changed ends with the record of the whole case. */
class StepByStepTest {

    private final Map<String, String> stored = new TreeMap<>();
    private final Map<String, Resource> last = new HashMap<>();

    @ParameterizedTest
    @ValueSource(longs = {0, 1, 2, 3, 4})
    void theStoredRecordIsThatOfTheWholeCase(long seed) {
        List<EventEnvelope> events = new ArrayList<>(InventedCase.events());
        if (seed > 0) {
            Collections.shuffle(events, new Random(seed));
        }
        CaseFile file = InventedCase.file(List.of());
        for (int i = 0; i < events.size(); i++) {
            CaseChange change = file.apply(events.get(i));
            file = change.after();
            store(change, events.subList(0, i + 1));
        }
        Map<String, String> whole = new TreeMap<>();
        CaseFile end = file;
        Stream.concat(
                        Shared.MAPPER.resources(end, InventedCase::digest).stream(),
                        Shared.MAPPER.ofReplaced(end, events, InventedCase::digest).stream())
                .forEach(it -> whole.put(it.getIdPart(), Mapped.json(it)));
        whole.forEach((id, json) -> assertThat(stored).as(json).containsKey(id));
        assertThat(whole.keySet())
                .allSatisfy(it ->
                        assertThat(amendedAsFinal(stored.get(it))).as(it).isEqualTo(amendedAsFinal(whole.get(it))));
        // What is stored beyond it was derived on the way and holds no more; a Provenance has no state to say so.
        assertThat(stored.keySet())
                .filteredOn(it -> !whole.containsKey(it) && !(last.get(it) instanceof Provenance))
                .allSatisfy(it -> assertThat(stored.get(it)).contains("\"status\":\"entered-in-error\""));
    }

    private void store(CaseChange change, List<EventEnvelope> received) {
        CaseFile file = change.after();
        Shared.MAPPER.ofCase(file).forEach(this::store);
        change.entries()
                .forEach(entry ->
                        Shared.MAPPER.ofEvent(file, entry, InventedCase::digest).forEach(this::store));
        change.withdrawn()
                .forEach(it -> Shared.MAPPER
                        .ofWithdrawn(file, it, InventedCase::digest)
                        .forEach(this::store));
        change.facts()
                .forEach(fact -> store(Shared.MAPPER.ofFact(
                        file,
                        fact,
                        fact instanceof DerivedValue && stored.containsKey(Shared.MAPPER.idOf(fact.key())))));
        change.gone().forEach(key -> {
            Resource before = last.get(Shared.MAPPER.idOf(key));
            if (before != null) {
                store(Shared.MAPPER.enteredInError(before));
            }
        });
        Shared.MAPPER.ofReplaced(file, received, InventedCase::digest).forEach(this::store);
    }

    private void store(Resource resource) {
        stored.put(resource.getIdPart(), Mapped.json(resource));
        last.put(resource.getIdPart(), resource);
    }

    private static String amendedAsFinal(String json) {
        return json.replace("\"status\":\"amended\"", "\"status\":\"final\"");
    }
}
