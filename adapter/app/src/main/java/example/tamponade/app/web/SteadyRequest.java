package example.tamponade.app.web;

import example.tamponade.app.intake.SteadyInput;
import jakarta.servlet.ReadListener;
import jakarta.servlet.ServletInputStream;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletRequestWrapper;
import java.io.IOException;

/** A request whose body must get on. */
final class SteadyRequest extends HttpServletRequestWrapper {

    private final Body body;

    SteadyRequest(HttpServletRequest request, SteadyInput body) {
        super(request);
        this.body = new Body(body);
    }

    @Override
    public ServletInputStream getInputStream() {
        return body;
    }

    private static final class Body extends ServletInputStream {

        private final SteadyInput in;
        private boolean finished;

        Body(SteadyInput in) {
            this.in = in;
        }

        @Override
        public int read() throws IOException {
            int b = in.read();
            finished |= b < 0;
            return b;
        }

        @Override
        public int read(byte[] bytes, int offset, int length) throws IOException {
            int read = in.read(bytes, offset, length);
            finished |= read < 0;
            return read;
        }

        @Override
        public boolean isFinished() {
            return finished;
        }

        @Override
        public boolean isReady() {
            return !finished;
        }

        @Override
        public void setReadListener(ReadListener listener) {
            throw new UnsupportedOperationException("bodies are read by the thread that serves their request");
        }
    }
}
