// What stands around a callback besides record and report, and the facts part of its file on paper.
import { z } from 'zod';
import { day, id, idParams, instant, route } from '../route.ts';
import { JUDGES } from './shapes.ts';

const text = z.string();
const background = z.strictObject({
  /** The day of the inspection, on which licenses are looked at. */
  day: day.nullable(),
  pair: z.array(
    z.strictObject({
      name: text,
      places: z.array(text),
      licenses: z.array(z.strictObject({ kind: text, number: text, fromDay: day, untilDay: day, inForce: z.boolean() })),
      /** Each revision that the job was worked by and that asks to be acknowledged; without an instant where it was never acknowledged. */
      acknowledged: z.array(
        z.strictObject({ procedure: text, system: text, revision: z.int(), where: text.nullable(), at: instant.nullable() }),
      ),
    }),
  ),
  /** What the newest agreement says, in the words that were signed, with the amounts for this job. */
  terms: z
    .strictObject({
      agreementId: id,
      textNumber: z.int(),
      textTitle: text,
      inForceFrom: instant.nullable(),
      binds: z.boolean(),
      cap: z.strictObject({ words: text, cents: z.int().nullable(), clause: text.nullable() }),
      claim: z.strictObject({ words: text, months: z.int().nullable(), clause: text.nullable() }),
      notice: text.nullable(),
    })
    .nullable(),
  supplements: z.array(z.strictObject({ id, words: text, by: text, at: instant })),
  mails: z.array(z.strictObject({ at: text, to: text, subject: text, state: text, body: text })),
  /** Other callbacks, of any property, whose newest conclusion names a step of this job. */
  sameSteps: z.array(
    z.strictObject({
      id,
      number: z.int(),
      kind: text,
      state: text,
      stepKey: text,
      cause: text,
      revision: z.int(),
      receivedAt: instant,
      where: text,
    }),
  ),
  /** By step: how often two looked on their own in the newest records, and how often they differed. */
  twoLooks: z.array(z.strictObject({ stepKey: text, looks: z.int(), differed: z.int() })),
});
export type CallbackBackground = z.output<typeof background>;

export const backgroundRoutes = {
  one: route({
    method: 'GET',
    path: '/api/callbacks/:id/background',
    area: 'callbacks',
    summary: 'Licenses and acknowledgements of the pair, what the agreement says, mails, and callbacks traced to the same steps',
    who: JUDGES,
    params: idParams,
    reply: background,
  }),
  facts: route({
    method: 'GET',
    path: '/api/callbacks/:id/facts',
    area: 'callbacks',
    summary: 'The facts part of the file on paper (PDF); no opinion is in it',
    who: JUDGES,
    params: idParams,
    reply: z.unknown(),
  }),
};
