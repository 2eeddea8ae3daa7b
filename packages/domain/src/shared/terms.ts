// Terms of payment that fees and agreements share.

/** A fee billed to the closing is due this many days after the visit, whether or not the sale closes: it may never depend on that. */
export const CLOSING_DAYS = 30;
