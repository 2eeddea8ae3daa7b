// What a caller on file has with the firm already: for "where is my report?" and "when do you come?" without leaving the page.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { JOB_STATES, NEED_KINDS, type JobLine } from '@backsight/contract/jobs';
import { jobsQuery } from '../../api/jobs.ts';
import { When } from '../../ui/When.tsx';
import classes from './desk.module.css';

const SHOWN = 4;

/** `name`: of somebody on file; jobs with others of that name are among them. */
export function CallerJobs({ name }: { name: string }): ReactNode {
  const found = useQuery(jobsQuery({ text: name, limit: SHOWN })).data?.items;
  if (!found) return null;
  return (
    <div role="status">
      {found.length === 0 ? (
        <p className={classes.hint}>No job with anybody of this name.</p>
      ) : (
        <ul className={classes.files} aria-label={`Jobs with ${name}`}>
          {found.map((job) => (
            <li key={job.id}>
              <a href={`/jobs/${job.id}`} target="_blank" rel="noreferrer">{`Job ${job.number}`}</a>
              {`, ${job.address}, ${job.town}`}
              {job.startsAt ? (
                <>
                  , <When at={job.startsAt} />
                </>
              ) : null}
              {`: ${standing(job)}`}
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}

/** Where a job stands, with what it waits for. */
function standing({ state, openNeeds }: JobLine): string {
  const waits = openNeeds.length === 0 ? '' : `; waits for: ${openNeeds.map((need) => NEED_KINDS[need]).join(', ')}`;
  if (state === 'reported') return `the report was handed over${waits}`;
  return `${JOB_STATES[state]}${state === 'visited' ? ', the report is still to be handed over' : ''}${waits}`;
}
