// The insurer of a callback: what it was told, and under which policy the callback falls.
import { checkNotice } from '@backsight/domain/callbacks/settlement';
import { policyWarnings } from '@backsight/domain/callbacks/policy';
import { refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { remediesOf, setRemedyState, type CallbackRow } from '@backsight/store/callbacks';
import { findJobForCallback } from '@backsight/store/callbacks/job';
import { setPolicyOf } from '@backsight/store/callbacks/payments';
import { saveNotice } from '@backsight/store/callbacks/settlement';
import { listPolicies } from '@backsight/store/firm/authority';
import { keepText } from '@backsight/store/text';
import type { Act, Work } from '../run.ts';
import { actorId, record, withCallback, type Done } from './steps/callback.ts';
import { dayAt } from './steps/day.ts';

export type NoticeInput = { id: string; noticeId: string; notifiedOn: string; way: string; reference: string; words: string };

/** What the insurer was told, by which way and when; carries out the remedy of that kind, where one was agreed. */
export const notifyInsurer: Act<NoticeInput, Done> = {
  operation: 'callbacks.notify-insurer',
  run: (work, input) => withCallback(work, input.id, (callback) => notify(work, callback, input)),
};

async function notify(work: Work, callback: CallbackRow, input: NoticeInput): Promise<Outcome<Done>> {
  if (callback.kind === 'question' || callback.kind === 'near_miss') return refuse('question-is-no-callback');
  const job = (await findJobForCallback(work.tx, callback.jobId))!;
  const fits = checkNotice(input, { receivedOn: dayAt(callback.receivedAt, job.zone), today: dayAt(work.now, job.zone) });
  if (!fits.ok) return fits;
  const agreed = (await remediesOf(work.tx, callback.id)).find(({ kind, state }) => kind === 'insurer_notice' && state === 'approved');
  const { noticeId, notifiedOn, way, reference, words } = input;
  await saveNotice(work.tx, {
    ...{ id: noticeId, callbackId: callback.id, remedyId: agreed?.id ?? null, policyId: callback.policyId, notifiedOn, way, reference },
    textId: await keepText(work.tx, work.newId(), words, work.now),
    ...{ recordedBy: actorId(work.actor)!, recordedAt: work.now },
  });
  if (agreed) await setRemedyState(work.tx, agreed.id, 'done');
  const details = { noticeId, notifiedOn, way, remedy: 'insurer_notice', remedyId: agreed?.id ?? null };
  return record(work, callback, { kind: 'insurer_notified', state: callback.state, details });
}

export type PolicyInput = { id: string; policyId: string | null; words: string };

/** Another policy than the one found at the intake, with the reason. */
export const namePolicy: Act<PolicyInput, Done> = {
  operation: 'callbacks.name-policy',
  run: (work, { id, policyId, words }) =>
    withCallback(work, id, async (callback) => {
      if (policyId === callback.policyId) return refuse('policy-same', {}, 'policyId');
      const policy = (await listPolicies(work.tx)).find((one) => one.id === policyId) ?? null;
      if (policyId !== null && !policy) return refuse('not-found', { thing: 'policy' }, 'policyId');
      const job = (await findJobForCallback(work.tx, callback.jobId))!;
      const today = dayAt(work.now, job.zone);
      await setPolicyOf(work.tx, id, policyId);
      const warnings = policyWarnings(policy, { today, inspectedOn: job.inspectedOn ?? today });
      return record(work, callback, { kind: 'policy_named', state: callback.state, details: { policyId }, words }, warnings);
    }),
};
