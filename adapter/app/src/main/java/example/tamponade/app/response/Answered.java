package example.tamponade.app.response;

import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.ReasonCode;
import example.tamponade.app.intake.StatedEvent;
import example.tamponade.fhir.terms.EventForm;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.hl7.fhir.r4.model.Questionnaire.QuestionnaireItemType;
import org.hl7.fhir.r4.model.QuestionnaireResponse.QuestionnaireResponseItemAnswerComponent;
import org.hl7.fhir.r4.model.QuestionnaireResponse.QuestionnaireResponseItemComponent;
import org.jspecify.annotations.Nullable;

/** What was answered in one part of a response, item by item, and what is wrong with it. */
final class Answered {

    static final String RETRACTION = "retraction";

    private final EventForm form;
    private final String prefix;
    private final List<Reason> reasons;
    private final List<Stated> stated = new ArrayList<>();
    private final List<EventForm.Item> groups = new ArrayList<>();

    /**
     * Collects answers.
     *
     * @param prefix what stands before a link in a place, for example {@code event 2, }
     */
    Answered(EventForm form, String prefix, List<Reason> reasons) {
        this.form = form;
        this.prefix = prefix;
        this.reasons = reasons;
    }

    private record Stated(
            String property,
            String path,
            String text,
            @Nullable String unit,
            String place) {}

    /** Takes in an item that stands in that group of the response. */
    void item(QuestionnaireResponseItemComponent given, String parent) {
        if (!given.hasAnswer() && !given.hasItem()) {
            return;
        }
        String place = prefix + given.getLinkId();
        EventForm.Item item = given.getLinkId() == null ? null : form.item(given.getLinkId());
        if (item == null || !item.parent().equals(parent)) {
            reasons.add(ResponseReader.reason(
                    ReasonCode.UNKNOWN_PROPERTY,
                    place,
                    item == null ? "the form has no such item" : "the form has this item in another group",
                    "answer the items of " + form.canonical() + " where they stand"));
        } else if (item.type() == QuestionnaireItemType.GROUP) {
            group(given, item, place);
        } else {
            given.getAnswer().forEach(it -> answer(it, item, place));
            given.getItem().forEach(it -> item(it, item.linkId()));
        }
    }

    private void group(QuestionnaireResponseItemComponent given, EventForm.Item item, String place) {
        if (given.hasAnswer()) {
            reasons.add(ResponseReader.reason(
                    ReasonCode.WRONG_TYPE, place, "a group has no answer of its own", "answer the items in it"));
        }
        if (item.parent().equals(Single.EVENT)) {
            groups.add(item);
        }
        if (item.repeats() && !whole(given, item, place)) {
            return;
        }
        given.getItem().forEach(it -> item(it, item.linkId()));
    }

    // Lists of objects are put together answer by answer; one that is missing would shift those after it.
    private boolean whole(QuestionnaireResponseItemComponent given, EventForm.Item item, String place) {
        List<String> missing = form.items(item.linkId()).stream()
                .map(EventForm.Item::linkId)
                .filter(link -> given.getItem().stream()
                        .noneMatch(it ->
                                link.equals(it.getLinkId()) && it.getAnswer().size() == 1))
                .toList();
        missing.forEach(link -> reasons.add(new Reason(
                        ReasonCode.MISSING_PROPERTY,
                        path(item.linkId()),
                        "'" + link + "' is not answered once in this group",
                        "answer every item of the group, or leave the group out")
                .at(place)));
        return missing.isEmpty();
    }

    private void answer(QuestionnaireResponseItemAnswerComponent given, EventForm.Item item, String place) {
        String property = Objects.requireNonNull(item.property());
        String path = path(property);
        Answers.Answer answer = Answers.read(item, given.getValue(), path, place);
        if (answer.reason() != null) {
            reasons.add(answer.reason());
        } else {
            stated.add(new Stated(property, path, Objects.requireNonNull(answer.text()), answer.unit(), place));
        }
        given.getItem().forEach(it -> item(it, item.linkId()));
    }

    // Of an event's own properties the first name is the type, which the path leaves to the data.
    private String path(String property) {
        int dot = property.indexOf('.');
        boolean own = dot > 0 && form.item(property.substring(0, dot)) != null;
        return own ? "/data" + property.substring(dot).replace('.', '/') : "/" + property.replace('.', '/');
    }

    /** Sees to it that only the group of the chosen type is answered. */
    void checkGroups() {
        for (EventForm.Item group : groups) {
            if (!group.linkId().equals(type())) {
                reasons.add(ResponseReader.reason(
                        ReasonCode.INVALID_VALUE,
                        prefix + group.linkId(),
                        "these are answers for another type of event than '" + type() + "'",
                        "answer the group of the type that was chosen, or an event for each"));
            }
        }
    }

    /** The type that was chosen; empty when none was. */
    String type() {
        return Objects.requireNonNullElse(text("type"), "");
    }

    /** The first answer for that property; null when there is none. */
    @Nullable
    String text(String property) {
        return stated.stream()
                .filter(it -> it.property().equals(property))
                .map(Stated::text)
                .findFirst()
                .orElse(null);
    }

    /** States every answer for that property. */
    void state(String property, StatedEvent event) {
        stated.stream()
                .filter(it -> it.property().equals(property))
                .forEach(it -> event.with(it.path(), it.text(), it.unit(), it.place()));
    }

    /** States what happened; a list that need not be answered and is not is an empty one. */
    void stateData(StatedEvent event, String place) {
        stated.stream()
                .filter(it -> it.path().startsWith("/data/"))
                .forEach(it -> event.with(it.path(), it.text(), it.unit(), it.place()));
        emptyLists(type(), event, place);
    }

    private void emptyLists(String group, StatedEvent event, String place) {
        for (EventForm.Item item : form.items(group)) {
            boolean answered = stated.stream()
                    .anyMatch(it ->
                            it.property().equals(item.linkId()) || it.property().startsWith(item.linkId() + "."));
            if (item.repeats() && !item.required() && !answered) {
                event.withEmptyList(path(item.linkId()), place);
            } else if (item.type() == QuestionnaireItemType.GROUP && !item.repeats()) {
                emptyLists(item.linkId(), event, place);
            }
        }
    }
}
