package example.tamponade.app.web;

import example.tamponade.app.access.Caller;
import example.tamponade.app.correction.Corrections;
import example.tamponade.app.correction.NotCorrectableException;
import example.tamponade.app.formats.Formats;
import example.tamponade.app.intake.EventFormat;
import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.Original;
import example.tamponade.app.intake.ReasonCode;
import example.tamponade.app.quarantine.Quarantine;
import example.tamponade.app.quarantine.QuarantineFilter;
import example.tamponade.app.quarantine.QuarantineJson;
import example.tamponade.app.quarantine.QuarantineState;
import example.tamponade.app.quarantine.WholeEntry;
import example.tamponade.core.event.Coded;
import java.io.IOException;
import java.io.InputStream;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ProblemDetail;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;

/** Lists what was refused and takes corrections. */
@RestController
public class QuarantineController {

    private static final int MOST = 1000;

    private final Quarantine quarantine;
    private final Corrections corrections;
    private final Formats formats;

    /** Tells of that quarantine. */
    public QuarantineController(Quarantine quarantine, Corrections corrections, Formats formats) {
        this.quarantine = quarantine;
        this.corrections = corrections;
        this.formats = formats;
    }

    /** Entries, the oldest first; {@code after} the last one's id gives the next. */
    @GetMapping(path = "/quarantine", produces = MediaType.APPLICATION_JSON_VALUE)
    List<Map<String, Object>> entries(
            @RequestParam(name = "state", required = false) @Nullable String state,
            @RequestParam(name = "format", required = false) @Nullable String format,
            @RequestParam(name = "reason", required = false) @Nullable String reason,
            @RequestParam(name = "mentions", required = false) @Nullable String mentions,
            @RequestParam(name = "after", required = false) @Nullable UUID after,
            @RequestParam(name = "limit", defaultValue = "100") int limit) {
        QuarantineFilter filter = new QuarantineFilter(
                coded(QuarantineState.class, state),
                coded(InputFormat.class, format),
                coded(ReasonCode.class, reason),
                mentions,
                after,
                Math.max(1, Math.min(limit, MOST)));
        return quarantine.entries(filter).stream().map(QuarantineJson::inShort).toList();
    }

    private static <T extends Enum<T> & Coded> @Nullable T coded(Class<T> type, @Nullable String code) {
        return code == null ? null : Coded.of(type, code);
    }

    /** An entry with its history. */
    @GetMapping(path = "/quarantine/{id}", produces = MediaType.APPLICATION_JSON_VALUE)
    ResponseEntity<Map<String, Object>> entry(@PathVariable("id") UUID id) {
        return ResponseEntity.of(quarantine.entry(id).map(QuarantineJson::whole));
    }

    /**
     * A correction of an entry: the whole piece, corrected, in its own format or, by its media type, in another. 200 it was
     * taken, 422 it was refused too.
     */
    @PostMapping(path = "/quarantine/{id}/corrections", produces = MediaType.APPLICATION_JSON_VALUE)
    ResponseEntity<Map<String, Object>> correct(
            @PathVariable("id") UUID id,
            @RequestParam("by") String by,
            @RequestHeader(name = HttpHeaders.CONTENT_TYPE, defaultValue = "") String contentType,
            InputStream body)
            throws IOException {
        EventFormat format = contentType.startsWith(MediaType.APPLICATION_JSON_VALUE)
                ? formats.of(InputFormat.EVENT)
                : formats.ofMediaType(contentType).orElse(null);
        WholeEntry entry = corrections.correct(Caller.current(), id, Original.read(body), format, by);
        HttpStatus status =
                entry.entry().state() == QuarantineState.TAKEN ? HttpStatus.OK : HttpStatus.UNPROCESSABLE_CONTENT;
        return ResponseEntity.status(status).body(QuarantineJson.whole(entry));
    }

    /** Sets an entry aside for a reason. */
    @PostMapping(path = "/quarantine/{id}/setting-aside", produces = MediaType.APPLICATION_JSON_VALUE)
    Map<String, Object> setAside(
            @PathVariable("id") UUID id, @RequestParam("by") String by, @RequestParam("why") String why) {
        return QuarantineJson.whole(corrections.setAside(id, by, why));
    }

    @ExceptionHandler
    ResponseEntity<ProblemDetail> notCorrectable(NotCorrectableException e) {
        HttpStatus status = e.unknown() ? HttpStatus.NOT_FOUND : HttpStatus.CONFLICT;
        return ResponseEntity.of(ProblemDetail.forStatusAndDetail(status, String.valueOf(e.getMessage())))
                .build();
    }

    @ExceptionHandler
    ResponseEntity<ProblemDetail> unknownCode(IllegalArgumentException e) {
        return ResponseEntity.of(
                        ProblemDetail.forStatusAndDetail(HttpStatus.BAD_REQUEST, String.valueOf(e.getMessage())))
                .build();
    }
}
