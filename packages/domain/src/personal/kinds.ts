// Kinds of records in the inventory of personal data.

/** To which kind of record a table belongs. `party` and `person` are the rows of people themselves; `firm` is nobody's. */
export type Record_ = 'job' | 'mail' | 'callback' | 'inquiry' | 'staff' | 'property' | 'party' | 'person' | 'firm';
