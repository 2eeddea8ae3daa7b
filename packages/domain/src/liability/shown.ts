/** Most rows that a list of liabilities without pages shows at once; the table to take away has all of them. */
export const ROWS_SHOWN = 200;
