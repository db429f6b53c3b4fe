package example.tamponade.app.rest;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.app.database.TestDatabase;
import example.tamponade.app.serve.RunningServer;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Flag;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Resource;
import org.junit.jupiter.api.Test;

/** The commands of the README, as they stand there, but for the port. */
class ReadmeCommandsIT {

    private static final Path ROOT = Path.of("../..");
    private static final FhirContext FHIR = FhirContext.forR4Cached();

    @Test
    void readOverFhirWhatTheReadmeSays() throws Exception {
        String readme = Files.readString(ROOT.resolve("README.md"));
        Matcher block = Pattern.compile("## Reading over FHIR.*?```sh\n(.*?)```", Pattern.DOTALL)
                .matcher(readme);
        assertThat(block.find()).isTrue();
        List<String> lines =
                block.group(1).lines().filter(it -> !it.startsWith("#")).toList();
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                RunningServer server = RunningServer.start(database)) {
            String at = lines.get(0)
                    .replace("8080", Integer.toString(server.port()))
                    .replace("data/", database.settings().folder() + "/");
            List<String> answers = new ArrayList<>();
            for (String line : lines.subList(1, lines.size())) {
                answers.add(run(at + "\n" + line));
                while (!server.get("/ledger").body().contains("\"casesBehind\":0")) {
                    Thread.onSpinWait();
                }
            }
            assertThat(answers).hasSize(8);
            assertThat(answers.get(0)).contains("\"stored\":159");
            assertThat(bundle(answers.get(1)).getType()).isEqualTo(Bundle.BundleType.DOCUMENT);
            assertThat(types(answers.get(2))).containsExactly("EpisodeOfCare", "Patient");
            assertThat(bundle(answers.get(3)).getEntry())
                    .hasSizeGreaterThan(10)
                    .allSatisfy(it -> assertThat(((Observation) it.getResource()).getCategory())
                            .anyMatch(one -> one.getText().equals("Derived")));
            assertThat(bundle(answers.get(4)).getEntry())
                    .isNotEmpty()
                    .allSatisfy(it ->
                            assertThat(((Flag) it.getResource()).getStatus()).isEqualTo(Flag.FlagStatus.ACTIVE));
            assertThat(answers.get(5).lines())
                    .hasSize(12)
                    .anyMatch(it -> it.startsWith("outcome-on-record,Outcome on record,1,1,100.0,more,"));
            assertThat(answers.get(6)).contains("\"resourceType\":\"CapabilityStatement\"");
            assertThat(answers.get(7)).contains("202", "/exports/");
        }
    }

    private static Bundle bundle(String answer) {
        return FHIR.newJsonParser().parseResource(Bundle.class, answer);
    }

    private static Set<String> types(String answer) {
        Set<String> types = new TreeSet<>();
        bundle(answer).getEntry().stream()
                .map(Bundle.BundleEntryComponent::getResource)
                .map(Resource::fhirType)
                .forEach(types::add);
        return types;
    }

    private static String run(String commands) throws IOException, InterruptedException {
        Process process = new ProcessBuilder("bash", "-c", commands)
                .directory(ROOT.toFile())
                .redirectError(ProcessBuilder.Redirect.INHERIT)
                .start();
        String answer = new String(process.getInputStream().readAllBytes(), UTF_8);
        assertThat(process.waitFor()).as(commands).isZero();
        return answer;
    }
}
