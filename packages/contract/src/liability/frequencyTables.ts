// Tables of how often callbacks come, by month and by group, and of pairs and people, to take away.
import { tableOf, withTables, type MakeTable, type TableCell, type TableHead } from '../table.ts';
import { COMPARED, frequencyRoutes, GROUP_WORDS, type Frequency, type GroupRow, type MonthFigures } from './frequency.ts';
import { peopleFigureRoutes, type FunnelUnit, type PeopleFigures, type PlacedUnit } from './people.ts';

type Column<Row> = TableHead & { of: (row: Row) => TableCell };
const rounded = (value: number | null | undefined, digits = 4): number | null =>
  value === null || value === undefined ? null : Number(value.toFixed(digits));
type By = (typeof COMPARED)[number];

const monthColumns: Column<MonthFigures>[] = [
  { head: 'inspected in', of: ({ month }) => month },
  { head: 'jobs', is: 'number', of: ({ jobs }) => jobs },
  { head: 'callbacks', is: 'number', of: ({ callbacks }) => callbacks },
  { head: 'callbacks per 100 jobs', is: 'number', of: ({ jobs, callbacks }) => (jobs > 0 ? rounded((callbacks / jobs) * 100) : null) },
  { head: 'incurred', is: 'cents', of: ({ incurredCents }) => incurredCents },
  { head: 'cost per job', is: 'cents', of: ({ jobs, incurredCents }) => (jobs > 0 ? Math.round(incurredCents / jobs) : null) },
  { head: 'state', of: ({ state }) => state },
  { head: 'share usually known by now', is: 'number', of: ({ share }) => rounded(share) },
  { head: 'jobs a year earlier', is: 'number', of: ({ earlier }) => earlier?.jobs ?? null },
  { head: 'callbacks a year earlier', is: 'number', of: ({ earlier }) => earlier?.callbacks ?? null },
  { head: 'of them known at the same age', is: 'number', of: ({ earlier }) => earlier?.callbacksAtSameAge ?? null },
  { head: 'incurred a year earlier', is: 'cents', of: ({ earlier }) => earlier?.incurredCents ?? null },
];

/** A group, or a pair of which too few callbacks are to be expected for anything to be said. */
type Group = GroupRow | { name: string; hidden: true };
const told = (row: Group): GroupRow | null => ('hidden' in row ? null : row);
const groupsOf =
  (by: By) =>
  ({ groups, hiddenPairs }: Frequency): Group[] => [
    ...(groups.find((table) => table.by === by)?.rows ?? []),
    ...(by === 'pair' ? hiddenPairs.map((name) => ({ name, hidden: true as const })) : []),
  ];
function groupColumns(by: By): Column<Group>[] {
  const { one, unit, count, per } = GROUP_WORDS[by];
  const scaled = (head: string, of: (row: GroupRow) => number | null): Column<Group> => ({
    head,
    is: 'number',
    of: (row) => {
      const value = told(row) && of(told(row)!);
      return value === null ? null : rounded(value * per);
    },
  });
  return [
    { head: one.toLowerCase(), of: ({ name }) => name },
    { head: count, is: 'number', of: (row) => told(row)?.count ?? 'too few' },
    { head: unit, is: 'number', of: (row) => told(row)?.exposure ?? null },
    scaled(`per ${per}`, ({ rate }) => rate),
    scaled('from (95 %)', ({ lower }) => lower),
    scaled('to (95 %)', ({ upper }) => upper),
    scaled('drawn towards the common rate', ({ shrunk }) => shrunk),
    scaled('others', ({ others }) => others),
    { head: 'ratio to the others', is: 'number', of: (row) => rounded(told(row)?.ratio) },
    { head: 'p', is: 'number', of: (row) => rounded(told(row)?.p, 6) },
    { head: 'p corrected for many comparisons', is: 'number', of: (row) => rounded(told(row)?.adjusted, 6) },
    { head: 'signal', of: (row) => told(row)?.signal ?? null },
    { head: 'incurred', is: 'cents', of: (row) => told(row)?.incurredCents ?? null },
  ];
}
const byGroup = Object.fromEntries(
  COMPARED.map((by) => [by, tableOf(`Callbacks by ${by}`, groupsOf(by), groupColumns(by))]),
) as unknown as Record<By, MakeTable<(typeof frequencyRoutes)['page']>>;

export const frequencyTables = {
  page: withTables(frequencyRoutes.page, {
    month: tableOf('Callbacks by month', ({ months }: Frequency) => months, monthColumns),
    chart: tableOf('Control chart of callbacks', ({ chart }: Frequency) => (chart.ok ? chart.points : []), [
      { head: 'point', of: ({ label }) => label },
      { head: 'value', is: 'number', of: ({ value }) => rounded(value) },
      { head: 'center', is: 'number', of: ({ center }) => rounded(center) },
      { head: 'lower limit', is: 'number', of: ({ lower }) => rounded(lower) },
      { head: 'upper limit', is: 'number', of: ({ upper }) => rounded(upper) },
      { head: 'still coming in', of: ({ young }) => (young ? 'yes' : 'no') },
      { head: 'signals', of: ({ signals }) => signals.map(({ sentence }) => sentence).join(' ') },
    ]),
    ...byGroup,
  }),
};

const placed = (head: string, of: (unit: PlacedUnit) => TableCell): Column<FunnelUnit> => ({
  head,
  is: 'number',
  of: (unit) => (unit.state === 'shown' ? of(unit) : null),
});
/** Nobody below five expected callbacks is told of. */
const unitColumns: Column<FunnelUnit>[] = [
  { head: 'name', of: ({ name }) => name },
  { head: 'jobs', is: 'number', of: ({ jobs }) => jobs },
  { head: 'observed', is: 'number', of: (unit) => (unit.state === 'shown' ? unit.observed : 'too few') },
  placed('expected', ({ expected }) => rounded(expected)),
  placed('observed over expected', ({ ratio }) => rounded(ratio)),
  placed('95 % from', ({ limits95 }) => rounded(Math.max(0, limits95.lower))),
  placed('95 % to', ({ limits95 }) => rounded(limits95.upper)),
  placed('99.8 % from', ({ limits998 }) => rounded(Math.max(0, limits998.lower))),
  placed('99.8 % to', ({ limits998 }) => rounded(limits998.upper)),
  { head: 'where it lies', of: (unit) => (unit.state === 'shown' ? unit.sentence : null) },
];

export const peopleTables = {
  page: withTables(peopleFigureRoutes.page, {
    pairs: tableOf('Callbacks of pairs', ({ pairs }: PeopleFigures) => pairs.units, unitColumns),
    people: tableOf('Callbacks of people', ({ people }: PeopleFigures) => people.units, unitColumns),
  }),
};
