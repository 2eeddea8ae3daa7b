// The triangle with what each period is likely to end with, and the factors, to take away.
import { tableOf, withTables, type TableCell, type TableHead, type TableMade } from '../table.ts';
import { developmentRoutes as routes, METHOD_NAMES, type Development, type DevelopmentOrigin } from './development.ts';

type Ends = { ultimate: number; unreported: number; standardError: number | null };
type Line = Pick<DevelopmentOrigin, 'name' | 'jobs' | 'callbacks' | 'latest'> & Partial<DevelopmentOrigin> & { ends?: Ends | null };
type Column = TableHead & { of: (line: Line) => TableCell };

/** Older periods in one line, then each, then all together. */
function linesOf({ origins, folded, estimate }: Development): Line[] {
  const sum = (of: (origin: DevelopmentOrigin) => number): number => origins.reduce((total, each) => total + of(each), 0);
  const counted = { jobs: sum(({ jobs }) => jobs), callbacks: sum(({ callbacks }) => callbacks), latest: sum(({ latest }) => latest) };
  return [
    ...(folded ? [folded] : []),
    ...origins.map((origin) => ({ ...origin, ends: origin.outlook })),
    { name: 'together', ...counted, ends: estimate.ok ? estimate.totals : null },
  ];
}

/** Ages in periods from the start of the period of inspection: known amounts, then those expected to follow. */
function triangle(page: Development): TableMade {
  const { origins, by, of, asOf } = page;
  const ages = origins.map((_, at) => at);
  const amount = (head: string, cell: (line: Line) => number | null | undefined): Column => ({
    head,
    is: of === 'callbacks' ? 'number' : 'cents',
    of: (line) => cell(line) ?? null,
  });
  const columns: Column[] = [
    { head: 'inspected in', of: ({ name }) => name },
    { head: 'jobs', is: 'number', of: ({ jobs }) => jobs },
    { head: 'callbacks', is: 'number', of: ({ callbacks }) => callbacks },
    ...ages.map((at) => amount(`after ${at + 1} ${by}${at === 0 ? '' : 's'}`, ({ cells }) => cells?.[at])),
    ...ages
      .slice(1)
      .map((at) => amount(`expected after ${at + 1} ${by}s`, ({ cells = [], outlook }) => outlook?.projected[at - cells.length])),
    amount(`latest, ${asOf}`, ({ latest }) => latest),
    { head: 'method', of: ({ outlook }) => (outlook ? METHOD_NAMES[outlook.method] : null) },
    { head: 'why', of: ({ outlook }) => outlook?.why ?? null },
    { head: 'share usually known', is: 'number', of: ({ outlook }) => (outlook ? Number(outlook.shareKnown.toFixed(4)) : null) },
    amount('ultimate', ({ ends }) => ends?.ultimate),
    amount('unreported', ({ ends }) => ends?.unreported),
    amount('standard error', ({ ends }) => ends?.standardError),
  ];
  return tableOf(`Development of ${of} by ${by}`, linesOf, columns)(page);
}

export const developmentTables = {
  page: withTables(routes.page, {
    triangle,
    factors: tableOf(
      ({ of, by }: Development) => `Factors of ${of} by ${by}`,
      ({ estimate }) => (estimate.ok ? estimate.factors : []),
      [
        { head: 'from age', is: 'number', of: ({ from }) => from },
        { head: 'to age', is: 'number', of: ({ to }) => to },
        { head: 'factor', is: 'number', of: ({ factor }) => factor },
        { head: 'standard error', is: 'number', of: ({ standardError }) => standardError },
        { head: 'seen in periods', is: 'number', of: ({ rows }) => rows },
        { head: 'share usually known before it', is: 'number', of: ({ shareKnown }) => shareKnown },
      ],
    ),
  }),
};
