package example.tamponade.core.event;

import java.util.Arrays;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** The types of the event vocabulary, each with the record that holds its data. */
public enum EventType implements Coded {
    CASE_OPENED(CaseOpened.class),
    BIRTH(Birth.class),
    HAEMORRHAGE_RECOGNISED(HaemorrhageRecognised.class),
    HELP_CALLED(HelpCalled.class),
    MANOEUVRE(Manoeuvre.class),
    MEDICINE_GIVEN(MedicineGiven.class),
    INFUSION(Infusion.class),
    BLOOD_PRODUCT_GIVEN(BloodProductGiven.class),
    BLOOD_LOSS(BloodLoss.class),
    VITAL_SIGNS(VitalSigns.class),
    UTERUS_CHECKED(UterusChecked.class),
    BLEEDING_CHECKED(BleedingChecked.class),
    SYMPTOMS_CHECKED(SymptomsChecked.class),
    URINE(Urine.class),
    LABORATORY(Laboratory.class),
    TAMPONADE_PREPARED(TamponadePrepared.class),
    TAMPONADE_INSERTED(TamponadeInserted.class),
    BALLOON_FILLED(BalloonFilled.class),
    BALLOON_DRAINED(BalloonDrained.class),
    TAMPONADE_POSITION_CHECKED(TamponadePositionChecked.class),
    TAMPONADE_REMOVED(TamponadeRemoved.class),
    REFERRAL(Referral.class),
    OUTCOME(Outcome.class),
    NOTE(Note.class),
    READINESS_CHECKED(ReadinessChecked.class);

    private final Class<? extends BedsideEvent> dataType;

    EventType(Class<? extends BedsideEvent> dataType) {
        this.dataType = dataType;
    }

    /** The record that holds this type's data. */
    public Class<? extends BedsideEvent> dataType() {
        return dataType;
    }

    /** The type of the data; every permitted record has one. */
    public static EventType of(BedsideEvent data) {
        return Objects.requireNonNull(BY_DATA_TYPE.get(data.getClass()));
    }

    /** The type with that code, or null when the vocabulary has none. */
    public static @Nullable EventType ofCode(String code) {
        return BY_CODE.get(code);
    }

    /** Whether events of this type belong to a facility, not to a case. */
    public boolean ofFacility() {
        return this == READINESS_CHECKED;
    }

    private static final Map<Class<?>, EventType> BY_DATA_TYPE =
            Arrays.stream(values()).collect(Collectors.toUnmodifiableMap(EventType::dataType, it -> it));

    private static final Map<String, EventType> BY_CODE =
            Arrays.stream(values()).collect(Collectors.toUnmodifiableMap(EventType::code, it -> it));
}
