// What is on file about a person: licenses, qualifications, hours, absences, pairing rules, where a person must not go; and what lapses soon.
import { z } from 'zod';
import { ABSENCE_STATES } from '@backsight/domain/people/absences';
import { PAIRING_KINDS, type PairingKind } from '@backsight/domain/people/pairing';
import { day, id, idParams, instant, line, made, route, warnings, wholeMinute } from '../route.ts';

export { PAIRING_KINDS };

const minute = z.int().min(0).max(1440);
const span = z.strictObject({ weekday: z.int().min(1).max(7), startMinute: minute, endMinute: minute });
const license = z.strictObject({ id, kind: z.string(), number: z.string(), fromDay: day, untilDay: day });
const qualification = z.strictObject({ id, kind: z.string(), name: z.string(), fromDay: day, untilDay: day.nullable() });
const absenceState = z.enum(ABSENCE_STATES);
const absence = z.strictObject({
  id,
  startsAt: instant,
  endsAt: instant,
  reason: z.string().nullable(),
  state: absenceState,
  decision: z.string().nullable(),
  /** Booked visits in an absence that is asked for, for those who decide about it. */
  hits: z.array(z.string()),
});
const barKind = z.enum(['property', 'party']);
const exception = z.strictObject({ id, day, startMinute: minute.nullable(), endMinute: minute.nullable(), note: z.string() });
const file = z.strictObject({
  licenses: z.array(license),
  qualifications: z.array(qualification),
  qualificationKinds: z.array(z.strictObject({ key: z.string(), name: z.string() })),
  sizes: z.array(z.strictObject({ kind: z.string(), name: z.string(), size: z.string().nullable() })),
  hours: z.array(span.extend({ fromDay: day, untilDay: day.nullable() })),
  exceptions: z.array(exception),
  absences: z.array(absence),
  bars: z.array(z.strictObject({ id, kind: barKind, aboutId: id, name: z.string(), reason: z.string().nullable() })),
});
export type PersonFile = z.output<typeof file>;

const pairingKind = z.enum(Object.keys(PAIRING_KINDS) as [PairingKind, ...PairingKind[]]);
const pairing = z.strictObject({
  id,
  kind: pairingKind,
  aId: id,
  aName: z.string(),
  bId: id,
  bName: z.string(),
  reason: z.string(),
  endedOn: day.nullable(),
});
export type Pairing = z.output<typeof pairing>;
const lapsing = z.strictObject({
  kind: z.enum(['license', 'qualification', 'kit', 'kit_check', 'policy', 'education', 'provider']),
  id,
  personId: id.nullable(),
  who: z.string(),
  what: z.string(),
  on: day,
  /** Days before its end in which it is: 180, 90 or 30; null = earlier. */
  stage: z.int().nullable(),
  lapsed: z.boolean(),
});
export type Lapsing = z.output<typeof lapsing>;

const OFFICE = ['owner', 'office_manager'] as const;
const OFFICE_AND_LEAD = ['owner', 'office_manager', 'lead_inspector'] as const;
const untilDay = z.strictObject({ untilDay: day });
const withWarnings = z.strictObject({ id, warnings });

export const personFileRoutes = {
  file: route({
    method: 'GET',
    path: '/api/people/:id/file',
    area: 'people',
    summary: 'What is on file about a person',
    who: 'signed_in',
    of: 'person',
    params: idParams,
    reply: file,
  }),
  addLicense: route({
    method: 'POST',
    path: '/api/people/:id/licenses',
    area: 'people',
    summary: 'Put a license on file',
    who: OFFICE,
    creates: true,
    params: idParams,
    reply: made,
    body: z.strictObject({ id, kind: line(60), number: line(60), fromDay: day, untilDay: day }),
  }),
  endLicense: route({
    method: 'PATCH',
    path: '/api/licenses/:id',
    area: 'people',
    summary: 'Set the last day of a license',
    who: OFFICE,
    params: idParams,
    reply: made,
    body: untilDay,
  }),
  addQualification: route({
    method: 'POST',
    path: '/api/people/:id/qualifications',
    area: 'people',
    summary: 'Put a qualification on file',
    who: OFFICE_AND_LEAD,
    creates: true,
    params: idParams,
    reply: made,
    body: z.strictObject({ id, kind: line(60), fromDay: day, untilDay: day.nullable() }),
  }),
  endQualification: route({
    method: 'PATCH',
    path: '/api/qualifications/:id',
    area: 'people',
    summary: 'Set the last day of a qualification',
    who: OFFICE_AND_LEAD,
    params: idParams,
    reply: made,
    body: untilDay,
  }),
  setHours: route({
    method: 'PUT',
    path: '/api/people/:id/hours',
    area: 'people',
    summary: 'Set the usual hours from a day on; replies with the booked visits outside them',
    who: OFFICE,
    params: idParams,
    reply: withWarnings,
    body: z.strictObject({ fromDay: day, spans: z.array(span).max(21) }),
  }),
  addAbsence: route({
    method: 'POST',
    path: '/api/people/:id/absences',
    area: 'people',
    summary: 'Ask for an absence of your own, or enter one that counts at once; replies with the booked visits that it hits',
    who: 'signed_in',
    of: 'person',
    creates: true,
    params: idParams,
    reply: withWarnings.extend({ state: absenceState }),
    body: z.strictObject({ id, startsAt: wholeMinute, endsAt: wholeMinute, reason: line(120) }),
  }),
  decideAbsence: route({
    method: 'PUT',
    path: '/api/absences/:id/decision',
    area: 'people',
    summary: 'Approve or refuse an absence that was asked for',
    who: OFFICE_AND_LEAD,
    params: idParams,
    reply: withWarnings.extend({ state: absenceState }),
    body: z.strictObject({ approve: z.boolean(), reason: z.string().trim().max(200), keepVisits: z.boolean().default(false) }),
  }),
  addException: route({
    method: 'POST',
    path: '/api/people/:id/exceptions',
    area: 'people',
    summary: 'Other hours than usual on one day, or none; replies with the booked visits outside them',
    who: OFFICE_AND_LEAD,
    creates: true,
    params: idParams,
    reply: withWarnings,
    body: z.strictObject({ id, day, startMinute: minute.nullable(), endMinute: minute.nullable(), note: z.string().trim().max(120) }),
  }),
  withdrawException: route({
    method: 'DELETE',
    path: '/api/exceptions/:id',
    area: 'people',
    summary: 'Go back to the usual hours of a day',
    who: OFFICE_AND_LEAD,
    params: idParams,
    reply: made,
  }),
  withdrawAbsence: route({
    method: 'DELETE',
    path: '/api/absences/:id',
    area: 'people',
    summary: 'Withdraw an absence',
    who: 'signed_in',
    of: 'person',
    params: idParams,
    reply: made,
  }),
  addBar: route({
    method: 'POST',
    path: '/api/people/:id/bars',
    area: 'people',
    summary: 'Keep a person away from a property, or from somebody on its jobs',
    who: OFFICE,
    creates: true,
    params: idParams,
    reply: made,
    body: z.strictObject({ id, kind: barKind, aboutId: id, reason: line(200).nullable() }),
  }),
  liftBar: route({
    method: 'DELETE',
    path: '/api/bars/:id',
    area: 'people',
    summary: 'Let a person go there again',
    who: OFFICE,
    params: idParams,
    reply: made,
  }),
  barChoices: route({
    method: 'GET',
    path: '/api/bar-choices',
    area: 'people',
    summary: 'Find a property on file by words of its address, or somebody on a job by name, e-mail address or phone',
    who: OFFICE,
    query: z.strictObject({ kind: barKind, text: line(100) }),
    reply: z.array(z.strictObject({ id, name: z.string() })),
  }),
  pairing: route({
    method: 'GET',
    path: '/api/pairing-rules',
    area: 'people',
    summary: 'Who must or must not go together',
    who: OFFICE_AND_LEAD,
    reply: z.array(pairing),
  }),
  addPairing: route({
    method: 'POST',
    path: '/api/pairing-rules',
    area: 'people',
    summary: 'Put a pairing rule in force',
    who: OFFICE_AND_LEAD,
    creates: true,
    reply: made,
    body: z.strictObject({ id, kind: pairingKind, aId: id, bId: id, reason: line(200) }),
  }),
  endPairing: route({
    method: 'DELETE',
    path: '/api/pairing-rules/:id',
    area: 'people',
    summary: 'End a pairing rule today',
    who: OFFICE_AND_LEAD,
    params: idParams,
    reply: made,
  }),
  lapsing: route({
    method: 'GET',
    path: '/api/lapsing',
    area: 'people',
    summary: 'Licenses, qualifications, education, calibrations, checks of kit and policies that lapse soon',
    who: OFFICE_AND_LEAD,
    query: z.strictObject({ days: z.coerce.number().int().min(1).max(400).default(60) }),
    reply: z.array(lapsing),
  }),
};
