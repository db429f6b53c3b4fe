package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.CaseEntry;
import example.tamponade.core.casefile.Flag;
import java.util.List;
import java.util.Objects;
import org.hl7.fhir.r4.model.CodeType;
import org.hl7.fhir.r4.model.StringType;
import org.jspecify.annotations.Nullable;

/** A warning with a begin and an end, with its rule, its evidence and the caution. */
final class FlagMapper {

    private FlagMapper() {}

    static org.hl7.fhir.r4.model.Flag map(Flag fact, CaseScope scope) {
        org.hl7.fhir.r4.model.Flag flag = new org.hl7.fhir.r4.model.Flag();
        flag.setStatus(
                fact.end() == null
                        ? org.hl7.fhir.r4.model.Flag.FlagStatus.ACTIVE
                        : org.hl7.fhir.r4.model.Flag.FlagStatus.INACTIVE);
        flag.addCategory(scope.terms.local("flag-category", "bedside-warning"));
        flag.setCode(scope.terms.local("case-flag", fact.kind().code()).setText(fact.text()));
        subject(fact, flag, scope);
        flag.setPeriod(Times.period(fact.start(), fact.end()));
        flag.setAuthor(scope.software());
        Frame frame = scope.frame;
        String severity = fact.severity().code();
        flag.addExtension(frame.extension("flag-severity", new CodeType(severity)));
        flag.addExtension(frame.extension("flag-rule", new StringType(fact.rule())));
        flag.addExtension(frame.extension("flag-known-from", Times.dateTime(fact.knownFrom())));
        FactMappers.references(fact.evidence(), scope)
                .forEach(it -> flag.addExtension(frame.extension("flag-evidence", it)));
        if (fact.confirmedBy() != null) {
            FactMappers.references(List.of(fact.confirmedBy()), scope)
                    .forEach(it -> flag.addExtension(frame.extension("flag-confirmed-by", it)));
        }
        ending(fact.ending(), flag, scope);
        flag.addExtension(frame.extension(
                "care-protocol", new StringType(scope.file.protocol().reference())));
        flag.addExtension(frame.extension("caution", new StringType(CaseMapper.CAUTION)));
        List<String> lines = List.of(
                fact.text(),
                "Severity " + severity + ", from " + Times.words(fact.start()) + until(fact.ending()) + repeat(fact)
                        + ". Rule: " + fact.rule() + ".",
                CaseMapper.CAUTION);
        frame.on(flag, scope.ids.of(fact.key()), fact.kind().isOfFacility() ? "facility-flag" : "case-flag", lines);
        FactMappers.source(flag, fact.key(), scope);
        return flag;
    }

    private static void subject(Flag fact, org.hl7.fhir.r4.model.Flag flag, CaseScope scope) {
        if (fact.kind().isOfFacility()) {
            CaseEntry check = Objects.requireNonNull(scope.entry(fact.key().anchor()));
            flag.setSubject(scope.facility(check.event().facilityId()));
        } else {
            flag.setSubject(scope.mother()).setEncounter(scope.encounter(fact.key()));
        }
    }

    private static void ending(Flag.@Nullable Ending ending, org.hl7.fhir.r4.model.Flag flag, CaseScope scope) {
        if (ending == null) {
            return;
        }
        flag.addExtension(scope.frame.extension(
                "flag-end-reason", new CodeType(ending.reason().code())));
        if (ending.by() != null) {
            FactMappers.references(List.of(ending.by()), scope)
                    .forEach(it -> flag.addExtension(scope.frame.extension("flag-ended-by", it)));
        }
    }

    private static String repeat(Flag fact) {
        if (fact.isToBeRepeated()) {
            return ", repeat to confirm";
        }
        return fact.confirmedBy() == null ? "" : ", confirmed by a repeat";
    }

    private static String until(Flag.@Nullable Ending ending) {
        if (ending == null) {
            return ", stands";
        }
        return " to " + Times.words(ending.at()) + ", "
                + switch (ending.reason()) {
                    case RESOLVED -> "ended by what was recorded then";
                    case SUPERSEDED -> "another warning took its place";
                    case NO_LONGER_OBSERVED -> "no longer observed; nothing shows that it is over";
                };
    }
}
