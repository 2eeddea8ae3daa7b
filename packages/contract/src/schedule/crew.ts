// Who comes besides the pair: outside providers and observers; holds extended, and re-inspections held.
import { z } from 'zod';
import { OBSERVER_REASONS } from '@backsight/domain/schedule/crew';
import { OFFICE_ROLES, start } from '../jobs.ts';
import { cents, day, id, idParams, instant, line, made, route, warnings } from '../route.ts';

export { OBSERVER_REASONS };
export type { ObserverReason } from '@backsight/domain/schedule/crew';

const text = z.string();
const who = OFFICE_ROLES;
const area = 'schedule';
const changed = z.strictObject({ id, version: z.int() });
const reason = z.enum(Object.keys(OBSERVER_REASONS) as [keyof typeof OBSERVER_REASONS]);
const serviceKey = z.string().min(1).max(100);
const agreed = z.int().min(0).max(2_000_000_000);

const providerBody = z.strictObject({
  name: line(120),
  phone: line(40),
  contractsWithUs: z.boolean(),
  costCents: agreed,
  minutes: z.int().min(1).max(720),
  offsetMinutes: z.int().min(0).max(720),
  licenseUntil: day.nullable(),
  insuranceUntil: day.nullable(),
  endedOn: day.nullable(),
});
const provider = z.strictObject({
  ...providerBody.shape,
  id,
  name: text,
  phone: text,
  costCents: cents,
  serviceKey: text,
  serviceName: text,
  version: z.int(),
  ahead: z.int(),
});
export type Provider = z.output<typeof provider>;

const crew = z.strictObject({
  version: z.int(),
  visits: z.array(
    z.strictObject({
      id,
      kind: text,
      kindName: text,
      state: text,
      startsAt: instant,
      endsAt: instant,
      /** When the walk-through with the client begins; null without one, or when the client does not attend. */
      clientComesAt: instant.nullable(),
      holdExtended: z.boolean(),
      version: z.int(),
      observers: z.array(z.strictObject({ personId: id, name: text, reason })),
    }),
  ),
  services: z.array(
    z.strictObject({
      service: text,
      name: text,
      providerId: id.nullable(),
      provider: text.nullable(),
      phone: text.nullable(),
      agreedCents: cents.nullable(),
      contractsWithUs: z.boolean().nullable(),
      startsAt: instant.nullable(),
      minutes: z.int().nullable(),
      choices: z.array(
        z.strictObject({
          id,
          name: text,
          costCents: cents,
          contractsWithUs: z.boolean(),
          licenseUntil: day.nullable(),
          insuranceUntil: day.nullable(),
        }),
      ),
    }),
  ),
  /** What a re-inspection is limited to. */
  items: z.array(text),
  reinspects: z.boolean(),
  mayReinspect: z.boolean(),
});
export type Crew = z.output<typeof crew>;

export const crewRoutes = {
  providers: route({
    method: 'GET',
    path: '/api/providers',
    area,
    summary: 'Outside providers, and the services that they do',
    who,
    reply: z.strictObject({ providers: z.array(provider), services: z.array(z.strictObject({ key: text, name: text })) }),
  }),
  addProvider: route({
    method: 'POST',
    path: '/api/providers',
    area,
    summary: 'Add an outside provider',
    who,
    creates: true,
    reply: made,
    body: z.strictObject({ ...providerBody.shape, id, serviceKey }),
  }),
  changeProvider: route({
    method: 'PATCH',
    path: '/api/providers/:id',
    area,
    summary: 'Change an outside provider, or end his work with the firm',
    who,
    edits: true,
    params: idParams,
    reply: changed,
    body: providerBody.partial(),
  }),
  crew: route({
    method: 'GET',
    path: '/api/jobs/:id/crew',
    area,
    summary: 'Who comes to the visits of a job besides the pair',
    who: 'signed_in',
    of: 'job',
    params: idParams,
    reply: crew,
  }),
  chooseProvider: route({
    method: 'PUT',
    path: '/api/jobs/:id/providers/:service',
    area,
    summary: 'Choose the outside provider of a service',
    who,
    edits: true,
    params: z.strictObject({ id, service: serviceKey }),
    reply: changed,
    body: z.strictObject({ providerId: id, agreedCents: agreed.optional(), contractsWithUs: z.boolean().optional() }),
  }),
  addObserver: route({
    method: 'POST',
    path: '/api/visits/:id/observers',
    area,
    summary: 'Let somebody come along who counts toward no rule',
    who,
    creates: true,
    params: idParams,
    reply: changed,
    body: z.strictObject({ personId: id, reason }),
  }),
  removeObserver: route({
    method: 'DELETE',
    path: '/api/visits/:id/observers/:personId',
    area,
    summary: 'Somebody no longer comes along',
    who,
    params: z.strictObject({ id, personId: id }),
    reply: changed,
  }),
  extendHold: route({
    method: 'PUT',
    path: '/api/jobs/:id/hold',
    area,
    summary: 'Extend the hold of a job, once',
    who,
    edits: true,
    params: idParams,
    reply: z.strictObject({ id, version: z.int(), holdEndsAt: instant }),
  }),
  holdReinspection: route({
    method: 'POST',
    path: '/api/jobs/:id/reinspections',
    area,
    summary: 'Hold a time for a re-inspection of listed items',
    who,
    creates: true,
    params: idParams,
    reply: z.strictObject({
      id,
      number: z.int(),
      version: z.int(),
      visitId: id,
      startsAt: instant,
      endsAt: instant,
      first: id,
      second: id.nullable(),
      holdEndsAt: instant,
      warnings,
    }),
    body: z.strictObject({ id, items: z.array(line(200)).min(1).max(40), cents: agreed, start }),
  }),
};
