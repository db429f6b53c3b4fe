package example.tamponade.app.message;

import static example.tamponade.app.message.Messages.LOSS;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.OperatorLogin;
import example.tamponade.app.database.Database;
import example.tamponade.app.serve.ServerConfiguration;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.boot.SpringApplication;
import org.springframework.boot.web.server.context.WebServerApplicationContext;
import org.springframework.context.ConfigurableApplicationContext;

/** HL7 over HTTP, as the draft specification of the HAPI project (17 January 2018) carries messages. */
class MessageHttpIT {

    @TempDir
    private Path data;

    private final HttpClient client = HttpClient.newHttpClient();
    private ConfigurableApplicationContext context;

    @BeforeEach
    void start() {
        context = new SpringApplication(ServerConfiguration.class).run("--server.port=0", "--tamponade.data=" + data);
    }

    @AfterEach
    void stop() {
        context.close();
    }

    // 2.4: the answer has the content type of the request; charset is UTF-8.
    @ParameterizedTest
    @ValueSource(strings = {"application/hl7-v2+er7", "x-application/hl7-v2+er7", "application/hl7-v2"})
    void answersInTheContentTypeOfTheMessage(String type) throws Exception {
        HttpResponse<String> answer = post(type + "; charset=utf-8", LOSS);

        assertThat(answer.statusCode()).isEqualTo(200);
        assertThat(answer.headers().firstValue("Content-Type").orElseThrow())
                .isEqualToIgnoringCase(type + ";charset=UTF-8");
        assertThat(answer.body()).contains("MSA|AA|T1");
    }

    // 2.6: an acknowledgement with AE or AR is a success of the transport, 2xx.
    @Test
    void errorsAndRejectionsAreAnsweredInTheAcknowledgement() throws Exception {
        HttpResponse<String> error = post("application/hl7-v2", LOSS.replace("350|mL^^UCUM", "350|"));
        HttpResponse<String> reject = post("application/hl7-v2", "good evening");

        assertThat(error.statusCode()).isEqualTo(200);
        assertThat(error.body()).contains("MSA|AE|T1").contains("ERR||OBX^4^6|103");
        assertThat(reject.statusCode()).isEqualTo(200);
        assertThat(reject.body()).contains("MSA|AR");
    }

    // 2.6: when it could not be processed the status is not 2xx and the content is no message.
    @Test
    void whatCouldNotBeTakenIsToBeSentAgain() throws Exception {
        context.getBean(Database.class).close();

        HttpResponse<String> answer = post("application/hl7-v2", LOSS);

        assertThat(answer.statusCode()).isEqualTo(503);
        assertThat(answer.headers().firstValue("Content-Type").orElseThrow()).startsWith("text/plain");
        assertThat(answer.body()).contains("again").doesNotContain("MSA");
    }

    @Test
    void refusesOtherCharacterSetsAndOtherTypes() throws Exception {
        assertThat(post("application/hl7-v2; charset=iso-8859-1", LOSS).statusCode())
                .isEqualTo(415);
        assertThat(post("application/hl7-v2+xml", "<ORU_R01/>").statusCode()).isEqualTo(415);
    }

    private HttpResponse<String> post(String type, String message) throws IOException, InterruptedException {
        int port = ((WebServerApplicationContext) context).getWebServer().getPort();
        HttpRequest request = HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + port + "/messages"))
                .header("Authorization", OperatorLogin.of(data))
                .header("Content-Type", type)
                .POST(HttpRequest.BodyPublishers.ofString(message, UTF_8))
                .build();
        return client.send(request, HttpResponse.BodyHandlers.ofString(UTF_8));
    }
}
