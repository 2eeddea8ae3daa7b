// Personal data: how long records are kept, what is due, erasure and export of one person.
import { z } from 'zod';
import { ASKED_HOW, SUBJECTS, type AskedHow, type Subject } from '@backsight/domain/personal/erasure';
import { RECORDS, type RecordKind } from '@backsight/domain/personal/retention';
import { day, id, instant, line, prose, route } from './route.ts';

export { ASKED_HOW, SUBJECTS, type AskedHow, type Subject };

const text = z.string();
const kind = z.enum(Object.keys(RECORDS) as [RecordKind, ...RecordKind[]]);
const owner = ['owner'] as const;
const desk = ['owner', 'office_manager'] as const;
const subject = z.enum(Object.keys(SUBJECTS) as [Subject, ...Subject[]]);
const someone = z.strictObject({ subject, id });
const found = z.strictObject({ subject, id, name: text, about: text });
export type FoundPerson = z.output<typeof found>;
const eraseLine = z.strictObject({ act: text, id: id.nullable(), what: text, goes: z.boolean(), why: text, until: day.nullable() });
export type EraseLine = z.output<typeof eraseLine>;

const state = z.strictObject({ state: text, name: text, years: z.int(), words: text, citation: text, lawSeen: z.boolean() });
const policy = z.strictObject({
  kind,
  name: text,
  holds: text,
  /** From when the years run, in words. */
  from: text,
  years: z.int(),
  /** Null: the built-in time. */
  set: z.strictObject({ by: text, at: instant, reason: text }).nullable(),
  states: z.array(state),
});
export type RetentionPolicy = z.output<typeof policy>;
const unit = z.strictObject({ kind, id });
const due = z.strictObject({ kind, id, name: text, lastDay: day, until: day, holds: text });
export type DueRecords = z.output<typeof due>;
const held = z.strictObject({ ...due.shape, held: text });
export type HeldRecords = z.output<typeof held>;
const disposed = z.strictObject({ id, kind, name: text, because: z.enum(['retention', 'asked']), keptUntil: day, by: text, at: instant });
export type DisposedRecords = z.output<typeof disposed>;

export const personalRoutes = {
  retention: route({
    method: 'GET',
    path: '/api/personal-data/retention',
    area: 'personal',
    summary: 'For how long records are kept, what is due to be disposed of, what is held, and what went lately',
    who: owner,
    reply: z.strictObject({
      note: text,
      policy: z.array(policy),
      due: z.array(due),
      /** More of a kind are due than are shown; they follow when these are gone. */
      more: z.boolean(),
      held: z.array(held),
      disposed: z.array(disposed),
    }),
  }),
  setRetention: route({
    method: 'POST',
    path: '/api/personal-data/retention',
    area: 'personal',
    summary: 'Set for how many years a kind of record is kept; never shorter than a state of the firm asks for',
    who: owner,
    creates: true,
    body: z.strictObject({ id, kind, years: z.int().min(1).max(99), reason: prose(1000) }),
    reply: z.strictObject({ id }),
  }),
  dispose: route({
    method: 'POST',
    path: '/api/personal-data/disposals',
    area: 'personal',
    summary: 'Dispose of records that are due, as they were looked at: all of them or none. It cannot be taken back',
    who: owner,
    creates: true,
    body: z.strictObject({ units: z.array(unit).min(1).max(200) }),
    reply: z.strictObject({ units: z.int(), rows: z.int(), words: z.int(), files: z.int() }),
  }),
  people: route({
    method: 'GET',
    path: '/api/personal-data/people',
    area: 'personal',
    summary: 'People inside and outside the firm by a part of name, address or phone',
    who: desk,
    query: z.strictObject({ q: line(120) }),
    reply: z.array(found),
  }),
  erasure: route({
    method: 'GET',
    path: '/api/personal-data/people/:subject/:id',
    area: 'personal',
    summary: 'What would go and what would stay if somebody were erased now, each with its reason',
    who: owner,
    params: someone,
    reply: z.strictObject({
      name: text,
      lines: z.array(eraseLine),
      /** Names exactly this list: an erasure is done by it or not at all. */
      fingerprint: text,
      backups: text,
      asked: z.array(
        z.strictObject({ id, askedOn: day, askedHow: z.enum(Object.keys(ASKED_HOW) as [AskedHow, ...AskedHow[]]), by: text, at: instant }),
      ),
    }),
  }),
  erase: route({
    method: 'POST',
    path: '/api/personal-data/people/:subject/:id/erasures',
    area: 'personal',
    summary: 'Erase somebody who asked for it, by the list that was shown. It cannot be taken back',
    who: owner,
    creates: true,
    params: someone,
    body: z.strictObject({
      id,
      askedOn: day,
      askedHow: z.enum(Object.keys(ASKED_HOW) as [AskedHow, ...AskedHow[]]),
      fingerprint: z.string().regex(/^[\da-f]{64}$/),
    }),
    reply: z.strictObject({ id, gone: z.int(), stays: z.int() }),
  }),
  export: route({
    method: 'POST',
    path: '/api/personal-data/people/:subject/:id/export',
    area: 'personal',
    summary: 'Everything about one person as a ZIP file: a page to read, the same as data, and their papers',
    who: desk,
    params: someone,
    reply: z.unknown(),
  }),
};
