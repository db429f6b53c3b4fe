package example.tamponade.app.cards;

import example.tamponade.app.intake.CaseKey;
import example.tamponade.app.search.RecordSearch;
import example.tamponade.app.search.StandingFlag;
import example.tamponade.core.event.CaseId;
import example.tamponade.fhir.mapping.CaseMapper;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;

/** Makes a card of each warning that stands in a case, the most urgent first. */
public final class WarningCards {

    private static final String INFO = "info";
    private static final Map<String, String> INDICATORS =
            Map.of("high", "critical", "moderate", "warning", "low", INFO);
    private static final List<String> MOST_URGENT_FIRST = List.of("critical", "warning", INFO);

    private final RecordSearch search;

    /** Reads from that record. */
    public WarningCards(RecordSearch search) {
        this.search = search;
    }

    /**
     * The cards of a case; where no warning stands, one that says what that does not mean.
     *
     * @param server the address of this server, for links
     */
    public List<Card> of(String caseKey, String server) {
        List<Card> cards = new ArrayList<>();
        search.eachOf(
                List.of(caseKey),
                "Flag",
                Set.of(),
                (key, content) -> StandingFlag.of(content).ifPresent(it -> cards.add(card(it, caseKey, server))));
        if (cards.isEmpty()) {
            cards.add(none(caseKey, server));
        }
        cards.sort(Comparator.comparing((Card it) -> MOST_URGENT_FIRST.indexOf(it.indicator()))
                .thenComparing(Card::summary));
        return cards;
    }

    private static Card card(StandingFlag flag, String caseKey, String server) {
        return new Card(
                UUID.fromString(flag.id()),
                shortened(flag.text()),
                INDICATORS.getOrDefault(flag.severity(), "critical"),
                flag.text() + "\n\nSince " + flag.since() + ". Rule: " + flag.rule() + ". Care protocol: "
                        + flag.protocol() + ".\n\n" + CaseMapper.CAUTION,
                new Card.Source("Tamponade record adapter: " + flag.rule()),
                links(caseKey, server));
    }

    // Absence of a warning is no reassurance.
    private static Card none(String caseKey, String server) {
        return new Card(
                UUID.nameUUIDFromBytes(("no warning " + caseKey).getBytes(StandardCharsets.UTF_8)),
                "No warning stands by what was recorded; what was not recorded is not known.",
                INFO,
                "Look at when the last reading was taken.\n\n" + CaseMapper.CAUTION,
                new Card.Source("Tamponade record adapter"),
                links(caseKey, server));
    }

    private static List<Card.Link> links(String caseKey, String server) {
        CaseId caseId = Objects.requireNonNull(CaseKey.caseId(caseKey), caseKey);
        return List.of(new Card.Link(
                "Course of the case", server + "/cases/" + caseId + "?as=page&view=handover", "absolute"));
    }

    private static String shortened(String text) {
        return text.length() <= Card.LONGEST_SUMMARY ? text : text.substring(0, Card.LONGEST_SUMMARY - 1) + "…";
    }
}
