// The week of people: a board of time at a desk, a list by day and person on a phone or when asked for; visits are moved on either.
import { useMemo, useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import { useMediaQuery } from '@mantine/hooks';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { DateTime } from 'luxon';
import type { Role } from '@backsight/contract/people';
import type { Week } from '@backsight/contract/schedule';
import { useMe } from '../../api/people.ts';
import { closuresQuery } from '../../api/plans.ts';
import { weekQuery } from '../../api/schedule.ts';
import { Empty } from '../../ui/Empty.tsx';
import { ButtonLink, TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { When } from '../../ui/When.tsx';
import { dayText, todayIn } from '../../ui/time.ts';
import { Board } from './Board.tsx';
import { boardOf, pairsTogether } from './geometry.ts';
import { Hand } from './Hand.tsx';
import { Key } from './Key.tsx';
import type { Sent } from './PutDown.tsx';
import { useHand } from './useHand.ts';
import { buttonId } from './walk.ts';
import { WeekList } from './WeekList.tsx';
import classes from './week.module.css';

const OFFICE: readonly Role[] = ['owner', 'office_manager', 'lead_inspector'];
const AS_THEY_ARE = <T,>(people: readonly T[]): readonly T[] => people;

const route = getRouteApi('/shell/week');
const mondayOf = (day: string): string => DateTime.fromISO(day, { zone: 'utc' }).startOf('week').toFormat('yyyy-MM-dd');
const shifted = (day: string, days: number): string => DateTime.fromISO(day, { zone: 'utc' }).plus({ days }).toFormat('yyyy-MM-dd');
const short = (day: string): string => DateTime.fromISO(day, { zone: 'utc', locale: 'en-US' }).toFormat('ccc, LLL d');

export function WeekPage(): ReactNode {
  const { zone, roles } = useMe();
  const mayMove = roles.some((role) => OFFICE.includes(role));
  const search = route.useSearch();
  const narrow = useMediaQuery('(max-width: 47.99em)', undefined, { getInitialValueInEffect: false }) ?? false;
  const today = todayIn(zone);
  const from = search.from ?? mondayOf(search.day ?? today);
  const week = useQuery(weekQuery(from));
  const chosen = search.day ?? (narrow && !search.as ? firstOf(week.data, today) : undefined);
  const list = narrow || search.as === 'list';
  const as = search.as ? { as: search.as } : {};
  return (
    <Page
      width="full"
      title="Week"
      about={`${dayText(from)} to ${dayText(shifted(from, 6))}`}
      actions={
        <>
          <ButtonLink to="/week" search={{ ...as, from: shifted(from, -7) }} variant="default">
            Week before
          </ButtonLink>
          <ButtonLink to="/week" search={{ ...as }} variant="default">
            This week
          </ButtonLink>
          <ButtonLink to="/week" search={{ ...as, from: shifted(from, 7) }} variant="default">
            Week after
          </ButtonLink>
          {mayMove ? (
            <ButtonLink to="/day-plan" search={{ from: chosen ?? (from > today ? from : today) }} variant="default">
              Look for a better plan
            </ButtonLink>
          ) : null}
        </>
      }
    >
      {week.data && week.data.people.length > 0 ? (
        <Days from={from} days={week.data.days} chosen={chosen} as={search.as} narrow={narrow} />
      ) : null}
      <ProblemNote of={week.error} />
      {week.isPending ? <Loading /> : null}
      {week.data?.people.length === 0 ? <Empty>Nobody goes out yet. Add inspectors with their hours and licenses first.</Empty> : null}
      {mayMove ? <Closed from={chosen ?? from} until={shifted(chosen ?? from, chosen ? 1 : 7)} /> : null}
      {week.data && week.data.people.length > 0 ? (
        <People week={week.data} chosen={chosen} today={today} list={list} mayMove={mayMove} />
      ) : null}
    </Page>
  );
}

/** On a phone one day at a time: today, or the first of the week. */
const firstOf = (week: Week | undefined, today: string): string | undefined => (week?.days.includes(today) ? today : week?.days[0]);

type PeopleProps = { week: Week; chosen: string | undefined; today: string; list: boolean; mayMove: boolean };

/** The people of the days shown, and whatever visit is in hand. */
function People({ week, chosen, today, list, mayMove }: PeopleProps): ReactNode {
  const { zone } = week;
  const { held, hold, leave, take } = useHand(zone);
  const [sent, setSent] = useState<Sent | null>(null);
  const { data: closures } = useQuery({ ...closuresQuery, enabled: mayMove });
  const off = daysOff(week);
  const days = useMemo(
    () => week.days.filter((day) => (chosen === undefined ? !daysOff(week).includes(day) : day === chosen)),
    [week, chosen],
  );
  const board = useMemo(() => boardOf(week, days, chosen ? pairsTogether(chosen) : AS_THEY_ARE), [week, days, chosen]);
  const people = board.rows.map(({ person }) => person);
  const back = (): void => {
    const id = held && buttonId(held.visit.id, held.carrier);
    const was = held && buttonId(held.visit.id, held.was.first);
    leave();
    requestAnimationFrame(() => (document.getElementById(id ?? '') ?? document.getElementById(was ?? ''))?.focus());
  };
  const done = (moved: Sent): void => {
    setSent(moved);
    back();
  };
  const caption = chosen ? `${dayText(chosen)} by person` : `Week from ${dayText(week.from)} by person`;
  const bands = (closures?.items ?? []).map(({ id, startsAt, endsAt, reason, outdoorOnly, towns }) => ({
    id,
    startsAt,
    endsAt,
    what: `${reason}${outdoorOnly ? ', outdoor work' : ''}${towns.length > 0 ? ` in ${towns.join(', ')}` : ''}`,
  }));
  return (
    <>
      {off.length > 0 && !chosen ? <p className={classes.soft}>Nobody is at work on {off.map(short).join('; ')}.</p> : null}
      {sent && !held ? <Moved sent={sent} week={week} onBack={take} /> : null}
      {list ? (
        <WeekList caption={caption} week={week} days={days} today={today} onTake={mayMove ? take : undefined} />
      ) : (
        <>
          <Board label={caption} board={board} today={today} held={held} bands={bands} onTake={take} onHold={mayMove ? hold : () => {}} />
          <Key />
        </>
      )}
      {held ? (
        <Hand
          key={held.visit.id + held.visit.version}
          {...{ held, week, days, people, mayMove }}
          onHold={hold}
          onLeave={back}
          onDone={done}
        />
      ) : null}
    </>
  );
}

type MovedProps = { sent: Sent; week: Week; onBack: ReturnType<typeof useHand>['take'] };

/** Putting back is one more move, whose consequences are shown like any other. */
function Moved({ sent: { visit, was, carrier }, week, onBack }: MovedProps): ReactNode {
  const now = week.people.flatMap(({ days }) => days.flatMap(({ visits }) => visits)).find(({ id }) => id === visit.id);
  return (
    <p className={classes.moved}>
      {visit.address} was moved.{' '}
      {now ? (
        <Button size="compact-md" variant="default" onClick={() => onBack(now, carrier, was)}>
          Put it back
        </Button>
      ) : (
        <TextLink to="/jobs/$jobId" params={{ jobId: visit.jobId }}>
          Its job
        </TextLink>
      )}
    </p>
  );
}

type DaysProps = { from: string; days: readonly string[]; chosen: string | undefined; as: 'list' | undefined; narrow: boolean };

/** One day at a time, or all of them; as a board or as a list. */
function Days({ from, days, chosen, as, narrow }: DaysProps): ReactNode {
  const how = as ? { as } : {};
  return (
    <nav aria-label="Days" className={classes.days}>
      {chosen ? (
        <TextLink to="/week" search={{ from, ...(narrow ? { as: 'list' as const } : how) }}>
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
          <TextLink key={day} to="/week" search={{ from, day, ...how }}>
            {short(day)}
          </TextLink>
        ),
      )}
      {narrow ? null : (
        <TextLink to="/week" search={{ from, ...(chosen ? { day: chosen } : {}), ...(as ? {} : { as: 'list' as const }) }}>
          {as ? 'As a board' : 'As a list'}
        </TextLink>
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
