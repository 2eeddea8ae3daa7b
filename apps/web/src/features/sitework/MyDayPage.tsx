// My day: where to be today and tomorrow, with whom, what to carry, how to get in, and what is still to acknowledge.
import { lazy, Suspense, type ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import type { z } from 'zod';
import type { dayVisit } from '@backsight/contract/sitework';
import { useMe } from '../../api/people.ts';
import { isWaiting, useOutbox } from '../../api/phone/outbox.ts';
import { aheadQuery, dayQuery } from '../../api/sitework.ts';
import { Empty } from '../../ui/Empty.tsx';
import { ButtonLink, TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { clockText } from '../../ui/time.ts';
import { Drive } from './Drive.tsx';
import { useLater } from './later.tsx';
import { WaitingNote } from './WaitingNote.tsx';
import { WayIn } from './WayIn.tsx';
import { forOneThing, kindName } from './words.ts';
import classes from './sitework.module.css';

type DayVisit = z.output<typeof dayVisit>;

/** Behind the day, and no matter of the site: where it cannot be fetched the day stands without it. */
const AccountsAsked = lazy(() =>
  import('./AccountsAsked.tsx').then(({ AccountsAsked: Part }) => ({ default: Part })).catch(() => ({ default: () => null })),
);

export function MyDayPage(): ReactNode {
  useLater();
  const me = useMe();
  const { data, error, isPending } = useQuery({ ...dayQuery, staleTime: 0 }); // what was read ahead elsewhere may be from before the last act
  const ended = useOutbox().filter(({ personId, what }) => personId === me.id && what.kind === 'act' && what.does === 'end_early');
  return (
    <Page title="My day" width="narrow">
      <WaitingNote waiting={ended} />
      <Suspense fallback={null}>
        <AccountsAsked />
      </Suspense>
      {data ? null : <ProblemNote of={error} />}
      {isPending ? <Loading /> : null}
      {data
        ? [
            ['Today', data.today],
            ['Tomorrow', data.tomorrow],
          ].map(([name, day]) => <DayList key={name} name={name!} day={day!} visits={data.visits.filter((v) => v.day === day)} />)
        : null}
    </Page>
  );
}

function DayList({ name, day, visits }: { name: string; day: string; visits: readonly DayVisit[] }): ReactNode {
  const me = useMe();
  const next = name === 'Today' ? visits.find((visit) => !isOver(visit))?.id : undefined;
  return (
    <section>
      <h2 className={classes.day}>{name}</h2>
      {visits.length === 0 ? (
        <Empty>No visit of yours.</Empty>
      ) : (
        <ul className={classes.cards}>
          {visits.map((visit) => (
            <VisitCard key={visit.id} visit={visit} today={name === 'Today'} next={visit.id === next} />
          ))}
        </ul>
      )}
      {visits.length === 0 ? null : (
        <p>
          <a className={classes.press} href={`/api/people/${me.id}/day-sheet/${day}`}>
            {name} on paper (PDF)
          </a>
        </p>
      )}
    </section>
  );
}

const isOver = ({ state }: DayVisit): boolean => state === 'done' || state === 'ended';

/** `next`: where one goes now; what belongs to any other visit is folded, so that the day is seen at a glance. */
function VisitCard({ visit, today, next }: { visit: DayVisit; today: boolean; next: boolean }): ReactNode {
  const me = useMe();
  const others = visit.pair.filter(({ personId }) => personId !== me.id).map(({ name }) => name);
  const openedHere = useOpenedHere(visit.id);
  const endedHere = useOutbox().some(
    (row) => isWaiting(row) && row.what.kind === 'act' && row.what.does === 'end_early' && row.what.path.includes(visit.id),
  );
  const mine = visit.acknowledgements.filter(({ personId }) => personId === me.id);
  const over = isOver(visit);
  return (
    <li className={classes.card}>
      <h3>
        {clockText(visit.startsAt, me.zone)} to {clockText(visit.endsAt, me.zone)}: {visit.address}, {visit.town}
      </h3>
      {visit.drive.zoneBeyond ? <p>The clocks at the house show {clockText(visit.startsAt, visit.drive.zoneBeyond)} then.</p> : null}
      {visit.expectedAt && visit.state === 'booked' ? (
        <p>
          <strong>Expected at about {clockText(visit.expectedAt, me.zone)}.</strong>
        </p>
      ) : null}
      <p>
        {kindName(visit.kind)}, job {visit.jobNumber}
        {others.length > 0 ? `, with ${others.join(' and ')}` : ''}
        {over ? <strong>{visit.state === 'ended' ? ': ended early' : ': done'}</strong> : null}
      </p>
      {visit.services.length > 0 && !forOneThing(visit.kind) ? <p className={classes.soft}>{visit.services.join(', ')}</p> : null}
      {mine.length > 0 ? (
        <p>
          <strong>You have still to acknowledge:</strong> {mine.map((a) => `${a.title}, revision ${a.number}`).join('; ')}
        </p>
      ) : null}
      {next ? (
        <About visit={visit} over={over} />
      ) : (
        <details className={classes.more}>
          <summary>Kit, getting in, people</summary>
          <About visit={visit} over={over} />
          {today ? <Drive visit={visit} over={over} /> : null}
          <OtherActs visit={visit} />
        </details>
      )}
      {next ? <Drive visit={visit} over={over} /> : null}
      <div className={classes.acts}>
        {endedHere ? <p>It ended early; kept on this phone.</p> : <NextAct visit={visit} openedHere={openedHere} />}
      </div>
      {next ? <OtherActs visit={visit} /> : null}
    </li>
  );
}

/** What to carry, how to get in, and who is there. */
const About = ({ visit, over }: { visit: DayVisit; over: boolean }): ReactNode => (
  <>
    {visit.kit.length > 0 && !over ? (
      <p>
        Carry: {visit.kit.join(', ')}. <TextLink to="/kit">Something failed?</TextLink>
      </p>
    ) : null}
    {over ? null : (
      <>
        <p>{gettingIn(visit.access)}</p>
        <WayIn visitId={visit.id} />
      </>
    )}
    {visit.people.map((p) => (
      <p key={p.name + p.role} className={classes.soft}>
        {p.name} ({p.role.replaceAll('_', ' ')})
        {p.phone ? (
          <>
            , <a href={`tel:${p.phone}`}>{p.phone}</a>
          </>
        ) : null}
      </p>
    ))}
  </>
);

const OtherActs = ({ visit }: { visit: DayVisit }): ReactNode => (
  <div className={classes.acts}>
    {visit.state === 'booked' || visit.state === 'on_site' ? (
      <ButtonLink to="/visits/$visitId/late" params={{ visitId: visit.id }} size="lg" variant="default">
        Running late
      </ButtonLink>
    ) : null}
    <ButtonLink to="/jobs/$jobId/tests" params={{ jobId: visit.jobId }} size="lg" variant="default">
      Devices and samples
    </ButtonLink>
  </div>
);

/** What was said of the access counts only as far as it was agreed. */
function gettingIn({ state, lines }: DayVisit['access']): string {
  const said = lines.join('; ');
  if (state === 'refused') return said ? `Access was refused: ${said}` : 'Access was refused.';
  if (state === 'settled') return said ? `Getting in: ${said}` : 'Getting in is agreed.';
  return said ? `Getting in is not agreed yet. Said before: ${said}` : 'Getting in is not agreed yet.';
}

/** Id of the record of a visit that was opened on this phone and that the service has not been told of. */
function useOpenedHere(visitId: string): string | null {
  const me = useMe();
  const { data } = useQuery({ ...aheadQuery, enabled: false });
  const recordId = data?.visits.find(({ start }) => start.visit.id === visitId)?.recordId;
  const opened = useOutbox().some(
    (row) => row.personId === me.id && row.recordId === recordId && row.what.kind === 'act' && row.what.opens,
  );
  return opened && recordId ? recordId : null;
}

type NextProps = { visit: Pick<DayVisit, 'id' | 'recordId' | 'recordState' | 'state'>; openedHere: string | null };

function NextAct({ visit, openedHere }: NextProps): ReactNode {
  if (visit.recordId && visit.recordState === 'sealed')
    return (
      <ButtonLink to="/records/$recordId/sealed" params={{ recordId: visit.recordId }} size="lg" variant="default">
        Sealed record
      </ButtonLink>
    );
  const recordId = visit.recordId ?? openedHere;
  if (recordId)
    return (
      <ButtonLink to="/records/$recordId" params={{ recordId }} size="lg">
        Go on with the record
      </ButtonLink>
    );
  return visit.state === 'booked' ? (
    <ButtonLink to="/visits/$visitId/start" params={{ visitId: visit.id }} size="lg">
      Get ready to start
    </ButtonLink>
  ) : null;
}
