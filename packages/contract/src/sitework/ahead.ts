// What a phone is handed ahead, so that a visit can be started and written down without signal.
import { z } from 'zod';
import { day, id, idParams, instant, made, route } from '../route.ts';
import { siteworkRoutes } from '../sitework.ts';

/** The frozen basis of a site record: steps are put together from it by the same rules on the phone and in the service. */
const basis = z.strictObject({
  day,
  facts: z.record(z.string(), z.unknown()),
  services: z.array(z.string()),
  serviceNames: z.record(z.string(), z.string()),
  crewSize: z.int(),
  doubleLook: z.number().nullable().optional(),
});
const aheadVisit = z.strictObject({
  start: siteworkRoutes.start.reply,
  /** Ids that the record and its first package have or will have, on whichever phone it is opened. */
  recordId: id,
  packageId: id,
  /** What this was handed out under; null until it is asked for, or when something has changed since. */
  offerId: id.nullable(),
  itemIds: z.array(id),
  basis,
  revisionIds: z.array(id),
  place: z.strictObject({ lat: z.number(), lon: z.number() }).nullable(),
});
export type AheadVisit = z.output<typeof aheadVisit>;

const revision = z.strictObject({
  revisionId: id,
  procedureKey: z.string(),
  title: z.string(),
  system: z.string(),
  number: z.int(),
  /** Steps as the procedure book keeps them. */
  steps: z.array(z.record(z.string(), z.unknown())),
});
export type AheadRevision = z.output<typeof revision>;

export const aheadRoutes = {
  ahead: route({
    method: 'GET',
    path: '/api/my-day/ahead',
    area: 'sitework',
    summary: 'Everything that my phone needs to start the visits of today and tomorrow without signal',
    who: 'signed_in',
    reply: z.strictObject({ at: instant, revisions: z.array(revision), visits: z.array(aheadVisit) }),
  }),
  offer: route({
    method: 'POST',
    path: '/api/visits/:id/offer',
    area: 'sitework',
    summary: 'Hand out ahead what a visit is started with: revisions, facts and the state of the gate, kept as they are now',
    who: 'signed_in',
    of: 'visit',
    params: idParams,
    creates: true,
    body: z.strictObject({}),
    reply: made,
  }),
};
export type Ahead = z.output<typeof aheadRoutes.ahead.reply>;
