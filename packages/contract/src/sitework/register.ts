// The register of reports, consents to other recipients, and letting a report leave although something is missing.
import { z } from 'zod';
import { day, id, idParams, instant, made, page, prose, route } from '../route.ts';
import { reportPerson } from './reports.ts';

const DESK = ['owner', 'office_manager', 'lead_inspector'] as const;
const days = z.strictObject({ from: day, to: day });
const line = z.strictObject({
  no: z.int(),
  jobId: id,
  jobNumber: z.int(),
  clients: z.array(z.string()),
  address: z.string(),
  inspectedOn: day,
  reportOn: day,
  revisedOn: z.array(day),
  people: z.array(reportPerson),
  deliveredAt: instant.nullable(),
  deliveredTo: z.array(z.string()),
  /** SHA-256 of the files that left, by version. */
  sha256: z.array(z.string()),
});
export type RegisterLine = z.output<typeof line>;

export const registerRoutes = {
  register: route({
    method: 'GET',
    path: '/api/report-register',
    area: 'sitework',
    summary: 'The register of reports in sequence, by the day of the inspection',
    who: DESK,
    query: days.extend({
      cursor: z
        .string()
        .regex(/^\d{1,9}$/)
        .optional(),
      limit: z.coerce.number().int().min(1).max(200).default(100),
    }),
    reply: page(line),
  }),
  registerCsv: route({
    method: 'GET',
    path: '/api/report-register.csv',
    area: 'sitework',
    summary: 'The same register as comma-separated text (RFC 4180)',
    who: DESK,
    query: days,
    reply: z.unknown(),
  }),
  consent: route({
    method: 'POST',
    path: '/api/jobs/:id/report-consents',
    area: 'sitework',
    summary: "Record the client's written consent that somebody gets the report, or its withdrawal",
    who: 'signed_in',
    of: 'job',
    creates: true,
    params: idParams,
    body: z.strictObject({
      id,
      partyId: id,
      clientId: id,
      kind: z.enum(['given', 'withdrawn']),
      how: z.enum(['mail', 'paper', 'agreement']),
      note: z.string().trim().max(300).default(''),
      givenOn: day,
    }),
    reply: made,
  }),
  overrideHandOver: route({
    method: 'POST',
    path: '/api/jobs/:id/hand-over-override',
    area: 'sitework',
    summary: 'Let a report leave although signature or fee is missing',
    who: ['owner', 'lead_inspector'],
    creates: true,
    params: idParams,
    body: z.strictObject({ id, reason: prose(1000) }),
    reply: z.strictObject({ id, missing: z.array(z.string()) }),
  }),
};
