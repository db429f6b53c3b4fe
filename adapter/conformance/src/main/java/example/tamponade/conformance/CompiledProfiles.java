package example.tamponade.conformance;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.util.zip.GZIPInputStream;
import java.util.zip.GZIPOutputStream;
import tools.jackson.core.StreamWriteFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The compiled profiles of a package, as they are kept: gzipped JSON. */
public final class CompiledProfiles {

    private static final JsonMapper JSON = JsonMapper.builder().build();

    private final JsonNode content;

    CompiledProfiles(JsonNode content) {
        this.content = content;
    }

    JsonNode content() {
        return content;
    }

    /** Writes them; the stream stays open. */
    public void write(OutputStream out) throws IOException {
        GZIPOutputStream gzip = new GZIPOutputStream(out);
        JSON.writer().without(StreamWriteFeature.AUTO_CLOSE_TARGET).writeValue(gzip, content);
        gzip.finish();
    }

    /**
     * Reads what {@link #write} wrote.
     *
     * @throws IOException when it is something else
     */
    public static CompiledProfiles read(InputStream in) throws IOException {
        return new CompiledProfiles(JSON.readTree(new GZIPInputStream(in)));
    }
}
