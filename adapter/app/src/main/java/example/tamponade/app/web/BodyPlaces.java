package example.tamponade.app.web;

import example.tamponade.app.intake.LongPieces;
import example.tamponade.app.intake.SteadyInput;
import example.tamponade.app.machine.Memory;
import example.tamponade.app.path.IntakeFullException;
import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.io.InputStream;
import java.time.Duration;
import java.util.concurrent.Semaphore;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.web.filter.OncePerRequestFilter;

/**
 * Bounds the requests with a body: how many are read at the same time, how many of them long ones, and how long a sender
 * is waited for. Those who ask for something always find a place.
 */
public final class BodyPlaces extends OncePerRequestFilter {

    private final Semaphore places;
    private final Semaphore placesOfLong;
    private final Duration patience;
    private final long longest;

    /**
     * Gives so many places.
     *
     * @param places how many bodies are read at the same time
     * @param placesOfLong how many of them may be longer than an event usually is
     * @param patience how long a sender is waited for however little comes
     * @param longest how many bytes of a body are read to its end before its sender is answered
     */
    public BodyPlaces(int places, int placesOfLong, Duration patience, long longest) {
        this.places = new Semaphore(places);
        this.placesOfLong = new Semaphore(placesOfLong);
        this.patience = patience;
        this.longest = longest;
    }

    @Override
    protected void doFilterInternal(HttpServletRequest request, HttpServletResponse response, FilterChain chain)
            throws ServletException, IOException {
        try {
            if (hasBody(request)) {
                inAPlace(request, response, chain);
            } else {
                chain.doFilter(request, response);
            }
        } catch (ServletException | Error e) {
            Memory.endIfExhausted(e);
            throw e;
        }
    }

    private static boolean hasBody(HttpServletRequest request) {
        return request.getContentLengthLong() > 0 || request.getHeader(HttpHeaders.TRANSFER_ENCODING) != null;
    }

    private void inAPlace(HttpServletRequest request, HttpServletResponse response, FilterChain chain)
            throws ServletException, IOException {
        if (!places.tryAcquire()) {
            full(response);
            return;
        }
        try {
            if (SearchForm.is(request)) {
                // The container reads it, no more than a few conditions of it.
                chain.doFilter(request, response);
                return;
            }
            SteadyRequest steady = new SteadyRequest(request, new SteadyInput(request.getInputStream(), patience));
            inAPlaceForItsLength(steady, response, chain);
            drain(steady);
        } finally {
            places.release();
        }
    }

    private void inAPlaceForItsLength(SteadyRequest request, HttpServletResponse response, FilterChain chain)
            throws ServletException, IOException {
        long length = request.getContentLengthLong();
        boolean isLong = length < 0 || length > LongPieces.SHORT;
        if (isLong && !placesOfLong.tryAcquire()) {
            full(response);
            return;
        }
        try {
            chain.doFilter(request, response);
        } finally {
            if (isLong) {
                placesOfLong.release();
            }
        }
    }

    // A sender who is still sending does not read an answer: what was refused is read to its end.
    private void drain(SteadyRequest request) {
        try {
            InputStream rest = request.getInputStream();
            byte[] buffer = new byte[1 << 14];
            long left = longest;
            for (int read = rest.read(buffer); read >= 0 && left > 0; read = rest.read(buffer)) {
                left -= read;
            }
        } catch (IOException e) {
            // Nobody is there any more, or not worth waiting for: the connection is closed.
            logger.debug("the rest of a body was not read", e);
        }
    }

    private static void full(HttpServletResponse response) throws IOException {
        response.setHeader(HttpHeaders.RETRY_AFTER, Long.toString(IntakeFullException.TRY_AGAIN_AFTER.toSeconds()));
        Problems.write(
                response,
                HttpStatus.TOO_MANY_REQUESTS,
                String.valueOf(
                        new IntakeFullException("as many inputs as there is room for are being read").getMessage()));
    }
}
