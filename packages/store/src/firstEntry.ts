// Which entry of somebody at a place came first: as domain/sitework/order.ts orders them, for statements that count over many records.

/** When it was written by the service's clock: never later than it arrived. */
const rightTime = (entry: string): string =>
  `least(${entry}.written_at + coalesce(${entry}.clock_offset_ms, 0) * interval '1 millisecond', ${entry}.recorded_at)`;

/** Within a device its counter decides: an entry is never earlier than one that the same device wrote before it in this record. */
const AT = `CASE WHEN x.device_id IS NULL THEN ${rightTime('x')} ELSE (SELECT max(${rightTime('d')}) FROM step_entry d
  WHERE d.record_id = x.record_id AND d.device_id = x.device_id AND (d.device_seq, d.id) <= (x.device_seq, x.id)) END`;

/**
 * The query of somebody's first entry `x` at a place of a record; `record`, `place` (step and item) and `person` are SQL from outside it. The place is
 * compared as one value, so that entries are found by their record alone: the index of a step holds every record of the firm. Times are looked for only
 * where there are several entries, which is seldom.
 */
export const firstEntry = (columns: string, { record, place, person }: { record: string; place: string; person: string }): string =>
  `SELECT ${columns} FROM (SELECT e.*, count(*) OVER () AS several FROM step_entry e WHERE e.record_id = ${record} AND (e.step_key, e.item_id) IS NOT DISTINCT FROM (${place})
     AND e.observed_by = ${person}) x ORDER BY CASE WHEN x.several > 1 THEN ${AT} END, x.device_seq, x.id LIMIT 1`;
