package example.tamponade.receiver;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.jpa.provider.JpaSystemProvider;
import ca.uhn.fhir.rest.api.EncodingEnum;
import ca.uhn.fhir.rest.server.RestfulServer;
import ca.uhn.fhir.rest.server.provider.ResourceProviderFactory;
import org.eclipse.jetty.ee10.servlet.ServletContextHandler;
import org.eclipse.jetty.ee10.servlet.ServletHolder;
import org.eclipse.jetty.server.Server;
import org.eclipse.jetty.server.ServerConnector;
import org.springframework.context.ApplicationContext;

/** HAPI's JPA server over HTTP, on a free port of the loopback. */
final class RunningReceiver implements AutoCloseable {

    private final Server jetty;

    private RunningReceiver(Server jetty) {
        this.jetty = jetty;
    }

    static RunningReceiver start(ApplicationContext context) throws Exception {
        RestfulServer fhir = new RestfulServer(context.getBean(FhirContext.class));
        fhir.registerProviders(context.getBean(ResourceProviderFactory.class).createProviders());
        fhir.registerProvider(context.getBean(JpaSystemProvider.class));
        fhir.setDefaultResponseEncoding(EncodingEnum.JSON);
        Server jetty = new Server();
        ServerConnector connector = new ServerConnector(jetty);
        connector.setHost("127.0.0.1");
        jetty.addConnector(connector);
        ServletContextHandler handler = new ServletContextHandler();
        handler.addServlet(new ServletHolder(fhir), "/fhir/*");
        jetty.setHandler(handler);
        jetty.start();
        return new RunningReceiver(jetty);
    }

    String address() {
        return "http://127.0.0.1:" + ((ServerConnector) jetty.getConnectors()[0]).getLocalPort() + "/fhir";
    }

    @Override
    public void close() throws Exception {
        jetty.stop();
    }
}
