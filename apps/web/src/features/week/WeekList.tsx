// The week as a list: each person with visits, the drives between, absences, hours, and what stands in the way. A table at a desk, cards on a phone.
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import { DateTime } from 'luxon';
import type { Week } from '@backsight/contract/schedule';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { TextLink } from '../../ui/links.tsx';
import { clockText } from '../../ui/time.ts';
import type { Leg, Person, Visit, WeekDay } from './geometry.ts';
import { headNotes, IN_TRAINING, marksOf, sayException } from './marks.ts';
import { movable } from './spot.ts';
import { buttonId } from './walk.ts';
import classes from './week.module.css';

type Props = {
  caption: string;
  week: Week;
  days: readonly string[];
  today: string;
  /** Absent for whoever may not move visits. */
  onTake?: ((visit: Visit, personId: string) => void) | undefined;
};
type Around = Omit<Props, 'caption' | 'days'> & { names: ReadonlyMap<string, string> };

export function WeekList({ caption, days, ...rest }: Props): ReactNode {
  const around = { ...rest, names: new Map(rest.week.people.map(({ id, name }) => [id, name])) };
  const columns = days.map((day): Column<Person> => ({
    key: day,
    head: DateTime.fromISO(day, { zone: 'utc', locale: 'en-US' }).toFormat('ccc, LLL d'),
    cell: (person) => <OneDay person={person} day={person.days.find((one) => one.day === day)!} {...around} />,
  }));
  const head: Column<Person> = { key: 'person', head: 'Person', cell: (person) => <Head person={person} first={days[0]!} /> };
  return (
    <div className={classes.scroll}>
      <DataTable caption={caption} columns={[head, ...columns]} rows={rest.week.people} rowKey={({ id }) => id} />
    </div>
  );
}

function Head({ person, first }: { person: Person; first: string }): ReactNode {
  return (
    <>
      <TextLink to="/people/$personId" params={{ personId: person.id }}>
        {person.name}
      </TextLink>
      {headNotes(person, first).map((note) => (
        <div key={note} className={note === IN_TRAINING ? classes.soft : classes.note}>
          {note}
        </div>
      ))}
    </>
  );
}

function OneDay({ person, day, ...around }: Around & { person: Person; day: WeekDay }): ReactNode {
  const { week, today } = around;
  const { roadService } = week;
  const other = [...marksOf(person, day, today).map(({ text }) => text), ...(day.exception ? [sayException(day.exception)] : [])].map(
    (text) => (
      <div key={text} className={classes.other}>
        {text}
      </div>
    ),
  );
  if (day.visits.length === 0 && day.absent.length === 0)
    return (
      <>
        <span className={classes.soft}>
          {day.hours.length === 0 ? 'not at work' : day.writing.minutes > 0 ? `writes ${day.writing.minutes} min` : 'free'}
        </span>
        {other}
      </>
    );
  const last = day.visits.at(-1);
  return (
    <>
      {other}
      <ul className={classes.day}>
        {inOrder(day).map((one) => (
          <li key={one.startsAt} className={one.state === 'asked' ? classes.asked : undefined}>
            {one.visit ? (
              <>
                <Drive leg={day.legs.find(({ to }) => to === one.visit!.id)} roadService={roadService} />
                <OneVisit visit={one.visit} personId={person.id} {...around} />
              </>
            ) : (
              `${one.state === 'asked' ? 'asks to be away' : 'away'} ${hoursOf(one.startsAt, one.endsAt, week.zone)}`
            )}
          </li>
        ))}
        {day.writing.minutes > 0 ? (
          <li className={classes.soft}>
            writes {day.writing.minutes} min{day.writing.late > 0 ? `; ${day.writing.late} min overdue` : ''}
          </li>
        ) : null}
        {last ? (
          <li>
            <Drive leg={day.legs.find(({ from, to }) => from === last.id && to === null)} roadService={roadService} home />
          </li>
        ) : null}
      </ul>
    </>
  );
}

/** What is said of a drive's source: that a person said it, or that the road service has not answered it yet. */
const sourceOf = ({ source }: Leg, roadService: boolean): string =>
  source === 'manual' ? ', said by hand' : source === 'estimate' && roadService ? ', estimated' : '';

/** A drive of at least a minute. */
function Drive({ leg, roadService, home }: { leg: Leg | undefined; roadService: boolean; home?: boolean }): ReactNode {
  if (!leg || leg.minutes === 0) return null;
  return (
    <div className={classes.soft}>
      {leg.minutes} min drive{home ? ' home' : ''}
      {sourceOf(leg, roadService)}
    </div>
  );
}

type Span = { startsAt: string; endsAt: string; visit?: Visit; state?: 'asked' | 'approved' };

/** Visits and absences of a day in one list, by their start. */
const inOrder = (day: WeekDay): Span[] =>
  [...day.absent, ...day.visits.map((visit) => ({ startsAt: visit.startsAt, endsAt: visit.endsAt, visit }))].toSorted((a, b) =>
    a.startsAt < b.startsAt ? -1 : 1,
  );

const hoursOf = (startsAt: string, endsAt: string, zone: string): string =>
  Date.parse(endsAt) - Date.parse(startsAt) >= 23 * 3_600_000 ? 'all day' : `${clockText(startsAt, zone)} to ${clockText(endsAt, zone)}`;

function OneVisit({ visit, personId, week: { zone }, names, onTake }: Around & { visit: Visit; personId: string }): ReactNode {
  const others = visit.withIds.map((id) => names.get(id) ?? 'somebody').join(', ');
  return (
    <>
      <span className="numbers">{clockText(visit.startsAt, zone)}</span>{' '}
      <TextLink to="/jobs/$jobId" params={{ jobId: visit.jobId }}>
        {visit.address}
      </TextLink>
      <div className={classes.soft}>
        {visit.place}
        {others ? `, with ${others}` : ''}
        {visit.state === 'held' ? ', held' : ''}
        {visit.state === 'ended' ? ', ended early' : ''}
        {visit.expectedAt && visit.state === 'booked' ? `, expected ${clockText(visit.expectedAt, zone)}` : ''}
        {visit.openNeeds > 0 ? `, ${visit.openNeeds} still to get` : ''}
      </div>
      {onTake && movable(visit) ? (
        <Button
          id={buttonId(visit.id, personId)}
          size="compact-md"
          variant="default"
          className={classes.move}
          onClick={() => onTake(visit, personId)}
          aria-label={`Move ${clockText(visit.startsAt, zone)}, ${visit.address}`}
        >
          Move
        </Button>
      ) : null}
    </>
  );
}
