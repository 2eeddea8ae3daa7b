// Tables of the owner's page and of the rows behind its numbers, to take away.
import { KINDS, REMEDIES, REMEDY_STATES, STATES } from '@backsight/domain/callbacks/words';
import { tableOf, withTables, type TableCell, type TableHead } from '../table.ts';
import {
  OPEN_AGES,
  ownerRoutes as routes,
  type CashRow,
  type HeldJobRow,
  type MoneyEntryRow,
  type OpenAge,
  type OpenCallbackRow,
  type OverrideRow,
  type OwnerPage,
} from './owner.ts';

type Money = { paidCents: number; reservedCents: number; recoveredCents: number; incurredCents: number };
type Column<Row> = TableHead & { of: (row: Row) => TableCell };
const sums = <Row extends Money>(setAside: string): Column<Row>[] => [
  { head: 'paid', is: 'cents', of: (row) => row.paidCents },
  { head: setAside, is: 'cents', of: (row) => row.reservedCents },
  { head: 'recovered', is: 'cents', of: (row) => row.recoveredCents },
  { head: 'incurred', is: 'cents', of: (row) => row.incurredCents },
];
type Items<Row> = { items: readonly Row[] };
const state = (of: string): string => STATES[of as keyof typeof STATES] ?? of;
const kind = (of: string): string => KINDS[of as keyof typeof KINDS] ?? of;
const AGES = Object.keys(OPEN_AGES) as OpenAge[];

const SPANS = {
  month: ['this month', 'same days a year ago'],
  year: ['this year', 'to this day last year'],
} as const;
type Days = { when: string; from: string | null; to: string | null };
const moneyRows = ({ money }: OwnerPage): (Money & Days)[] => [
  ...(['month', 'year'] as const).flatMap((span) => [
    { when: SPANS[span][0], ...money[span].days, ...money[span].now },
    { when: SPANS[span][1], ...money[span].beforeDays, ...money[span].before },
  ]),
  { when: 'since the start', from: null, to: null, ...money.ever },
];
const watchedRows = (page: OwnerPage): (Days & { what: string; count: number })[] =>
  (
    [
      ['overrides used (starts and reports)', page.overrides],
      ['agreement unsigned at the start', page.unsignedStarts],
    ] as const
  ).flatMap(([what, of]) =>
    (['month', 'year'] as const).flatMap((span) => [
      { what, when: SPANS[span][0], ...of[span].days, count: of[span].now },
      { what, when: SPANS[span][1], ...of[span].beforeDays, count: of[span].before },
    ]),
  );
const waitingRows = ({ waiting, conclusions }: OwnerPage) => [
  ...waiting.map((row) => ({
    ...row,
    what: REMEDIES[row.kind as keyof typeof REMEDIES] ?? row.kind,
    by: row.proposer,
    at: row.recordedAt,
  })),
  ...conclusions.map((row) => ({ ...row, what: 'conclusion to confirm', state: null, cents: null, at: row.happenedAt })),
];

const callbackColumns: readonly Column<OpenCallbackRow>[] = [
  { head: 'callback', is: 'number', of: (row) => row.number },
  { head: 'kind', of: (row) => kind(row.kind) },
  { head: 'state', of: (row) => state(row.state) },
  { head: 'address', of: (row) => row.address },
  { head: 'town', of: (row) => row.town },
  { head: 'received', is: 'instant', of: (row) => row.receivedAt },
  { head: 'days ago', is: 'number', of: (row) => row.days },
  { head: 'set aside', is: 'cents', of: (row) => row.reservedCents },
  { head: 'paid', is: 'cents', of: (row) => row.paidCents },
];
const leaves = (days: 30 | 90): Column<CashRow>[] => {
  const of = (row: CashRow) => row[`days${days}`];
  return [
    { head: `share that leaves within ${days} days`, is: 'number', of: (row) => of(row)?.share ?? null },
    { head: `leaves within ${days} days`, is: 'cents', of: (row) => of(row)?.cents ?? null },
    { head: `known from callbacks (${days} days)`, is: 'number', of: (row) => of(row)?.callbacks ?? null },
  ];
};

export const ownerTables = {
  page: withTables(routes.page, {
    money: tableOf('Money of callbacks by days of the books', moneyRows, [
      { head: 'in the books', of: (row) => row.when },
      { head: 'from', is: 'day', of: (row) => row.from },
      { head: 'to', is: 'day', of: (row) => row.to },
      ...sums<Money & Days>('set aside less released'),
    ]),
    waiting: tableOf('What waits', waitingRows, [
      { head: 'callback', is: 'number', of: (row) => row.number },
      { head: 'what', of: (row) => row.what },
      { head: 'state', of: (row) => (row.state === null ? 'waiting for confirmation' : REMEDY_STATES[row.state]) },
      { head: 'amount', is: 'cents', of: (row) => row.cents },
      { head: 'from', of: (row) => row.by },
      { head: 'since', is: 'instant', of: (row) => row.at },
    ]),
    open: tableOf('Open callbacks by state and age', ({ open }: OwnerPage) => open, [
      { head: 'state', of: (row) => state(row.state) },
      ...AGES.map((age): Column<OwnerPage['open'][number]> => ({ head: OPEN_AGES[age], is: 'number', of: (row) => row[age] })),
      { head: 'all', is: 'number', of: (row) => AGES.reduce((sum, age) => sum + row[age], 0) },
    ]),
    watched: tableOf('Let through though something was missing', watchedRows, [
      { head: 'let through', of: (row) => row.what },
      { head: 'when', of: (row) => row.when },
      { head: 'from', is: 'day', of: (row) => row.from },
      { head: 'to', is: 'day', of: (row) => row.to },
      { head: 'times', is: 'number', of: (row) => row.count },
    ]),
    months: tableOf('Callbacks by month of inspection', ({ months }: OwnerPage) => months, [
      { head: 'inspected in', of: (row) => row.month },
      { head: 'jobs', is: 'number', of: (row) => row.jobs },
      { head: 'callbacks', is: 'number', of: (row) => row.callbacks },
      ...sums<OwnerPage['months'][number]>('set aside'),
      { head: 'jobs a year earlier', is: 'number', of: (row) => row.earlier?.jobs ?? null },
      { head: 'callbacks a year earlier, as old', is: 'number', of: (row) => row.earlier?.callbacks ?? null },
      { head: 'incurred a year earlier, as old', is: 'cents', of: (row) => row.earlier?.incurredCents ?? null },
    ]),
  }),
  entries: withTables(routes.entries, {
    entries: tableOf('Ledger entries of callbacks', ({ items }: Items<MoneyEntryRow>) => items, [
      { head: 'day in the books', is: 'day', of: (row) => row.happenedOn },
      { head: 'recorded', is: 'instant', of: (row) => row.recordedAt },
      { head: 'callback', is: 'number', of: (row) => row.callbackNumber },
      { head: 'job', is: 'number', of: (row) => row.jobNumber },
      { head: 'what', of: (row) => row.memo },
      { head: 'by', of: (row) => row.by },
      ...sums<MoneyEntryRow>('set aside'),
    ]),
  }),
  openCallbacks: withTables(routes.openCallbacks, {
    callbacks: tableOf('Open callbacks', ({ items }: Items<OpenCallbackRow>) => items, callbackColumns),
  }),
  callbacks: withTables(routes.callbacks, {
    callbacks: tableOf('Callbacks about jobs of one month', ({ items }: Items<OpenCallbackRow>) => items, callbackColumns),
  }),
  overrides: withTables(routes.overrides, {
    overrides: tableOf('Overrides', ({ items }: Items<OverrideRow>) => items, [
      { head: 'job', is: 'number', of: (row) => row.jobNumber },
      { head: 'what was let through', of: (row) => (row.kind === 'start' ? 'a visit started' : 'a report left') },
      { head: 'what was missing', of: (row) => row.missing.join(', ') },
      { head: 'reason', of: (row) => row.reason },
      { head: 'who', of: (row) => row.by },
      { head: 'when', is: 'instant', of: (row) => row.happenedAt },
    ]),
  }),
  held: withTables(routes.held, {
    jobs: tableOf('Jobs held as evidence', ({ items }: Items<HeldJobRow>) => items, [
      { head: 'job', is: 'number', of: (row) => row.jobNumber },
      { head: 'address', of: (row) => row.address },
      { head: 'town', of: (row) => row.town },
      { head: 'held by open callbacks', of: (row) => row.callbacks.join(', ') },
      { head: 'held by hand since', is: 'instant', of: (row) => row.byHandSince },
      { head: 'by', of: (row) => row.by },
    ]),
  }),
  cash: withTables(routes.cash, {
    reserves: tableOf('Set aside for open callbacks', ({ items }: Items<CashRow>) => items, [
      { head: 'callback', is: 'number', of: (row) => row.number },
      { head: 'kind', of: (row) => kind(row.kind) },
      { head: 'state', of: (row) => state(row.state) },
      { head: 'set aside', is: 'cents', of: (row) => row.cents },
      { head: 'since', is: 'day', of: (row) => row.since },
      { head: 'days', is: 'number', of: (row) => row.days },
      ...leaves(30),
      ...leaves(90),
    ]),
  }),
};
