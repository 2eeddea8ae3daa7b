// What people keep about their own work: education hours, miles driven, the private address of their calendar.
import { z } from 'zod';
import { STAGES } from '@backsight/domain/people/education';
import { day, id, idParams, instant, line, made, route } from '../route.ts';

const area = 'people';
const text = z.string();
const stage = z.union(STAGES.map((days) => z.literal(days)) as [z.ZodLiteral<180>, z.ZodLiteral<90>, z.ZodLiteral<30>]);
/** Base64 of 8 MB and the rest of the request. */
const UPLOAD = 12 * 1024 * 1024;

const education = z.strictObject({
  standing: z
    .strictObject({
      fromDay: day,
      untilDay: day,
      needMinutes: z.int(),
      doneMinutes: z.int(),
      missingMinutes: z.int(),
      stage: stage.nullable(),
    })
    .nullable(),
  sources: z.array(text),
  supervised: z.strictObject({ done: z.int(), need: z.int().nullable() }).nullable(),
  entries: z.array(z.strictObject({ id, category: text, title: text, onDay: day, minutes: z.int(), fileName: text.nullable() })),
});
export type Education = z.output<typeof education>;

const file = z.strictObject({
  name: line(120),
  base64: z
    .string()
    .max(UPLOAD)
    .regex(/^[A-Za-z0-9+/]+={0,2}$/, 'Choose the file once more: it did not arrive whole.'),
});

export const educationRoutes = {
  list: route({
    method: 'GET',
    path: '/api/people/:id/education',
    area,
    summary: 'Education hours of a person, and what is missing by the rule pack; own ones, or for those who decide',
    who: 'signed_in',
    of: 'person',
    params: idParams,
    reply: education,
  }),
  add: route({
    method: 'POST',
    path: '/api/people/:id/education',
    area,
    summary: 'Put education hours on file with their certificate',
    who: 'signed_in',
    of: 'person',
    creates: true,
    bodyLimit: UPLOAD,
    params: idParams,
    reply: made,
    body: z.strictObject({
      id,
      category: line(60),
      title: line(160),
      onDay: day,
      minutes: z.int().min(1).max(14_400),
      file: file.nullable(),
    }),
  }),
  withdraw: route({
    method: 'DELETE',
    path: '/api/education/:id',
    area,
    summary: 'Withdraw education hours',
    who: 'signed_in',
    of: 'person',
    params: idParams,
    reply: made,
  }),
  certificate: route({
    method: 'GET',
    path: '/api/education/:id/certificate',
    area,
    summary: 'The certificate of education hours',
    who: 'signed_in',
    of: 'person',
    params: idParams,
    reply: z.unknown(),
  }),
};

const odometer = z.int().min(0).max(2_000_000).nullable();
const tenths = z.int().min(0).max(20_000);
const entered = z.strictObject({
  id,
  tenths,
  odometerStart: odometer,
  odometerEnd: odometer,
  vehicleId: id.nullable(),
  vehicle: text.nullable(),
  note: text,
});
const mileage = z.strictObject({
  rateTenthCents: z.int(),
  days: z.array(
    z.strictObject({
      personId: id,
      name: text,
      day,
      plannedTenths: z.int(),
      entered: entered.nullable(),
      differenceTenths: z.int().nullable(),
      cents: z.int(),
    }),
  ),
});
export type Mileage = z.output<typeof mileage>;
export type MileageDay = Mileage['days'][number];
const period = z.strictObject({ from: day, to: day, personId: id.nullable().default(null) });

export const mileageRoutes = {
  list: route({
    method: 'GET',
    path: '/api/mileage',
    area,
    summary: 'Planned and entered miles by person and day; own ones, or everybody for those who decide',
    who: 'signed_in',
    query: period,
    reply: mileage,
  }),
  export: route({
    method: 'GET',
    path: '/api/mileage.csv',
    area,
    summary: 'Entered miles with their amounts as comma-separated text (RFC 4180)',
    who: 'signed_in',
    query: period,
    reply: z.unknown(),
  }),
  enter: route({
    method: 'POST',
    path: '/api/people/:id/mileage',
    area,
    summary: 'Enter the miles of a day: tenths of a mile, or both readings of the odometer; replaces what was entered for it',
    who: 'signed_in',
    of: 'person',
    creates: true,
    params: idParams,
    reply: z.strictObject({ id, tenths }),
    body: z.strictObject({
      id,
      day,
      tenths: tenths.nullable(),
      odometerStart: odometer,
      odometerEnd: odometer,
      vehicleId: id.nullable(),
      note: z
        .string()
        .trim()
        .max(200)
        .regex(/^[^\u0000-\u001f]*$/, 'Write this in one line.'),
    }),
  }),
  rate: route({
    method: 'PUT',
    path: '/api/mileage-rate',
    area,
    summary: 'Set what a mile is repaid with, in tenths of a cent',
    who: ['owner'],
    reply: z.strictObject({ tenthCents: z.int() }),
    body: z.strictObject({ tenthCents: z.int().min(0).max(10_000) }),
  }),
};

export const calendarRoutes = {
  state: route({
    method: 'GET',
    path: '/api/me/calendar-feed',
    area,
    summary: 'Since when your private calendar address is open',
    who: 'signed_in',
    reply: z.strictObject({ since: instant.nullable() }),
  }),
  open: route({
    method: 'PUT',
    path: '/api/me/calendar-feed',
    area,
    summary: 'Open a new private calendar address; it is shown once, and the one before stops working',
    who: 'signed_in',
    reply: z.strictObject({ address: text }),
  }),
  close: route({
    method: 'DELETE',
    path: '/api/me/calendar-feed',
    area,
    summary: 'Close your private calendar address',
    who: 'signed_in',
    reply: z.strictObject({ closed: z.boolean() }),
  }),
};
