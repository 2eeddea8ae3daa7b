// The owner's page and the rows behind each of its numbers: for owner and lead inspector alone.
import { z } from 'zod';
import { money } from '../callbacks.ts';
import { day, id, instant, line, route } from '../route.ts';

export { ROWS_SHOWN } from '@backsight/domain/liability/shown';
const JUDGES = ['owner', 'lead_inspector'] as const;
export const OPEN_AGES = { upTo7: 'up to 7 days', upTo30: '8 to 30 days', upTo90: '31 to 90 days', older: 'older' } as const;
export type OpenAge = keyof typeof OPEN_AGES;
const AGE_KEYS = Object.keys(OPEN_AGES) as [OpenAge, ...OpenAge[]];
const monthOf = z.string().regex(/^\d{4}-(?:0[1-9]|1[0-2])$/, 'must be a month like 2026-05');
/** Days of the books, both included; left out: open. */
const days = { from: day.optional(), to: day.optional() };

const span = z.strictObject({ from: day, to: day });
/** A span and the same days a year earlier. */
const beside = <T extends z.ZodType>(value: T) => z.strictObject({ days: span, now: value, beforeDays: span, before: value });
const estimated = z.strictObject({
  ok: z.literal(true),
  cents: z.int(),
  lower: z.int().nullable(),
  upper: z.int().nullable(),
  method: z.string(),
});
const notEstimated = z.strictObject({ ok: z.literal(false), sentence: z.string() });
const estimate = z.discriminatedUnion('ok', [estimated, notEstimated]);
/** Of a start or a report that was let through. */
export const MISSING: Readonly<Record<string, string>> = {
  'agreement-unsigned': 'agreement not signed',
  'fee-unpaid': 'fee not paid',
  acknowledgement: 'change not acknowledged',
  'record-unsealed': 'site record not sealed',
};
export type MoneyEstimate = z.output<typeof estimate>;
/** `ofTen`: of ten such spans so many lie in the range. */
const cashEstimate = z.discriminatedUnion('ok', [estimated.extend({ ofTen: z.int() }), notEstimated]);
export type CashEstimate = z.output<typeof cashEstimate>;
const ages = { upTo7: z.int(), upTo30: z.int(), upTo90: z.int(), older: z.int() };
const waitingRemedy = z.strictObject({
  remedyId: id,
  callbackId: id,
  number: z.int(),
  kind: z.string(),
  state: z.enum(['proposed', 'approved']),
  cents: z.int(),
  proposer: z.string(),
  recordedAt: instant,
});

const page = z.strictObject({
  today: day,
  /** Files for the owner alone exist and are left out of these sums, because the reader may not see them. */
  leftOut: z.boolean(),
  money: z.strictObject({ month: beside(money), year: beside(money), ever: money }),
  toCome: estimate,
  cash: z.strictObject({ days30: cashEstimate, days90: cashEstimate }),
  open: z.array(z.strictObject({ state: z.string(), ...ages })),
  /** Remedies that wait for approval, and approved ones that are not done. */
  waiting: z.array(waitingRemedy),
  conclusions: z.array(z.strictObject({ callbackId: id, number: z.int(), by: z.string(), happenedAt: instant })),
  overrides: z.strictObject({ month: beside(z.int()), year: beside(z.int()) }),
  unsignedStarts: z.strictObject({ month: beside(z.int()), year: beside(z.int()) }),
  held: z.strictObject({ jobs: z.int(), byHand: z.int() }),
  policies: z.array(
    z.strictObject({ id, kind: z.string(), insurer: z.string(), number: z.string(), basis: z.string(), endsOn: day, daysLeft: z.int() }),
  ),
  windows: z.strictObject({
    jobs: z.int(),
    shortJobs: z.int(),
    capCents: z.int(),
    noCap: z.int(),
    unsigned: z.int(),
    withoutRule: z.int(),
    /** Last day on which any of them is open, by each reading. */
    last: z.strictObject({ short: day.nullable(), long: day.nullable() }),
  }),
  /** By month of inspection, newest first; `earlier`: the same month a year earlier as it stood when it was as old. */
  months: z.array(
    money.extend({
      month: z.string(),
      jobs: z.int(),
      callbacks: z.int(),
      earlier: z.strictObject({ jobs: z.int(), callbacks: z.int(), incurredCents: z.int() }).nullable(),
    }),
  ),
});
export type OwnerPage = z.output<typeof page>;

const entry = money.extend({
  entryId: id,
  kind: z.string(),
  happenedOn: day,
  recordedAt: instant,
  memo: z.string(),
  by: z.string().nullable(),
  callbackId: id,
  callbackNumber: z.int(),
  jobId: id,
  jobNumber: z.int(),
});
export type MoneyEntryRow = z.output<typeof entry>;

const openCallback = z.strictObject({
  id,
  number: z.int(),
  kind: z.string(),
  state: z.string(),
  receivedAt: instant,
  days: z.int(),
  address: z.string(),
  town: z.string(),
  reservedCents: z.int(),
  paidCents: z.int(),
});
export type OpenCallbackRow = z.output<typeof openCallback>;

const override = z.strictObject({
  id,
  kind: z.enum(['start', 'hand_over']),
  jobId: id,
  jobNumber: z.int(),
  missing: z.array(z.string()),
  reason: z.string(),
  by: z.string(),
  happenedAt: instant,
});
export type OverrideRow = z.output<typeof override>;

const heldJob = z.strictObject({
  jobId: id,
  jobNumber: z.int(),
  address: z.string(),
  town: z.string(),
  callbacks: z.array(z.int()),
  byHandSince: instant.nullable(),
  by: z.string().nullable(),
});
export type HeldJobRow = z.output<typeof heldJob>;

/** Share of what had stood as long that left within the days, and from how many callbacks that is known; null: too few. */
const chance = z.strictObject({ share: z.number(), cents: z.int(), callbacks: z.int(), ages: z.string() }).nullable();
const cashRow = z.strictObject({
  callbackId: id,
  number: z.int(),
  kind: z.string(),
  state: z.string(),
  cents: z.int(),
  since: day,
  days: z.int(),
  days30: chance,
  days90: chance,
});
export type CashRow = z.output<typeof cashRow>;
const stretches = z.array(z.int());

export const ownerRoutes = {
  page: route({
    method: 'GET',
    path: '/api/liability',
    area: 'liability',
    summary: 'Paid, set aside, recovered; what is open, waits and may still come, each beside the year before',
    who: JUDGES,
    reply: page,
  }),
  entries: route({
    method: 'GET',
    path: '/api/liability/entries',
    area: 'liability',
    summary: 'Ledger entries of callbacks behind a sum, newest day first: by days of the books, by month of inspection',
    who: JUDGES,
    query: z.strictObject({ ...days, inspected: monthOf.optional(), after: id.optional() }),
    reply: z.strictObject({ items: z.array(entry), next: id.nullable(), total: money }),
  }),
  openCallbacks: route({
    method: 'GET',
    path: '/api/liability/open-callbacks',
    area: 'liability',
    summary: 'Open callbacks by state and age, with what is set aside for each; oldest first, at most 200',
    who: JUDGES,
    query: z.strictObject({ state: line(40).optional(), age: z.enum(AGE_KEYS).optional() }),
    reply: z.strictObject({ items: z.array(openCallback) }),
  }),
  callbacks: route({
    method: 'GET',
    path: '/api/liability/callbacks',
    area: 'liability',
    summary: 'Callbacks that count (no questions, near-misses or duplicates) about jobs of one month of inspection; newest first',
    who: JUDGES,
    query: z.strictObject({ inspected: monthOf }),
    reply: z.strictObject({ items: z.array(openCallback) }),
  }),
  overrides: route({
    method: 'GET',
    path: '/api/liability/overrides',
    area: 'liability',
    summary: 'Starts and reports let through though something was missing; newest first, at most 200',
    who: JUDGES,
    query: z.strictObject(days),
    reply: z.strictObject({ items: z.array(override) }),
  }),
  held: route({
    method: 'GET',
    path: '/api/liability/held-jobs',
    area: 'liability',
    summary: 'Jobs of which nothing may be erased now, and what holds them',
    who: JUDGES,
    reply: z.strictObject({ items: z.array(heldJob) }),
  }),
  cash: route({
    method: 'GET',
    path: '/api/liability/cash',
    area: 'liability',
    summary: 'What is set aside now with the chance that it leaves in 30 and 90 days, and what used to leave unforeseen',
    who: JUDGES,
    reply: z.strictObject({
      days30: cashEstimate,
      days90: cashEstimate,
      items: z.array(cashRow),
      unforeseen30: stretches,
      unforeseen90: stretches,
    }),
  }),
};
