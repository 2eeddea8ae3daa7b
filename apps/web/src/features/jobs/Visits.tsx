// Visits of a job with their pair and why, moving one, and adding another.
import { useState, type ReactNode } from 'react';
import { Button, Group, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { JobPage as Job } from '@backsight/contract/jobs';
import { newId } from '../../api/ids.ts';
import { addVisit, moveVisit, startsQuery } from '../../api/schedule.ts';
import { useMe } from '../../api/people.ts';
import { Loading } from '../../ui/Loading.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { StartChoice, startKey } from '../../ui/StartChoice.tsx';
import { saved } from '../../ui/saved.ts';
import { todayIn } from '../../ui/time.ts';
import { When } from '../../ui/When.tsx';
import { useChange } from './useChange.ts';
import { VisitGate } from './VisitGate.tsx';
import classes from './jobs.module.css';

type Visit = Job['visits'][number];
type Start = { startsAt: string; first: string; second: string | null };

export function Visits({ job, mayWork }: { job: Job; mayWork: boolean }): ReactNode {
  return (
    <section aria-label="Visits">
      <h2>Visits</h2>
      <ul className={classes.rows}>
        {job.visits.map((visit) => (
          <OneVisit key={visit.id} visit={visit} job={job} mayWork={mayWork} />
        ))}
      </ul>
      {mayWork && job.state !== 'cancelled' ? (
        <Group gap="sm">
          {extraKinds(job).map(([kind, name]) => (
            <AddVisit key={kind} job={job} kind={kind} name={name} />
          ))}
        </Group>
      ) : null}
    </section>
  );
}

const extraKinds = (job: Job): (readonly [string, string])[] =>
  job.kind === 'callback_visit'
    ? []
    : job.services.flatMap(({ extraVisit, name }) =>
        extraVisit && !job.visits.some(({ kind, state }) => kind === extraVisit && state !== 'cancelled')
          ? [[extraVisit, name] as const]
          : [],
      );

function OneVisit({ visit, job, mayWork }: { visit: Visit; job: Job; mayWork: boolean }): ReactNode {
  const [moving, setMoving] = useState(false);
  const move = useChange(
    moveVisit,
    job.state === 'held' ? 'The visit was moved.' : 'The visit was moved, and the client was told by mail.',
    ({ warnings }) => {
      for (const { text } of warnings) saved(text);
      setMoving(false);
    },
  );
  const movable = mayWork && (visit.state === 'held' || visit.state === 'booked');
  return (
    <li>
      <div className={classes.words}>
        <strong>{visit.kindName}</strong>, {visit.state.replaceAll('_', ' ')}: <When at={visit.startsAt} until={visit.endsAt} />
        <div>
          {visit.pair.map(({ place, name }) => `${name} (${place})`).join(', ')}
          {visit.observers.length > 0 ? `; along: ${visit.observers.join(', ')}` : ''}
        </div>
        <div className={classes.soft}>
          {String(visit.because.sentence ?? '')}
          {visit.kit.length > 0 ? ` Kit: ${visit.kit.join(', ')}.` : ''}
        </div>
        <VisitGate visit={visit} />
      </div>
      {movable && !moving ? (
        <Button size="compact-md" variant="default" onClick={() => setMoving(true)}>
          Move
        </Button>
      ) : null}
      {moving ? (
        <ChooseStart
          job={job}
          kind={visit.kind}
          without={visit.id}
          act="Move the visit"
          busy={move.isPending}
          error={move.error}
          onClose={() => setMoving(false)}
          onStart={(start) => move.mutate({ id: visit.id, version: visit.version, start })}
        />
      ) : null}
    </li>
  );
}

function AddVisit({ job, kind, name }: { job: Job; kind: string; name: string }): ReactNode {
  const [open, setOpen] = useState(false);
  const [key] = useState(newId);
  const add = useChange(addVisit, 'The visit was added.', () => setOpen(false));
  if (!open)
    return (
      <Button variant="default" onClick={() => setOpen(true)}>
        Add a visit: {name.toLowerCase()}
      </Button>
    );
  return (
    <ChooseStart
      job={job}
      kind={kind}
      without={null}
      act="Add the visit"
      busy={add.isPending}
      error={add.error}
      onClose={() => setOpen(false)}
      onStart={(start) => add.mutate({ jobId: job.id, kind, start, key })}
    />
  );
}

type ChooseProps = {
  job: Job;
  kind: string;
  without: string | null;
  act: string;
  busy: boolean;
  error: unknown;
  onClose: () => void;
  onStart: (start: Start) => void;
};

function ChooseStart({ job, kind, without, act, busy, error, onClose, onStart }: ChooseProps): ReactNode {
  const { zone } = useMe();
  const [fromDay, setFromDay] = useState(todayIn(zone));
  const [start, setStart] = useState<Start | null>(null);
  const starts = useQuery(
    startsQuery({
      place: { lat: job.property.lat, lon: job.property.lon },
      facts: job.facts,
      services: job.services.map(({ key }) => key),
      visitKind: kind,
      fromDay,
      days: 14,
      limit: 8,
      objectionOn: job.objectionOn,
      propertyId: job.property.id,
      withoutVisit: without,
    }),
  );
  return (
    <div className={classes.inline}>
      <ProblemNote of={error} />
      <TextInput
        label="From"
        type="date"
        value={fromDay}
        onChange={(event) => event.currentTarget.value && setFromDay(event.currentTarget.value)}
        maw="12rem"
        mb="sm"
        autoFocus
      />
      <ProblemNote of={starts.error} />
      {starts.isPending ? <Loading /> : null}
      {starts.data ? (
        <StartChoice
          starts={starts.data}
          chosen={start ? startKey(start) : null}
          onChoose={({ startsAt, first, second }) => setStart({ startsAt, first, second })}
        />
      ) : null}
      <Group mt="sm">
        <Button loading={busy} disabled={start === null} onClick={() => start && onStart(start)}>
          {act}
        </Button>
        <Button variant="default" onClick={onClose}>
          Leave it
        </Button>
      </Group>
    </div>
  );
}
