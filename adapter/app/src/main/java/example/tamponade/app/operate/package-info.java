/**
 * Commands for those who run the adapter: take files, check the ledger, deal with quarantine. They work on the database
 * directly, with or without a server beside them.
 */
@NullMarked
package example.tamponade.app.operate;

import org.jspecify.annotations.NullMarked;
