package example.tamponade.app.message;

import static example.tamponade.app.message.Messages.LOSS;
import static example.tamponade.app.message.Messages.VITALS;
import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Reason;
import example.tamponade.core.event.BloodLoss;
import example.tamponade.core.event.CaseId;
import example.tamponade.core.event.CaseOpened;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.EventSource;
import example.tamponade.core.event.HelpCalled;
import example.tamponade.core.event.Laboratory;
import example.tamponade.core.event.MedicineGiven;
import example.tamponade.core.event.Note;
import example.tamponade.core.event.StaffRole;
import example.tamponade.core.event.VitalSigns;
import java.time.OffsetDateTime;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Segments, fields and tables are those of HL7 version 2.5.1, chapters 2, 3 and 7; the mapping is the sample's guide. */
class MessageMappingTest {

    @Test
    void readsAGroupAsAnEvent() {
        EventEnvelope event = event(LOSS);

        assertThat(event.caseId()).isEqualTo(new CaseId("fernglade-hp", "FGL-2026-0117"));
        assertThat(event.facilityId()).isEqualTo("fernglade-hp");
        assertThat(event.occurredAt()).isEqualTo(OffsetDateTime.parse("2026-02-11T22:58:00+05:45"));
        assertThat(event.recordedAt()).isEqualTo(OffsetDateTime.parse("2026-02-11T23:00:00+05:45"));
        assertThat(event.recordedBy().id()).isEqualTo("fg-mw-02");
        assertThat(event.recordedBy().role()).isEqualTo(StaffRole.MIDWIFE);
        assertThat(event.source()).isEqualTo(EventSource.MESSAGE);
        BloodLoss loss = (BloodLoss) event.data();
        assertThat(loss.volumeMl()).isEqualByComparingTo("350");
        assertThat(loss.collector()).isEqualTo("drape 1");
    }

    // LOINC: 8867-4 heart rate, 8480-6 systolic, 8462-4 diastolic (FHIR R4 vital signs value set).
    @Test
    void knowsAMonitorsPanelByWhatItMeasures() {
        EventEnvelope event = event(VITALS);

        VitalSigns signs = (VitalSigns) event.data();
        assertThat(signs.pulse()).isEqualByComparingTo("117");
        assertThat(signs.systolic()).isEqualByComparingTo("102");
        assertThat(signs.diastolic()).isEqualByComparingTo("64");
        assertThat(event.recordedBy().role()).isEqualTo(StaffRole.MONITOR);
        assertThat(event.recordedBy().id()).isEqualTo("fg-mon-1");
        assertThat(event.source()).isEqualTo(EventSource.MONITOR);
    }

    // CE.4 to CE.6: a second code of another system (2.A.7).
    @Test
    void takesTheAlternateCodeWhenTheFirstIsTheMonitorsOwn() {
        EventEnvelope event = event(VITALS.replace("8867-4^Heart rate^LN", "HR^Pulse^99MON^8867-4^Heart rate^LN"));

        assertThat(((VitalSigns) event.data()).pulse()).isEqualByComparingTo("117");
    }

    // 718-7: hemoglobin [mass/volume] in blood (LOINC).
    @Test
    void theCodeOfALaboratoryResultSaysTheQuantity() {
        Laboratory result = (Laboratory) event(VITALS.replaceFirst("(?s)OBX.*", "")
                        + "OBX|1|NM|718-7^Hemoglobin^LN||8.3|g/dL^^UCUM|||||F|||||fg-nu-01^^^^^^nurse\n")
                .data();

        assertThat(result.analyte().code()).isEqualTo("haemoglobin");
        assertThat(result.value()).isEqualByComparingTo("8.3");
        assertThat(result.unit()).isEqualTo("g/dL");
    }

    @Test
    void theUnitOfADoseIsThatOfItsNumber() {
        MedicineGiven given =
                (MedicineGiven) event(group("medicine-given", """
                OBX|1|CWE|medicine-given.substance^^99TAM||oxytocin^^99TAM||||||F|||||fg-mw-02^^^^^^midwife
                OBX|2|NM|medicine-given.dose^^99TAM||10|[iU]^^UCUM|||||F
                OBX|3|CWE|medicine-given.route^^99TAM||intramuscular^^99TAM||||||F
                """)).data();

        assertThat(given.dose()).isEqualByComparingTo("10");
        assertThat(given.unit()).isEqualTo("[iU]");
    }

    // Repetitions: 2.5.3 (repetition separator ~).
    @Test
    void repetitionsMakeAList() {
        HelpCalled help = (HelpCalled) event(
                        group(
                                "help-called",
                                "OBX|1|CWE|help-called.who^^99TAM||doctor^^99TAM~nurse^^99TAM||||||F|||||fg-mw-02^^^^^^midwife"))
                .data();

        assertThat(help.who()).extracting(StaffRole::code).containsExactly("doctor", "nurse");
    }

    // OBX-4: the sub-id ties observations together that belong to one thing (7.4.2.4).
    @Test
    void subIdsSayWhichValuesBelongTogether() {
        String opened = group("case-opened", """
                OBX|1|ST|case-opened.mother.identifiers.system^^99TAM|1|urn:example:a||||||F|||||fg-mw-02^^^^^^midwife
                OBX|2|ST|case-opened.mother.identifiers.value^^99TAM|1|0042||||||F
                OBX|3|ST|case-opened.mother.identifiers.system^^99TAM|2|urn:example:b||||||F
                OBX|4|ST|case-opened.mother.identifiers.value^^99TAM|2|0043||||||F
                OBX|5|TS|case-opened.encounterStart^^99TAM||202602111815||||||F
                """);

        assertThat(((CaseOpened) event(opened).data()).mother().identifiers())
                .extracting(it -> it.system() + " " + it.value())
                .containsExactly("urn:example:a 0042", "urn:example:b 0043");
        assertThat(Messages.reasons(opened.replace("|2|0043|", "|1|0043|")))
                .extracting(Reason::message)
                .contains("the sub-ids do not tell which values belong together");
    }

    // Escape sequences: 2.7.1 (\S\ component, \T\ subcomponent, \R\ repetition, \F\ field, \E\ escape).
    @Test
    void readsEscapedSeparators() {
        Note note = (Note) event(group(
                        "note",
                        "OBX|1|TX|note.text^^99TAM||a\\F\\b\\S\\c\\T\\d\\R\\e\\E\\f||||||F|||||fg-mw-02^^^^^^midwife"))
                .data();

        assertThat(note.text()).isEqualTo("a|b^c&d~e\\f");
    }

    // OBX-14 is the time of the observation (7.4.2.14); OBR-7 of the group (7.4.1.7).
    @ParameterizedTest
    @CsvSource({
        "20260211225800+0545, 2026-02-11T22:58:00+05:45",
        "202602111713+0000, 2026-02-11T17:13:00Z",
        "20260211225800.5+0545, 2026-02-11T22:58:00.5+05:45",
        // Without an offset the one of MSH-7 holds throughout the message (2.15.9.7).
        "20260211225800, 2026-02-11T22:58:00+05:45"
    })
    void readsTimes(String written, String time) {
        assertThat(event(LOSS.replace("|||20260211225800+0545", "|||" + written))
                        .occurredAt())
                .isEqualTo(OffsetDateTime.parse(time));
        assertThat(event(LOSS.replace("||||||F|||||fg-mw-02", "||||||F|||" + written + "||fg-mw-02"))
                        .occurredAt())
                .isEqualTo(OffsetDateTime.parse(time));
    }

    @Test
    void theZoneOfTheFacilityPlacesTimesWhenTheMessageHasNoOffset() {
        String local = LOSS.replace("+0545", "");

        assertThat(event(local).occurredAt()).isEqualTo(OffsetDateTime.parse("2026-02-11T22:58:00+05:45"));
        assertThat(Messages.reasons(local.replace("fernglade-hp", "sorrelwick-ch")))
                .extracting(it -> it.code().code() + " " + it.place())
                .containsExactly("time-without-offset OBR 1, field 7", "time-without-offset OBR 1, field 22");
    }

    // PV1-19 is the visit number (3.4.3.19), as is a PID-3 of the type VN (table 0203).
    @Test
    void theCaseIsTheVisit() {
        String inPatient = LOSS.replaceAll("PV1.*\n", "").replace("^^^OMBREL^MR", "^^^OMBREL^MR~FGL-2026-0117^^^^VN");

        assertThat(event(inPatient).caseId()).isEqualTo(new CaseId("fernglade-hp", "FGL-2026-0117"));
    }

    // CX.4 is the authority that assigned the number (2.A.14).
    @Test
    void theCaseIsOfWhoAssignedItsNumber() {
        CaseId ofAnother = new CaseId("sorrelwick-ch", "FGL-2026-0117");
        String inPatient =
                LOSS.replaceAll("PV1.*\n", "").replace("^^^OMBREL^MR", "^^^OMBREL^MR~FGL-2026-0117^^^sorrelwick-ch^VN");

        assertThat(event(inPatient).caseId()).isEqualTo(ofAnother);
        assertThat(event(LOSS.replace("|FGL-2026-0117\n", "|FGL-2026-0117^^^sorrelwick-ch\n"))
                        .caseId())
                .isEqualTo(ofAnother);
    }

    // OBR-3 is the filler's number, the same whenever the result is sent (7.4.1.3).
    @Test
    void theFillersNumberNamesTheEvent() {
        assertThat(event(LOSS.replace("|T1|", "|T9|")).eventId())
                .isEqualTo(event(LOSS).eventId());
        assertThat(event(LOSS.replace("W1^", "W2^")).eventId())
                .isNotEqualTo(event(LOSS).eventId());
        assertThat(event(LOSS.replace("W1^WARDBOOK", "")).eventId())
                .isNotEqualTo(event(LOSS.replace("W1^WARDBOOK", "").replace("|T1|", "|T9|"))
                        .eventId());
    }

    // Table 0085: C, the record coming over is a correction and thus replaces a final result.
    @Test
    void aCorrectedResultCorrectsTheEntry() {
        EventEnvelope correction =
                event(LOSS.replace("|T1|", "|T5|").replace("350|mL^^UCUM|||||F", "450|mL^^UCUM|||||C"));

        assertThat(correction.corrects()).isEqualTo(event(LOSS).eventId());
        assertThat(correction.eventId()).isNotEqualTo(event(LOSS).eventId());
        assertThat(event(LOSS.replace("|T1|", "|T5|").replace("|||F\nOBX|1", "|||C\nOBX|1"))
                        .corrects())
                .isEqualTo(event(LOSS).eventId());
    }

    // Table 0085: D, deletes the OBX record; W, post original as wrong, e.g. transmitted for wrong patient.
    @ParameterizedTest
    @ValueSource(strings = {"D", "W"})
    void aWithdrawnResultRetractsTheEntry(String status) {
        EventEnvelope retraction =
                event(LOSS.replace("|T1|", "|T6|").replaceAll("(?m)^(OBX.*?)\\|F(?=$|\\|)", "$1|" + status));

        assertThat(retraction.retracts()).isEqualTo(event(LOSS).eventId());
        assertThat(retraction.data()).isNull();
    }

    @Test
    void aWithdrawnObservationAmongOthersIsLeftOutOfTheCorrection() {
        EventEnvelope correction = event(VITALS.replace("102|mm[Hg]^^UCUM|||||F", "102|mm[Hg]^^UCUM|||||D"));

        assertThat(correction.corrects()).isEqualTo(event(VITALS).eventId());
        assertThat(((VitalSigns) correction.data()).systolic()).isNull();
    }

    // Table 0085: X, results cannot be obtained for this observation.
    @Test
    void aPressureThatCouldNotBeObtainedIsUnrecordable() {
        VitalSigns signs = (VitalSigns) event(VITALS.replace("||102|mm[Hg]^^UCUM|||||F", "||||||||X")
                        .replace("||64|mm[Hg]^^UCUM|||||F", "||||||||X"))
                .data();

        assertThat(signs.pressureUnrecordable()).isTrue();
        assertThat(signs.systolic()).isNull();
    }

    // Units of ISO+ as the standard's older default; UCUM's are case-sensitive.
    @ParameterizedTest
    @ValueSource(strings = {"mm(hg)", "mm(hg)^^ISO+", "mm[Hg]", "mm[Hg]^^UCUM"})
    void readsUnitsThatAreCertain(String unit) {
        VitalSigns signs =
                (VitalSigns) event(VITALS.replace("mm[Hg]^^UCUM", unit)).data();

        assertThat(signs.systolic()).isEqualByComparingTo("102");
    }

    // Segments end with a carriage return (2.5.1); files often have line feeds, and batch envelopes (2.10.3).
    @Test
    void readsSeveralMessagesHoweverTheirSegmentsEnd() {
        String batch = "FHS|^~\\&\r\nBHS|^~\\&\r\n" + LOSS.replace("\n", "\r") + VITALS.replace("\n", "\r\n") + "\n"
                + LOSS.replace("W1^", "W2^") + "BTS|3\nFTS|1\n";

        assertThat(Messages.pieces(batch))
                .extracting(Piece::place)
                .containsExactly("message T1, OBR 1", "message T2, OBR 1", "message T1, OBR 1");
        assertThat(Messages.pieces(batch)).allMatch(it -> it.intake() instanceof Intake.Taken);
        assertThat(new String(Messages.pieces(batch).get(1).original().bytes(), UTF_8))
                .startsWith("MSH|^~\\&|BEDMON");
    }

    // Table 0211: 8859/1 is Latin-1.
    @Test
    void readsTheCharacterSetThatTheHeaderNames() {
        byte[] latin = LOSS.replace("|2.5.1", "|2.5.1||||||8859/1")
                .replace("drape 1", "Schüssel")
                .getBytes(ISO_8859_1);

        EventEnvelope event = ((Intake.Taken) Messages.pieces(latin).get(0).intake()).event();
        assertThat(((BloodLoss) event.data()).collector()).isEqualTo("Schüssel");
    }

    @Test
    void anEmptyListIsSaidByTheNullOfTheStandard() {
        List<Piece> pieces = Messages.pieces(group("haemorrhage-recognised", """
                OBX|1|CWE|haemorrhage-recognised.criteria^^99TAM||volume||||||F|||||fg-mw-02^^^^^^midwife
                OBX|2|CWE|haemorrhage-recognised.suspectedCause^^99TAM||""||||||F
                """));

        assertThat(pieces)
                .singleElement()
                .satisfies(it -> assertThat(it.intake()).isInstanceOf(Intake.Taken.class));
    }

    private static EventEnvelope event(String message) {
        return Messages.taken(message).event();
    }

    private static String group(String type, String observations) {
        return LOSS.replaceFirst("(?s)OBX.*", "").replace("blood-loss", type) + observations;
    }
}
