// Money of a callback: set aside, released, recovered; and the clearance before any of it leaves.
import { decideRecovery, decideReserve, type Source } from '@backsight/domain/callbacks/money';
import { policyWarnings } from '@backsight/domain/callbacks/policy';
import { moveTo } from '@backsight/domain/callbacks/state';
import type { ClearanceKind } from '@backsight/domain/callbacks/words';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { saveClearance, type CallbackRow } from '@backsight/store/callbacks';
import { findJobForCallback } from '@backsight/store/callbacks/job';
import { moneyOf } from '@backsight/store/callbacks/money';
import { saveRecovery } from '@backsight/store/callbacks/payments';
import { listPolicies } from '@backsight/store/firm/authority';
import { keepText } from '@backsight/store/text';
import { postEntry } from '../fees/steps/post.ts';
import type { Act, Work } from '../run.ts';
import { actorId, isOwner, record, rolesOf, withCallback, type Done } from './steps/callback.ts';
import { dayAt } from './steps/day.ts';

export type ReserveInput = { id: string; cents: number; words: string };

/** Sets the money aside to an amount, with the reason; 0 releases it. */
export const setReserve: Act<ReserveInput, Done> = {
  operation: 'callbacks.reserve',
  run: (work, { id, cents, words }) =>
    withCallback(work, id, async (callback) => {
      const may = moveTo(callback, 'money');
      if (!may.ok) return may;
      const job = await findJobForCallback(work.tx, callback.jobId);
      const now = await moneyOf(work.tx, id);
      const lines = decideReserve(now, cents, { callbackId: id, jobId: callback.jobId });
      if (!lines.ok) return lines;
      const entryId = await postEntry(work, {
        kind: 'reserve_change',
        happenedOn: dayAt(work.now, job!.zone),
        memo: `Callback ${callback.number}: set aside`,
        lines: lines.value,
      });
      return record(work, callback, { kind: 'reserve_changed', state: callback.state, details: { entryId }, words });
    }),
};

/** `direct`: the insurer paid the other side itself, which is none of the firm's money and makes no entry. */
export type RecoveryInput = { id: string; cents: number; receivedOn: string; words: string; source: Source; direct: boolean };

/** Money that came back from an insurer or another party. Possible after closing too: insurers pay late. */
export const recordRecovery: Act<RecoveryInput, Done> = {
  operation: 'callbacks.recovery',
  run: (work, input) => withCallback(work, input.id, (callback) => recover(work, callback, input)),
};

async function recover(
  work: Work,
  callback: CallbackRow,
  { id, cents, receivedOn, words, source, direct }: RecoveryInput,
): Promise<Outcome<Done>> {
  const job = (await findJobForCallback(work.tx, callback.jobId))!;
  if (receivedOn > dayAt(work.now, job.zone)) return refuse('in-the-future', { day: receivedOn }, 'receivedOn');
  if (direct && source !== 'insurer') return refuse('direct-is-the-insurers', {}, 'direct');
  const entryId = direct ? accept(null) : await bank(work, callback, cents, receivedOn);
  if (!entryId.ok) return entryId;
  const row = { callbackId: id, source, direct, cents, receivedOn, entryId: entryId.value };
  await saveRecovery(work.tx, { id: work.newId(), ...row, recordedAt: work.now });
  return record(work, callback, { kind: 'recovered', state: callback.state, details: { entryId: entryId.value, source, direct }, words });
}

async function bank(work: Work, callback: CallbackRow, cents: number, receivedOn: string): Promise<Outcome<string>> {
  const lines = decideRecovery(await moneyOf(work.tx, callback.id), cents, { callbackId: callback.id, jobId: callback.jobId });
  if (!lines.ok) return lines;
  const memo = `Callback ${callback.number}: recovered`;
  return accept(await postEntry(work, { kind: 'recovery', happenedOn: receivedOn, memo, lines: lines.value }));
}

export type ClearanceInput = { id: string; kind: ClearanceKind; words: string };

/** The insurer's consent, or the owner's reason why none is needed. */
export const recordClearance: Act<ClearanceInput, Done> = {
  operation: 'callbacks.clearance',
  run: (work, { id, kind, words }) =>
    withCallback(work, id, async (callback) => {
      const may = moveTo(callback, 'money');
      if (!may.ok) return may;
      if (kind === 'owner_reason' && !isOwner(rolesOf(work.actor))) return refuse('reason-is-the-owners', {}, 'kind');
      const job = await findJobForCallback(work.tx, callback.jobId);
      const today = dayAt(work.now, job!.zone);
      const policy = (await listPolicies(work.tx)).find((p) => p.id === callback.policyId) ?? null;
      const textId = await keepText(work.tx, work.newId(), words, work.now);
      await saveClearance(work.tx, { id: work.newId(), callbackId: id, kind, textId, actorId: actorId(work.actor)!, at: work.now });
      return record(
        work,
        callback,
        { kind: 'cleared', state: callback.state, details: { clearance: kind } },
        policyWarnings(policy, { today, inspectedOn: job!.inspectedOn ?? today }),
      );
    }),
};
