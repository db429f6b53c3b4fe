package example.tamponade.app.carry;

import java.util.List;

/** A folder that was carried is not as it was written; nothing of it is taken. */
public final class DamagedFolderException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    DamagedFolderException(List<String> faults) {
        super("nothing was taken, as the folder is not as it was written:\n  " + String.join("\n  ", faults));
    }
}
