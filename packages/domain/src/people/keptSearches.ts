// Lists whose search a person may keep under a name, by their addresses; and how many.
export const SEARCHED_LISTS = [
  '/jobs',
  '/callbacks',
  '/people',
  '/kit',
  '/contacts',
  '/mail',
  '/mileage',
  '/pay',
  '/audit',
  '/report-register',
  '/ledger/entries',
  '/procedures/coverage',
  '/liabilities/files',
] as const;
export type SearchedList = (typeof SEARCHED_LISTS)[number];

/** Of one person: more are not found again by name. */
export const MOST_SEARCHES = 50;
