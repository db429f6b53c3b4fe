package example.tamponade.app.convert;

import java.nio.file.Path;

/**
 * What a conversion did.
 *
 * @param taken events taken
 * @param repeated lines that repeated an event already taken
 * @param refused lines, or empty files, that were refused
 * @param cases cases written
 * @param resources resources written
 */
record ConversionSummary(long taken, long repeated, long refused, int cases, long resources) {

    /**
     * What was done.
     *
     * @param out the folder that was written to
     * @param refusedIn the folder with what was refused
     */
    String inWords(Path out, Path refusedIn) {
        String words = taken + " events taken, " + repeated + " repeated, " + refused + " refused; " + resources
                + " resources of " + cases + " cases and facilities written to " + out;
        return refused == 0 ? words : words + "; the reasons are in " + refusedIn.resolve(RefusedFile.NAME);
    }
}
