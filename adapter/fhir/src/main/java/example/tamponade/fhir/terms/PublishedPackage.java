package example.tamponade.fhir.terms;

import example.tamponade.profiles.RecordPackage;
import java.io.IOException;
import java.io.InputStream;
import org.hl7.fhir.utilities.npm.NpmPackage;

/** The published package on the class path. */
final class PublishedPackage {

    private static final String PACKAGE = RecordPackage.LOCATION.replace("classpath:", "/");

    private PublishedPackage() {}

    static NpmPackage open() throws IOException {
        try (InputStream in = PublishedPackage.class.getResourceAsStream(PACKAGE)) {
            if (in == null) {
                throw new IOException(PACKAGE + " is not on the class path");
            }
            return NpmPackage.fromPackage(in);
        }
    }
}
