package example.tamponade.app.web;

import jakarta.servlet.DispatcherType;
import jakarta.servlet.RequestDispatcher;
import jakarta.servlet.http.HttpServletRequest;
import org.springframework.boot.webmvc.error.ErrorController;
import org.springframework.http.HttpStatus;
import org.springframework.http.ProblemDetail;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;

/** What nobody else answers, as problem details (RFC 9457): its status, and nothing of what was sent. */
@RestController
public class ProblemController implements ErrorController {

    /** The attribute of a request with what to answer it though its body could not be read any more. */
    static final String ANSWER = ProblemController.class.getName() + ".answer";

    @RequestMapping("${spring.web.error.path:/error}")
    ResponseEntity<?> problem(HttpServletRequest request) {
        Object status = request.getAttribute(RequestDispatcher.ERROR_STATUS_CODE);
        boolean failed = request.getDispatcherType() == DispatcherType.ERROR && status instanceof Integer;
        HttpStatus known = failed ? HttpStatus.resolve((Integer) status) : HttpStatus.NOT_FOUND;
        HttpStatus told = known == null ? HttpStatus.INTERNAL_SERVER_ERROR : known;
        Object answer = request.getAttribute(ANSWER);
        if (failed && answer != null) {
            return ResponseEntity.status(told).body(answer);
        }
        String words = told.is5xxServerError()
                ? "the adapter failed at it; its log says where, please report it"
                : "see GET / for what this server does";
        return ResponseEntity.of(ProblemDetail.forStatusAndDetail(told, words)).build();
    }
}
