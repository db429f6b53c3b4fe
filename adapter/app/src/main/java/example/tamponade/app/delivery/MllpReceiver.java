package example.tamponade.app.delivery;

import ca.uhn.hl7v2.DefaultHapiContext;
import ca.uhn.hl7v2.HL7Exception;
import ca.uhn.hl7v2.HapiContext;
import ca.uhn.hl7v2.app.Connection;
import ca.uhn.hl7v2.llp.ExtendedMinLowerLayerProtocol;
import ca.uhn.hl7v2.llp.LLPException;
import ca.uhn.hl7v2.model.Message;
import ca.uhn.hl7v2.model.v251.message.ORU_R01;
import ca.uhn.hl7v2.util.Terser;
import ca.uhn.hl7v2.validation.impl.ValidationContextFactory;
import example.tamponade.app.intake.CaseKey;
import example.tamponade.app.outbox.Held;
import example.tamponade.app.results.ResultMessage;
import example.tamponade.core.event.CaseId;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import javax.net.ssl.SSLContext;
import org.hl7.fhir.r4.model.Patient;
import org.hl7.fhir.r4.model.Resource;

/** A system that reads HL7 2.5.1 result messages over MLLP and acknowledges each. */
final class MllpReceiver implements Receiver {

    // Table 0357: it could not be processed, though nothing may be wrong in it.
    private static final String INTERNAL_ERROR = "207";

    private final HapiContext hl7 = new DefaultHapiContext(ValidationContextFactory.noValidation());
    private final URI address;
    private final Duration patience;
    private final Function<String, Optional<Patient>> mothers;
    private final Clock clock;

    /**
     * A system at an {@code mllp} or {@code mllps} address.
     *
     * @param tls the certificates to use
     * @param mothers gives the mother of a case by its key
     */
    MllpReceiver(
            URI address, Duration patience, SSLContext tls, Function<String, Optional<Patient>> mothers, Clock clock) {
        this.address = address;
        this.patience = patience;
        this.mothers = mothers;
        this.clock = clock;
        hl7.setSocketFactory(new TlsSockets(tls));
        hl7.setLowerLayerProtocol(new ExtendedMinLowerLayerProtocol());
    }

    @Override
    public Answer put(String caseKey, List<Resource> resources, Map<String, Held> there) {
        CaseId caseId = CaseKey.caseId(caseKey);
        Optional<ORU_R01> message = caseId == null
                ? Optional.empty()
                : mothers.apply(caseKey).flatMap(it -> ResultMessage.of(caseId, it, resources, clock.instant()));
        return message.map(it -> send(it, resources.size())).orElseGet(() -> Answer.taken(resources.size()));
    }

    private Answer send(ORU_R01 message, int resources) {
        try {
            Connection connection = hl7.newClient(
                    address.getHost(), address.getPort(), address.getScheme().equals("mllps"));
            try {
                connection
                        .getInitiator()
                        .setTimeout((int) patience.toMillis(), java.util.concurrent.TimeUnit.MILLISECONDS);
                return answer(message, connection.getInitiator().sendAndReceive(message), resources);
            } finally {
                connection.close();
            }
        } catch (HL7Exception | LLPException | IOException e) {
            return Answer.unavailable(
                    "no acknowledgement (" + e.getMessage() + "); check the address, the network and the system. It is"
                            + " tried again",
                    null);
        }
    }

    private static Answer answer(ORU_R01 sent, Message came, int resources) throws HL7Exception {
        Terser ack = new Terser(came);
        String code = String.valueOf(ack.get("/MSA-1"));
        String number = String.valueOf(ack.get("/MSA-2"));
        if (!number.equals(sent.getMSH().getMessageControlID().getValue())) {
            return Answer.unavailable("acknowledged another message than was sent; it is tried again", null);
        }
        return switch (code) {
            case "AA", "CA" -> Answer.taken(resources);
            case "AE", "CE" -> Answer.of(Answer.Kind.REFUSED, code + words(ack));
            default ->
                words(ack).contains(INTERNAL_ERROR)
                        ? Answer.unavailable(code + words(ack) + "; it is tried again", null)
                        : Answer.of(Answer.Kind.REFUSED, code + words(ack));
        };
    }

    private static String words(Terser ack) {
        StringBuilder words = new StringBuilder();
        for (String field : List.of("/MSA-3", "/ERR-2", "/ERR-3-1", "/ERR-3-2", "/ERR-7", "/ERR-8")) {
            String said = text(ack, field);
            words.append(said.isEmpty() ? "" : (words.isEmpty() ? ": " : ", ") + said);
        }
        return words.toString();
    }

    // An acknowledgement of an older version has fewer fields.
    private static String text(Terser ack, String field) {
        try {
            String said = ack.get(field);
            return said == null ? "" : said;
        } catch (HL7Exception e) {
            return "";
        }
    }

    @Override
    public Map<String, String> versions(Map<String, Held> known) {
        return Map.of();
    }

    @Override
    public void close() {
        try {
            hl7.close();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
