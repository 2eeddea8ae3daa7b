// Money of a callback: set aside, released, recovered; and the clearance before any of it leaves.
import { decideRecovery, decideReserve } from '@backsight/domain/callbacks/money';
import { policyWarnings } from '@backsight/domain/callbacks/policy';
import { moveTo } from '@backsight/domain/callbacks/state';
import type { ClearanceKind } from '@backsight/domain/callbacks/words';
import { refuse } from '@backsight/domain/shared/outcome';
import { saveClearance } from '@backsight/store/callbacks';
import { findJobForCallback } from '@backsight/store/callbacks/job';
import { moneyOf } from '@backsight/store/callbacks/money';
import { listPolicies } from '@backsight/store/firm/authority';
import { keepText } from '@backsight/store/text';
import { postEntry } from '../fees/steps/post.ts';
import type { Act } from '../run.ts';
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

export type RecoveryInput = { id: string; cents: number; receivedOn: string; words: string };

/** Money that came back from an insurer or another party. Possible after closing too: insurers pay late. */
export const recordRecovery: Act<RecoveryInput, Done> = {
  operation: 'callbacks.recovery',
  run: (work, { id, cents, receivedOn, words }) =>
    withCallback(work, id, async (callback) => {
      const job = await findJobForCallback(work.tx, callback.jobId);
      if (receivedOn > dayAt(work.now, job!.zone)) return refuse('in-the-future', { day: receivedOn }, 'receivedOn');
      const lines = decideRecovery(await moneyOf(work.tx, id), cents, { callbackId: id, jobId: callback.jobId });
      if (!lines.ok) return lines;
      const entryId = await postEntry(work, {
        kind: 'recovery',
        happenedOn: receivedOn,
        memo: `Callback ${callback.number}: recovered`,
        lines: lines.value,
      });
      return record(work, callback, { kind: 'recovered', state: callback.state, details: { entryId }, words });
    }),
};

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
