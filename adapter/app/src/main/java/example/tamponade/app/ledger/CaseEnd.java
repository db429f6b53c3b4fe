package example.tamponade.app.ledger;

/**
 * The end of a case's chain.
 *
 * @param seq how many rows the case has
 * @param link the last row's link
 * @param moved whether rows were added since it was read
 */
record CaseEnd(long seq, String link, boolean moved) {}
