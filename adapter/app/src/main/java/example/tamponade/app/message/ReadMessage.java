package example.tamponade.app.message;

import example.tamponade.app.intake.Piece;
import java.util.List;

/**
 * A message that was read.
 *
 * @param header what it says of itself; without content when that cannot be read
 * @param rejected whether it is refused as a whole, for what its header says or because it cannot be read
 * @param pieces its events-to-be; at least one
 * @param remarks what is passed over in it
 */
record ReadMessage(MessageHeader header, boolean rejected, List<Piece> pieces, List<Remark> remarks) {}
