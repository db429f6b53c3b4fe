package example.tamponade.app.web;

import example.tamponade.app.path.IntakeWriter;
import java.util.LinkedHashMap;
import java.util.Map;
import org.springframework.http.MediaType;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RestController;

/** Tells how busy intake is. */
@RestController
public class IntakeController {

    private final IntakeWriter writer;
    private final RunningInputs inputs;

    /** Tells of that writer and those inputs. */
    public IntakeController(IntakeWriter writer, RunningInputs inputs) {
        this.writer = writer;
        this.inputs = inputs;
    }

    /** How many pieces wait to be written down and may wait, and how far each input has come. */
    @GetMapping(path = "/intake", produces = MediaType.APPLICATION_JSON_VALUE)
    Map<String, Object> intake() {
        Map<String, Object> answer = new LinkedHashMap<>();
        answer.put("waiting", writer.waitingPieces());
        answer.put("mayWait", writer.capacity());
        answer.put("inputs", inputs.progress());
        return answer;
    }
}
