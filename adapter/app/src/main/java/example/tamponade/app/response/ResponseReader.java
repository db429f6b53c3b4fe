package example.tamponade.app.response;

import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.ReasonCode;
import example.tamponade.app.intake.StatedEvent;
import example.tamponade.fhir.terms.EventForm;
import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.r4.model.QuestionnaireResponse;
import org.hl7.fhir.r4.model.QuestionnaireResponse.QuestionnaireResponseItemComponent;
import org.hl7.fhir.r4.model.QuestionnaireResponse.QuestionnaireResponseStatus;
import org.jspecify.annotations.Nullable;

/** Reads the one event of a response: who and where from its head, what from its event group. */
final class ResponseReader {

    private final EventForm form;

    ResponseReader(EventForm form) {
        this.form = form;
    }

    ResponseEvent read(QuestionnaireResponse response) {
        QuestionnaireResponseItemComponent group = response.getItem().stream()
                .filter(it -> Single.EVENT.equals(it.getLinkId()))
                .findFirst()
                .orElseThrow();
        String number = String.valueOf(group.getId());
        String place = "event " + number;
        List<Reason> reasons = new ArrayList<>();
        check(response, reasons);
        Answered head = new Answered(form, "", reasons);
        response.getItem().stream().filter(it -> it != group).forEach(it -> head.item(it, ""));
        Answered event = new Answered(form, place + ", ", reasons);
        group.getItem().forEach(it -> event.item(it, Single.EVENT));
        event.checkGroups();
        StatedEvent stated = new EventHead(response, number, head, event, reasons).state(new StatedEvent(place));
        return new ResponseEvent(stated, reasons, place, event.type(), form);
    }

    private void check(QuestionnaireResponse response, List<Reason> reasons) {
        String canonical = response.getQuestionnaire();
        if (canonical == null || !canonical.split("\\|", 2)[0].equals(form.canonical())) {
            reasons.add(reason(
                    ReasonCode.NOT_SUPPORTED,
                    "QuestionnaireResponse.questionnaire",
                    canonical == null
                            ? "the response does not say which form it answers"
                            : "'" + canonical + "' is another form",
                    "send answers to " + form.canonical()));
        }
        QuestionnaireResponseStatus status = response.getStatus();
        if (status == null
                || status == QuestionnaireResponseStatus.INPROGRESS
                || status == QuestionnaireResponseStatus.STOPPED) {
            reasons.add(reason(
                    ReasonCode.NOT_SUPPORTED,
                    "QuestionnaireResponse.status",
                    status == null
                            ? "the response has no status"
                            : "a response that is " + status.toCode() + " is not finished",
                    "send it when it is completed"));
        }
    }

    static Reason reason(ReasonCode code, String place, String message, String remedy) {
        return new Reason(code, "", message, remedy).at(place);
    }

    static @Nullable String text(@Nullable String text) {
        return text == null || text.isBlank() ? null : text;
    }
}
