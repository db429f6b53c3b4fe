package example.tamponade.app.rest;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.rest.api.EncodingEnum;
import ca.uhn.fhir.rest.api.RequestTypeEnum;
import ca.uhn.fhir.rest.api.server.RequestDetails;
import ca.uhn.fhir.rest.server.FifoMemoryPagingProvider;
import ca.uhn.fhir.rest.server.RestfulServer;
import ca.uhn.fhir.rest.server.exceptions.MethodNotAllowedException;
import ca.uhn.fhir.rest.server.exceptions.ResourceNotFoundException;
import example.tamponade.app.search.SearchParameters;
import example.tamponade.app.search.SearchRequest;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.util.List;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;

/**
 * The record by FHIR's RESTful API, to read: FHIR R4, <a href="http://hl7.org/fhir/R4/http.html">RESTful API</a>. What the
 * record says comes from events, so nothing is written here.
 */
public final class FhirApi extends RestfulServer {

    /** Where the server has it. */
    public static final String PATH = "/fhir";

    private static final long serialVersionUID = 1L;

    private static final int HISTORIES_IN_MEMORY = 100;

    private static final int AT_ONCE = 3;
    private static final int LONGEST_WAIT_SECONDS = 30;

    private final transient Semaphore turns = new Semaphore(AT_ONCE, true);
    private final transient SmartConfiguration smart;
    private final transient Supplier<List<Object>> providers;

    /**
     * Serves what these provide.
     *
     * @param smart tells clients where tokens are given
     * @param providers asked once, when the server begins to listen
     */
    public FhirApi(SmartConfiguration smart, Supplier<List<Object>> providers) {
        super(FhirContext.forR4Cached());
        this.smart = smart;
        this.providers = providers;
        setDefaultResponseEncoding(EncodingEnum.JSON);
        setDefaultPrettyPrint(false);
        setServerName("Tamponade record adapter");
        FifoMemoryPagingProvider pages = new FifoMemoryPagingProvider(HISTORIES_IN_MEMORY);
        pages.setDefaultPageSize(SearchRequest.USUAL_COUNT);
        pages.setMaximumPageSize(SearchRequest.GREATEST_COUNT);
        setPagingProvider(pages);
        setServerConformanceProvider(new Capabilities(this));
    }

    @Override
    protected void initialize() {
        registerProviders(providers.get());
    }

    // What is answered is in memory, parsed and written: more at once would not be quicker, and could be more than
    // there is.
    @Override
    protected void handleRequest(RequestTypeEnum method, HttpServletRequest request, HttpServletResponse response)
            throws ServletException, IOException {
        try {
            if (!turns.tryAcquire(LONGEST_WAIT_SECONDS, TimeUnit.SECONDS)) {
                Busy.answer(response, LONGEST_WAIT_SECONDS);
                return;
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new ServletException(e);
        }
        try {
            super.handleRequest(method, request, response);
        } finally {
            turns.release();
        }
    }

    // Not of FHIR itself, but of SMART below it.
    @Override
    protected void doGet(HttpServletRequest request, HttpServletResponse response)
            throws ServletException, IOException {
        if (SmartConfiguration.PATH.equals(request.getPathInfo()) && smart.isKnown()) {
            response.setContentType("application/json");
            response.getWriter().write(smart.json());
        } else {
            super.doGet(request, response);
        }
    }

    // No id has one, and the library would take it for an escape once more.
    @Override
    protected String getRequestPath(String full, String context, String servlet) {
        if (full.contains("%25") || full.contains("%00")) {
            throw new ResourceNotFoundException("nothing at '" + full + "'");
        }
        return super.getRequestPath(full, context, servlet);
    }

    @Override
    protected void throwUnknownResourceTypeException(String type) {
        throw new ResourceNotFoundException("no resources of type '" + type + "' here; there are "
                + String.join(", ", SearchParameters.standard().types()));
    }

    @Override
    protected void throwUnknownFhirOperationException(RequestDetails request, String path, RequestTypeEnum method) {
        if (method == RequestTypeEnum.GET || method == RequestTypeEnum.HEAD) {
            throw new ResourceNotFoundException(
                    "nothing at '" + path + "'; GET " + PATH + "/metadata says what there is");
        }
        throw new MethodNotAllowedException(
                "nothing is written here: the record comes from bedside events; send those by POST /events",
                RequestTypeEnum.GET,
                RequestTypeEnum.HEAD);
    }
}
