// A short procedure in two revisions, and site records by it with known answers of both of the pair, written straight into the records.
import { randomUUID } from 'node:crypto';
import type { Evidence, Step } from '@backsight/domain/procedures/step';
import { ALWAYS } from '@backsight/domain/shared/applicability';
import type { CouldNotReason, EntryEvidence, StepOutcome } from '@backsight/domain/sitework/value';
import { addEntry, addItems, closeWithSeal, createRecord, endRecord, savePackage, type StoredValue } from '@backsight/store/sitework';
import { approveDrafts, closePeriod, saveDrafts, saveSteps } from '@backsight/store/procedures/save';
import { hearDevice } from '@backsight/store/sitework/offline';
import { setVisitState } from '@backsight/store/sitework/visit';
import type { Tx } from '@backsight/store/database';
import { loadBook } from '@backsight/usecases/procedures/steps/loadBook';
import { CAST, type CastName } from './cast.ts';
import type { TestService } from './database.ts';
import { siteJob, type SiteJob } from './siteJob.ts';
import { IN_FORCE_FROM } from './starter.ts';

/**
 * What one of a pair put down at a place. Several of one hand are ordered by `minute`, in which it came in after the record was opened, `seq` and `id`;
 * one from a phone (its id) by `written`, the minute by the phone's clock, which is behind by `behind` minutes.
 */
export type Said = {
  outcome: StepOutcome;
  evidence: EntryEvidence | null;
  reason?: CouldNotReason;
  closedBy?: string;
  minute?: number;
  seq?: number;
  id?: string;
  /** Takes the place of the entry of that id. */
  corrects?: string;
  phone?: string;
  written?: number;
  behind?: number;
};
export const saw = (option: string): Said => ({ outcome: 'done', evidence: { kind: 'choice', option } });
export const read = (value: number): Said => ({ outcome: 'done', evidence: { kind: 'reading', value, unit: '°F' } });
export const counted = (count: number, order: Partial<Said> = {}): Said => ({
  outcome: 'done',
  evidence: { kind: 'count', count },
  ...order,
});
export const noted: Said = { outcome: 'done', evidence: { kind: 'note' } };
export const confirmed: Said = { outcome: 'done', evidence: { kind: 'confirm' } };
export const couldNot: Said = { outcome: 'could_not', evidence: null, reason: 'blocked' };
/** Written by the service for whoever had put down nothing: the visit ended, or danger closed the step. */
export const notReached: Said = { outcome: 'ended_before', evidence: null };
export const closedByDanger: Said = { outcome: 'could_not', evidence: null, reason: 'unsafe', closedBy: randomUUID() };

/** One place of a record. A step at a panel found later comes in the second package. */
export type Place = {
  step: string;
  panel?: string;
  second?: boolean;
  once?: boolean;
  says: Partial<Record<CastName, Said[]>>;
};
export type LookedAt = { id?: string; day: number; pair: [CastName, CastName]; revision: 1 | 2; open?: boolean; places: Place[] };

const stepOf = (key: string, evidence: Evidence): Step => ({
  key,
  title: key,
  instruction: 'Look, each on your own.',
  why: 'Two looks.',
  evidence,
  applies: ALWAYS,
  per: evidence.kind === 'count' ? 'panel' : 'property',
  basis: { kind: 'own_extra' },
  who: 'partner_check',
  style: 'do_then_confirm',
  minutes: 1,
  kit: [],
  after: [],
  references: [],
});

/** Saves two revisions of one procedure, which is long out of force, and answers their ids. Needs cast and starter set. */
export const twoRevisions = (service: TestService, asked: readonly Record<string, Evidence>[]): Promise<string[]> =>
  service.database.transaction(async (tx) => {
    const [first, second] = asked.map((one) => Object.entries(one).map(([key, evidence]) => stepOf(key, evidence)));
    const dated = { authorId: CAST.lead.id, approverId: CAST.owner.id, inForceFrom: IN_FORCE_FROM, at: IN_FORCE_FROM };
    const procedures = [{ key: 'looked-twice', title: 'Looked at twice', system: 'plumbing', steps: first! }];
    const [loaded] = await loadBook(tx, { ...dated, procedures, newId: service.newId });
    const [id, { procedureId, revisionId: basedOnId }] = [service.newId(), loaded!];
    const draft = { id, procedureId, number: 2, reason: 'A limit for hot water', basedOnId, asks: false };
    await saveDrafts(tx, [{ ...draft, authorId: CAST.lead.id, recordedAt: IN_FORCE_FROM }]);
    await saveSteps(tx, [{ revisionId: id, steps: second! }]);
    const approval = { approverId: CAST.owner.id, approvedAt: IN_FORCE_FROM, inForceFrom: IN_FORCE_FROM, acknowledgeBy: IN_FORCE_FROM };
    await approveDrafts(tx, [id], approval);
    await closePeriod(tx, procedureId, new Date(IN_FORCE_FROM.getTime() + 3_600_000)); // whoever starts a visit in the test is not asked for it
    return [basedOnId, id];
  });

/** Writes a job with its record, which is sealed unless it is left open; answers the job. */
export async function lookedAt(service: TestService, record: LookedAt, revisions: readonly string[]): Promise<SiteJob> {
  const at = new Date(Date.UTC(2026, 3, record.day, 15));
  const job = await siteJob(service, { pair: record.pair, startsAt: at, signed: false });
  const { visitId } = job;
  const id = record.id ?? randomUUID();
  await service.database.transaction(async (tx) => {
    await createRecord(tx, { id, visitId, openedAt: at, at });
    for (const [index, places] of [record.places.filter((p) => !p.second), record.places.filter((p) => p.second)].entries())
      if (places.length > 0) await writePackage(tx, { id, at, number: index + 1, revision: revisions[record.revision - 1]!, places });
    await setVisitState(tx, visitId, record.open ? 'on_site' : 'done');
    if (record.open) return;
    await endRecord(tx, id, 'complete');
    await closeWithSeal(tx, id, { sha256: 'x', by: CAST[record.pair[0]].id, at });
  });
  return job;
}

type Package = { id: string; at: Date; number: number; revision: string; places: readonly Place[] };

async function writePackage(tx: Tx, { id: recordId, at, number, revision, places }: Package): Promise<void> {
  const packageId = randomUUID();
  const rows = places.map((place, position) => ({ ...place, itemId: place.panel === undefined ? null : randomUUID(), position }));
  const panels = rows.flatMap(({ itemId, panel }) => (itemId ? [{ id: itemId, kind: 'panel' as const, label: panel! }] : []));
  await addItems(tx, recordId, panels, at);
  await savePackage(
    tx,
    { id: packageId, recordId, number, body: {}, sha256: 'x', startDespiteGate: false, at },
    rows.map(({ step, itemId, position, once }) => ({
      ...{ id: randomUUID(), stepKey: step, revisionId: revision, itemId },
      ...{ position: position + number * 100, partnerCheck: !once },
    })),
  );
  for (const { step, itemId, says } of rows)
    for (const [who, all] of Object.entries(says) as [CastName, Said[]][])
      for (const [index, said] of all.entries()) {
        if (said.phone) await hearDevice(tx, { id: said.phone, personId: CAST[who].id, clockOffsetMs: 0, at });
        await addEntry(tx, { ...entryOf(said, index, CAST[who].id, at), recordId, packageId, stepKey: step, itemId });
      }
}

/** Later answers have lower counters unless said otherwise: another phone counts from its own beginning. */
function entryOf({ outcome, evidence, reason, closedBy, ...order }: Said, index: number, person: string, opened: Date) {
  const at = new Date(opened.getTime() + (order.minute ?? index + 1) * 60_000);
  const value: StoredValue = { evidence, ...(closedBy ? { closedBy } : {}) };
  const { phone, written, behind = 0 } = order;
  const byPhone = { deviceId: phone, writtenAt: new Date(opened.getTime() + (written ?? 0) * 60_000), clockOffsetMs: behind * 60_000 };
  return {
    ...(phone === undefined ? {} : byPhone),
    ...{ id: order.id ?? randomUUID(), outcome, value, match: 'not_asked' as const, reason: reason ?? null, textId: null },
    ...{ observedBy: person, writtenBy: person, observedAt: at, observedApprox: false, at },
    ...{ deviceSeq: order.seq ?? 100 - index, supersedesId: null },
  };
}
