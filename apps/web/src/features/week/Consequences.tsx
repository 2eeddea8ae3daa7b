// What putting the visit down here would come to, in words: the rule that it breaks, or all that it changes.
import type { ReactNode } from 'react';
import { DateTime } from 'luxon';
import type { Rehearsal } from '@backsight/contract/schedule';
import { ProblemError } from '../../api/problemError.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { NextChoices } from '../../ui/NextChoices.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { minutesText } from '../../ui/minutes.ts';
import { dayText, instantText } from '../../ui/time.ts';
import classes from './hand.module.css';

type Start = { startsAt: string; first: string; second: string | null };
type Props = { of: Rehearsal; zone: string; onTake: (start: Start) => void };

export function Consequences({ of, zone, onTake }: Props): ReactNode {
  if (of.problem) {
    const error = new ProblemError(of.problem);
    return (
      <ProblemNote of={error}>
        <strong>So it cannot be put down here.</strong>
        <NextChoices of={error} onTake={onTake} />
      </ProblemNote>
    );
  }
  return (
    <>
      <ul className={classes.list}>
        {linesOf(of, zone).map(([head, text]) => (
          <li key={head}>
            <strong>{head}:</strong> {text}
          </li>
        ))}
      </ul>
      {of.people.length > 0 ? (
        <DataTable caption="Days that change" columns={COLUMNS} rows={of.people} rowKey={({ id, day }) => id + day} />
      ) : null}
    </>
  );
}

/** One sentence for what is read out: possible with what it costs, or the rule that is broken. */
export function inShort(of: Rehearsal): string {
  if (of.problem) return `Not possible. ${of.problem.title}`;
  const told = new Set(of.told.map(({ name }) => name)).size;
  return `Possible. ${drivingText(of)} ${told === 0 ? 'Nobody is told yet.' : `${told} ${told === 1 ? 'person is' : 'people are'} told.`}`;
}

const change = ({ people }: Rehearsal, what: 'driving' | 'outside'): number =>
  people.reduce((sum, { before, after }) => sum + after[what] - before[what], 0);

function drivingText(of: Rehearsal): string {
  const minutes = change(of, 'driving');
  const outside = change(of, 'outside');
  const more = (n: number): string => `${minutesText(Math.abs(n))} ${n > 0 ? 'more' : 'less'}`;
  return `${minutes === 0 ? 'As much driving as before' : `${more(minutes)} driving`}${outside === 0 ? '' : `, ${more(outside)} outside working hours`}.`;
}

function linesOf(of: Rehearsal, zone: string): [string, string][] {
  const inside = [...new Set(of.told.filter(({ outside }) => !outside).map(({ name }) => name))];
  const outside = [...new Set(of.told.filter((one) => one.outside).map(({ name }) => name))];
  return [
    ['Client', promiseText(of, zone)],
    ...(of.objection ? [['Objection', objectionText(of.objection)] as [string, string]] : []),
    ['Driving', drivingText(of)],
    ...(outside.length > 0 ? [['Client’s side told by mail', outside.join(', ')] as [string, string]] : []),
    ...(inside.length > 0 ? [['Own people told by mail', inside.join(', ')] as [string, string]] : []),
    ...(of.calls.length > 0 ? [['To be called', of.calls.map(({ name, why }) => `${name} (${why})`).join('; ')] as [string, string]] : []),
    ...(of.askedAgain.length > 0 ? [['To be asked again', of.askedAgain.join(', ')] as [string, string]] : []),
    ...(of.lockedBecause ? [['Kept from plans', of.lockedBecause] as [string, string]] : []),
    ...of.warnings.map(({ text }, n): [string, string] => [n === 0 ? 'To know' : `To know (${n + 1})`, text]),
  ];
}

function promiseText({ promise: { told, from, until, kept } }: Rehearsal, zone: string): string {
  const what = until ? `a start from ${instantText(from, zone)} to ${instantText(until, zone)}` : instantText(from, zone);
  if (!told) return `it is only held, for ${instantText(from, zone)}.`;
  return kept ? `promised ${what}; that is kept.` : `promised ${what}; that changes.`;
}

const objectionText = ({ day, kept }: NonNullable<Rehearsal['objection']>): string =>
  `must object by ${dayText(day)}; the report ${kept ? 'comes in time' : 'would come too late'}.`;

type Line = Rehearsal['people'][number];
const beforeAfter = (what: 'driving' | 'waiting' | 'outside') =>
  function cell({ before, after }: Line): ReactNode {
    return before[what] === after[what] ? minutesText(after[what]) : `${minutesText(before[what])} → ${minutesText(after[what])}`;
  };
const shortDay = (day: string): string => DateTime.fromISO(day, { zone: 'utc', locale: 'en-US' }).toFormat('ccc, LLL d');
const COLUMNS: readonly Column<Line>[] = [
  { key: 'name', head: 'Person', cell: ({ name }) => name },
  { key: 'day', head: 'Day', cell: ({ day }) => shortDay(day), oneLine: true },
  { key: 'driving', head: 'Driving', cell: beforeAfter('driving') },
  { key: 'waiting', head: 'Waiting', cell: beforeAfter('waiting') },
  { key: 'outside', head: 'Outside hours', cell: beforeAfter('outside') },
];
