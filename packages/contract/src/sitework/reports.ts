// The report register: versions with their dates, files taken in, handing over.
import { z } from 'zod';
import { day, id, idParams, instant, line, prose, route } from '../route.ts';

const reportLine = z.strictObject({ title: z.string(), item: z.string().nullable(), answer: z.string(), note: z.string().nullable() });
const body = z.strictObject({
  summary: z.array(z.strictObject({ system: z.string(), text: z.string() })),
  systems: z.array(z.strictObject({ system: z.string(), lines: z.array(reportLine) })),
  notInspected: z.array(z.strictObject({ system: z.string(), title: z.string(), item: z.string().nullable(), why: z.string() })),
});
/** Who inspected and who prepared a report, with the license on the day of the inspection and the day until which it was valid. */
export const reportPerson = z.strictObject({
  name: z.string(),
  did: z.enum(['inspected', 'prepared']),
  license: z.string().nullable(),
  until: day.nullable(),
});
export const report = z.strictObject({
  id,
  version: z.int(),
  source: z.enum(['drafted', 'taken_in']),
  body: body.nullable(),
  fileSha256: z.string().nullable(),
  fileName: z.string().nullable(),
  fileBytes: z.int().nullable(),
  inspectedOn: day,
  completedOn: day,
  reportOn: day,
  revisedOn: day.nullable(),
  inspectedBy: z.array(z.string()),
  preparedBy: id,
  preparedByName: z.string(),
  people: z.array(reportPerson),
  registerNo: z.int().nullable(),
  /** Fingerprint of the drafted report's file, kept since it was first handed over. */
  sealed: z.strictObject({ sha256: z.string(), at: instant }).nullable(),
  recordedAt: instant,
  deliveries: z.array(z.strictObject({ id, name: z.string(), partyId: id, deliveredAt: instant, method: z.string() })),
});
export type Report = z.output<typeof report>;
const source = reportLine.extend({
  stepKey: z.string(),
  itemId: id.nullable(),
  system: z.string(),
  procedure: z.string(),
  outcome: z.string(),
  match: z.string(),
  worthALook: z.boolean(),
  /** A spoken note belongs to it: the writer listens, and writes. */
  spoken: z.boolean(),
});
export const register = z.strictObject({
  jobId: id,
  jobNumber: z.int(),
  address: z.string(),
  inspectedOn: day.nullable(),
  dueAt: instant.nullable(),
  /** Why then: the firm's promise, the state's rule with its source. */
  dueWords: z.string(),
  overdue: z.boolean(),
  sealed: z.boolean(),
  handOver: z.strictObject({
    missing: z.array(z.strictObject({ code: z.enum(['record-unsealed', 'agreement-unsigned', 'fee-unpaid']), wants: z.string() })),
    overrides: z.array(z.strictObject({ id, missing: z.array(z.string()), reason: z.string(), by: z.string(), happenedAt: instant })),
  }),
  consents: z.array(
    z.strictObject({
      id,
      partyId: id,
      kind: z.enum(['given', 'withdrawn']),
      how: z.enum(['mail', 'paper', 'agreement']),
      note: z.string(),
      givenOn: day,
      client: z.string(),
      takenBy: z.string(),
      recordedAt: instant,
    }),
  ),
  sources: z.array(source),
  reports: z.array(report),
  parties: z.array(
    z.strictObject({ partyId: id, name: z.string(), email: z.string().nullable(), roles: z.array(z.string()), mayReceive: z.boolean() }),
  ),
});
export type Register = z.output<typeof register>;

const dates = { id, completedOn: day, reportOn: day };
const made = z.strictObject({ id, version: z.int() });
const method = z.enum(['mail', 'own_mail', 'paper']);
/** Base64 of 15 MB and the rest of the request. */
const UPLOAD = 22 * 1024 * 1024;

export const reportRoutes = {
  list: route({
    method: 'GET',
    path: '/api/jobs/:id/reports',
    area: 'sitework',
    summary: "A job's report: versions, dates, recipients",
    who: 'signed_in',
    of: 'job',
    params: idParams,
    reply: register,
  }),
  draft: route({
    method: 'POST',
    path: '/api/jobs/:id/reports',
    area: 'sitework',
    summary: 'Draft a version of the report from the sealed record',
    who: 'signed_in',
    of: 'job',
    params: idParams,
    creates: true,
    reply: made,
    body: z.strictObject({
      ...dates,
      defects: z.array(z.strictObject({ stepKey: z.string().max(100), itemId: id.nullable(), text: prose(1000) })).max(200),
    }),
  }),
  takeIn: route({
    method: 'POST',
    path: '/api/jobs/:id/report-files',
    area: 'sitework',
    summary: 'Take in a report made elsewhere',
    who: 'signed_in',
    of: 'job',
    params: idParams,
    creates: true,
    bodyLimit: UPLOAD,
    reply: made,
    body: z.strictObject({
      ...dates,
      file: z.strictObject({
        name: line(120),
        base64: z
          .string()
          .max(UPLOAD)
          .regex(/^[A-Za-z0-9+/]+={0,2}$/, 'Choose the file once more: it did not arrive whole.'),
      }),
    }),
  }),
  handOver: route({
    method: 'POST',
    path: '/api/reports/:id/deliveries',
    area: 'sitework',
    summary: 'Hand the report over',
    who: 'signed_in',
    of: 'report',
    params: idParams,
    creates: true,
    body: z.strictObject({ id, partyId: id, method }),
    reply: z.strictObject({ id, deliveredAt: instant, awaited: z.array(z.string()) }),
  }),
  file: route({
    method: 'GET',
    path: '/api/reports/:id/file',
    area: 'sitework',
    summary: 'The file of a report that was taken in',
    who: 'signed_in',
    of: 'report',
    params: idParams,
    reply: z.unknown(),
  }),
};
