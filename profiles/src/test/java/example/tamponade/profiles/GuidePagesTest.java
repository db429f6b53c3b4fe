package example.tamponade.profiles;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** The pages of the guide, as the build wrote them. */
class GuidePagesTest {

    private static final Path PAGES = Path.of("target/guide");
    private static final Pattern LINK = Pattern.compile("href=\"([^\"]+)\"");

    @Test
    void everyProfileAndExtensionHasAPageWithItsDescriptionItsCautionAndAnExample() {
        Published.all("StructureDefinition").forEach(profile -> {
            String page = page(Published.text(profile, "id") + ".html");
            assertThat(page)
                    .contains(Published.text(profile, "url"))
                    .contains("not a medical device")
                    .contains("What it asks for");
            if (!profile.path("abstract").asBoolean()
                    && !Published.text(profile, "type").equals("Extension")) {
                assertThat(page).contains("<h2>Example ");
            }
        });
    }

    @Test
    void everyProfileOfWhatIsRecordedOrWorkedOutSaysWhereItComesFrom() {
        Set<String> without = Published.profiles()
                .map(it -> Published.text(it, "id"))
                .filter(it -> !page(it + ".html").contains("<h2>Where it comes from")
                        && !page(it + ".html").contains("<h2>How it is worked out"))
                .collect(Collectors.toCollection(TreeSet::new));
        assertThat(without)
                .containsExactly(
                        "adapter-software",
                        "case-bundle",
                        "case-composition",
                        "case-flag",
                        "case-transaction",
                        "derivation-provenance",
                        "facility-flag",
                        "record-issue",
                        "refusal");
    }

    @Test
    void whatComesFromAnEventIsAPropertyOfTheVocabulary() throws IOException {
        Set<String> known = new HashSet<>();
        for (String system : new String[] {"event-property", "event-type"}) {
            Published.all("CodeSystem")
                    .filter(it -> Published.text(it, "id").equals(system))
                    .forEach(it -> known.addAll(it.path("concept").findValuesAsText("code")));
        }
        JsonNode comesFrom =
                new ObjectMapper().readTree(Files.readString(Path.of("src/main/fhir/guide/comes-from.json")));
        Set<String> profiles =
                Published.profiles().map(it -> Published.text(it, "id")).collect(Collectors.toSet());
        comesFrom.properties().forEach(line -> {
            assertThat(profiles).contains(line.getKey());
            line.getValue().forEach(it -> assertThat(known).contains(it.asText()));
        });
    }

    @Test
    void everyLinkLeadsToAPage() {
        Matcher links = LINK.matcher(page("index.html"));
        int found = 0;
        while (links.find()) {
            assertThat(PAGES.resolve(links.group(1))).exists();
            found++;
        }
        assertThat(found).isEqualTo((int) Published.all("StructureDefinition").count());
    }

    private static String page(String name) {
        try {
            return Files.readString(PAGES.resolve(name));
        } catch (IOException e) {
            throw new AssertionError("no page " + name, e);
        }
    }
}
