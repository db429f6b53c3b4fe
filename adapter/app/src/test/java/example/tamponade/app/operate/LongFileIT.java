package example.tamponade.app.operate;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.Samples;
import example.tamponade.app.TamponadeAdapter;
import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class LongFileIT {

    private static final int EVENTS = 20_000;
    private static final int LONG_LINES = 150;

    @TempDir
    private Path folder;

    @Test
    void takesAFileThatIsLargerThanItsMemoryAndTellsHowFarItIs() throws IOException, InterruptedException {
        Path file = folder.resolve("long.jsonl");
        write(file);
        assertThat(Files.size(file)).isGreaterThan(150L << 20);

        Path told = folder.resolve("told");
        Process take = new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-Xmx128m",
                        "-cp",
                        System.getProperty("java.class.path"),
                        TamponadeAdapter.class.getName(),
                        "take",
                        "--data",
                        folder.resolve("data").toString(),
                        "--in",
                        file.toString())
                .redirectError(told.toFile())
                .start();

        assertThat(take.waitFor()).as(Files.readString(told)).isEqualTo(2);
        List<String> lines = Files.readAllLines(told);
        assertThat(lines).anyMatch(it -> it.endsWith("10000 read so far"));
        assertThat(lines.get(lines.size() - 1))
                .endsWith(EVENTS + " stored, 0 there before, " + LONG_LINES + " refused");
    }

    private static void write(Path file) throws IOException {
        String event = new String(Samples.events("settled"), UTF_8).split("\n")[8];
        Random random = new Random(11);
        byte[] longLine = ("x".repeat(1_100_000) + "\n").getBytes(UTF_8);
        try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(file))) {
            for (int i = 0; i < EVENTS; i++) {
                String id = new UUID(random.nextLong(), random.nextLong()).toString();
                out.write((event.replaceFirst("\"eventId\":\"[^\"]*\"", "\"eventId\":\"" + id + "\"") + "\n")
                        .getBytes(UTF_8));
                if (i % (EVENTS / LONG_LINES + 1) == 0) {
                    out.write(longLine);
                }
            }
        }
    }
}
