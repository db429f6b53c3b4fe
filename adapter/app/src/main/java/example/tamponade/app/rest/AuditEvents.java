package example.tamponade.app.rest;

import example.tamponade.app.access.AccessEntry;
import example.tamponade.app.access.AccessLog;
import example.tamponade.fhir.terms.Narratives;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.hl7.fhir.r4.model.AuditEvent;
import org.hl7.fhir.r4.model.AuditEvent.AuditEventAction;
import org.hl7.fhir.r4.model.AuditEvent.AuditEventAgentComponent;
import org.hl7.fhir.r4.model.AuditEvent.AuditEventAgentNetworkType;
import org.hl7.fhir.r4.model.AuditEvent.AuditEventEntityComponent;
import org.hl7.fhir.r4.model.AuditEvent.AuditEventOutcome;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.InstantType;
import org.hl7.fhir.r4.model.Reference;

/**
 * Entries of the access log as AuditEvents, with what the patterns of
 * <a href="https://profiles.ihe.net/ITI/BALP/">IHE Basic Audit Log Patterns 1.1</a> for RESTful operations ask for (from memory).
 */
final class AuditEvents {

    private static final String DICOM = "http://dicom.nema.org/resources/ontology/DCM";
    private static final String INTERACTION = "http://hl7.org/fhir/restful-interaction";
    private static final String ENTITY_TYPE = "http://terminology.hl7.org/CodeSystem/audit-entity-type";
    private static final String ENTITY_ROLE = "http://terminology.hl7.org/CodeSystem/object-role";
    private static final String PARTICIPATION = "http://terminology.hl7.org/CodeSystem/v3-ParticipationType";
    private static final int SERIOUS = 500;

    private static final Map<AccessEntry.Action, AuditEventAction> ACTIONS = Map.of(
            AccessEntry.Action.CREATE, AuditEventAction.C,
            AccessEntry.Action.READ, AuditEventAction.R,
            AccessEntry.Action.EXECUTE, AuditEventAction.E,
            AccessEntry.Action.DELETE, AuditEventAction.D);

    private static final Pattern RESOURCE =
            Pattern.compile("fhir/(?<type>[A-Z]\\w+)/(?<id>[A-Za-z0-9.-]{1,64})(/_history(?<version>/\\d+)?)?");

    private AuditEvents() {}

    static AuditEvent of(AccessLog.Numbered numbered) {
        AccessEntry entry = numbered.entry();
        AuditEvent event = new AuditEvent();
        event.setId(Long.toString(numbered.number()));
        event.setType(coding("http://terminology.hl7.org/CodeSystem/audit-event-type", "rest", "RESTful Operation"));
        interaction(entry).ifPresent(it -> event.addSubtype(new Coding(INTERACTION, it, it)));
        event.setAction(ACTIONS.get(entry.action()));
        event.setRecordedElement(new InstantType(entry.at()));
        event.setOutcome(outcome(entry.outcome()));
        if (entry.outcome() != 0) {
            event.setOutcomeDesc("answered with HTTP status " + entry.outcome());
        }
        event.addAgent(client(entry)).addAgent(server()).addAgent(user(entry));
        event.getSource().setObserver(new Reference().setDisplay("Tamponade record adapter"));
        entities(entry, event);
        event.setText(Narratives.of(List.of(entry.at() + ": " + entry.who() + ", "
                + event.getAction().getDisplay() + " " + entry.what()
                + (entry.outcome() == 0 ? "" : ", refused with " + entry.outcome()))));
        return event;
    }

    private static AuditEventOutcome outcome(int status) {
        if (status == 0) {
            return AuditEventOutcome._0;
        }
        return status < SERIOUS ? AuditEventOutcome._4 : AuditEventOutcome._8;
    }

    // What FHIR has a word for.
    private static Optional<String> interaction(AccessEntry entry) {
        Matcher resource = RESOURCE.matcher(entry.what());
        if (resource.matches()) {
            if (resource.group("version") != null) {
                return Optional.of("vread");
            }
            return Optional.of(entry.what().endsWith("_history") ? "history-instance" : "read");
        }
        if (entry.action() == AccessEntry.Action.CREATE) {
            return Optional.of("create");
        }
        if (entry.what().contains("$")) {
            return Optional.of("operation");
        }
        if (entry.what().matches("fhir/[A-Z]\\w+/_history")) {
            return Optional.of("history-type");
        }
        return entry.what().matches("fhir/[A-Z]\\w+") ? Optional.of("search-type") : Optional.empty();
    }

    private static AuditEventAgentComponent client(AccessEntry entry) {
        AuditEventAgentComponent client = new AuditEventAgentComponent()
                .setType(new CodeableConcept(coding(DICOM, "110153", "Source Role ID")))
                .setWho(new Reference().setDisplay(entry.client().isEmpty() ? "not said" : entry.client()))
                .setRequestor(false);
        if (!entry.from().isEmpty()) {
            client.getNetwork().setAddress(entry.from()).setType(AuditEventAgentNetworkType._2);
        }
        return client;
    }

    private static AuditEventAgentComponent server() {
        return new AuditEventAgentComponent()
                .setType(new CodeableConcept(coding(DICOM, "110152", "Destination Role ID")))
                .setWho(new Reference().setDisplay("Tamponade record adapter"))
                .setRequestor(false);
    }

    private static AuditEventAgentComponent user(AccessEntry entry) {
        return new AuditEventAgentComponent()
                .setType(new CodeableConcept(coding(PARTICIPATION, "IRCP", "information recipient")))
                .setWho(new Reference().setDisplay(entry.who()))
                .setName(entry.who())
                .setRequestor(true);
    }

    private static void entities(AccessEntry entry, AuditEvent event) {
        Matcher resource = RESOURCE.matcher(entry.what());
        if (resource.matches()) {
            entity(event, "4", "Domain Resource")
                    .setWhat(new Reference(resource.group("type") + "/" + resource.group("id")));
        } else {
            entity(event, "4", "Domain Resource").setName(entry.what());
        }
        entry.cases().forEach(it -> entity(event, "4", "Domain Resource").setName(it));
        if (!entry.query().isEmpty()) {
            entity(event, "24", "Query").setQuery(entry.query().getBytes(StandardCharsets.UTF_8));
        }
        if (entry.action() == AccessEntry.Action.CREATE) {
            detail(event.getEntityFirstRep(), "events taken", entry.events());
            detail(event.getEntityFirstRep(), "pieces refused", entry.refused());
        }
    }

    private static void detail(AuditEventEntityComponent entity, String what, int count) {
        entity.addDetail().setType(what).setValue(new org.hl7.fhir.r4.model.StringType(Integer.toString(count)));
    }

    private static AuditEventEntityComponent entity(AuditEvent event, String role, String display) {
        return event.addEntity()
                .setType(coding(ENTITY_TYPE, "2", "System Object"))
                .setRole(coding(ENTITY_ROLE, role, display));
    }

    private static Coding coding(String system, String code, String display) {
        return new Coding(system, code, display);
    }
}
