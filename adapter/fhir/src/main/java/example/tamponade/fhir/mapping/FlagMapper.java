package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.Flag;
import example.tamponade.core.casefile.Severity;
import java.util.List;
import org.hl7.fhir.r4.model.CodeType;
import org.hl7.fhir.r4.model.StringType;

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
        flag.setSubject(scope.mother()).setEncounter(scope.encounter());
        flag.setPeriod(Times.period(fact.start(), fact.end()));
        flag.setAuthor(scope.software());
        Frame frame = scope.frame;
        String severity = severity(fact.severity());
        flag.addExtension(frame.extension("flag-severity", new CodeType(severity)));
        flag.addExtension(frame.extension("flag-rule", new StringType(fact.rule())));
        flag.addExtension(frame.extension("flag-known-from", Times.dateTime(fact.knownFrom())));
        FactMappers.references(fact.evidence(), scope)
                .forEach(it -> flag.addExtension(frame.extension("flag-evidence", it)));
        flag.addExtension(frame.extension(
                "care-protocol", new StringType(scope.file.protocol().reference())));
        flag.addExtension(frame.extension("caution", new StringType(CaseMapper.CAUTION)));
        String until = fact.end() == null ? ", stands" : " to " + Times.words(fact.end());
        List<String> lines = List.of(
                fact.text(),
                "Severity " + severity + ", from " + Times.words(fact.start()) + until + ". Rule: " + fact.rule() + ".",
                CaseMapper.CAUTION);
        frame.on(flag, scope.ids.of(fact.key()), "case-flag", lines);
        FactMappers.source(flag, fact.key(), scope);
        return flag;
    }

    private static String severity(Severity severity) {
        return switch (severity) {
            case LOW -> "low";
            case MODERATE -> "medium";
            case HIGH -> "high";
        };
    }
}
