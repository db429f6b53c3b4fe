/**
 * HL7 version 2.5.1: unsolicited observation messages (ORU^R01) in, over MLLP, HTTP or from a file, and
 * acknowledgements out. One OBR with its OBX segments is one bedside event. The types of the HL7 library stay in here;
 * values are judged elsewhere.
 */
@NullMarked
package example.tamponade.app.message;

import org.jspecify.annotations.NullMarked;
