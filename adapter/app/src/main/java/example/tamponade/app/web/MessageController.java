package example.tamponade.app.web;

import example.tamponade.app.access.Caller;
import example.tamponade.app.message.MessageReceiver;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RestController;

/** Takes HL7 version 2 messages as HAPI's "HL7 over HTTP" (draft of 2018) carries them. */
@RestController
public class MessageController {

    private static final String ER7 = "application/hl7-v2+er7";
    private static final String ER7_EARLIER = "application/hl7-v2";
    private static final String ER7_PRIVATE = "x-application/hl7-v2+er7";

    private final MessageReceiver receiver;

    /** Hands messages to that receiver. */
    public MessageController(MessageReceiver receiver) {
        this.receiver = receiver;
    }

    /**
     * A message, answered by its acknowledgement in the same content type: 200 whether it says AA, AE or AR, as 2.6 of the
     * draft asks, for the transport has done its work. When the machine could not take it: 503, to be sent again.
     */
    @PostMapping(
            path = "/messages",
            consumes = {ER7, ER7_EARLIER, ER7_PRIVATE})
    ResponseEntity<byte[]> message(@RequestHeader("Content-Type") MediaType type, InputStream body) throws IOException {
        if (type.getCharset() != null && !type.getCharset().equals(StandardCharsets.UTF_8)) {
            return plain(HttpStatus.UNSUPPORTED_MEDIA_TYPE, "messages are sent in UTF-8");
        }
        MessageReceiver.Answer answer = receiver.take(Caller.current(), body);
        return answer.failed()
                ? plain(HttpStatus.SERVICE_UNAVAILABLE, "the message was not taken; send it again later")
                : ResponseEntity.ok()
                        .contentType(new MediaType(type, StandardCharsets.UTF_8))
                        .body(answer.text().getBytes(StandardCharsets.UTF_8));
    }

    private static ResponseEntity<byte[]> plain(HttpStatus status, String words) {
        return ResponseEntity.status(status)
                .contentType(MediaType.TEXT_PLAIN)
                .body(words.getBytes(StandardCharsets.UTF_8));
    }
}
