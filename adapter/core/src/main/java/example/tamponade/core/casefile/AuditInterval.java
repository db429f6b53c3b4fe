package example.tamponade.core.casefile;

/** Between which milestones an audit measures, once in a case; what it measures of each insertion is derived there. */
enum AuditInterval {
    BIRTH_TO_RECOGNITION(FactKind.BIRTH_TO_RECOGNITION, Milestone.BIRTH, Milestone.RECOGNISED),
    RECOGNITION_TO_FIRST_MEDICINE(
            FactKind.RECOGNITION_TO_FIRST_MEDICINE, Milestone.RECOGNISED, Milestone.FIRST_MEDICINE),
    BIRTH_TO_ANTIFIBRINOLYTIC(FactKind.BIRTH_TO_ANTIFIBRINOLYTIC, Milestone.BIRTH, Milestone.ANTIFIBRINOLYTIC),
    RECOGNITION_TO_FIRST_RESPONSE_COMPLETE(
            FactKind.RECOGNITION_TO_FIRST_RESPONSE_COMPLETE, Milestone.RECOGNISED, Milestone.FIRST_RESPONSE_COMPLETE),
    RECOGNITION_TO_INSERTION(FactKind.RECOGNITION_TO_INSERTION, Milestone.RECOGNISED, Milestone.INSERTED),
    RECOGNITION_TO_REFERRAL(FactKind.RECOGNITION_TO_REFERRAL, Milestone.RECOGNISED, Milestone.REFERRAL_DECIDED),
    REFERRAL_TO_DEPARTURE(FactKind.REFERRAL_TO_DEPARTURE, Milestone.REFERRAL_DECIDED, Milestone.DEPARTED),
    DEPARTURE_TO_ARRIVAL(FactKind.DEPARTURE_TO_ARRIVAL, Milestone.DEPARTED, Milestone.ARRIVED),
    ARRIVAL_TO_HANDOVER(FactKind.ARRIVAL_TO_HANDOVER, Milestone.ARRIVED, Milestone.HANDED_OVER);

    final FactKind kind;
    final Milestone from;
    final Milestone to;

    AuditInterval(FactKind kind, Milestone from, Milestone to) {
        this.kind = kind;
        this.from = from;
        this.to = to;
    }
}
