// The week by person: visits with the drives between, absences, hours, and what will stand in the way. A table at a desk, cards on a phone.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { DateTime } from 'luxon';
import type { Role } from '@backsight/contract/people';
import type { Week } from '@backsight/contract/schedule';
import { useMe } from '../../api/people.ts';
import { closuresQuery } from '../../api/plans.ts';
import { weekQuery } from '../../api/schedule.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { ButtonLink, TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { When } from '../../ui/When.tsx';
import { clockText, dayText, todayIn } from '../../ui/time.ts';
import classes from './week.module.css';

const OFFICE: readonly Role[] = ['owner', 'office_manager', 'lead_inspector'];

type Person = Week['people'][number];
type WeekDay = Person['days'][number];
type Visit = WeekDay['visits'][number];

const route = getRouteApi('/shell/week');
const mondayOf = (day: string): string => DateTime.fromISO(day, { zone: 'utc' }).startOf('week').toFormat('yyyy-MM-dd');
const shifted = (day: string, days: number): string => DateTime.fromISO(day, { zone: 'utc' }).plus({ days }).toFormat('yyyy-MM-dd');
const short = (day: string): string => DateTime.fromISO(day, { zone: 'utc', locale: 'en-US' }).toFormat('ccc, LLL d');

export function WeekPage(): ReactNode {
  const { zone, roles } = useMe();
  const mayClose = roles.some((role) => OFFICE.includes(role));
  const search = route.useSearch();
  const from = search.from ?? mondayOf(search.day ?? todayIn(zone));
  const week = useQuery(weekQuery(from));
  return (
    <Page
      title="Week"
      about={`${dayText(from)} to ${dayText(shifted(from, 6))}`}
      actions={
        <>
          <ButtonLink to="/week" search={{ from: shifted(from, -7) }} variant="default">
            Week before
          </ButtonLink>
          <ButtonLink to="/week" search={{}} variant="default">
            This week
          </ButtonLink>
          <ButtonLink to="/week" search={{ from: shifted(from, 7) }} variant="default">
            Week after
          </ButtonLink>
        </>
      }
    >
      {week.data && week.data.people.length > 0 ? <Days from={from} days={week.data.days} chosen={search.day} /> : null}
      <ProblemNote of={week.error} />
      {week.isPending ? <Loading /> : null}
      {week.data?.people.length === 0 ? <Empty>Nobody goes out yet. Add inspectors with their hours and licenses first.</Empty> : null}
      {mayClose ? <Closed from={search.day ?? from} until={shifted(search.day ?? from, search.day ? 1 : 7)} /> : null}
      {week.data && !search.day ? <DaysOff week={week.data} /> : null}
      {week.data && week.data.people.length > 0 ? (
        <div className={classes.scroll}>
          <DataTable
            caption={search.day ? `${dayText(search.day)} by person` : `Week from ${dayText(from)} by person`}
            columns={columnsOf(week.data, search.day)}
            rows={week.data.people}
            rowKey={({ id }) => id}
          />
        </div>
      ) : null}
    </Page>
  );
}

/** One day at a time, or all of them. */
function Days({ from, days, chosen }: { from: string; days: readonly string[]; chosen: string | undefined }): ReactNode {
  return (
    <nav aria-label="Days" className={classes.days}>
      {chosen ? (
        <TextLink to="/week" search={{ from }}>
          Whole week
        </TextLink>
      ) : (
        <strong aria-current="page">Whole week</strong>
      )}
      {days.map((day) =>
        day === chosen ? (
          <strong key={day} aria-current="page">
            {short(day)}
          </strong>
        ) : (
          <TextLink key={day} to="/week" search={{ from, day }}>
            {short(day)}
          </TextLink>
        ),
      )}
    </nav>
  );
}

/** What is closed for weather in these days, up to `until` without it, and how many visits wait there to be moved. */
function Closed({ from, until }: { from: string; until: string }): ReactNode {
  const { zone } = useMe();
  const { data } = useQuery(closuresQuery);
  const dayIn = (at: string): string => DateTime.fromISO(at, { zone }).toFormat('yyyy-MM-dd');
  return (data?.items ?? [])
    .filter(({ startsAt, endsAt }) => dayIn(startsAt) < until && dayIn(endsAt) >= from)
    .map(({ id, startsAt, endsAt, outdoorOnly, towns, reason, visits }) => (
      <p key={id} className={classes.closed}>
        <TextLink to="/weather">{reason}</TextLink>: {outdoorOnly ? 'outdoor work' : 'everything'} closed{' '}
        {towns.length > 0 ? `in ${towns.join(', ')} ` : ''}from <When at={startsAt} /> to <When at={endsAt} />,{' '}
        {visits.length === 1 ? '1 visit' : `${visits.length} visits`} booked into it.
      </p>
    ));
}

/** Days on which nobody works or is to work; not when that is all of them. Whoever is away for weeks is away then too. */
function daysOff({ days, people }: Week): string[] {
  const off = days.filter((_, at) =>
    people.every(({ days: own }) => {
      const { hours, visits, exception, writing } = own[at]!;
      return hours.length === 0 && visits.length === 0 && exception === null && writing.minutes === 0;
    }),
  );
  return off.length === days.length ? [] : off;
}

/** Their columns are left out of the whole week, so that the others have room. */
function DaysOff({ week }: { week: Week }): ReactNode {
  const off = daysOff(week);
  return off.length === 0 ? null : <p className={classes.soft}>Nobody is at work on {off.map(short).join('; ')}.</p>;
}

function columnsOf(week: Week, chosen: string | undefined): Column<Person>[] {
  const names = new Map(week.people.map(({ id, name }) => [id, name]));
  const days = week.days.map((day, at): Column<Person> => ({
    key: day,
    head: short(day),
    cell: (person) => <OneDay day={person.days[at]!} week={week} names={names} />,
  }));
  const off = daysOff(week);
  const shown = days.filter(({ key }) => (chosen === undefined ? !off.includes(key) : key === chosen));
  return [{ key: 'person', head: 'Person', cell: (person) => <Head person={person} /> }, ...shown];
}

function Head({ person }: { person: Person }): ReactNode {
  return (
    <>
      <TextLink to="/people/$personId" params={{ personId: person.id }}>
        {person.name}
      </TextLink>
      {person.trainee ? <div className={classes.soft}>trainee</div> : null}
      {person.licenseLapsesOn ? <div className={classes.note}>License until {dayText(person.licenseLapsesOn)}</div> : null}
      {person.missing.map(({ revision, afterDay }) => (
        <div key={revision} className={classes.note}>
          Not acknowledged: {revision}; not sent after {dayText(afterDay)}
        </div>
      ))}
    </>
  );
}

function OneDay({ day, week, names }: { day: WeekDay; week: Week; names: ReadonlyMap<string, string> }): ReactNode {
  const { zone, roadService } = week;
  const other = day.exception ? <div className={classes.other}>{sayException(day.exception)}</div> : null;
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
                <OneVisit visit={one.visit} zone={zone} names={names} />
              </>
            ) : (
              `${one.state === 'asked' ? 'asks to be away' : 'away'} ${hoursOf(one.startsAt, one.endsAt, zone)}`
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

const sayException = ({ start, end }: NonNullable<WeekDay['exception']>): string =>
  start === null || end === null ? 'day off' : `other hours: ${hourOf(start)} to ${hourOf(end)}`;

const hourOf = (minute: number): string =>
  DateTime.fromObject({ hour: Math.floor(minute / 60) % 24, minute: minute % 60 }, { locale: 'en-US' }).toFormat('h:mm a');

type Leg = WeekDay['legs'][number];

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
  DateTime.fromISO(endsAt).diff(DateTime.fromISO(startsAt), 'hours').hours >= 23
    ? 'all day'
    : `${clockText(startsAt, zone)} to ${clockText(endsAt, zone)}`;

function OneVisit({ visit, zone, names }: { visit: Visit; zone: string; names: ReadonlyMap<string, string> }): ReactNode {
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
    </>
  );
}
