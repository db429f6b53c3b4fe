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

                Say who you are with each request: by an access token (Authorization: Bearer), or by the operator's key
                (curl --netrc-file operator-key; the file is in the adapter's folder of data).

                POST /events                        one bedside event (application/json), several, one a line
                                                    (application/x-ndjson), a register (text/csv), or FHIR
                                                    (application/fhir+json): a QuestionnaireResponse, an Observation
                                                    or a Bundle of Observations
                POST /messages                      HL7 2.5.1 ORU^R01 (application/hl7-v2+er7); answers with its ACK
                GET  /intake                        what waits, and how far each input has come
                GET  /ledger                        how many events there are, and which cases are not on record yet
                GET  /quarantine                    what was refused; ?state= ?format= ?reason= ?mentions= ?after= ?limit=
                GET  /quarantine/{id}               one refused piece, whole, with its history
                POST /quarantine/{id}/corrections   the piece, corrected; ?by= who corrects it
                POST /quarantine/{id}/setting-aside there is nothing to take; ?by= who decides so, ?why= why
                GET  /deliveries                    how each destination stands: what waits, since when, what it refused
                GET  /deliveries/{destination}      the cases that wait, or with ?state=parked those that it refused, and why
                POST /deliveries/{destination}/release has refused ones tried again (application/json); ?case= one of them
                POST /deliveries/{destination}/again has everything sent again; ?case= of one case, ?since= a time
                DELETE /deliveries/{destination}    forgets one that is no longer in the settings
                GET  /.well-known/jwks.json         the public keys by which destinations know this server
                GET  /cases                         the cases, each as its facility and its number
                GET  /cases/{facility}/{number}     the resources of a case (FHIR R4); ?as=document, ?as=transaction,
                                                    ?as=page: for a browser or for print
                                                    ?view=course, ?view=handover: not all of it
                                                    ?pseudonymised=true: without what tells whose it is
                GET  /case                          the cases, for a browser, those that are open first
                GET  /case/{facility}/{number}      the case on one page for a browser: how it stands, and its course
                GET  /operations                    for a browser: how far the record is, what was refused, to correct it,
                                                    and how deliveries stand
                GET  /facilities                    the facilities with events of their own
                GET  /facilities/{facility}         what those have brought (FHIR R4); ?as=transaction
                POST /fhir/Subscription             has an endpoint told of what fulfils a search from then on
                GET  /fhir/metadata                 what can be read by FHIR's RESTful API, below /fhir: read, history,
                                                    search, $everything, $lastn, $validate, $export
                GET  /measures                      what an audit counts, as a table (text/csv); ?month=2026-03 of the cases
                                                    that began in it, ?facility= of one facility; ?as=page for a
                                                    browser
                GET  /cds-services                  the warnings that stand, as cards (CDS Hooks 2.0)
                GET  /exports/{id}                  how an export stands, and its files when it is done; DELETE ends it
                GET  /schema                        the JSON Schema of the events

                %s
                """.formatted(CaseMapper.CAUTION);
    }

    @GetMapping(path = "/schema", produces = "application/schema+json")
    String schema() {
        return EventReader.schemaText();
    }
}
