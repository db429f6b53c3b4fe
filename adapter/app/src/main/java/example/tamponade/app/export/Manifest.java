package example.tamponade.app.export;

import java.util.List;

/**
 * What an export has brought: <a href="https://hl7.org/fhir/uv/bulkdata/STU2/export.html">Bulk Data Access 2.0.0</a>,
 * response, complete status.
 *
 * @param transactionTime a time that everything on record by then is exported of; what came in the minute before may be told
 *     again by an export since then
 * @param request the request
 * @param requiresAccessToken whether the files are given to those with a token alone
 * @param output the files
 * @param error files of errors; there are none: an export that fails brings nothing
 */
public record Manifest(
        String transactionTime, String request, boolean requiresAccessToken, List<File> output, List<File> error) {

    /**
     * A file.
     *
     * @param type the type of the resources in it
     * @param url its address
     * @param count how many there are
     */
    public record File(String type, String url, long count) {}
}
