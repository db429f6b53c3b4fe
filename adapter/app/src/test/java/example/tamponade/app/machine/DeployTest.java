package example.tamponade.app.machine;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

/** The unit and the container file start the server as the README says, and start it again. */
class DeployTest {

    private static final String FLAGS = "-XX:+UseSerialGC -Xmx320m";

    @Test
    void startItWithTheMemoryOfTheReadme() throws IOException {
        assertThat(Files.readString(Path.of("../../README.md"))).contains("`" + FLAGS + "`");
        assertThat(Files.readString(Path.of("deploy/tamponade-adapter.service")))
                .contains("java " + FLAGS + " -jar")
                .contains("Restart=on-failure");
        assertThat(Files.readString(Path.of("deploy/Containerfile")))
                .contains("\"" + FLAGS.replace(" ", "\", \"") + "\", \"-jar\"")
                .contains("--restart on-failure");
    }
}
