package example.tamponade.app.convert;

import example.tamponade.app.keys.KeyFile;
import example.tamponade.fhir.bundle.CaseView;
import example.tamponade.fhir.pseudonym.Pseudonymiser;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;

/**
 * How a conversion writes.
 *
 * @param form in which form
 * @param view how much of each case
 * @param pseudonymiser takes away whose the cases are; null: they are written as they are
 * @param keys sign each Bundle; null: nothing does
 * @param former what was written before, which this must not leave standing where it holds no more; null when nothing was
 */
record OutputShape(
        OutputForm form,
        CaseView view,
        @Nullable Pseudonymiser pseudonymiser,
        @Nullable KeyFile keys,
        @Nullable FormerOutput former) {

    /** The folder for what is refused: what is refused is as it came, and not for those who may not know whose it is. */
    Path refusedIn(Path out) {
        return pseudonymiser == null ? out : out.resolveSibling(out.getFileName() + "-refused");
    }
}
