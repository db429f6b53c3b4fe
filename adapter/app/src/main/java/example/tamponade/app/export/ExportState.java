package example.tamponade.app.export;

import java.time.Instant;

/** How an export stands. */
public sealed interface ExportState {

    /**
     * It is being written.
     *
     * @param progress how far it is, in words
     */
    record Running(String progress) implements ExportState {}

    /**
     * It could not be written.
     *
     * @param problem why
     */
    record Failed(String problem) implements ExportState {}

    /**
     * It is written.
     *
     * @param manifest what it has brought
     * @param expires when its files go
     */
    record Done(Manifest manifest, Instant expires) implements ExportState {}
}
