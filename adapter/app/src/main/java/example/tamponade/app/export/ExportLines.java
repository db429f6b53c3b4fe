package example.tamponade.app.export;

import example.tamponade.app.search.FoundVersion;
import java.util.List;

/** How resources are written into an export, each on one line. */
public interface ExportLines {

    /** These versions, in their order. */
    List<String> of(List<FoundVersion> versions);

    /**
     * These versions without what tells whose they are, in their order.
     *
     * @param caseKey the case that they are of
     * @param ofCase everything of the case
     * @param asked those that are to be written
     */
    List<String> pseudonymised(String caseKey, List<FoundVersion> ofCase, List<FoundVersion> asked);
}
