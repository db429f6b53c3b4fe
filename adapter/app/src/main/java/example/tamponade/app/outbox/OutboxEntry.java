package example.tamponade.app.outbox;

/**
 * A case at a destination, for those who look after deliveries.
 *
 * @param destination the destination
 * @param caseKey the case or facility
 * @param since since when something of it has been due
 * @param attempts how often it was tried in vain
 * @param nextAt when it is tried again at the earliest
 * @param resources how many of its resources are due
 * @param reason what the destination answered last, and what to do; empty when it has not answered yet
 */
public record OutboxEntry(
        String destination, String caseKey, String since, int attempts, String nextAt, long resources, String reason) {}
