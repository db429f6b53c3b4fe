/**
 * Events from a Kafka topic, keyed by case. An offset is committed only when everything before it is on disk, in the ledger
 * or in quarantine; what is delivered twice has no effect.
 */
@NullMarked
package example.tamponade.app.topic;

import org.jspecify.annotations.NullMarked;
