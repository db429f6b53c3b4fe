package example.tamponade.app.delivery;

import ca.uhn.hl7v2.util.StandardSocketFactory;
import java.io.IOException;
import java.net.Socket;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLParameters;
import javax.net.ssl.SSLSocket;

/** Sockets to a system whose certificate must be of its address; the library itself would take any that is trusted. */
final class TlsSockets extends StandardSocketFactory {

    private final SSLContext tls;

    TlsSockets(SSLContext tls) {
        this.tls = tls;
    }

    @Override
    public Socket createTlsSocket() throws IOException {
        SSLSocket socket = (SSLSocket) tls.getSocketFactory().createSocket();
        SSLParameters parameters = socket.getSSLParameters();
        parameters.setEndpointIdentificationAlgorithm("HTTPS");
        socket.setSSLParameters(parameters);
        return socket;
    }
}
