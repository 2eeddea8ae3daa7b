// Reads about jobs: the page of one, and the list.
import type { Reader } from '@backsight/store/database';
import { saysMore, type JobEvent } from '@backsight/domain/jobs/history';
import { accept, refuse } from '@backsight/domain/shared/outcome';
import { zoneBeyond } from '../schedule/steps/zone.ts';
import type { Actor } from '../run.ts';
import { mayCallPeople } from './steps/mayCallPeople.ts';
import { onlyOwn } from './steps/onlyOwn.ts';
import { papersDiffer } from './steps/papersDiffer.ts';
import { cameBackOfJob } from '@backsight/store/fees/evidence';
import { findJobPage, listJobs, type JobSearch } from '@backsight/store/jobs/pages';

const CONFIRMED = ['booked', 'on_site', 'visited', 'reported'];

/** Everything on the page of a job; how its people are reached only for who may call them now. */
export async function readJob(reader: Reader, { id, actor, now }: { id: string; actor: Actor; now: Date }) {
  const found = await findJobPage(reader, id);
  if (!found) return refuse('not-found', { thing: 'job' });
  const { zone, ...job } = found;
  const day = (job.visits[0]?.startsAt ?? job.recordedAt).slice(0, 10);
  const [reached, cameBack, differ] = await Promise.all([
    mayCallPeople(reader, id, { actor, now }),
    cameBackOfJob(reader, id),
    CONFIRMED.includes(job.state) ? papersDiffer(reader, id) : [],
  ]);
  return accept({
    ...job,
    parties: reached ? job.parties : job.parties.map((party) => ({ ...party, email: null, phone: null })),
    events: job.events.map(({ details, ...event }) => ({ ...event, ...saysMore({ kind: event.kind, details } as JobEvent) })),
    property: { ...job.property, zoneBeyond: zoneBeyond(job.property, zone, day) },
    cameBack: cameBack.map(({ memo, ...one }) => ({ ...one, what: memo.slice(memo.indexOf(': ') + 2) })),
    papersDiffer: differ,
  });
}

/** One page of the list, for an inspector of his own jobs; `next` is the cursor of the following one. */
export async function readJobs(reader: Reader, q: Omit<JobSearch, 'before' | 'only'> & { cursor: string | null; actor: Actor }) {
  const { cursor, limit, actor, ...search } = q;
  const rows = await listJobs(reader, {
    ...search,
    only: onlyOwn(actor),
    before: cursor === null ? null : Number(cursor),
    limit: limit + 1,
  });
  const items = rows.slice(0, limit);
  return { items, next: rows.length > limit ? String(items.at(-1)!.number) : null };
}
