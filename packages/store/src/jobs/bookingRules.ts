// Versions of the booking rules: a job keeps the one under which it was booked.
import type { StoredBookingRules } from '@backsight/domain/jobs/stored';
import type { Prisma } from '../generated/client.ts';
import { execute, type Reader, type Tx } from '../database.ts';

/** The newest version, whether it is in force already or not. */
export const newestRules = async (reader: Reader): Promise<{ number: number; body: StoredBookingRules } | null> =>
  (
    await reader.rows<{ number: number; body: StoredBookingRules }>('SELECT number, body FROM booking_rules ORDER BY number DESC LIMIT 1')
  )[0] ?? null;

/** Adds a version that is in force from `at`. Constraint: booking_rules_number_key. */
export async function addRules(tx: Tx, rules: { id: string; number: number; body: StoredBookingRules; at: Date }): Promise<void> {
  const { id, number, at } = rules;
  const body = rules.body as unknown as Prisma.InputJsonValue;
  await tx.db.bookingRules.create({ data: { id, number, body, inForceFrom: at, recordedAt: at } });
}

/** Visits that wait for a device, wait as long as its test takes. */
export const setWaiting = (tx: Tx, hours: number): Promise<void> =>
  execute(tx, 'UPDATE visit_kind SET after_hours = $1::int WHERE after_hours > 0', hours);
