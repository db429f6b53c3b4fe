package example.tamponade.app;

import static org.assertj.core.api.Assertions.assertThat;

import com.networknt.schema.Error;
import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import example.tamponade.core.protocol.CareProtocol;
import example.tamponade.core.protocol.Setting;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** The published schema of the care protocol says what the loader says, as far as a schema can. */
class ProtocolSchemaTest {

    private static final String PROTOCOL = resource("standard-protocol.yaml");
    private static final Schema SCHEMA = SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema(resource("care-protocol.schema.json"), InputFormat.JSON);

    @Test
    void theStandardProtocolFitsItsSchema() {
        assertThat(errors(PROTOCOL)).isEmpty();
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            unit: g/mL       | unit: kg/L
            value: 1.0       | value: one
            blood-density:   | blood-densty:
            value: weight    | value: length
            possible: [1,    | possible: [
            version: "1"     | vers: "1"
            [{every: 5}]     | [{every: 0}]
            [{every: 5}]     | [{every: 2.5}]
            raised-from: 0.9 | raised-from: 0
            """)
    void refusesWhatTheLoaderRefuses(String right, String wrong) {
        assertThat(errors(PROTOCOL.replace(right, wrong))).isNotEmpty();
    }

    @ParameterizedTest
    @EnumSource(Setting.class)
    void knowsTheRangeOfEverySetting(Setting setting) {
        for (String beyond : List.of("-1", "10000000")) {
            String broken = PROTOCOL.replaceFirst("(?<=\n  " + setting.code() + ":\n    value: )\\S+", beyond);
            assertThat(errors(broken)).as(setting.code()).isNotEmpty();
        }
    }

    private static List<Error> errors(String yaml) {
        return SCHEMA.validate(yaml, InputFormat.YAML);
    }

    private static String resource(String name) {
        try (InputStream in = CareProtocol.class.getResourceAsStream(name)) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
    }
}
