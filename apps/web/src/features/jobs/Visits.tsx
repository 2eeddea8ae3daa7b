// Visits of a job with their pair and why, moving one, and adding another.
import { useState, type ReactNode } from 'react';
import { Button, Group } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { DateTime } from 'luxon';
import type { JobPage as Job } from '@backsight/contract/jobs';
import { newId } from '../../api/ids.ts';
import { addVisit } from '../../api/schedule.ts';
import { useMe } from '../../api/people.ts';
import { deskQuery } from '../../api/desk.ts';
import { ButtonLink, TextLink } from '../../ui/links.tsx';
import { clockText, todayIn } from '../../ui/time.ts';
import { PromiseForm } from '../../ui/PromiseForm.tsx';
import { useOpener } from '../../ui/useOpener.ts';
import { When } from '../../ui/When.tsx';
import { ChooseStart } from './ChooseStart.tsx';
import { LaterLooks } from './LaterLooks.tsx';
import { VisitTime } from './Past.tsx';
import { MoveVisit } from './MoveVisit.tsx';
import { useChange } from './useChange.ts';
import { VisitGate } from './VisitGate.tsx';
import classes from './jobs.module.css';

type Visit = Job['visits'][number];

export function Visits({ job, mayWork }: { job: Job; mayWork: boolean }): ReactNode {
  const desk = useQuery(deskQuery(job.id)).data;
  const later = job.kind === 'callback_visit' ? [] : (desk?.laterVisits ?? []).filter(({ booked }) => !booked);
  return (
    <section aria-label="Visits">
      <h2>Visits</h2>
      {desk && desk.awaited.length > 0 ? (
        <p>
          Awaited:{' '}
          <TextLink to="/jobs/$jobId/tests" params={{ jobId: job.id }}>
            {desk.awaited.join(', ')}
          </TextLink>
        </p>
      ) : null}
      <ul className={classes.rows}>
        {job.visits.map((visit) => (
          <OneVisit key={visit.id} visit={visit} job={job} mayWork={mayWork} />
        ))}
      </ul>
      {mayWork && ['held', 'booked', 'on_site', 'visited'].includes(job.state) ? (
        <Group gap="sm">
          {later.map((visit) => (
            <AddVisit key={visit.kind} job={job} {...visit} />
          ))}
        </Group>
      ) : null}
      {desk ? <LaterLooks job={job} looks={desk.laterLooks} mayWork={mayWork} /> : null}
    </section>
  );
}

/** What the client was told, where it is not the very start: a window of that day, or of several. */
function Told({ visit }: { visit: Visit }): ReactNode {
  const { zone } = useMe();
  if (!visit.promised) return null;
  const { from, until } = visit.promised;
  const day = (at: string): string => DateTime.fromISO(at, { zone }).toFormat('yyyy-MM-dd');
  return (
    <div>
      Told the client: between{' '}
      {day(from) === day(until) ? (
        `${clockText(from, zone)} and ${clockText(until, zone)}`
      ) : (
        <>
          <When at={from} /> and <When at={until} />
        </>
      )}
    </div>
  );
}

function ChangeTold({ visit, onDone }: { visit: Visit; onDone: () => void }): ReactNode {
  return (
    <div className={classes.inline}>
      <p>What the client was told of the beginning. Plans move the visit only within it; no mail goes out for it.</p>
      <PromiseForm
        visit={{ ...visit, window: visit.promised }}
        refresh={['jobs']}
        done={onDone}
        besides={
          <Button variant="default" onClick={onDone}>
            Leave it
          </Button>
        }
      />
    </div>
  );
}

const isToday = (at: string, zone: string): boolean => DateTime.fromISO(at, { zone }).toFormat('yyyy-MM-dd') === todayIn(zone);

function OneVisit({ visit, job, mayWork }: { visit: Visit; job: Job; mayWork: boolean }): ReactNode {
  const { zone } = useMe();
  const [changing, setChanging] = useState<'time' | 'told' | null>(null);
  const done = () => setChanging(null);
  const [toMove, toSay] = [useOpener(changing === 'time'), useOpener(changing === 'told')];
  const ahead = visit.state === 'held' || visit.state === 'booked';
  const movable = mayWork && ahead;
  return (
    <li>
      <div className={classes.words}>
        <strong>{visit.kindName}</strong>, {visit.state === 'before' ? 'done before' : visit.state.replaceAll('_', ' ')}:{' '}
        <VisitTime job={job} startsAt={visit.startsAt} endsAt={visit.endsAt} />
        <div>
          <Told visit={visit} />
          {visit.pair.map(({ place, name }) => `${name} (${place})`).join(', ')}
          {visit.observers.length > 0 ? `; along: ${visit.observers.join(', ')}` : ''}
        </div>
        {ahead ? (
          <div className={classes.soft}>
            {visit.kit.length > 0 ? `Kit: ${visit.kit.join(', ')}.` : ''}
            {visit.because.sentence ? (
              <details>
                <summary>Why then, and why they</summary>
                {String(visit.because.sentence)}
              </details>
            ) : null}
          </div>
        ) : null}
        {visit.kind === job.kind && visit.state !== 'before' ? <VisitGate visit={visit} /> : null}
      </div>
      {movable && changing === null ? (
        <Group gap="xs">
          <Button ref={toMove} size="compact-md" variant="default" onClick={() => setChanging('time')}>
            Move
          </Button>
          <Button ref={toSay} size="compact-md" variant="default" onClick={() => setChanging('told')}>
            What the client was told
          </Button>
          <ButtonLink to="/visits/$visitId/kept" params={{ visitId: visit.id }} size="compact-md" variant="default">
            What plans keep
          </ButtonLink>
          {visit.state === 'booked' && isToday(visit.startsAt, zone) ? (
            <ButtonLink to="/visits/$visitId/late" params={{ visitId: visit.id }} size="compact-md" variant="default">
              Running late
            </ButtonLink>
          ) : null}
          {visit.state === 'booked' && Date.parse(visit.startsAt) < Date.now() + 3_600_000 ? (
            <ButtonLink to="/visits/$visitId/ending" params={{ visitId: visit.id }} size="compact-md" variant="default">
              It ended early
            </ButtonLink>
          ) : null}
        </Group>
      ) : null}
      {changing === 'time' ? <MoveVisit job={job} visit={visit} onDone={done} /> : null}
      {changing === 'told' ? <ChangeTold key={visit.version} visit={visit} onDone={done} /> : null}
    </li>
  );
}

function AddVisit({ job, kind, name, from }: { job: Job; kind: string; name: string; from: string | null }): ReactNode {
  const [open, setOpen] = useState(false);
  const [key] = useState(newId);
  const add = useChange(addVisit, 'The visit was added.', () => setOpen(false));
  if (!open)
    return (
      <p>
        <Button variant="default" onClick={() => setOpen(true)}>
          Add a visit: {name.toLowerCase()}
        </Button>{' '}
        {from ? (
          <>
            It may begin from <When at={from} /> on.
          </>
        ) : null}
      </p>
    );
  return (
    <ChooseStart
      job={job}
      kind={kind}
      without={null}
      notBefore={from}
      act="Add the visit"
      busy={add.isPending}
      error={add.error}
      onClose={() => setOpen(false)}
      onStart={(start) => add.mutate({ jobId: job.id, kind, start, key })}
    />
  );
}
