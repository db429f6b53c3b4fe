package example.tamponade.app.carry;

import example.tamponade.app.intake.CaseKey;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.ledger.Ledger;
import example.tamponade.core.event.CaseId;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Stream;

/** Writes what the ledger holds into a folder that can be carried. */
public final class FolderWriter {

    private static final int LARGEST_PART = 4 * 1024 * 1024;
    private static final long TOGETHER = 1000;

    private final Ledger ledger;
    private final Path folder;
    private final List<Manifest.Part> parts = new ArrayList<>();
    private final ByteArrayOutputStream part = new ByteArrayOutputStream();
    private long events;

    /** Writes from that ledger into that folder. */
    public FolderWriter(Ledger ledger, Path folder) {
        this.ledger = ledger;
        this.folder = folder;
    }

    /**
     * Writes every event behind what was carried before.
     *
     * @param facilities the facilities whose cases are carried; empty: all
     * @param before up to which event of each case was carried before
     * @return what the folder holds
     * @throws IOException when the folder is not empty or cannot be written
     */
    public Manifest write(Set<String> facilities, Map<String, Long> before) throws IOException {
        Files.createDirectories(folder);
        try (Stream<Path> there = Files.list(folder)) {
            if (there.findAny().isPresent()) {
                throw new IOException(folder + " is not empty: give a folder of its own");
            }
        }
        Map<String, Long> ends = new TreeMap<>(before);
        for (String key : ledger.caseKeys()) {
            if (facilities.isEmpty() || facilities.contains(facility(key))) {
                ends.put(key, write(key, before.getOrDefault(key, 0L)));
            }
        }
        endPart();
        Manifest manifest = new Manifest(Manifest.VERSION, parts, ends);
        manifest.write(folder);
        return manifest;
    }

    private static String facility(String key) {
        CaseId caseId = CaseKey.caseId(key);
        return caseId == null ? String.valueOf(CaseKey.facilityId(key)) : caseId.facilityId();
    }

    private long write(String key, long after) throws IOException {
        long last = after;
        for (List<String> some = ledger.payloads(key, last, TOGETHER);
                !some.isEmpty();
                some = ledger.payloads(key, last, TOGETHER)) {
            for (String payload : some) {
                // A line break can only stand between the parts of an event's JSON.
                part.writeBytes(
                        (payload.replace('\r', ' ').replace('\n', ' ') + "\n").getBytes(StandardCharsets.UTF_8));
                events++;
                last++;
                if (part.size() > LARGEST_PART) {
                    endPart();
                }
            }
        }
        return last;
    }

    private void endPart() throws IOException {
        if (events > 0) {
            String name = "events-%04d.ndjson".formatted(parts.size() + 1);
            byte[] bytes = part.toByteArray();
            Files.write(folder.resolve(name), bytes);
            parts.add(new Manifest.Part(name, events, Piece.digest(bytes)));
            part.reset();
            events = 0;
        }
    }
}
