// What a move of a visit would come to, before it is made.
import { z } from 'zod';
import { feeChange } from '../jobs/shapes.ts';
import { problem } from '../problem.ts';
import { cents, day, id, instant, warnings } from '../route.ts';

const text = z.string();
const minutes = z.int();
const load = z.strictObject({ visits: z.int(), driving: minutes, waiting: minutes, outside: minutes });

/** The fee at the new time, and the charge for moving late. */
export const moveChange = feeChange.extend({ lateCents: cents });
export type MoveChange = z.output<typeof moveChange>;

export const rehearsal = z.strictObject({
  /** The very refusal that the move would get; null when it would be made. */
  problem: problem.nullable(),
  warnings,
  /** Null for a visit that is not the one the job is for. */
  fee: moveChange.nullable(),
  lateBecause: text.nullable(),
  /** What the client was promised: the very start, or any start from one instant to another; and whether the new start keeps it. */
  promise: z.strictObject({ told: z.boolean(), from: instant, until: instant.nullable(), kept: z.boolean() }),
  /** Day by which the client must object, and whether the report would still come in time; null without one. */
  objection: z.strictObject({ day, kept: z.boolean() }).nullable(),
  /** Why plans leave the visit alone; a person may move it all the same. */
  lockedBecause: text.nullable(),
  /** Everybody whose day changes, before and after; the driving of several visits of a day counts once. */
  people: z.array(z.strictObject({ id, name: text, day, before: load, after: load })),
  /** Mails that the move would send. */
  told: z.array(z.strictObject({ name: text, subject: text, outside: z.boolean() })),
  /** Whom no mail reaches. */
  calls: z.array(z.strictObject({ name: text, why: text })),
  /** What was settled for the old time and is to be asked for again. */
  askedAgain: z.array(text),
});
export type Rehearsal = z.output<typeof rehearsal>;
