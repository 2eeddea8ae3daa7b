// Of a job that was done before and came with a spreadsheet: what is known, and what there is not.
import type { ReactNode } from 'react';
import type { JobPage as Job } from '@backsight/contract/jobs';
import { TextLink } from '../../ui/links.tsx';
import { Day, When } from '../../ui/When.tsx';

/** The day alone where the spreadsheet gave no time. */
export function VisitTime({ job, startsAt, endsAt }: { job: Job; startsAt: string; endsAt: string }): ReactNode {
  if (!job.past) return <When at={startsAt} until={endsAt} />;
  return job.past.timed ? <When at={startsAt} /> : <Day day={startsAt.slice(0, 10)} />;
}

export function Past({ job: { past }, maySee }: { job: Job; maySee: boolean }): ReactNode {
  if (!past) return null;
  return (
    <p>
      Done before, and brought in{' '}
      {maySee ? (
        <TextLink to="/bring-in/$bringInId" params={{ bringInId: past.bringInId }}>
          from a spreadsheet
        </TextLink>
      ) : (
        'from a spreadsheet'
      )}{' '}
      by {past.by}, <When at={past.at} />.{past.reference ? ` Its number before was ${past.reference}.` : ''}
      {past.deliveredOn ? (
        <>
          {' '}
          The report was handed over <Day day={past.deliveredOn} />.
        </>
      ) : null}{' '}
      There is no record of steps, agreement, report or invoice of it here, and nothing is owed.
    </p>
  );
}
