package example.tamponade.app;

import example.tamponade.core.casefile.*;
import java.util.*;
import org.junit.jupiter.api.Test;

class ScratchCountTest {
    @Test
    void count() throws Exception {
        StringBuilder out = new StringBuilder();
        for (String c : Samples.CASES) {
            CaseFile f = SampleCases.file(c);
            var e = f.entries();
            double h = java.time.Duration.between(
                                    e.get(0).event().occurredAt(),
                                    e.get(e.size() - 1).event().occurredAt())
                            .toMinutes()
                    / 60.0;
            Map<String, Integer> n = new TreeMap<>();
            Map<String, Integer> k = new TreeMap<>();
            for (var x : f.facts())
                if (x instanceof Flag g) {
                    n.merge(g.severity().name(), 1, Integer::sum);
                    k.merge(g.kind().name(), 1, Integer::sum);
                }
            out.append(c + " hours " + h + " " + n + " " + k + "\n");
        }
        java.nio.file.Files.writeString(java.nio.file.Path.of(System.getProperty("java.io.tmpdir"), "count.txt"), out);
    }
}
