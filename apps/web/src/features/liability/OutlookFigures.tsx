// Figures of an outlook: as things are, after the change, and what the change does, each with where 90 of 100 runs lie.
import type { ReactNode } from 'react';
import { formatUsd } from '@backsight/domain/shared/money';
import { OUTLOOK_MEASURES, type Outlook, type OutlookFigure } from '@backsight/contract/liability/outlook';
import { DataTable, type Column } from '../../ui/DataTable.tsx';

/** Money in whole dollars: cents would claim to know more. */
const dollars = (cents: number): string => formatUsd(Math.round(cents / 100) * 100).replace(/\.00$/, '');
const said = (measure: OutlookFigure['measure'], value: number): string =>
  OUTLOOK_MEASURES[measure].unit === 'dollars' ? dollars(value) : Math.round(value).toLocaleString('en-US');

type Side = 'now' | 'changed' | 'difference';
const SpreadOf = ({ figure: { measure, ...sides }, side }: { figure: OutlookFigure; side: Side }): ReactNode => {
  const { mean, lower, upper } = sides[side];
  const sign = (value: number): string =>
    side === 'difference' && Math.round(value) > 0 ? `+${said(measure, value)}` : said(measure, value);
  return (
    <span className="numbers">
      {sign(mean)}
      <br />
      <small>{`${sign(lower)} to ${sign(upper)}`}</small>
    </span>
  );
};

const columns = (changed: boolean): Column<OutlookFigure>[] => [
  { key: 'measure', head: 'In these two years', cell: ({ measure }) => OUTLOOK_MEASURES[measure].name },
  { key: 'now', head: 'As things are', align: 'right', cell: (figure) => <SpreadOf figure={figure} side="now" /> },
  ...(changed
    ? ([
        { key: 'changed', head: 'After the change', align: 'right', cell: (figure) => <SpreadOf figure={figure} side="changed" /> },
        {
          key: 'difference',
          head: 'What the change does',
          align: 'right',
          cell: (figure) => <SpreadOf figure={figure} side="difference" />,
        },
      ] as Column<OutlookFigure>[])
    : []),
];

/** `changed`: something differs from how things are. */
export const OutlookFigures = ({ figures, changed }: { figures: readonly OutlookFigure[]; changed: boolean }): ReactNode => (
  <DataTable caption="Planning estimate for two years" columns={columns(changed)} rows={figures} rowKey={({ measure }) => measure} />
);

type Quarter = Outlook['quarters'][number];
const hours = (value: number): string => Math.round(value).toLocaleString('en-US');
const share = (needed: number, there: number): string => (there === 0 ? 'no work pattern' : `${Math.round((100 * needed) / there)} %`);

const quarterColumns = (changed: boolean): Column<Quarter>[] => [
  { key: 'name', head: 'Quarter', cell: ({ name, weeks }) => (weeks < 12 ? `${name} (${weeks} weeks)` : name) },
  { key: 'jobs', head: 'Jobs a year before', align: 'right', cell: ({ jobs }) => jobs.toLocaleString('en-US') },
  { key: 'now', head: 'Hours of pairs', align: 'right', cell: ({ hoursNow }) => hours(hoursNow) },
  ...(changed
    ? ([{ key: 'changed', head: 'After the change', align: 'right', cell: ({ hoursChanged }) => hours(hoursChanged) }] as Column<Quarter>[])
    : []),
  { key: 'duty', head: 'Hours of duty of pairs', align: 'right', cell: ({ hoursOfDuty }) => hours(hoursOfDuty) },
  {
    key: 'share',
    head: 'Share of duty on visits',
    align: 'right',
    cell: ({ hoursNow, hoursChanged, hoursOfDuty }) => share(changed ? hoursChanged : hoursNow, hoursOfDuty),
  },
];

export const OutlookQuarters = ({ quarters, changed }: { quarters: readonly Quarter[]; changed: boolean }): ReactNode => (
  <>
    <p>
      Each quarter as the same weeks a year before. Hours of duty are those of today's work patterns, two people to a pair; driving, reports
      and absences come out of them too.
    </p>
    <DataTable caption="Hours of pairs by quarter" columns={quarterColumns(changed)} rows={quarters} rowKey={({ name }) => name} />
  </>
);
