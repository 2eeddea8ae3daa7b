// Starts a visit: the gate is looked at, changes are acknowledged, and the steps that apply are handed out under the revisions in force.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { ItemKind } from '@backsight/domain/shared/facts';
import { makePackage } from '@backsight/domain/sitework/package';
import { jobStarted, mayStart, systemsOf } from '@backsight/domain/sitework/visit';
import { missingAcknowledgements } from '@backsight/store/procedures';
import { addItems, createRecord } from '@backsight/store/sitework';
import { acknowledgeAtStart, findVisit, lockVisit, setVisitState, type VisitRow } from '@backsight/store/sitework/visit';
import { gateOf } from '../agreements/steps/gate.ts';
import { revisionsInForce } from '../procedures/steps/inForce.ts';
import type { Act, Work } from '../run.ts';
import { basisOf, issuePackage } from './steps/issuePackage.ts';
import { isMember, leads } from './steps/loadRecord.ts';
import { moveJob } from './steps/moveJob.ts';

export type OpenRecordInput = {
  id: string;
  visitId: string;
  items: { id: string; kind: ItemKind; label: string }[];
  /** Systems that are looked at again, on visits other than inspections. */
  systems: string[];
  /** Members who say at the start that they will work by a changed procedure. */
  acknowledged: { personId: string; revisionId: string }[];
};

type Opened = { id: string; steps: number };

/** Reply: how many times a step applies. Refusals: gate-closed, acknowledgement-first, visit-not-booked, record-already-open. */
export const openRecord: Act<OpenRecordInput, Opened> = { operation: 'sitework.open', run: open };

async function open(work: Work, input: OpenRecordInput): Promise<Outcome<Opened>> {
  await lockVisit(work.tx, input.visitId);
  const visit = await findVisit(work.tx, input.visitId);
  if (!visit) return refuse('not-found', { thing: 'visit' });
  if (!isMember(visit, work.actor) && !leads(work.actor)) return refuse('not-on-this-visit');
  const names = new Set(input.items.map(({ kind, label }) => `${kind}/${label}`));
  if (names.size < input.items.length) return refuse('item-name-taken', {}, 'items');
  const asked = await askedOf(work, visit);
  const said = input.acknowledged.filter((a) => asked.some((m) => m.personId === a.personId && m.revisionId === a.revisionId));
  const open = asked.filter((m) => !said.some((a) => a.personId === m.personId && a.revisionId === m.revisionId));
  const gate = await gateOf(work.tx, visit.id);
  const unacknowledged = open.map((m) => ({
    person: visit.pair.find(({ personId }) => personId === m.personId)?.name ?? '',
    title: m.procedureTitle,
  }));
  const started = mayStart({
    visitState: visit.state,
    recordOpen: visit.recordId !== null,
    gate,
    overridden: gate.overrides.flatMap(({ missing }) => missing),
    unacknowledged,
  });
  if (!started.ok) return started;
  await acknowledgeAtStart(work.tx, said, work.now);
  const steps = await handOut(work, visit, input, { ...gate, despite: started.value.despiteGate });
  await setVisitState(work.tx, visit.id, 'on_site');
  await moveJob(work, visit.jobId, 'started', jobStarted, { visitId: visit.id });
  await work.did('site-record', input.id, {
    visitId: visit.id,
    steps,
    items: input.items.length,
    startDespiteGate: started.value.despiteGate,
    missing: gate.missing,
  });
  for (const { personId, revisionId } of said)
    await work.did('procedure-revision', revisionId, { acknowledgedBy: personId, where: 'at_the_start' });
  return accept({ id: input.id, steps });
}

const askedOf = async (work: Work, visit: VisitRow) =>
  (await missingAcknowledgements(work.tx, work.now)).filter((m) => visit.pair.some(({ personId }) => personId === m.personId));

async function handOut(
  work: Work,
  visit: VisitRow,
  input: OpenRecordInput,
  gate: { missing: readonly string[]; sentences: readonly string[]; despite: boolean },
): Promise<number> {
  await createRecord(work.tx, { id: input.id, visitId: visit.id, at: work.now });
  await addItems(work.tx, input.id, input.items, work.now);
  const systems = systemsOf(visit.kind, input.systems);
  const revisions = (await revisionsInForce(work.tx, work.now)).filter(({ system }) => systems === null || systems.includes(system));
  const { facts, services, serviceNames, day, pair } = visit;
  const steps = makePackage(revisions, { facts, services, serviceNames, day, items: input.items, pair: visit.crewSize === 2 });
  const basis = {
    day,
    facts,
    services,
    pair: pair.map(({ personId, place }) => ({ personId, place })),
    revisions: basisOf(revisions),
    gate: { missing: gate.missing, sentences: gate.sentences },
  };
  await issuePackage(work, { recordId: input.id, number: 1, basis, steps, startDespiteGate: gate.despite });
  return steps.length;
}
