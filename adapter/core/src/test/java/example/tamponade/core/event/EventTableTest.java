package example.tamponade.core.event;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;

class EventTableTest {

    @Test
    void refusesATableThatLeavesATypeOut() {
        EventTable.Builder<String, String> table =
                EventTable.<String, String>of().on(Note.class, (it, context) -> context);

        IllegalStateException refusal = assertThrows(IllegalStateException.class, table::complete);

        assertThat(refusal).hasMessageContaining("BloodLoss").hasMessageNotContaining("Note,");
    }

    @Test
    void refusesATypeThatIsHandledTwice() {
        EventTable.Builder<String, String> table =
                EventTable.<String, String>of().on(Note.class, (it, context) -> context);

        assertThrows(IllegalStateException.class, () -> table.on(Note.class, (it, context) -> context));
    }

    @Test
    void everyTypeOfTheVocabularyHasOneRecord() {
        assertThat(EventType.values()).extracting(EventType::dataType).containsExactlyInAnyOrder((Class[])
                BedsideEvent.class.getPermittedSubclasses());
    }
}
