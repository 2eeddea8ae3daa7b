// The firm: its set-up, settings, offices, closed days, insurance, and who may approve how much.
import { z } from 'zod';
import { WEEKDAYS } from '@backsight/domain/firm/rules';
import { weekHoursSchema } from '@backsight/domain/firm/stored';
import { SHORTEST_PASSWORD } from '@backsight/domain/people/rules';
import { refusals } from './problem.ts';
import { cents, day, id, idParams, line, made, phone, prose, route } from './route.ts';
import { roleSchema } from './people.ts';

const hours = weekHoursSchema;
const lat = z.number().min(-90).max(90);
const lon = z.number().min(-180).max(180);
const email = z.email().max(200);

/** A firm begins with hours that can be: all that is wrong is said at once, before the set-up looks at anything. */
const hoursInOrder = hours.superRefine((week, context) =>
  ([1, 2, 3, 4, 5, 6, 7] as const).forEach((key) => {
    const span = week[key];
    const message = refusals['hours-backwards'].sentence.replace('{day}', WEEKDAYS[key]);
    if (span && span[1] <= span[0]) context.addIssue({ code: 'custom', path: [key], message });
  }),
);
const password = z.string().max(400).min(SHORTEST_PASSWORD, refusals['password-too-short'].sentence);

const settings = {
  name: line(120),
  phone,
  email,
  address: line(200),
  zone: line(60),
  onCallPhone: phone,
  holdMinutes: z.int().min(1).max(240),
  graceDays: z.int().min(0).max(60),
  everySigner: z.boolean(),
  reportDueDays: z.int().min(0).max(60),
  /** Of papers that are made from now on; what is sealed stays as it is. */
  paperSize: z.enum(['letter', 'a4']),
};
const office = z.strictObject({ id, name: z.string(), zone: z.string(), jurisdiction: z.string(), address: z.string(), lat, lon, hours });
const closedDay = z.strictObject({ day, name: z.string() });
export const firm = z.strictObject({
  ...settings,
  name: z.string(),
  phone: z.string(),
  email: z.string(),
  address: z.string(),
  zone: z.string(),
  onCallPhone: z.string(),
  demo: z.boolean(),
  version: z.int(),
  offices: z.array(office),
  closedDays: z.array(closedDay),
});
export type Firm = z.output<typeof firm>;
export type WeekHours = z.output<typeof hours>;

const policyKinds = { kind: z.enum(['professional', 'general']), basis: z.enum(['claims_made', 'occurrence']) };
const amount = cents.min(0);
const policyBody = {
  ...policyKinds,
  insurer: line(120),
  number: line(60),
  startsOn: day,
  endsOn: day,
  retroactiveOn: day.nullable(),
  /** The most for one claim, and for all claims of the period (null = the policy names none). */
  limitCents: amount,
  aggregateCents: amount.nullable().default(null),
  deductibleCents: amount,
  /** What the policy calls a claim, and which circumstances it asks to be reported. */
  claimMeans: z.string().trim().max(2000).default(''),
  reportable: prose(2000),
  noticeAddress: prose(400),
};
const policy = z.strictObject({
  ...policyBody,
  id,
  insurer: z.string(),
  number: z.string(),
  claimMeans: z.string(),
  reportable: z.string(),
  noticeAddress: z.string(),
});
export type Policy = z.output<typeof policy>;
const limitRole = z.enum(['owner', 'lead_inspector', 'office_manager']);
const loan = z.strictObject({
  id,
  lenderId: id,
  lenderName: z.string(),
  borrowerId: id,
  borrowerName: z.string(),
  role: roleSchema,
  fromDay: day,
  untilDay: day,
  reason: z.string(),
});
const authority = z.strictObject({
  policies: z.array(policy),
  limits: z.array(z.strictObject({ role: limitRole, limitCents: amount.nullable(), discountCents: amount.nullable() })),
  loans: z.array(loan),
});
export type Authority = z.output<typeof authority>;
const dayParams = z.strictObject({ day });

export const setUpRoutes = {
  state: route({
    method: 'GET',
    path: '/api/set-up',
    area: 'firm',
    summary: 'Whether the firm has still to be set up',
    who: 'anyone',
    reply: z.strictObject({ needed: z.boolean() }),
  }),
  setUp: route({
    method: 'POST',
    path: '/api/set-up',
    area: 'firm',
    summary: 'Set up the firm, its office and its owner, once',
    who: 'anyone',
    creates: true,
    reply: made,
    body: z.strictObject({
      code: z.string().min(1).max(40),
      firm: z.strictObject({
        name: settings.name,
        phone: settings.phone,
        email,
        address: settings.address,
        zone: settings.zone.optional(),
        onCallPhone: settings.onCallPhone,
      }),
      /** Place, state and zone are those of the ZIP code, unless they are given. */
      office: z.strictObject({
        id,
        name: line(80),
        zip: z
          .string()
          .regex(/^\d{5}$/, 'A ZIP code has five digits.')
          .optional(),
        jurisdiction: line(40).optional(),
        /** That of the firm, unless it is given. */
        address: line(200).optional(),
        lat: lat.optional(),
        lon: lon.optional(),
        hours: hoursInOrder,
      }),
      owner: z.strictObject({ id, name: line(120), email, phone, password }),
      beginWithExamples: z.boolean(),
    }),
  }),
};

export const firmRoutes = {
  firm: route({
    method: 'GET',
    path: '/api/firm',
    area: 'firm',
    summary: 'The firm, its offices and the closed days to come',
    who: 'signed_in',
    reply: firm,
  }),
  change: route({
    method: 'PATCH',
    path: '/api/firm',
    area: 'firm',
    summary: 'Change the settings of the firm',
    who: ['owner'],
    edits: true,
    reply: z.strictObject({ version: z.int() }),
    body: z.strictObject(settings).partial(),
  }),
  changeOffice: route({
    method: 'PUT',
    path: '/api/offices/:id',
    area: 'firm',
    summary: 'Change an office, its place and its hours',
    who: ['owner'],
    params: idParams,
    reply: made,
    body: z.strictObject({ name: line(80), address: line(200), lat, lon, hours }),
  }),
  closeDay: route({
    method: 'PUT',
    path: '/api/closed-days/:day',
    area: 'firm',
    summary: 'Close the office on a day',
    who: ['owner', 'office_manager'],
    params: dayParams,
    reply: dayParams,
    body: z.strictObject({ name: line(80) }),
  }),
  openDay: route({
    method: 'DELETE',
    path: '/api/closed-days/:day',
    area: 'firm',
    summary: 'Take back a closed day',
    who: ['owner', 'office_manager'],
    params: dayParams,
    reply: dayParams,
  }),
  authority: route({
    method: 'GET',
    path: '/api/authority',
    area: 'firm',
    summary: 'Insurance, approval limits and lent authority',
    who: ['owner', 'lead_inspector'],
    reply: authority,
  }),
  addPolicy: route({
    method: 'POST',
    path: '/api/policies',
    area: 'firm',
    summary: 'Put an insurance policy on file',
    who: ['owner'],
    creates: true,
    reply: made,
    body: z.strictObject({ id, ...policyBody }),
  }),
  changePolicy: route({
    method: 'PUT',
    path: '/api/policies/:id',
    area: 'firm',
    summary: 'Correct an insurance policy',
    who: ['owner'],
    params: idParams,
    reply: made,
    body: z.strictObject(policyBody),
  }),
  endPolicy: route({
    method: 'POST',
    path: '/api/policies/:id/end',
    area: 'firm',
    summary: 'End an insurance policy before its period is over',
    who: ['owner'],
    params: idParams,
    creates: true,
    reply: made,
    body: z.strictObject({ endsOn: day, reason: line(300) }),
  }),
  setLimit: route({
    method: 'PUT',
    path: '/api/approval-limits/:role',
    area: 'firm',
    summary: 'Set how much a role may approve alone',
    who: ['owner'],
    params: z.strictObject({ role: limitRole }),
    reply: z.strictObject({ role: limitRole }),
    body: z.strictObject({ limitCents: amount.nullable() }),
  }),
  setDiscountLimit: route({
    method: 'PUT',
    path: '/api/discount-limits/:role',
    area: 'firm',
    summary: 'Set how much a role may take off a fee by hand; null = no limit',
    who: ['owner'],
    params: z.strictObject({ role: limitRole }),
    reply: z.strictObject({ role: limitRole }),
    body: z.strictObject({ discountCents: amount.nullable() }),
  }),
  lend: route({
    method: 'POST',
    path: '/api/approval-loans',
    area: 'firm',
    summary: 'Lend authority to a person for some days',
    who: ['owner', 'lead_inspector', 'office_manager'],
    creates: true,
    reply: made,
    body: z.strictObject({ id, borrowerId: id, role: limitRole, fromDay: day, untilDay: day, reason: line(200) }),
  }),
  endLoan: route({
    method: 'DELETE',
    path: '/api/approval-loans/:id',
    area: 'firm',
    summary: 'End a loan of authority today',
    who: ['owner', 'lead_inspector', 'office_manager'],
    params: idParams,
    reply: made,
  }),
};
