// Choosing a start for a visit of a job: a day from which on, and the ranked starts with their people.
import { useState, type ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { DateTime } from 'luxon';
import type { JobPage as Job } from '@backsight/contract/jobs';
import type { Starts } from '@backsight/contract/schedule';
import { startsQuery } from '../../api/schedule.ts';
import { useMe } from '../../api/people.ts';
import { PickStart, type PickedStart } from '../../ui/PickStart.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { todayIn } from '../../ui/time.ts';
import classes from './jobs.module.css';

/** Of every day some, so that each day that somebody asks for can be chosen; more where those before an instant fall away. */
const PER_DAY = { usual: 2, fromInstant: 7 };
const from = (starts: Starts, at: string): Starts => ({
  ...starts,
  options: starts.options.filter(({ startsAt }) => Date.parse(startsAt) >= Date.parse(at)),
});

type ChooseProps = {
  job: Job;
  kind: string;
  without: string | null;
  act: string;
  busy: boolean;
  error: unknown;
  onClose: () => void;
  onStart: (start: PickedStart) => void;
  /** Instant before which no start is offered. */
  notBefore?: string | null;
  /** What is to know before choosing. */
  before?: ReactNode;
  /** What is to know of the start that is chosen. */
  about?: (start: PickedStart) => ReactNode;
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
  about,
}: ChooseProps): ReactNode {
  const { zone } = useMe();
  const [fromDay, setFromDay] = useState(() => (notBefore ? DateTime.fromISO(notBefore, { zone }).toFormat('yyyy-MM-dd') : todayIn(zone)));
  const starts = useQuery(
    startsQuery({
      place: { lat: job.property.lat, lon: job.property.lon },
      facts: job.facts,
      services: job.services.map(({ key }) => key),
      visitKind: kind,
      fromDay,
      days: 14,
      limit: 100,
      perDay: notBefore ? PER_DAY.fromInstant : PER_DAY.usual,
      objectionOn: job.objectionOn,
      propertyId: job.property.id,
      withoutVisit: without,
    }),
  );
  return (
    <div className={classes.inline}>
      <ProblemNote of={error} />
      {before}
      <PickStart
        fromDay={fromDay}
        onFromDay={setFromDay}
        starts={starts.data && notBefore ? from(starts.data, notBefore) : starts.data}
        pending={starts.isPending}
        error={starts.error}
        act={act}
        busy={busy}
        onPick={onStart}
        about={about}
        leave="Leave it"
        onLeave={onClose}
      />
    </div>
  );
}
