// Checks what is stored of booking rules and fee schedules; each version is checked once.
import type { DeskRules } from '@backsight/domain/jobs/deskRules';
import { bookingRulesSchema, deskRulesSchema, type StoredBookingRules } from '@backsight/domain/jobs/stored';
import type { FeeSchedule } from '@backsight/domain/fees/schedule';
import { feeScheduleSchema } from '@backsight/domain/fees/stored';

type Row = { id: string; body: unknown };

/** A stored body is never changed under its id, so that one check is enough. @throws Error naming what is stored wrongly */
function checkedOnce<T>(what: string, parse: (body: unknown) => T): (row: Row | null) => { id: string; body: T } | null {
  const known = new Map<string, T>();
  return (row) => {
    if (!row) return null;
    let body = known.get(row.id);
    if (body === undefined) {
      try {
        body = parse(row.body);
      } catch (error) {
        throw new Error(`the stored ${what} ${row.id} cannot be read`, { cause: error });
      }
      known.set(row.id, body);
    }
    return { id: row.id, body };
  };
}

export const asRules = checkedOnce('booking rules', (body): StoredBookingRules => bookingRulesSchema.parse(body) as StoredBookingRules);
export const asSchedule = checkedOnce('fee schedule', (body): FeeSchedule => feeScheduleSchema.parse(body) as FeeSchedule);
export const asDesk = checkedOnce('rules of the desk', (body): DeskRules | null =>
  body === null ? null : (deskRulesSchema.parse(body) as DeskRules),
);
