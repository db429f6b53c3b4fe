package example.tamponade.app.convert;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.app.CommandRun;
import example.tamponade.app.Samples;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Composition;
import org.hl7.fhir.r4.model.Resource;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

class ConvertIT {

    @TempDir
    private Path folder;

    // Nothing is written that fails its profiles: a case with such a resource is a failure, exit code 1.
    @Test
    void everySampleCaseConforms() {
        List<String> arguments = new ArrayList<>(List.of("convert", "--out", folder + "/out", "--in"));
        Samples.CASES.forEach(it -> arguments.add(Samples.file(it, folder).toString()));

        CommandRun conversion = CommandRun.of(arguments.toArray(String[]::new));

        assertThat(conversion.code()).as(conversion.err()).isEqualTo(2);
        assertThat(folder.resolve("out/case_fernglade-hp_FGL-2026-0117/Observation.ndjson"))
                .isNotEmptyFile();
    }

    @ParameterizedTest
    @CsvSource({"ndjson, referred, compiled", "transaction, referred, compiled", "document, referred, stock"})
    void everythingItWritesPassesCheck(String form, String name, String checker) {
        assertThat(convert(name, form, folder.resolve("out")).code()).isZero();

        CommandRun check =
                CommandRun.of("check", "--with", checker, folder.resolve("out").toString());

        assertThat(check.code()).as(check.err()).isZero();
        assertThat(check.err())
                .containsPattern("case_marrowby-cross_MRX-2026-.*: 0 errors, 0 warnings")
                .contains(" 0 with errors");
    }

    @Test
    void writesAPageForEachCase() throws IOException {
        assertThat(convert("referred", "pdf", folder.resolve("pdf")).code()).isZero();
        assertThat(folder.resolve("pdf/case_marrowby-cross_MRX-2026-0048.pdf")).isNotEmptyFile();
        assertThat(convert("referred", "page", folder.resolve("out")).code()).isZero();
        assertThat(contents(folder.resolve("out")).entrySet().stream()
                        .filter(it -> it.getKey().endsWith(".html"))
                        .map(Map.Entry::getValue))
                .singleElement()
                .asString()
                .contains("Case record MRX-2026-0048 of marrowby-cross", "Blood loss has reached 1000 mL.");
    }

    @ParameterizedTest
    @CsvSource({"ndjson, full", "transaction, course", "document, handover", "page, handover"})
    void pseudonymisedItConformsAndNamesNobody(String form, String view) throws IOException {
        Path key = Files.write(folder.resolve("key"), "0123456789 an invented key, for tests".getBytes(UTF_8));
        List<String> arguments = new ArrayList<>(List.of(
                "convert",
                "--as",
                form,
                "--view",
                view,
                "--pseudonyms",
                key.toString(),
                "--out",
                folder + "/out",
                "--in"));
        Samples.CASES.forEach(it -> arguments.add(Samples.file(it, folder).toString()));
        assertThat(CommandRun.of(arguments.toArray(String[]::new)).code()).isEqualTo(2);

        CommandRun check = CommandRun.of(
                "check", "--with", "compiled", folder.resolve("out").toString());
        assertThat(check.code()).as(check.err()).isZero();
        Map<String, String> written = contents(folder.resolve("out"));
        assertThat(written).hasSizeGreaterThan(9).doesNotContainKey("refused.ndjson");
        assertThat(folder.resolve("out-refused/refused.ndjson")).isNotEmptyFile();
        String all = written.toString();
        for (String sample : Samples.CASES) {
            for (String line : new String(Samples.events(sample), UTF_8).split("\n")) {
                Matcher telling = TELLING.matcher(line);
                while (telling.find()) {
                    String text = telling.group("value") == null ? telling.group("text") : telling.group("value");
                    // Beside a medicine's name, this is also what balloons are filled with.
                    if (!text.equals("saline")) {
                        assertThat(all).as(line).doesNotContain(text);
                    }
                }
            }
        }
    }

    // Whose it is, who recorded it, when, and what was written freely, as the events say it.
    private static final Pattern TELLING = Pattern.compile(
            "\"(eventId|caseId|facilityId|name|birthDate|lotNumber|occurredAt|recordedAt|corrects|retracts|id)\":"
                    + "\"(?<value>[^\"]{4,})\"|\"text\":\"(?<text>[^\"]{4,})\"");

    @Test
    void aKeyOfPseudonymsThatIsNoneIsRefused() throws IOException {
        Path shortKey = Files.write(folder.resolve("short"), new byte[8]);
        for (String key : List.of(folder.resolve("none").toString(), shortKey.toString())) {
            CommandRun run = CommandRun.of(
                    "convert",
                    "--pseudonyms",
                    key,
                    "--out",
                    folder + "/out",
                    "--in",
                    Samples.file("referred", folder).toString());
            assertThat(run.code()).isEqualTo(1);
            assertThat(run.err()).contains("openssl rand");
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"ndjson", "document"})
    void convertingTwiceGivesTheSameBytes(String form) throws IOException {
        convert("warnings", form, folder.resolve("one"));
        convert("warnings", form, folder.resolve("two"));

        assertThat(contents(folder.resolve("one"))).hasSizeGreaterThan(1).isEqualTo(contents(folder.resolve("two")));
    }

    @ParameterizedTest
    @ValueSource(strings = {"bled-again", "messy"})
    void shuffledLinesGiveTheSameResources(String name) throws IOException {
        convert(name, "ndjson", folder.resolve("in-order"));
        List<String> lines = new ArrayList<>(Arrays.asList(new String(Samples.events(name), UTF_8).split("\n")));
        Collections.shuffle(lines, new Random(7));
        Path shuffled = Files.writeString(folder.resolve("shuffled.jsonl"), String.join("\n", lines));

        CommandRun.of(
                "convert",
                "--in",
                shuffled.toString(),
                "--out",
                folder.resolve("shuffled").toString());

        Map<String, String> inOrder = contents(folder.resolve("in-order"));
        Map<String, String> arrived = contents(folder.resolve("shuffled"));
        inOrder.remove("refused.ndjson");
        arrived.remove("refused.ndjson");
        assertThat(arrived).hasSizeGreaterThan(10).isEqualTo(inOrder);
    }

    @Test
    void keepsEveryRefusedLineWithItsReasons() throws IOException {
        convert("messy", "ndjson", folder.resolve("out"));

        List<String> refused = Files.readAllLines(folder.resolve("out/refused.ndjson"));

        List<String> lines = Arrays.asList(new String(Samples.events("messy"), UTF_8).split("\n"));
        assertThat(refused)
                .hasSize(
                        Samples.expected("messy").path("events").path("refused").size());
        for (String entry : refused) {
            JsonNode one = JsonMapper.shared().readTree(entry);
            assertThat(one.path("text").asString())
                    .isEqualTo(lines.get(
                            Integer.parseInt(one.path("place").asString().substring("line ".length())) - 1));
            assertThat(one.path("reasons").get(0).path("remedy").asString()).isNotBlank();
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"course", "handover"})
    void writesAViewOfWhichEverythingPassesCheck(String view) {
        Path out = folder.resolve(view);
        String in = Samples.file("referred", folder).toString();
        assertThat(CommandRun.of("convert", "--in", in, "--out", out.toString(), "--as", "document", "--view", view)
                        .code())
                .isZero();
        assertThat(out).isDirectoryContaining(it -> it.toString().endsWith(".document.json"));
        assertThat(CommandRun.of("check", "--with", "stock", out.toString()).code())
                .isZero();
    }

    // What it withdraws may be in the next file: it stops nothing.
    @ParameterizedTest
    @ValueSource(strings = {"ndjson", "transaction", "document"})
    void convertsTheRestOfAFileWithARetractionOfWhatHasNotCome(String form) throws IOException {
        Path file = Files.writeString(
                folder.resolve("early.jsonl"),
                Samples.retractionAlone("LATE-1") + "\n" + new String(Samples.events("settled"), UTF_8));
        Path out = folder.resolve("early-" + form);

        CommandRun run = CommandRun.of("convert", "--in", file.toString(), "--out", out.toString(), "--as", form);

        assertThat(run.code()).isZero();
        assertThat(out).isDirectoryNotContaining(it -> it.toString().contains("LATE-1"));
        assertThat(out).isDirectoryContaining(it -> it.toString().contains("FGL-2026-0117"));
    }

    @Test
    void convertsTheRestOfAFileWithBadLines() throws IOException {
        Path file = folder.resolve("bad.jsonl");
        byte[] good = Samples.events("referred");
        try (var out = Files.newOutputStream(file)) {
            out.write("x".repeat(10 << 20).getBytes(UTF_8));
            out.write(new byte[] {'\n', (byte) 0xff, (byte) 0xfe, '\n'});
            out.write("{\"eventId\":\n".getBytes(UTF_8));
            out.write(good);
        }
        Files.createFile(folder.resolve("empty.jsonl"));

        CommandRun run = CommandRun.of(
                "convert",
                "--in",
                file.toString(),
                folder.resolve("empty.jsonl").toString(),
                "--out",
                folder.resolve("out").toString());

        assertThat(run.code()).isEqualTo(2);
        assertThat(run.err()).contains("159 events taken, 0 repeated, 4 refused");
        assertThat(Files.readString(folder.resolve("out/refused.ndjson")))
                .contains("too-long", "wrong-encoding", "malformed-json", "empty-input");
    }

    @Test
    void refusesASecondEventWithTheSameId() throws IOException {
        String line = new String(Samples.events("referred"), UTF_8).split("\n")[5];
        String other = line.replaceFirst("\"occurredAt\":\"2026-03-03T..", "\"occurredAt\":\"2026-03-03T05");
        Path file = Files.writeString(folder.resolve("twice.jsonl"), line + "\n" + other + "\n" + line + "\n");

        CommandRun run = CommandRun.of(
                "convert",
                "--in",
                file.toString(),
                "--out",
                folder.resolve("out").toString());

        assertThat(other).isNotEqualTo(line);
        assertThat(run.err()).contains("1 events taken, 1 repeated, 1 refused");
        assertThat(Files.readString(folder.resolve("out/refused.ndjson"))).contains("conflict", "corrects it");
    }

    // A receiver that was sent a case with gaps, and then the whole one, has what the whole case alone gives it, and
    // nothing
    // else that stands.
    @ParameterizedTest
    @ValueSource(strings = {"ndjson", "transaction", "document"})
    void whatHoldsNoMoreIsWithdrawn(String form) throws IOException {
        List<String> lines = Arrays.asList(new String(Samples.events("referred"), UTF_8).split("\n"));
        Path half = folder.resolve("half.jsonl");
        Files.write(
                half,
                IntStream.range(0, lines.size())
                        .filter(it -> it % 3 != 1)
                        .mapToObj(lines::get)
                        .toList());
        CommandRun.of("convert", "--in", half.toString(), "--out", folder + "/first", "--as", form);
        convert("referred", "transaction", folder.resolve("alone"));
        Path whole = Samples.file("referred", folder);
        CommandRun run = CommandRun.of(
                "convert",
                "--in",
                whole.toString(),
                "--out",
                folder + "/second",
                "--as",
                "transaction",
                "--against",
                folder + "/first");
        assertThat(run.code()).as(run.err()).isZero();

        Map<String, Resource> alone = bundled(folder.resolve("alone"));
        Map<String, Resource> second = bundled(folder.resolve("second"));
        assertThat(second.keySet()).containsAll(alone.keySet());
        alone.forEach((address, resource) ->
                assertThat(resource.equalsDeep(second.get(address))).as(address).isTrue());
        Set<String> withdrawn = new TreeSet<>(second.keySet());
        withdrawn.removeAll(alone.keySet());
        assertThat(withdrawn).anyMatch(it -> it.startsWith("Flag/"));
        assertThat(withdrawn.stream().filter(it -> it.matches("(Flag|Observation|DetectedIssue)/.*")))
                .allMatch(it -> FhirContext.forR4Cached()
                        .newJsonParser()
                        .encodeResourceToString(second.get(it))
                        .contains("\"status\":\"entered-in-error\""));
        assertThat(CommandRun.of("check", folder + "/second").code()).isZero();
    }

    @Test
    void anOutputThatIsNoneIsNamed() throws IOException {
        Path former = Files.createDirectories(folder.resolve("former"));
        Files.writeString(
                former.resolve("case_marrowby-cross_MRX-2026-0048.transaction.json"), "{\"resourceType\":\"Patient\"}");
        CommandRun run = CommandRun.of(
                "convert",
                "--in",
                Samples.file("referred", folder).toString(),
                "--out",
                folder + "/out",
                "--against",
                former.toString());
        assertThat(run.code()).isEqualTo(1);
        assertThat(run.err()).contains("MRX-2026-0048.transaction.json is not what convert writes", "leave it out");
    }

    private static Map<String, Resource> bundled(Path folder) throws IOException {
        Map<String, Resource> resources = new TreeMap<>();
        Bundle bundle = FhirContext.forR4Cached()
                .newJsonParser()
                .parseResource(
                        Bundle.class,
                        Files.readString(folder.resolve("case_marrowby-cross_MRX-2026-0048.transaction.json")));
        bundle.getEntry().forEach(it -> resources.put(it.getRequest().getUrl(), it.getResource()));
        return resources;
    }

    @Test
    void saysWhatIsWrongWithTheCommand() {
        assertThat(CommandRun.of("convert", "--in", "nowhere.jsonl", "--out", folder.toString()))
                .satisfies(it -> assertThat(it.code()).isEqualTo(1))
                .satisfies(it -> assertThat(it.err()).contains("no such file: nowhere.jsonl"));
        assertThat(CommandRun.of("convert", "--out", folder.toString()).code()).isEqualTo(1);
        assertThat(CommandRun.of("convert", "--help").out()).contains("refused.ndjson", "Exit codes");
    }

    @Test
    void aDocumentLeadsWithItsCautionAndItsSections() throws IOException {
        convert("referred", "document", folder);

        Bundle document = FhirContext.forR4Cached()
                .newJsonParser()
                .parseResource(
                        Bundle.class,
                        Files.readString(folder.resolve("case_marrowby-cross_MRX-2026-0048.document.json")));

        assertThat(document.getType()).isEqualTo(Bundle.BundleType.DOCUMENT);
        Composition composition = (Composition) document.getEntryFirstRep().getResource();
        assertThat(composition.getExtension().get(0).getValue().primitiveValue())
                .contains("not a medical device", "Local protocols");
        assertThat(composition.getSection())
                .hasSizeGreaterThan(8)
                .allSatisfy(it -> assertThat(it.getText().getDivAsString()).isNotBlank());
    }

    private static CommandRun convert(String name, String form, Path out) {
        Path file = Samples.file(name, out.getParent());
        return CommandRun.of("convert", "--in", file.toString(), "--out", out.toString(), "--as", form);
    }

    private static Map<String, String> contents(Path folder) throws IOException {
        Map<String, String> contents = new TreeMap<>();
        try (Stream<Path> files = Files.walk(folder)) {
            for (Path file : files.filter(Files::isRegularFile).toList()) {
                contents.put(folder.relativize(file).toString(), Files.readString(file));
            }
        }
        return contents;
    }
}
