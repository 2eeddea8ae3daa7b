// Remedies: proposed, approved within limits, carried out. Money leaves only when approved and cleared.
import { checkProposal, decideApproval, decideProposal, type Proposal } from '@backsight/domain/callbacks/approval';
import { mayRepair } from '@backsight/domain/callbacks/ownRepair';
import { paymentLines } from '@backsight/domain/callbacks/money';
import { moveTo } from '@backsight/domain/callbacks/state';
import { needsConclusion, paysMoney, REMEDY_STATES, type RemedyKind } from '@backsight/domain/callbacks/words';
import { refuse, type Outcome } from '@backsight/domain/shared/outcome';
import {
  clearancesOf,
  conclusionsOf,
  saveApproval,
  saveRemedy,
  setRemedyState,
  type CallbackRow,
  type RemedyRow,
} from '@backsight/store/callbacks';
import { saveSetAside } from '@backsight/store/agreements/texts';
import { findJobForCallback, type JobForCallback } from '@backsight/store/callbacks/job';
import { moneyOf } from '@backsight/store/callbacks/money';
import { findFirm } from '@backsight/store/firm';
import { keepText } from '@backsight/store/text';
import { postEntry } from '../fees/steps/post.ts';
import type { Act, Work } from '../run.ts';
import { authorityOf } from './steps/authority.ts';
import { isOwner, record, rolesOf, withCallback, type Done } from './steps/callback.ts';
import { dayAt } from './steps/day.ts';
import { withRemedy } from './steps/remedy.ts';
import { repairRuleFor } from './steps/repairRule.ts';

/** `reason`: why an owner goes on with a repair by the firm itself. */
export type ProposeInput = Proposal & { id: string; remedyId: string; reason?: string };

/** Within the proposer's own limit it is approved at once, above it it waits for a second person. */
export const proposeRemedy: Act<ProposeInput, Done> = {
  operation: 'callbacks.propose',
  run: (work, input) => withCallback(work, input.id, (callback) => propose(work, callback, input)),
};

/** Looking again and telling the insurer need no conclusion; whatever answers the complaint does. */
const needsCause = (kind: RemedyKind, callback: CallbackRow): boolean =>
  kind !== 'revisit' && kind !== 'insurer_notice' && needsConclusion(callback.kind);

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
  if (needsCause(kind, callback) && (await conclusionsOf(work.tx, callback.id)).length === 0) return refuse('conclusion-missing');
  const job = await findJobForCallback(work.tx, callback.jobId);
  if (kind === 'own_repair') {
    const repair = await setRuleAside(work, job!, input);
    if (!repair.ok) return repair;
  }
  const { person, limit, onTheJob } = await authorityOf(work, job!);
  const decided = decideProposal(input.cents, limit, onTheJob);
  if (!decided.ok) return decided;
  const { state } = decided.value;
  const textId = input.words === undefined ? null : await keepText(work.tx, work.newId(), input.words, work.now);
  await saveRemedy(work.tx, {
    id: input.remedyId,
    callbackId: callback.id,
    kind,
    state,
    cents: input.cents,
    payee: input.payee,
    textId,
    proposedBy: person,
    recordedAt: work.now,
  });
  if (state === 'approved')
    await saveApproval(work.tx, {
      id: work.newId(),
      remedyId: input.remedyId,
      actorId: person,
      decision: 'approved',
      limitCents: limit === 'none' ? null : limit,
      onTheJob,
      at: work.now,
    });
  const agreed = state === 'approved' ? moveTo(callback, 'agree') : may;
  if (!agreed.ok) return agreed;
  return record(
    work,
    callback,
    {
      kind: state === 'approved' ? 'remedy_agreed' : 'remedy_proposed',
      state: agreed.value,
      details: { remedyId: input.remedyId, remedy: kind },
    },
    decided.warnings,
  );
}

export type ApproveInput = { remedyId: string; decision: 'approved' | 'refused'; words?: string };

/** The second person's decision. */
export const decideRemedy: Act<ApproveInput, Done> = {
  operation: 'callbacks.approve',
  run: (work, { remedyId, decision, words }) =>
    withRemedy(work, remedyId, async (remedy, callback) => {
      const may = moveTo(callback, 'agree');
      if (!may.ok) return may;
      const job = await findJobForCallback(work.tx, callback.jobId);
      const { person, limit, onTheJob } = await authorityOf(work, job!);
      const decided = decideApproval({ remedy, approver: person, limit, onTheJob }, decision);
      if (!decided.ok) return decided;
      await setRemedyState(work.tx, remedyId, decided.value.state);
      const limitCents = limit === 'none' ? null : limit;
      if (remedy.state === 'proposed')
        await saveApproval(work.tx, { id: work.newId(), remedyId, actorId: person, decision, limitCents, onTheJob, at: work.now });
      const event =
        decision === 'approved' ? { kind: 'remedy_agreed', state: may.value } : { kind: 'remedy_refused', state: callback.state };
      return record(
        work,
        callback,
        { ...event, details: { remedyId, remedy: remedy.kind }, ...(words === undefined ? {} : { words }) },
        decided.warnings,
      );
    }),
};

const approvedOnly = (remedy: RemedyRow): Outcome<null> =>
  remedy.state === 'approved'
    ? { ok: true, value: null, warnings: [] }
    : remedy.state === 'done'
      ? refuse('remedy-state', { state: REMEDY_STATES.done })
      : refuse('remedy-not-approved');

export type PayInput = { remedyId: string; paidOn: string };

/** Pays an approved remedy: out of what is set aside first, the rest is cost of the day. */
export const payRemedy: Act<PayInput, Done> = {
  operation: 'callbacks.pay',
  run: (work, { remedyId, paidOn }) =>
    withRemedy(work, remedyId, async (remedy, callback) => {
      const may = moveTo(callback, 'money');
      if (!may.ok) return may;
      const approved = approvedOnly(remedy);
      if (!approved.ok) return approved;
      if (!paysMoney(remedy.kind as RemedyKind)) return refuse('remedy-pays-nothing');
      if ((await clearancesOf(work.tx, callback.id)).length === 0) return refuse('payment-needs-clearance');
      const job = await findJobForCallback(work.tx, callback.jobId);
      if (paidOn > dayAt(work.now, job!.zone)) return refuse('in-the-future', { day: paidOn }, 'paidOn');
      const kind = remedy.kind === 'fee_refund' ? 'fee_refund' : 'callback_payment';
      const lines = paymentLines(await moneyOf(work.tx, callback.id), remedy.cents, kind, {
        callbackId: callback.id,
        jobId: callback.jobId,
      });
      const entryId = await postEntry(work, {
        kind,
        happenedOn: paidOn,
        memo: `Callback ${callback.number}: ${kind === 'fee_refund' ? 'fee refund' : 'payment'}`,
        lines,
      });
      await setRemedyState(work.tx, remedyId, 'done');
      return record(work, callback, { kind: 'paid', state: callback.state, details: { remedyId, entryId } });
    }),
};

/** Carries out an approved remedy that pays nothing. */
export const finishRemedy: Act<{ remedyId: string; words?: string }, Done> = {
  operation: 'callbacks.finish-remedy',
  run: (work, { remedyId, words }) =>
    withRemedy(work, remedyId, async (remedy, callback) => {
      const approved = approvedOnly(remedy);
      if (!approved.ok) return approved;
      if (paysMoney(remedy.kind as RemedyKind)) return refuse('remedy-state', { state: 'to be paid' });
      await setRemedyState(work.tx, remedyId, 'done');
      return record(work, callback, {
        kind: 'remedy_done',
        state: callback.state,
        details: { remedyId, remedy: remedy.kind },
        ...(words === undefined ? {} : { words }),
      });
    }),
};
