// The same gap on other jobs that worked by the same step and revision: computed when somebody looks, kept nowhere.
import { gapsAt } from '@backsight/domain/callbacks/elsewhere';
import { GAPS, type Gap } from '@backsight/domain/callbacks/words';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { sayEntry } from '@backsight/domain/sitework/say';
import type { CouldNotReason, StepOutcome } from '@backsight/domain/sitework/value';
import { findAction } from '@backsight/store/callbacks/actions';
import { tracedSteps, type TracedRow } from '@backsight/store/callbacks/change';
import { decisionsOf, jobsBySameStep, looksOf, placesOfJobs, type PlaceRow } from '@backsight/store/callbacks/elsewhere';
import type { Reader } from '@backsight/store/database';

const PAGE = 25;
/** Jobs read at once while a page is filled. */
const BATCH = 200;

export type ElsewhereInput = { id: string; step: string | null; gap: Gap | null; before: number | null };

/** `step` and `gap` default to what the failed entry shows first. Steps are named `key@revision`. */
export async function readElsewhere(reader: Reader, input: ElsewhereInput): Promise<Outcome<Awaited<ReturnType<typeof listFor>>>> {
  const action = await findAction(reader, input.id);
  if (!action) return refuse('not-found', { thing: 'corrective action' });
  const traced = await tracedSteps(reader, input.id);
  return accept(await listFor(reader, input, traced));
}

const nameOf = ({ stepKey, revisionId }: TracedRow): string => `${stepKey}@${revisionId}`;

async function listFor(reader: Reader, { id, step, gap, before }: ElsewhereInput, traced: readonly TracedRow[]) {
  const steps = [...new Map(traced.map((t) => [nameOf(t), t])).values()];
  const chosen = steps.find((t) => nameOf(t) === step) ?? steps[0];
  const names = steps.map((t) => ({ name: nameOf(t), title: t.title, revisionNumber: t.revisionNumber, procedureTitle: t.procedureTitle }));
  if (!chosen) return { steps: names, step: null, shown: [], gap: null, jobs: [], next: null };
  const mine = traced.filter((t) => nameOf(t) === nameOf(chosen)).map(({ jobId }) => jobId);
  const failed = await placesOfJobs(reader, chosen, mine);
  const shown = (Object.keys(GAPS) as Gap[]).filter((one) => failed.some((place) => gapsOf(place).includes(one)));
  const wanted = gap ?? shown[0] ?? 'no_entry';
  const { jobs, next } = await page(reader, chosen, { wanted, before, not: mine });
  const [looks, decisions] = [await looksOf(reader, id), await decisionsOf(reader, id)];
  const iso = <T extends { happenedAt: Date }>(row: T | undefined) => (row ? { ...row, happenedAt: row.happenedAt.toISOString() } : null);
  return {
    steps: names,
    step: nameOf(chosen),
    shown,
    gap: wanted,
    jobs: jobs.map(({ jobId, ...job }) => ({
      jobId,
      ...job,
      look: strip(iso(looks.find((l) => l.jobId === jobId))),
      decision: strip(iso(decisions.find((d) => d.jobId === jobId))),
    })),
    next,
  };
}

const strip = <T extends { jobId: string }>(row: T | null) => {
  if (row === null) return null;
  const { jobId: _, ...rest } = row;
  return rest;
};

/** Fills a page with jobs that show the gap, newest first; the cursor is the number of the last job that was looked through. */
async function page(
  reader: Reader,
  step: TracedRow,
  { wanted, before, not }: { wanted: Gap; before: number | null; not: readonly string[] },
) {
  const jobs: ReturnType<typeof jobOf>[] = [];
  let cursor = before;
  for (;;) {
    const ids = await jobsBySameStep(reader, step, { before: cursor, not, limit: BATCH });
    const places = await placesOfJobs(reader, step, ids);
    for (const number of [...new Set(places.map(({ jobNumber }) => jobNumber))]) {
      const here = places.filter(({ jobNumber }) => jobNumber === number);
      cursor = number;
      if (!here.some((place) => gapsOf(place).includes(wanted))) continue;
      jobs.push(jobOf(here, wanted));
      if (jobs.length === PAGE) return { jobs, next: number };
    }
    if (ids.length < BATCH) return { jobs, next: null };
  }
}

export const gapsOf = (place: PlaceRow): Gap[] =>
  gapsAt({
    ownExtra: place.ownExtra,
    followed: place.followed,
    entries: place.entries.map(({ evidence, ...entry }) => ({ ...entry, answer: `${entry.outcome} ${JSON.stringify(evidence)}` })),
  });

function jobOf(places: readonly PlaceRow[], wanted: Gap) {
  const [first] = places as [PlaceRow];
  return {
    jobId: first.jobId,
    jobNumber: first.jobNumber,
    inspectedAt: first.inspectedAt.toISOString(),
    places: places.map((place) => ({
      item: place.item,
      hasGap: gapsOf(place).includes(wanted),
      recorded: place.entries.map((e) => ({
        answer: sayEntry(
          { outcome: e.outcome as StepOutcome, evidence: e.evidence, reason: e.reason as CouldNotReason | null },
          place.asked,
        ),
        match: e.match,
        by: e.observer,
      })),
    })),
  };
}
