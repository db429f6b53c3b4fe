package example.tamponade.app.quarantine;

import java.util.List;

/**
 * Something that was refused, with what came and all that became of it.
 *
 * @param entry what was refused
 * @param content what it came in, whole
 * @param steps its history, the refusal first
 */
public record WholeEntry(QuarantineEntry entry, KeptBytes content, List<QuarantineStep> steps) {}
