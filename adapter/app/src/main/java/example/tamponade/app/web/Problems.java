package example.tamponade.app.web;

import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import tools.jackson.databind.json.JsonMapper;

/** Problem details (RFC 9457) of requests that no controller answers. */
final class Problems {

    private Problems() {}

    static void write(HttpServletResponse response, HttpStatus status, String words) throws IOException {
        String problem = JsonMapper.shared().writeValueAsString(Map.of("status", status.value(), "detail", words));
        write(response, status, MediaType.APPLICATION_PROBLEM_JSON, problem);
    }

    static void write(HttpServletResponse response, HttpStatus status, MediaType type, String text) throws IOException {
        response.setStatus(status.value());
        response.setContentType(type.toString());
        response.setCharacterEncoding(StandardCharsets.UTF_8);
        response.getWriter().write(text);
    }
}
