// What a revision would have meant for the inspections of the last year, and whom it asks; for the approver.
import type { ItemCounts } from '@backsight/domain/procedures/budget';
import { coverageOf } from '@backsight/domain/procedures/coverage';
import { MET_ELSEWHERE } from '@backsight/domain/procedures/data/standards';
import { impactOf } from '@backsight/domain/procedures/impact';
import { earliestAcknowledgeBy } from '@backsight/domain/procedures/revise';
import type { Step } from '@backsight/domain/procedures/step';
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import { burdenOf } from '@backsight/domain/sitework/burden';
import { suggestItems, type RecordItem } from '@backsight/domain/sitework/items';
import { makePackage } from '@backsight/domain/sitework/package';
import type { Reader } from '@backsight/store/database';
import { findFirm } from '@backsight/store/firm';
import { pastFacts } from '@backsight/store/jobs/pastFacts';
import { acknowledgementsOf, findRevision, stepsOf, type RevisionRow } from '@backsight/store/procedures/book';
import { calendarOf } from '../firm/steps/calendar.ts';
import { revisionsInForce, type RevisionInForce } from './steps/inForce.ts';
import { ownStandard } from './steps/ownStandard.ts';

const DAY_MS = 86_400_000;

type PastJob = Awaited<ReturnType<typeof pastFacts>>[number];

const itemsAt = (facts: PropertyFacts): RecordItem[] => suggestItems(facts).map((item, at) => ({ ...item, id: String(at) }));

function countsAt(facts: PropertyFacts): ItemCounts {
  const counts: Record<string, number> = {};
  for (const { kind } of itemsAt(facts)) counts[kind] = (counts[kind] ?? 0) + 1;
  return counts;
}

/** Steps of one procedure as a revision would hand them out, counted in inputs of one person. */
const inputsAt = (row: RevisionRow, steps: readonly Step[], { facts, services, day }: PastJob): number =>
  burdenOf(
    makePackage([{ procedureKey: row.procedureId, title: '', system: '', revisionId: row.id, number: row.number, steps }], {
      ...{ facts, services, day, serviceNames: {}, pair: true },
      items: itemsAt(facts),
    }),
  ).perPerson;

/** The duties of the firm's standard that the book would not carry out with this revision in it, as ids of the rows. */
async function uncoveredWith(reader: Reader, row: RevisionRow, steps: readonly Step[], book: readonly RevisionInForce[]) {
  const standard = await ownStandard(reader);
  if (!standard) return [];
  const others = book.filter(({ procedureId }) => procedureId !== row.procedureId);
  const gaps = (all: readonly { title: string; steps: readonly Step[] }[]) =>
    coverageOf(
      standard,
      all.map(({ title, steps: own }) => ({ key: '', system: '', title, steps: own })),
      MET_ELSEWHERE,
    ).filter(({ covered }) => !covered);
  const before = new Set(gaps(book).map(({ id }) => id));
  return gaps([...others, { title: '', steps }])
    .filter(({ id }) => !before.has(id))
    .map(({ id, citation, requirement }) => `${citation}: ${requirement} (${id})`);
}

export async function readImpact(reader: Reader, { id, now }: { id: string; now: Date }) {
  const row = await findRevision(reader, id);
  if (!row) return null;
  const [before, steps] = [row.basedOnId === null ? [] : await stepsOf(reader, row.basedOnId), await stepsOf(reader, id)];
  const past = await pastFacts(reader, new Date(now.getTime() - 365 * DAY_MS), now);
  const impact = impactOf(
    before,
    steps,
    past.map(({ facts, services, day }) => ({ context: { facts, services, day }, items: countsAt(facts) })),
  );
  const inputs = (of: readonly Step[]): number => past.reduce((sum, job) => sum + inputsAt(row, of, job), 0);
  const graceDays = (await findFirm(reader))?.graceDays ?? 0;
  return {
    ...impact,
    inputsPerJob: past.length === 0 ? null : Math.round(((inputs(steps) - inputs(before)) / past.length) * 10) / 10,
    uncovered: await uncoveredWith(reader, row, steps, await revisionsInForce(reader, now)),
    inspectors: (await acknowledgementsOf(reader, id, now)).length,
    acknowledgeByIfNow: earliestAcknowledgeBy(now.toISOString(), graceDays, await calendarOf(reader, null, now)),
  };
}
