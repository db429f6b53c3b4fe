package example.tamponade.app.machine;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import example.tamponade.app.TamponadeAdapter;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;

/** A heap that is too small is refused with the figure, and a process without memory ends. */
class MemoryIT {

    @Test
    void refusesASmallHeapWithTheFigure() {
        assertThatThrownBy(() -> Memory.demandEnough(128L << 20))
                .isInstanceOf(IllegalStateException.class)
                .hasMessageContaining("128 MiB")
                .hasMessageContaining("256 MiB")
                .hasMessageContaining("-Xmx320m");
        assertThatCode(() -> Memory.demandEnough(240L << 20)).doesNotThrowAnyException();
    }

    @Test
    void theServerDoesNotStartWithASmallHeap() throws IOException, InterruptedException {
        Process process = new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-Xmx128m",
                        "-cp",
                        System.getProperty("java.class.path"),
                        TamponadeAdapter.class.getName(),
                        "serve")
                .redirectErrorStream(true)
                .start();
        String said = new String(process.getInputStream().readAllBytes(), UTF_8);

        assertThat(process.waitFor()).as(said).isEqualTo(1);
        assertThat(said).contains("the server needs at least 256 MiB");
    }

    @Test
    void endsTheProcessThatRunsOutOfMemory() throws IOException, InterruptedException {
        Process process = new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-Xmx16m",
                        "-XX:+UseSerialGC",
                        "-cp",
                        System.getProperty("java.class.path"),
                        Filling.class.getName())
                .redirectErrorStream(true)
                .start();
        String said = new String(process.getInputStream().readAllBytes(), UTF_8);

        assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
        assertThat(process.exitValue()).as(said).isEqualTo(Memory.EXHAUSTED);
        assertThat(said).contains("out of memory");
    }

    /** A program that fills its memory in one thread, while another would live on. */
    static final class Filling {

        private Filling() {}

        public static void main(String[] arguments) throws InterruptedException {
            Memory.watch();
            new Thread(Filling::fill).start();
            Thread.sleep(60_000);
        }

        private static void fill() {
            List<byte[]> all = new ArrayList<>();
            while (true) {
                all.add(new byte[1 << 20]);
            }
        }
    }
}
