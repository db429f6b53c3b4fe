package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.CaseEntry;
import example.tamponade.core.casefile.CaseFact;
import example.tamponade.core.casefile.DerivedValue;
import example.tamponade.core.casefile.FactInput;
import example.tamponade.core.casefile.FactKey;
import example.tamponade.core.casefile.FlagKind;
import example.tamponade.core.casefile.IssueKind;
import example.tamponade.core.casefile.Reading;
import example.tamponade.core.casefile.RecordIssue;
import example.tamponade.core.event.Coded;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;

/** What each kind of derived fact becomes, and where a fact is found. */
final class FactMappers {

    private static final Set<String> FLAGS = codes(FlagKind.values());
    private static final Set<String> ISSUES = codes(IssueKind.values());
    private static final Set<Reading> DONE = EnumSet.of(Reading.TAMPONADE, Reading.TAMPONADE_REMOVAL);

    private FactMappers() {}

    /**
     * The resource of one fact.
     *
     * @param amended whether it was sent before with other content
     */
    static Resource map(CaseFact fact, boolean amended, CaseScope scope) {
        if (fact instanceof DerivedValue value) {
            return DerivedValueMapper.map(value, amended, scope);
        }
        if (fact instanceof example.tamponade.core.casefile.Flag flag) {
            return FlagMapper.map(flag, scope);
        }
        return RecordIssueMapper.map((RecordIssue) fact, scope);
    }

    static Reference reference(FactKey key, CaseScope scope) {
        String type =
                FLAGS.contains(key.code()) ? "Flag" : ISSUES.contains(key.code()) ? "DetectedIssue" : "Observation";
        return scope.reference(type, scope.ids.of(key));
    }

    /**
     * What a fact was derived from. An event as a whole is named by its first resource, which it has whatever else it
     * says, so that the fact does not change with what does not concern it.
     */
    static List<Reference> references(List<FactInput> inputs, CaseScope scope) {
        return inputs.stream().flatMap(it -> references(it, 1, scope)).toList();
    }

    /** What an issue is about; an event as a whole is every resource it brought. */
    static List<Reference> implicated(List<FactInput> inputs, CaseScope scope) {
        return inputs.stream()
                .flatMap(it -> references(it, Integer.MAX_VALUE, scope))
                .toList();
    }

    private static Stream<Reference> references(FactInput input, int atMost, CaseScope scope) {
        if (input instanceof FactInput.OfFact fact) {
            return Stream.of(reference(fact.key(), scope));
        }
        FactInput.OfEvent of = (FactInput.OfEvent) input;
        if (of.reading() == Reading.EVENT) {
            CaseEntry entry = Objects.requireNonNull(scope.entry(of.event()));
            return EventMappers.map(scope.recorded(entry)).stream()
                    .limit(atMost)
                    .map(scope::reference);
        }
        String type = DONE.contains(of.reading()) ? "Procedure" : "Observation";
        return Stream.of(
                scope.reference(type, scope.ids.of(of.event(), of.reading().code())));
    }

    /** Names the event that the fact hangs on; its latest version stands for it. */
    static void source(Resource resource, FactKey key, CaseScope scope) {
        CaseEntry entry = scope.entry(key.anchor());
        scope.frame.source(
                resource, entry == null ? key.anchor() : entry.event().eventId());
    }

    private static Set<String> codes(Coded[] kinds) {
        return Arrays.stream(kinds).map(Coded::code).collect(Collectors.toUnmodifiableSet());
    }
}
