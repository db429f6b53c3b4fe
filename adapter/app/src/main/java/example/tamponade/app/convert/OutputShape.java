package example.tamponade.app.convert;

import example.tamponade.fhir.bundle.CaseView;
import org.jspecify.annotations.Nullable;

/**
 * How a conversion writes.
 *
 * @param form in which form
 * @param view how much of each case
 * @param former what was written before, which this must not leave standing where it holds no more; null when nothing was
 */
record OutputShape(OutputForm form, CaseView view, @Nullable FormerOutput former) {}
