// Choosing a start for a visit of a job: a day from which on, and the ranked starts with their people.
import { useState, type ReactNode } from 'react';
import { Button, Group, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { DateTime } from 'luxon';
import type { JobPage as Job } from '@backsight/contract/jobs';
import type { Starts } from '@backsight/contract/schedule';
import { startsQuery } from '../../api/schedule.ts';
import { useMe } from '../../api/people.ts';
import { Loading } from '../../ui/Loading.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { StartChoice, startKey } from '../../ui/StartChoice.tsx';
import { todayIn } from '../../ui/time.ts';
import classes from './jobs.module.css';

const MOST = 8;
const from = (starts: Starts, at: string): Starts => ({
  ...starts,
  options: starts.options.filter(({ startsAt }) => Date.parse(startsAt) >= Date.parse(at)).slice(0, MOST),
});

type Start = { startsAt: string; first: string; second: string | null };
type ChooseProps = {
  job: Job;
  kind: string;
  without: string | null;
  act: string;
  busy: boolean;
  error: unknown;
  onClose: () => void;
  onStart: (start: Start) => void;
  /** Instant before which no start is offered. */
  notBefore?: string | null;
  /** What is to know before choosing. */
  before?: ReactNode;
};

export function ChooseStart({
  job,
  kind,
  without,
  act,
  busy,
  error,
  onClose,
  onStart,
  notBefore = null,
  before = null,
}: ChooseProps): ReactNode {
  const { zone } = useMe();
  const [fromDay, setFromDay] = useState(() => (notBefore ? DateTime.fromISO(notBefore, { zone }).toFormat('yyyy-MM-dd') : todayIn(zone)));
  const [start, setStart] = useState<Start | null>(null);
  const starts = useQuery(
    startsQuery({
      place: { lat: job.property.lat, lon: job.property.lon },
      facts: job.facts,
      services: job.services.map(({ key }) => key),
      visitKind: kind,
      fromDay,
      days: 14,
      limit: notBefore ? 60 : 8,
      objectionOn: job.objectionOn,
      propertyId: job.property.id,
      withoutVisit: without,
    }),
  );
  return (
    <div className={classes.inline}>
      <ProblemNote of={error} />
      {before}
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
          starts={notBefore ? from(starts.data, notBefore) : starts.data}
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
