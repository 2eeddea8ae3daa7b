// Reads about jobs: the page of one, and the list.
import type { Reader } from '@backsight/store/database';
import { saysMore, type JobEvent } from '@backsight/domain/jobs/history';
import { accept, refuse } from '@backsight/domain/shared/outcome';
import { zoneBeyond } from '../schedule/steps/zone.ts';
import { papersDiffer } from './steps/papersDiffer.ts';
import { cameBackOfJob } from '@backsight/store/fees/evidence';
import { findJobPage, listJobs, type JobSearch } from '@backsight/store/jobs/pages';

const CONFIRMED = ['booked', 'on_site', 'visited', 'reported'];

/** Everything on the page of a job. */
export async function readJob(reader: Reader, id: string) {
  const found = await findJobPage(reader, id);
  if (!found) return refuse('not-found', { thing: 'job' });
  const { zone, ...job } = found;
  const day = (job.visits[0]?.startsAt ?? job.recordedAt).slice(0, 10);
  return accept({
    ...job,
    events: job.events.map(({ details, ...event }) => ({ ...event, ...saysMore({ kind: event.kind, details } as JobEvent) })),
    property: { ...job.property, zoneBeyond: zoneBeyond(job.property, zone, day) },
    cameBack: (await cameBackOfJob(reader, id)).map(({ memo, ...one }) => ({ ...one, what: memo.slice(memo.indexOf(': ') + 2) })),
    papersDiffer: CONFIRMED.includes(job.state) ? await papersDiffer(reader, id) : [],
  });
}

/** One page of the list; `next` is the cursor of the following one. */
export async function readJobs(reader: Reader, q: Omit<JobSearch, 'before'> & { cursor: string | null }) {
  const { cursor, limit, ...search } = q;
  const rows = await listJobs(reader, { ...search, before: cursor === null ? null : Number(cursor), limit: limit + 1 });
  const items = rows.slice(0, limit);
  return { items, next: rows.length > limit ? String(items.at(-1)!.number) : null };
}
