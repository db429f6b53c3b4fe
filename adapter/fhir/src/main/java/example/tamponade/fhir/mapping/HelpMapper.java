package example.tamponade.fhir.mapping;

import example.tamponade.core.event.HelpCalled;
import java.util.List;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Communication;
import org.hl7.fhir.r4.model.Resource;

/** A call for help. */
final class HelpMapper {

    private HelpMapper() {}

    static List<Resource> map(HelpCalled call, Recorded event) {
        List<CodeableConcept> roles =
                call.who().stream().map(it -> event.answer("staff-role", it)).toList();
        String text =
                "Help called: " + roles.stream().map(CodeableConcept::getText).collect(Collectors.joining(", "));
        Communication help = event.communication(event.item("help-call"), text);
        roles.forEach(it -> help.addExtension(event.extension("called-role", it)));
        return List.of(event.finish(help, "help-call", "help-call", text));
    }
}
