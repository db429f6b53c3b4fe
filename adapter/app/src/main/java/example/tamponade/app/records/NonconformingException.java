package example.tamponade.app.records;

import example.tamponade.fhir.conformance.ConformanceReport;
import example.tamponade.fhir.conformance.Problem;
import java.util.stream.Collectors;

/** Resources that this software made fail their own profiles: a defect here, never of the sender. */
public final class NonconformingException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    private NonconformingException(String message) {
        super(message);
    }

    /** Throws when the report holds an error. */
    public static void throwUnlessPassed(String caseKey, ConformanceReport report) {
        if (!report.passed()) {
            throw new NonconformingException("resources of " + caseKey + " fail their profiles; please report this:\n  "
                    + report.errors().stream()
                            .limit(10)
                            .map(NonconformingException::line)
                            .collect(Collectors.joining("\n  ")));
        }
    }

    private static String line(Problem problem) {
        return problem.resource() + " at " + problem.expression() + ": " + problem.message();
    }
}
