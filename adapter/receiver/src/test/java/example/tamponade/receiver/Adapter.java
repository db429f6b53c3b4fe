package example.tamponade.receiver;

import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.context.FhirContext;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Bundle;

/** The packaged adapter, and the samples that it converts. */
final class Adapter {

    private static final Path JAR = Path.of("../app/target/tamponade-adapter.jar");
    private static final Path SAMPLES = Path.of("../../samples/events");
    private static final Pattern EVENT =
            Pattern.compile("[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}");

    private Adapter() {}

    /** The transaction bundles of all samples. */
    static List<Bundle> samples(Path folder) throws IOException, InterruptedException {
        List<String> files;
        try (Stream<Path> all = Files.list(SAMPLES)) {
            files = all.map(Path::toString).sorted().toList();
        }
        return converted(files, "full", folder);
    }

    /** A sample as another facility would have sent it that numbers its cases alike. */
    static List<Bundle> ofAnotherFacility(String sample, String facility, String view, Path folder)
            throws IOException, InterruptedException {
        return beginning(sample, Integer.MAX_VALUE, facility, view, folder);
    }

    /** The first events of such a sample. */
    static List<Bundle> beginning(String sample, int events, String facility, String view, Path folder)
            throws IOException, InterruptedException {
        String others = eventsOf(sample, events, facility);
        Path file = Files.writeString(folder.resolve(facility + "-" + view + ".jsonl"), others);
        return converted(List.of(file.toString()), view, folder);
    }

    /** Those events, one a line. */
    static String eventsOf(String sample, int events, String facility) throws IOException {
        String first = Files.readString(SAMPLES.resolve(sample + ".jsonl"))
                .lines()
                .limit(events)
                .collect(Collectors.joining("\n"));
        return EVENT.matcher(first)
                .replaceAll(it -> UUID.nameUUIDFromBytes((facility + it.group()).getBytes(StandardCharsets.UTF_8))
                        .toString())
                .replaceAll("\"(facilityId|caseFacility)\":\"", "$0" + facility + "-")
                // Her number in a register is hers alone.
                .replaceAll("ward-register\",\"value\":\"", "$0" + facility + "-");
    }

    private static List<Bundle> converted(List<String> files, String view, Path folder)
            throws IOException, InterruptedException {
        Path out = Files.createTempDirectory(folder, "out");
        List<String> command = new ArrayList<>(List.of(
                System.getProperty("java.home") + "/bin/java", "-Xmx320m", "-jar", JAR.toString(), "convert", "--in"));
        command.addAll(files);
        command.addAll(List.of("--out", out.toString(), "--as", "transaction", "--view", view));
        int code = new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectOutput(folder.resolve("convert.log").toFile())
                .start()
                .waitFor();
        // 2: one of the samples has lines that are refused.
        assertThat(code).as(Files.readString(folder.resolve("convert.log"))).isIn(0, 2);
        try (Stream<Path> written = Files.list(out)) {
            return written.filter(it -> it.toString().endsWith(".transaction.json"))
                    .sorted()
                    .map(Adapter::read)
                    .toList();
        }
    }

    private static Bundle read(Path file) {
        try {
            return FhirContext.forR4Cached().newJsonParser().parseResource(Bundle.class, Files.readString(file));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
