// Remedies: proposed and approved within limits, also with another amount. What they cost is counted for the whole callback.
import {
  checkProposal,
  committedCents,
  decideApproval,
  decideOutside,
  decideProposal,
  mayAmend,
  totalOf,
  type Proposal,
} from '@backsight/domain/callbacks/approval';
import { mayCountOn } from '@backsight/domain/callbacks/conclusion';
import { goOn, type Conflict } from '@backsight/domain/callbacks/conflicts';
import { chooseEstimate } from '@backsight/domain/callbacks/estimate';
import { mayRepair } from '@backsight/domain/callbacks/ownRepair';
import { offerState } from '@backsight/domain/callbacks/settlement';
import { moveTo } from '@backsight/domain/callbacks/state';
import { needsConclusion, type RemedyKind, type RemedyState } from '@backsight/domain/callbacks/words';
import { accept, refuse, type Outcome, type Warning } from '@backsight/domain/shared/outcome';
import { saveSetAside } from '@backsight/store/agreements/texts';
import {
  conclusionsOf,
  remediesOf,
  saveApproval,
  saveRemedy,
  setRemedyAmount,
  setRemedyState,
  type CallbackRow,
  type RemedyRow,
} from '@backsight/store/callbacks';
import { estimatesOf, goneOnWithOf, saveGoneOnWith } from '@backsight/store/callbacks/estimates';
import { findJobForCallback, type JobForCallback } from '@backsight/store/callbacks/job';
import { offersOf } from '@backsight/store/callbacks/settlement';
import { findFirm } from '@backsight/store/firm';
import { listPeople } from '@backsight/store/people';
import { keepText } from '@backsight/store/text';
import type { Act, Work } from '../run.ts';
import { authorityOf, type Authority } from './steps/authority.ts';
import { isOwner, record, rolesOf, seesOpinions, withCallback, type Done } from './steps/callback.ts';
import { conflictsFor } from './steps/conflicts.ts';
import { dayAt } from './steps/day.ts';
import { withRemedy } from './steps/remedy.ts';
import { closeRelease } from './steps/release.ts';
import { repairRuleFor } from './steps/repairRule.ts';

/** `reason`: why an owner goes on with a repair by the firm itself. `goOn`: why somebody goes on although something speaks against it. */
export type ProposeInput = Proposal & {
  id: string;
  remedyId: string;
  reason?: string;
  goOn?: string;
  estimateId?: string;
  waitsForRelease?: boolean;
};

/** Within the proposer's own limit it is approved at once, above it it waits for a second person. */
export const proposeRemedy: Act<ProposeInput, Done> = {
  operation: 'callbacks.propose',
  run: (work, input) => withCallback(work, input.id, (callback) => propose(work, callback, input)),
};

/** Looking again and telling the insurer need no conclusion; whatever answers the complaint does, and a sound one. */
async function maySettle(work: Work, kind: RemedyKind, callback: CallbackRow): Promise<Outcome<null>> {
  if (kind === 'revisit' || kind === 'insurer_notice' || !needsConclusion(callback.kind)) return accept(null);
  const [newest] = await conclusionsOf(work.tx, callback.id);
  return newest ? mayCountOn(newest) : refuse('conclusion-missing');
}

/** Holds a repair by the firm itself against the state's rules; what an owner sets aside of them is kept with the reason. */
async function setRuleAside(work: Work, job: JobForCallback, { remedyId, reason = '' }: ProposeInput): Promise<Outcome<null>> {
  const { rule, packId } = await repairRuleFor(work.tx, job, work.now);
  const may = mayRepair(rule, { isOwner: isOwner(rolesOf(work.actor)), reason });
  if (!may.ok || !rule.row || packId === null || work.actor.kind !== 'person') return may;
  const sentence = `A repair by the firm itself. ${rule.row.words} (${rule.row.citation})`;
  const aside = { id: work.newId(), packId, rowKey: rule.row.key, thingKind: 'remedy' as const, thingId: remedyId };
  await saveSetAside(work.tx, [{ ...aside, sentence, reason: reason.trim(), actorId: work.actor.id }], work.now);
  return may;
}

async function propose(work: Work, callback: CallbackRow, input: ProposeInput): Promise<Outcome<Done>> {
  const may = moveTo(callback, 'propose');
  if (!may.ok) return may;
  const sound = checkProposal(input, (await findFirm(work.tx))?.name ?? '');
  if (!sound.ok) return sound;
  const kind = sound.value;
  const settle = await maySettle(work, kind, callback);
  if (!settle.ok) return settle;
  const job = (await findJobForCallback(work.tx, callback.jobId))!;
  if (kind === 'own_repair') {
    const repair = await setRuleAside(work, job, input);
    if (!repair.ok) return repair;
  }
  const chosen = kind === 'independent_contractor' ? await choose(work, callback, input) : accept(null);
  if (!chosen.ok) return chosen;
  const authority = await authorityOf(work, job);
  const weighed = await weigh(work, { callback, job, authority }, { ...input, kind });
  if (!weighed.ok) return weighed;
  const { state, totalCents, against } = weighed.value;
  const textId = input.words === undefined ? null : await keepText(work.tx, work.newId(), input.words, work.now);
  const { remedyId, cents, payee, estimateId = null, waitsForRelease = false } = input;
  await saveRemedy(work.tx, {
    ...{ id: remedyId, callbackId: callback.id, kind, state, cents, payee, textId, estimateId, waitsForRelease },
    ...{ proposedBy: authority.person, recordedAt: work.now },
  });
  await keepGoingOn(work, remedyId, against, input.goOn);
  if (state === 'approved') await approveAlone(work, { id: remedyId, round: 1 }, authority, totalCents);
  const agreed = state === 'approved' ? moveTo(callback, 'agree') : may;
  if (!agreed.ok) return agreed;
  const event = {
    kind: state === 'approved' ? 'remedy_agreed' : 'remedy_proposed',
    state: agreed.value,
    details: { remedyId, remedy: kind },
  };
  return record(work, callback, event, [...chosen.warnings, ...weighed.warnings]);
}

const choose = async (work: Work, callback: CallbackRow, { estimateId, cents, payee, words = '' }: ProposeInput): Promise<Outcome<null>> =>
  chooseEstimate(await estimatesOf(work.tx, callback.id), { estimateId: estimateId ?? null, cents, payee, words });

type Weighed = { state: 'proposed' | 'approved'; totalCents: number; against: Conflict[] };
type Where = { callback: CallbackRow; job: JobForCallback; authority: Authority };

/** Holds an amount against the limit of whoever acts and against what speaks against it. */
async function weigh(
  work: Work,
  { callback, job, authority }: Where,
  { remedyId, kind, cents, goOn: reason = '' }: { remedyId: string; kind: RemedyKind; cents: number; goOn?: string },
): Promise<Outcome<Weighed>> {
  const committed = committedCents(await remediesOf(work.tx, callback.id), remedyId);
  const totalCents = totalOf(cents, committed);
  const against = await conflictsFor(work.tx, callback, job, { kind, totalCents, now: work.now });
  const going = goOn(against, { judge: seesOpinions(rolesOf(work.actor)), reason });
  if (!going.ok) return going;
  const decided = decideProposal(cents, committed, authority.limit, authority.onTheJob);
  if (!decided.ok) return decided;
  const state = going.value.waits ? 'proposed' : decided.value.state;
  const shown: Warning[] = against.map(({ code, text }) => ({ code, text }));
  return accept({ state, totalCents, against }, [...decided.warnings, ...shown]);
}

async function keepGoingOn(work: Work, remedyId: string, against: readonly Conflict[], reason = ''): Promise<void> {
  if (reason.trim() === '' || work.actor.kind !== 'person') return;
  const { id: actorId } = work.actor;
  const rows = against.map(({ code, text }) => ({
    id: work.newId(),
    remedyId,
    code,
    sentence: text,
    reason: reason.trim(),
    actorId,
    recordedAt: work.now,
  }));
  await saveGoneOnWith(work.tx, rows);
}

const approveAlone = (work: Work, remedy: { id: string; round: number }, { person, limit, onTheJob }: Authority, totalCents: number) =>
  saveApproval(work.tx, {
    ...{ id: work.newId(), remedyId: remedy.id, actorId: person, decision: 'approved', limitCents: limit === 'none' ? null : limit },
    ...{ totalCents, onTheJob, round: remedy.round, reviewer: '', textId: null, at: work.now },
  });

export type AmendInput = { remedyId: string; cents: number; payee: string; words: string; goOn?: string };

/** Another amount or payee: decided anew as if it were proposed now. */
export const amendRemedy: Act<AmendInput, Done> = {
  operation: 'callbacks.amend-remedy',
  run: (work, input) => withRemedy(work, input.remedyId, (remedy, callback) => amend(work, remedy, callback, input)),
};

async function amend(work: Work, remedy: RemedyRow, callback: CallbackRow, input: AmendInput): Promise<Outcome<Done>> {
  const may = moveTo(callback, 'propose');
  if (!may.ok) return may;
  const kind = remedy.kind as RemedyKind;
  const to = { cents: input.cents, payee: input.payee.trim() };
  const fits = mayAmend({ ...remedy, kind }, to);
  if (!fits.ok) return fits;
  const sound = checkProposal({ kind, ...to }, (await findFirm(work.tx))?.name ?? '');
  if (!sound.ok) return sound;
  const job = (await findJobForCallback(work.tx, callback.jobId))!;
  const today = dayAt(work.now, job.zone);
  if ((await offersOf(work.tx, callback.id)).some((o) => o.remedyId === remedy.id && offerState(o, today) === 'open'))
    return refuse('offer-open');
  const authority = await authorityOf(work, job);
  const weighed = await weigh(work, { callback, job, authority }, { ...input, kind });
  if (!weighed.ok) return weighed;
  const { state, totalCents, against } = weighed.value;
  const closed = await closeRelease(work, remedy.id);
  if (!closed.ok) return closed;
  const round = remedy.round + 1;
  await setRemedyAmount(work.tx, remedy.id, { ...to, round, state, proposedBy: authority.person });
  await keepGoingOn(work, remedy.id, against, input.goOn);
  if (state === 'approved') await approveAlone(work, { id: remedy.id, round }, authority, totalCents);
  const agreed = state === 'approved' ? moveTo(callback, 'agree') : accept(callback.state);
  if (!agreed.ok) return agreed;
  const details = { remedyId: remedy.id, remedy: kind, round };
  return record(work, callback, { kind: 'remedy_amended', state: agreed.value, details, words: input.words }, weighed.warnings);
}

/** `reviewer`: somebody outside the firm who decided, in a firm with one lead inspector. */
export type ApproveInput = { remedyId: string; decision: 'approved' | 'refused'; words?: string; goOn?: string; reviewer?: string };

/** The second person's decision. */
export const decideRemedy: Act<ApproveInput, Done> = {
  operation: 'callbacks.approve',
  run: (work, input) => withRemedy(work, input.remedyId, (remedy, callback) => decide(work, remedy, callback, input)),
};

async function decide(work: Work, remedy: RemedyRow, callback: CallbackRow, input: ApproveInput): Promise<Outcome<Done>> {
  const { remedyId, decision, words, reviewer = '' } = input;
  const may = moveTo(callback, 'agree');
  if (!may.ok) return may;
  const job = (await findJobForCallback(work.tx, callback.jobId))!;
  const authority = await authorityOf(work, job);
  const { person, limit, onTheJob } = authority;
  const committed = committedCents(await remediesOf(work.tx, callback.id), remedyId);
  const decided = reviewer
    ? await outside(work, remedy, limit, { reviewer, words: words ?? '' })
    : decideApproval({ remedy, approver: person, limit, onTheJob, committed }, decision);
  if (!decided.ok) return decided;
  if (decision === 'refused') {
    const closed = await endOpen(work, remedy, callback, job);
    if (!closed.ok) return closed;
  }
  if (decision === 'approved') {
    const gone = await goOnApproving(work, { remedy, callback, job }, totalOf(remedy.cents, committed), input.goOn);
    if (!gone.ok) return gone;
  }
  await setRemedyState(work.tx, remedyId, decided.value.state as RemedyState);
  if (remedy.state === 'proposed')
    await saveApproval(work.tx, {
      ...{ id: work.newId(), remedyId, actorId: person, decision, limitCents: limit === 'none' ? null : limit, onTheJob },
      ...{ totalCents: totalOf(remedy.cents, committed), round: remedy.round, reviewer: reviewer.trim(), at: work.now },
      textId: reviewer ? await keepText(work.tx, work.newId(), words ?? '', work.now) : null,
    });
  const event = decision === 'approved' ? { kind: 'remedy_agreed', state: may.value } : { kind: 'remedy_refused', state: callback.state };
  const details = { remedyId, remedy: remedy.kind };
  return record(work, callback, { ...event, details, ...(words === undefined ? {} : { words }) }, decided.warnings);
}

/** What was offered is withdrawn first; a release that waits for signatures opens nothing any more, and one that is signed stands. */
async function endOpen(work: Work, remedy: RemedyRow, callback: CallbackRow, job: JobForCallback): Promise<Outcome<null>> {
  const today = dayAt(work.now, job.zone);
  const offers = (await offersOf(work.tx, callback.id)).filter(({ remedyId }) => remedyId === remedy.id);
  return offers.some((one) => offerState(one, today) === 'open') ? refuse('offer-open') : closeRelease(work, remedy.id);
}

async function outside(work: Work, remedy: RemedyRow, limit: Authority['limit'], said: { reviewer: string; words: string }) {
  const here = (await listPeople(work.tx)).filter(({ endedOn }) => endedOn === null);
  const leads = here.filter(({ roles }) => roles.includes('lead_inspector')).length;
  return decideOutside({ remedy, limit, leads, staff: here.map(({ name }) => name) }, said);
}

type Approving = { remedy: RemedyRow; callback: CallbackRow; job: JobForCallback };

/** What speaks against it now and was not gone on with before needs the approver's reason. */
async function goOnApproving(work: Work, { remedy, callback, job }: Approving, totalCents: number, reason = ''): Promise<Outcome<null>> {
  const before = (await goneOnWithOf(work.tx, callback.id)).filter(({ remedyId }) => remedyId === remedy.id).map(({ code }) => code);
  const all = await conflictsFor(work.tx, callback, job, { kind: remedy.kind as RemedyKind, totalCents, now: work.now });
  const against = all.filter(({ code }) => !before.includes(code));
  const going = goOn(against, { judge: seesOpinions(rolesOf(work.actor)), reason });
  if (!going.ok) return going;
  if (going.value.waits) return refuse('conflict-needs-reason', { conflicts: against.map(({ text }) => text) }, 'goOn');
  await keepGoingOn(work, remedy.id, against, reason);
  return accept(null);
}
