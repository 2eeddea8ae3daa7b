// Reads of one revision: its steps in words, what is different in it, who has acknowledged it, what it would have meant last year.
import { compareRevisions } from '@backsight/domain/procedures/compare';
import { impactOf } from '@backsight/domain/procedures/impact';
import type { ItemCounts } from '@backsight/domain/procedures/budget';
import { earliestAcknowledgeBy } from '@backsight/domain/procedures/revise';
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import { suggestItems } from '@backsight/domain/sitework/items';
import type { Reader } from '@backsight/store/database';
import { findFirm } from '@backsight/store/firm';
import { pastFacts } from '@backsight/store/jobs/pastFacts';
import { qualificationKinds } from '@backsight/store/people/credentials';
import { listKitKinds } from '@backsight/store/people/kit';
import { acknowledgementsOf, findRevision, listProcedures, revisionsOf, stepsOf } from '@backsight/store/procedures/book';
import { comparisonJson, isInForce, revisionJson, stepJson, stepNames } from './inWords.ts';
import { calendarOf } from '../firm/steps/calendar.ts';
import { draftContext, newestOf } from './steps/facts.ts';

type Asked = { id: string; now: Date };
const DAY_MS = 86_400_000;
/** Common practice: kitchen, bath and outdoors have one each; they are counted on site. */
const DEVICES_ASSUMED = 3;

const byKey = (kinds: readonly { key: string; name: string }[]): Record<string, string> =>
  Object.fromEntries(kinds.map(({ key, name }) => [key, name]));

/** The revision with its steps; for a draft also what stands in the way of approval and whether another was approved meanwhile. */
export async function readRevision(reader: Reader, { id, now }: Asked) {
  const row = await findRevision(reader, id);
  if (!row) return null;
  const [steps, names, procedures] = [await stepsOf(reader, id), await stepNames(reader, now), await listProcedures(reader)];
  const { problems } = row.state === 'draft' ? await draftContext(reader, row, steps, now) : { problems: [] };
  return {
    ...revisionJson(row),
    procedure: procedures.find((one) => one.id === row.procedureId)!,
    inForce: isInForce(row, now),
    newestId: newestOf(await revisionsOf(reader, row.procedureId))?.id ?? null,
    steps: steps.map((step) => stepJson(step, names, steps)),
    problems,
    serviceNames: names.services,
    kitNames: byKey(await listKitKinds(reader)),
    qualificationNames: byKey(await qualificationKinds(reader)),
    stepTitles: names.steps,
  };
}

/** What is different in a revision against the one it is based on. */
export async function readComparison(reader: Reader, { id, now }: Asked) {
  const row = await findRevision(reader, id);
  if (!row) return null;
  const before = row.basedOnId === null ? null : await findRevision(reader, row.basedOnId);
  const [old, fresh, names] = [before ? await stepsOf(reader, before.id) : [], await stepsOf(reader, id), await stepNames(reader, now)];
  return {
    revision: revisionJson(row),
    before: before ? { id: before.id, number: before.number } : null,
    ...comparisonJson(compareRevisions(old, fresh, names), names, old, fresh),
  };
}

/** Every inspector with the acknowledgement or without; the first revision of a procedure asks for none. */
export async function readAcknowledgements(reader: Reader, { id, now }: Asked) {
  const row = await findRevision(reader, id);
  if (!row) return null;
  const people = await acknowledgementsOf(reader, id, now);
  return {
    asked: row.number > 1 && row.state === 'approved',
    acknowledgeBy: row.acknowledgeBy?.toISOString() ?? null,
    people: people.map(({ personId, name, happenedAt, where }) => ({
      personId,
      name,
      happenedAt: happenedAt?.toISOString() ?? null,
      where,
    })),
  };
}

function itemsOf(facts: PropertyFacts): ItemCounts {
  const counts: Record<string, number> = { ground_fault_device: DEVICES_ASSUMED };
  for (const { kind } of suggestItems(facts)) counts[kind] = (counts[kind] ?? 0) + 1;
  return counts;
}

/** What a revision would have meant for the inspections of the 365 days before now, and whom it asks; for the approver. */
export async function readImpact(reader: Reader, { id, now }: Asked) {
  const row = await findRevision(reader, id);
  if (!row) return null;
  const before = row.basedOnId === null ? [] : await stepsOf(reader, row.basedOnId);
  const past = await pastFacts(reader, new Date(now.getTime() - 365 * DAY_MS), now);
  const impact = impactOf(
    before,
    await stepsOf(reader, id),
    past.map(({ facts, services, day }) => ({ context: { facts, services, day }, items: itemsOf(facts) })),
  );
  const inspectors = (await acknowledgementsOf(reader, id, now)).length;
  const graceDays = (await findFirm(reader))?.graceDays ?? 0;
  return {
    ...impact,
    inspectors,
    acknowledgeByIfNow: earliestAcknowledgeBy(now.toISOString(), graceDays, await calendarOf(reader, null, now)),
  };
}
