// Starts a visit: the gate is looked at, changes are acknowledged, and the steps that apply are handed out under the revisions in force.
// A phone without signal starts from what it was handed ahead: then that counts, and a second phone joins the record that is there.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { ItemKind } from '@backsight/domain/shared/facts';
import { clockOffset } from '@backsight/domain/sitework/order';
import { makePackage } from '@backsight/domain/sitework/package';
import { jobStarted, mayStart, systemsOf } from '@backsight/domain/sitework/visit';
import { missingAcknowledgements } from '@backsight/store/procedures';
import { addItems, createRecord, frozenRevisions } from '@backsight/store/sitework';
import { siteworkRules } from '@backsight/store/sitework/rules';
import { findOffer, type OfferRow } from '@backsight/store/sitework/offline';
import { acknowledgeAtStart, findVisit, lockVisit, setVisitState, type VisitRow } from '@backsight/store/sitework/visit';
import { gateOf, type GateNow } from '../agreements/steps/gate.ts';
import { revisionsInForce } from '../procedures/steps/inForce.ts';
import type { Act, Work } from '../run.ts';
import { firstPackageIdOf } from './steps/derivedId.ts';
import { basisOf, issuePackage } from './steps/issuePackage.ts';
import { joinRecord } from './steps/joinRecord.ts';
import { isMember, leads } from './steps/loadRecord.ts';
import { moveJob } from './steps/moveJob.ts';
import { basisOfVisit } from './steps/offer.ts';

export type OpenRecordInput = {
  id: string;
  visitId: string;
  items: { id: string; kind: ItemKind; label: string }[];
  /** Systems that are looked at again, on visits other than inspections. */
  systems: string[];
  /** Members who say at the start that they will work by a changed procedure. */
  acknowledged: { personId: string; revisionId: string }[];
  /** What the phone was handed ahead, when the record was opened from that. */
  offerId?: string | null;
  /** By the phone's clock: when it was opened, and when this is sent. */
  openedAt?: string | null;
  sentAt?: string | null;
};

type Opened = { id: string; steps: number };

/** Reply: how many times a step applies. Refusals: gate-closed, acknowledgement-first, visit-not-booked, record-already-open, offer-unknown. */
export const openRecord: Act<OpenRecordInput, Opened> = { operation: 'sitework.open', run: open };

async function open(work: Work, input: OpenRecordInput): Promise<Outcome<Opened>> {
  await lockVisit(work.tx, input.visitId);
  const visit = await findVisit(work.tx, input.visitId);
  if (!visit) return refuse('not-found', { thing: 'visit' });
  const offer = input.offerId ? await findOffer(work.tx, input.offerId) : null;
  const offered = offer !== null && offer.visitId === visit.id && work.actor.kind === 'person' && offer.personId === work.actor.id;
  if (input.offerId && !offered) return refuse('offer-unknown', {}, 'offerId');
  if (!offered && !isMember(visit, work.actor) && !leads(work.actor)) return refuse('not-on-this-visit');
  const names = new Set(input.items.map(({ kind, label }) => `${kind}/${label}`));
  if (names.size < input.items.length) return refuse('item-name-taken', {}, 'items');
  const asked = await askedOf(work, visit, offer);
  const said = input.acknowledged.filter((a) => asked.some((m) => m.personId === a.personId && m.revisionId === a.revisionId));
  const frozen = await frozenFor(work, visit, offer, input.systems);
  if (offer && visit.recordId !== null) {
    await acknowledge(work, said);
    return joinRecord(work, visit.recordId, input.items, frozen);
  }
  const gate = await gateOf(work.tx, visit.id);
  const started = mayStart(startFacts(visit, gate, offer, { asked, said }));
  if (!started.ok) return started;
  await acknowledge(work, said);
  const steps = await handOut(work, visit, input, { frozen, gate, offered: offer !== null, despite: started.value.despiteGate });
  await setVisitState(work.tx, visit.id, 'on_site');
  await moveJob(work, visit.jobId, 'started', jobStarted, { visitId: visit.id });
  const { despiteGate: startDespiteGate } = started.value;
  await work.did('site-record', input.id, { visitId: visit.id, steps, items: input.items.length, startDespiteGate, missing: gate.missing });
  return accept({ id: input.id, steps });
}

type Said = OpenRecordInput['acknowledged'];
type Asked = Awaited<ReturnType<typeof missingAcknowledgements>>;

/** What was let pass with a reason; and what the gate did not miss when this was handed out ahead: such a start is flagged, not refused. */
function startFacts(visit: VisitRow, gate: GateNow, offer: OfferRow | null, { asked, said }: { asked: Asked; said: Said }) {
  const open = asked.filter((m) => !said.some((a) => a.personId === m.personId && a.revisionId === m.revisionId));
  const sinceThen = offer ? gate.missing.filter((code) => code !== 'acknowledgement' && !offer.gateMissing.includes(code)) : [];
  return {
    visitState: visit.state,
    recordOpen: visit.recordId !== null,
    gate,
    overridden: [...gate.overrides.flatMap(({ missing }) => missing), ...sinceThen],
    unacknowledged: open.map((m) => ({
      person: visit.pair.find(({ personId }) => personId === m.personId)?.name ?? '',
      title: m.procedureTitle,
    })),
  };
}

async function acknowledge(work: Work, said: Said): Promise<void> {
  await acknowledgeAtStart(work.tx, said, work.now);
  for (const { personId, revisionId } of said)
    await work.did('procedure-revision', revisionId, { acknowledgedBy: personId, where: 'at_the_start' });
}

/** A revision that came into force after a phone was handed its own is not worked by on this visit, so nobody is asked about it. */
const askedOf = async (work: Work, visit: VisitRow, offer: OfferRow | null): Promise<Asked> =>
  (await missingAcknowledgements(work.tx, work.now)).filter(
    (m) => visit.pair.some(({ personId }) => personId === m.personId) && (offer === null || offer.revisions.includes(m.revisionId)),
  );

/** The revisions and facts that the record is put together from. */
async function frozenFor(work: Work, visit: VisitRow, offer: OfferRow | null, chosen: readonly string[]) {
  const all = offer ? await frozenRevisions(work.tx, offer.revisions) : await revisionsInForce(work.tx, work.now);
  const systems = systemsOf(visit.kind, chosen);
  const revisions = all.filter(({ system }) => systems === null || systems.includes(system));
  const { crewSize, ...context } = offer?.body ?? basisOfVisit(visit, await siteworkRules(work.tx));
  return { revisions, context: { ...context, pair: crewSize === 2 } };
}

type Frozen = Awaited<ReturnType<typeof frozenFor>>;
type HandOut = { frozen: Frozen; gate: GateNow; offered: boolean; despite: boolean };

async function handOut(work: Work, visit: VisitRow, input: OpenRecordInput, { frozen, gate, offered, despite }: HandOut): Promise<number> {
  await createRecord(work.tx, { id: input.id, visitId: visit.id, openedAt: openedAt(input, work.now), at: work.now });
  await addItems(work.tx, input.id, input.items, work.now);
  const { serviceNames: _names, pair: _pair, ...context } = frozen.context;
  const steps = makePackage(frozen.revisions, { ...frozen.context, items: input.items });
  const basis = {
    ...context,
    pair: visit.pair.map(({ personId, place }) => ({ personId, place })),
    revisions: basisOf(frozen.revisions),
    gate: { missing: gate.missing, sentences: gate.sentences },
  };
  const packageId = offered ? firstPackageIdOf(visit.id) : work.newId();
  await issuePackage(work, { id: packageId, recordId: input.id, number: 1, basis, steps, startDespiteGate: despite });
  return steps.length;
}

/** By the phone's clock, set right by how far it was off when this was sent; never ahead. */
function openedAt({ openedAt: at, sentAt }: OpenRecordInput, now: Date): Date {
  if (!at || !sentAt) return now;
  return new Date(Math.min(Date.parse(at) + clockOffset(new Date(sentAt), now), now.getTime()));
}
