package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.Reading;
import example.tamponade.core.event.TamponadePrepared;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.hl7.fhir.r4.model.BooleanType;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Extension;
import org.hl7.fhir.r4.model.Procedure;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;

/** The device made ready: a step of the tamponade that follows. */
final class PreparationMapper {

    private PreparationMapper() {}

    static List<Resource> map(TamponadePrepared prepared, Recorded event) {
        Procedure preparation = event.procedure(event.item("tamponade-preparation"));
        Reference tamponade = following(event);
        if (tamponade != null) {
            preparation.addPartOf(tamponade);
        }
        CodeableConcept by = event.answer("staff-role", prepared.by());
        preparation.addPerformer().setFunction(by).setActor(new Reference().setDisplay(by.getText()));
        List<String> words = new ArrayList<>();
        check(preparation, "device-assembled", prepared.assembled(), words, event);
        check(preparation, "leak-tested", prepared.leakTested(), words, event);
        check(preparation, "antiseptic-used", prepared.antiseptic(), words, event);
        check(preparation, "gloves-sterile", prepared.glovesSterile(), words, event);
        String line = preparation.getCode().getText() + " by " + by.getText() + ": " + String.join(", ", words);
        return List.of(event.finish(preparation, "tamponade-preparation", "tamponade-preparation", line));
    }

    private static void check(Procedure preparation, String item, boolean done, List<String> words, Recorded event) {
        Coding coding = event.scope.terms.coding(event.scope.terms.system("bedside-item"), item);
        Extension check = preparation.addExtension();
        check.setUrl(event.scope.terms.profile("preparation-check"));
        check.addExtension("item", coding);
        check.addExtension("done", new BooleanType(done));
        words.add(coding.getDisplay().toLowerCase(Locale.ROOT) + (done ? " yes" : " no"));
    }

    // The first insertion after it; a withdrawn preparation belongs to none.
    private static @Nullable Reference following(Recorded event) {
        if (event.standing == Standing.WITHDRAWN) {
            return null;
        }
        return event.scope.file.tamponades().stream()
                .filter(it -> !it.insertedAt().isBefore(event.at()))
                .findFirst()
                .map(it -> event.scope.reference(
                        "Procedure", event.scope.ids.of(it.insertion(), Reading.TAMPONADE.code())))
                .orElse(null);
    }
}
