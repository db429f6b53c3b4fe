package example.tamponade.app.summary;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.SampleCases;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.casefile.Flag;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.Referral;
import example.tamponade.core.event.ReferralStep;
import example.tamponade.core.protocol.CareProtocol;
import example.tamponade.fhir.bundle.CaseBundles;
import example.tamponade.fhir.bundle.CaseView;
import example.tamponade.fhir.mapping.CaseMapper;
import example.tamponade.fhir.terms.Terms;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Communication;
import org.hl7.fhir.r4.model.Composition;
import org.hl7.fhir.r4.model.Resource;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.web.util.HtmlUtils;

/** No page and no view of a case shows fewer standing warnings than the case has, however far it has come. */
class StandingWarningsTest {

    private static final Terms TERMS = Terms.read();
    private static final int EVERY = 9;

    @ParameterizedTest
    @ValueSource(strings = {"settled", "referred", "bled-again", "warnings", "messy"})
    void everyViewShowsEachOfThem(String name) {
        List<EventEnvelope> events = inOrder(name);
        for (int size = 5; size <= events.size(); size += EVERY) {
            see(events.subList(0, size));
        }
        see(events);
    }

    private static List<EventEnvelope> inOrder(String name) {
        List<EventEnvelope> events = new ArrayList<>(SampleCases.events(name));
        events.removeIf(it -> it.caseId() == null);
        events.sort(Comparator.comparing(it -> it.occurredAt().toInstant()));
        return events;
    }

    private static void see(List<EventEnvelope> events) {
        CaseFile recorded = CaseFile.of(events.get(0).caseId(), CareProtocol.standard(), events);
        List<String> standing = standing(recorded);

        seeOnPages(recorded, standing);
        seeInBundle(recorded, events, standing);
    }

    private static void seeOnPages(CaseFile file, List<String> standing) {
        CaseSummary summary = new SummaryBuilder(TERMS).summary(file, 0);
        String text = between(SummaryPage.TEXT.of(summary), "WARNINGS THAT STAND", "WORKED OUT");
        String html =
                between(HtmlUtils.htmlUnescape(SummaryPage.HTML.of(summary)), "Warnings that stand", "Worked out");

        assertThat(text.lines().filter(it -> it.contains(" since "))).hasSizeGreaterThanOrEqualTo(standing.size());
        assertThat(html.lines().filter(it -> it.contains(">since "))).hasSizeGreaterThanOrEqualTo(standing.size());
        standing.forEach(it -> {
            assertThat(text).contains(it);
            assertThat(html).contains(it);
        });
    }

    private static void seeInBundle(CaseFile file, List<EventEnvelope> events, List<String> standing) {
        for (CaseView view : CaseView.values()) {
            seeInBundle(view, file, events, standing);
        }
    }

    private static void seeInBundle(CaseView view, CaseFile file, List<EventEnvelope> events, List<String> standing) {
        CaseMapper mapper = new CaseMapper(TERMS, "0.1.0");
        List<Resource> resources = mapper.resources(file, events, id -> "0".repeat(64));
        CaseBundles bundles = new CaseBundles(TERMS, mapper);
        Bundle bundle = bundles.document(file, view, bundles.view(view, resources));

        List<String> active = bundle.getEntry().stream()
                .map(Bundle.BundleEntryComponent::getResource)
                .filter(it -> it instanceof org.hl7.fhir.r4.model.Flag flag
                        && flag.getStatus() == org.hl7.fhir.r4.model.Flag.FlagStatus.ACTIVE)
                .map(it -> ((org.hl7.fhir.r4.model.Flag) it).getCode().getText())
                .toList();
        assertThat(active).containsExactlyInAnyOrderElementsOf(standing);
        String read = ((Composition) bundle.getEntryFirstRep().getResource())
                .getSection().stream().map(it -> it.getText().getDivAsString()).reduce("", String::concat);
        standing.forEach(it -> assertThat(read).contains(it));
        seeAtHandover(resources, events, standing);
    }

    private static void seeAtHandover(List<Resource> resources, List<EventEnvelope> events, List<String> standing) {
        boolean handedOver = events.get(events.size() - 1).data() instanceof Referral referral
                && (referral.step() == ReferralStep.DEPARTED || referral.step() == ReferralStep.HANDED_OVER);
        if (handedOver) {
            String notes = resources.stream()
                    .filter(Communication.class::isInstance)
                    .map(it -> ((Communication) it)
                            .getPayload()
                            .get(((Communication) it).getPayload().size() > 2 ? 2 : 0)
                            .getContentStringType()
                            .getValue())
                    .reduce("", String::concat);
            standing.forEach(it -> assertThat(notes).contains(it));
        }
    }

    private static List<String> standing(CaseFile file) {
        return file.facts().stream()
                .filter(it -> it instanceof Flag flag && flag.end() == null)
                .map(it -> ((Flag) it).text())
                .toList();
    }

    private static String between(String page, String begin, String end) {
        return page.substring(page.indexOf(begin), page.indexOf(end));
    }
}
