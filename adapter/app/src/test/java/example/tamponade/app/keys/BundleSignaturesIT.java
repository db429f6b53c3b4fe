package example.tamponade.app.keys;

import static org.assertj.core.api.Assertions.assertThat;

import com.nimbusds.jose.jwk.JWKSet;
import example.tamponade.app.CommandRun;
import example.tamponade.app.Samples;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.SerializationFeature;
import tools.jackson.databind.json.JsonMapper;

/** Signatures of what is handed on: RFC 7515, appendix F; FHIR R4, Canonical JSON. */
class BundleSignaturesIT {

    @TempDir
    private Path folder;

    @Test
    void aFileThatWasChangedIsNoLongerSigned() throws IOException {
        Path keys = folder.resolve("keys.json");
        CommandRun.of("keys", "add", keys.toString());
        Path published = Files.writeString(
                folder.resolve("published.json"), new JWKSet(new KeyFile(keys).published()).toString());
        Path out = folder.resolve("out");
        CommandRun converted = CommandRun.of(
                "convert",
                "--in",
                Samples.file("referred", folder).toString(),
                "--out",
                out.toString(),
                "--as",
                "document",
                "--view",
                "handover",
                "--sign-with",
                keys.toString());
        assertThat(converted.code()).as(converted.err()).isZero();
        Path file = out.resolve("case_marrowby-cross_MRX-2026-0048.document.json");
        Path signature = out.resolve(file.getFileName() + ".jws");
        assertThat(Files.readString(signature)).matches("[\\w-]+\\.\\.[\\w-]+\n");
        String text = Files.readString(file);

        assertThat(check(file, published)).isEmpty();
        Files.writeString(file, laidOutAnew(text));
        assertThat(check(file, published)).as("laid out in another way").isEmpty();
        Files.writeString(file, text.replaceFirst("\"value\":(\\d+)", "\"value\":1$1"));
        assertThat(check(file, published)).contains("it is not what was signed");
        Files.writeString(file, text.replaceFirst("\"value\":(\\d+\\.\\d)([,}])", "\"value\":$10$2"));
        assertThat(check(file, published)).as("a digit more").contains("it is not what was signed");
        Files.writeString(file, text);
        CommandRun.of("keys", "add", folder.resolve("others.json").toString());
        Path others = Files.writeString(
                folder.resolve("others-published.json"),
                new JWKSet(new KeyFile(folder.resolve("others.json")).published()).toString());
        assertThat(check(file, others)).contains("which is not in");
        Files.writeString(signature, "x");
        assertThat(check(file, published)).contains("is no signature of this file");
        Files.delete(signature);
        assertThat(check(file, published)).contains("nobody vouches for the file");
    }

    private static String laidOutAnew(String text) {
        JsonMapper mapper = JsonMapper.builder()
                .enable(SerializationFeature.INDENT_OUTPUT)
                .enable(tools.jackson.databind.DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
                .disable(tools.jackson.databind.cfg.JsonNodeFeature.STRIP_TRAILING_BIGDECIMAL_ZEROES)
                .build();
        return mapper.writeValueAsString(mapper.readTree(text.getBytes(StandardCharsets.UTF_8)));
    }

    // What is wrong with it; empty when nothing is.
    private static String check(Path file, Path published) {
        CommandRun run =
                CommandRun.of("check", "--with", "compiled", "--signed-by", published.toString(), file.toString());
        assertThat(run.code()).isEqualTo(run.err().contains("; ") ? 2 : 0);
        return run.code() == 0 ? "" : run.out();
    }

    @Test
    void linesAndPagesAreNotSigned() throws IOException {
        assertThat(CommandRun.of(
                                "convert",
                                "--in",
                                Samples.file("referred", folder).toString(),
                                "--out",
                                folder.toString(),
                                "--sign-with",
                                "x")
                        .err())
                .contains("--as document or --as transaction");
    }
}
