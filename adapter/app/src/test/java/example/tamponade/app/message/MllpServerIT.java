package example.tamponade.app.message;

import static example.tamponade.app.message.Messages.LOSS;
import static example.tamponade.app.message.Messages.VITALS;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.hl7v2.DefaultHapiContext;
import ca.uhn.hl7v2.HapiContext;
import ca.uhn.hl7v2.app.Connection;
import ca.uhn.hl7v2.model.v251.message.ACK;
import ca.uhn.hl7v2.parser.CanonicalModelClassFactory;
import example.tamponade.app.ledger.Ledger;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;
import javax.net.ServerSocketFactory;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** MLLP as the HL7 library's client and as bare sockets speak it. */
class MllpServerIT {

    private static final String BEGIN = "\u000b";
    private static final String END = "\u001c\r";

    private static final Duration PATIENCE = Duration.ofMillis(500);

    @TempDir
    private Path data;

    private TestPath path;
    private MllpServer server;

    @BeforeEach
    void start() throws IOException {
        path = TestPath.in(data);
        server = new MllpServer(
                ServerSocketFactory.getDefault(), InetAddress.getLoopbackAddress(), 0, 2, PATIENCE, path.receiver());
    }

    @AfterEach
    void stop() throws IOException {
        server.close();
        path.close();
    }

    @Test
    void answersSeveralMessagesOfTheLibrarysClientOnOneConnection() throws Exception {
        try (HapiContext context = new DefaultHapiContext(new CanonicalModelClassFactory("2.5.1"))) {
            Connection connection = context.newClient("127.0.0.1", server.port(), false);
            connection.getInitiator().setTimeout(60, TimeUnit.SECONDS);
            for (String message : List.of(LOSS, VITALS, LOSS)) {
                ACK ack = (ACK) connection
                        .getInitiator()
                        .sendAndReceive(context.getPipeParser().parse(message.replace('\n', '\r')));
                assertThat(ack.getMSA().getAcknowledgmentCode().getValue()).isEqualTo("AA");
            }
            connection.close();
        }
        assertThat(stored()).isEqualTo(2);
    }

    @Test
    void answersInOrderWhatCameInOneWrite() throws Exception {
        List<String> answers = answers(BEGIN + LOSS + END + BEGIN + VITALS + END, 2);

        assertThat(answers.get(0)).contains("MSA|AA|T1");
        assertThat(answers.get(1)).contains("MSA|AA|T2");
    }

    @Test
    void passesOverWhatStandsOutsideOfBlocks() throws Exception {
        assertThat(answers("hello\r\n" + BEGIN + LOSS + END + "\n\n" + BEGIN + VITALS + END, 2))
                .allMatch(it -> it.contains("MSA|AA|"));
    }

    @Test
    void rejectsABlockThatHoldsNoMessageAndReadsTheNext() throws Exception {
        List<String> answers = answers(BEGIN + "good evening" + END + BEGIN + LOSS + END, 2);

        assertThat(answers.get(0)).contains("MSA|AR");
        assertThat(answers.get(1)).contains("MSA|AA|T1");
    }

    @Test
    void answersAUnitThatNoParserCanBearAndServesOn() throws Exception {
        String spoilt = LOSS.replace("mL^^UCUM", "cm9999.dm-9996^^UCUM");
        for (int connection = 0; connection < 5; connection++) {
            assertThat(answers(BEGIN + spoilt + END, 1).get(0))
                    .contains("MSA|AE|T1")
                    .contains("wrong-unit");
        }

        assertThat(answers(BEGIN + LOSS + END, 1).get(0)).contains("MSA|AA|T1");
    }

    @Test
    void takesNothingOfHalfABlockAndServesTheNextConnection() throws Exception {
        try (Socket socket = connect()) {
            socket.getOutputStream().write((BEGIN + LOSS.substring(0, LOSS.length() / 2)).getBytes(UTF_8));
            socket.shutdownOutput();
            assertThat(socket.getInputStream().read()).isEqualTo(-1);
        }

        assertThat(answers(BEGIN + LOSS.substring(0, 40) + BEGIN + VITALS + END, 1)
                        .get(0))
                .contains("MSA|AA|T2");
        assertThat(stored()).isEqualTo(1);
    }

    @Test
    void connectionsWithoutMessagesMakePlaceForThoseWithOne() throws Exception {
        try (Socket first = connect();
                Socket second = connect()) {
            first.getOutputStream().write((BEGIN + VITALS + END).getBytes(UTF_8));
            second.getOutputStream().write("\n".getBytes(UTF_8));

            assertThat(answers(BEGIN + LOSS + END, 1).get(0)).contains("MSA|AA|T1");
        }
    }

    @Test
    void closesAConnectionWhoseMessageDoesNotGetOn() throws Exception {
        try (Socket socket = connect()) {
            socket.setSoTimeout(60_000);
            OutputStream out = socket.getOutputStream();
            out.write((BEGIN + LOSS.substring(0, 30)).getBytes(UTF_8));

            assertThat(socket.getInputStream().read()).isEqualTo(-1);
        }
    }

    @Test
    void rejectsABlockOfFiftyMegabytesAndReadsTheNext() throws Exception {
        try (Socket socket = connect()) {
            OutputStream out = socket.getOutputStream();
            out.write((BEGIN + LOSS + "NTE|1||").getBytes(UTF_8));
            byte[] megabyte = new byte[1 << 20];
            Arrays.fill(megabyte, (byte) 'x');
            for (int i = 0; i < 50; i++) {
                out.write(megabyte);
            }
            out.write((END + BEGIN + VITALS + END).getBytes(UTF_8));
            out.flush();

            assertThat(answer(socket.getInputStream())).contains("MSA|AR|T1").contains("too-long");
            assertThat(answer(socket.getInputStream())).contains("MSA|AA|T2");
        }
    }

    @Test
    void stopsWhileConnectionsEndByThemselves() throws Exception {
        for (int round = 0; round < 300; round++) {
            MllpServer stopping = new MllpServer(
                    ServerSocketFactory.getDefault(),
                    InetAddress.getLoopbackAddress(),
                    0,
                    8,
                    PATIENCE,
                    path.receiver());
            List<Socket> sockets = new ArrayList<>();
            for (int i = 0; i < 8; i++) {
                sockets.add(new Socket(InetAddress.getLoopbackAddress(), stopping.port()));
            }
            Thread ending = new Thread(() -> sockets.forEach(MllpServerIT::end));
            ending.start();
            stopping.close();
            ending.join();
        }
    }

    private static void end(Socket socket) {
        try {
            socket.close();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @Test
    void moreConnectionsThanAreServedWaitForTheirTurn() throws Exception {
        try (Socket first = connect();
                Socket second = connect();
                Socket third = connect()) {
            third.getOutputStream().write((BEGIN + VITALS + END).getBytes(UTF_8));
            for (Socket served : List.of(first, second)) {
                served.getOutputStream().write((BEGIN + LOSS + END).getBytes(UTF_8));
                assertThat(answer(served.getInputStream())).contains("MSA|AA|T1");
            }
            first.close();

            assertThat(answer(third.getInputStream())).contains("MSA|AA|T2");
        }
    }

    @Test
    void stopsWhileAConnectionIsIdle() throws Exception {
        try (Socket idle = connect()) {
            idle.getOutputStream().write((BEGIN + LOSS + END).getBytes(UTF_8));
            assertThat(answer(idle.getInputStream())).contains("MSA|AA|T1");

            server.close();

            assertThat(idle.getInputStream().read()).isEqualTo(-1);
        }
    }

    private Socket connect() throws IOException {
        return new Socket(InetAddress.getLoopbackAddress(), server.port());
    }

    private int stored() {
        return path.bean(Ledger.class)
                .entries("case/fernglade-hp/FGL-2026-0117", 0, 100)
                .size();
    }

    private List<String> answers(String sent, int count) throws IOException {
        List<String> answers = new ArrayList<>();
        try (Socket socket = connect()) {
            socket.getOutputStream().write(sent.getBytes(UTF_8));
            for (int i = 0; i < count; i++) {
                answers.add(answer(socket.getInputStream()));
            }
        }
        return answers;
    }

    // <VT> content <FS><CR>: HL7 minimal lower layer protocol, release 1.
    private static String answer(InputStream in) throws IOException {
        assertThat(in.read()).isEqualTo(0x0b);
        StringBuilder content = new StringBuilder();
        for (int b = in.read(); b != 0x1c; b = in.read()) {
            assertThat(b).isNotEqualTo(-1);
            content.append((char) b);
        }
        assertThat(in.read()).isEqualTo('\r');
        return content.toString();
    }
}
