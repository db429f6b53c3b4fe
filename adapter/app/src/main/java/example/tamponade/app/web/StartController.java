package example.tamponade.app.web;

import example.tamponade.app.intake.EventReader;
import example.tamponade.fhir.mapping.CaseMapper;
import org.springframework.http.MediaType;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RestController;

/** Says what the server does, and publishes the schema of the events. */
@RestController
public class StartController {

    @GetMapping(path = "/", produces = MediaType.TEXT_PLAIN_VALUE + ";charset=UTF-8")
    String start() {
        return """
                Tamponade record adapter

                POST /events                        one bedside event (application/json), or several, one a line
                                                    (application/x-ndjson)
                GET  /cases                         the ids of the cases
                GET  /cases/{caseId}                the resources of a case (FHIR R4)
                GET  /cases/{caseId}?as=document    the case as a document Bundle
                GET  /cases/{caseId}?as=transaction the case as a transaction Bundle
                GET  /schema                        the JSON Schema of the events

                %s
                """.formatted(CaseMapper.CAUTION);
    }

    @GetMapping(path = "/schema", produces = "application/schema+json")
    String schema() {
        return EventReader.schemaText();
    }
}
