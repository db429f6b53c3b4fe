package example.tamponade.profiles.build;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import example.tamponade.terminology.Imprint;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.zip.GZIPOutputStream;
import org.apache.commons.compress.archivers.tar.TarArchiveEntry;
import org.apache.commons.compress.archivers.tar.TarArchiveOutputStream;

/**
 * The files of a FHIR NPM package: {@code package/package.json}, the resources, an {@code .index.json} for each folder.
 * The same files give the same bytes: entries are sorted and carry no time.
 */
final class PackageArchive {

    private static final List<String> INDEXED =
            List.of("id", "url", "version", "kind", "type", "derivation", "content", "supplements");

    private final Map<String, String> files = new TreeMap<>();
    private final Map<String, ArrayNode> indexes = new TreeMap<>();

    PackageArchive(Imprint imprint, ObjectNode guide) {
        ObjectNode manifest = Sources.JSON.createObjectNode();
        manifest.put("name", imprint.line("packageId")).put("version", imprint.version());
        manifest.put("canonical", imprint.base()).put("url", imprint.base());
        manifest.set("title", guide.required("title"));
        manifest.set("description", guide.required("description"));
        manifest.put("type", "IG").put("tools-version", 3);
        manifest.put("license", guide.required("license").asText());
        manifest.put("author", imprint.line("publisher"));
        manifest.put("date", imprint.date().replace("-", "") + "000000");
        manifest.putArray("fhirVersions").add(imprint.line("fhirVersion"));
        manifest.putObject("dependencies").put("hl7.fhir.r4.core", imprint.line("fhirVersion"));
        manifest.putObject("directories").put("lib", "package").put("example", "example");
        files.put("package/package.json", manifest.toPrettyString());
    }

    /** Adds resources to a folder; two of the same type and id stop the build. */
    void add(String folder, List<ObjectNode> resources) {
        ArrayNode index = indexes.computeIfAbsent(folder, name -> Sources.JSON.createArrayNode());
        for (ObjectNode resource : resources) {
            String type = resource.required("resourceType").asText();
            String name = type + "-" + resource.required("id").asText() + ".json";
            if (files.put(folder + "/" + name, resource.toString()) != null) {
                throw new IllegalArgumentException("two resources are called " + name);
            }
            ObjectNode line = index.addObject().put("filename", name).put("resourceType", type);
            INDEXED.stream()
                    .filter(field -> resource.path(field).isTextual())
                    .forEach(field -> line.set(field, resource.get(field)));
        }
    }

    void write(Path... targets) throws IOException {
        indexes.forEach((folder, lines) -> {
            ObjectNode index = Sources.JSON.createObjectNode().put("index-version", 2);
            index.set("files", lines);
            files.put(folder + "/.index.json", index.toPrettyString());
        });
        byte[] bytes = bytes();
        for (Path target : targets) {
            Files.createDirectories(target.toAbsolutePath().getParent());
            Files.write(target, bytes);
        }
    }

    private byte[] bytes() throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (TarArchiveOutputStream tar = new TarArchiveOutputStream(new GZIPOutputStream(bytes), "UTF-8")) {
            tar.setLongFileMode(TarArchiveOutputStream.LONGFILE_POSIX);
            for (Map.Entry<String, String> file : files.entrySet()) {
                byte[] content = file.getValue().getBytes(StandardCharsets.UTF_8);
                TarArchiveEntry entry = new TarArchiveEntry(file.getKey());
                entry.setSize(content.length);
                entry.setModTime(0L);
                tar.putArchiveEntry(entry);
                tar.write(content);
                tar.closeArchiveEntry();
            }
        }
        return bytes.toByteArray();
    }
}
