// Writes down what a callback is traced to, and that somebody who was not on the job stands behind it.
import { decideConclusion, decideConfirmation, type ConclusionCommand, type ConfirmCommand } from '@backsight/domain/callbacks/conclusion';
import { moveTo } from '@backsight/domain/callbacks/state';
import type { Outcome, Warning } from '@backsight/domain/shared/outcome';
import { conclusionsOf, saveConclusion, type CallbackRow } from '@backsight/store/callbacks';
import { entryKeys, findJobForCallback, workedSteps } from '@backsight/store/callbacks/job';
import { errorKindPermission, judgesNow, saveConfirmation } from '@backsight/store/callbacks/opinions';
import { keepText } from '@backsight/store/text';
import type { Act, Work } from '../run.ts';
import { actorId, isOwner, record, rolesOf, withCallback, type Done } from './steps/callback.ts';
import { reopenActions } from './steps/reopenActions.ts';

export type ConcludeInput = ConclusionCommand & { id: string; conclusionId: string };

export const concludeCallback: Act<ConcludeInput, Done> = {
  operation: 'callbacks.conclude',
  run: (work, input) => withCallback(work, input.id, (callback) => conclude(work, callback, input)),
};

async function conclude(work: Work, callback: CallbackRow, input: ConcludeInput): Promise<Outcome<Done>> {
  const next = moveTo(callback, 'conclude');
  if (!next.ok) return next;
  const job = await findJobForCallback(work.tx, callback.jobId);
  const by = actorId(work.actor)!;
  const permission = input.errorKind === undefined ? null : await errorKindPermission(work.tx);
  const facts = {
    steps: await workedSteps(work.tx, callback.jobId),
    entries: await entryKeys(work.tx, callback.jobId),
    onTheJob: job!.pair.some(({ id }) => id === by),
    permissionId: permission?.allowed ? permission.id : null,
  };
  const decided = decideConclusion(facts, input);
  if (!decided.ok) return decided;
  const textId = input.words === undefined ? null : await keepText(work.tx, work.newId(), input.words, work.now);
  const row = { id: input.conclusionId, callbackId: callback.id, ...decided.value, textId, actorId: by, at: work.now };
  await saveConclusion(work.tx, row);
  const opened = await reopenActions(work, callback, { conclusionId: input.conclusionId, concluded: decided.value });
  const event = { kind: 'concluded', state: next.value, details: { conclusionId: input.conclusionId } };
  return record(work, callback, event, [...decided.warnings, ...opened.map(openedAgain)]);
}

const openedAgain = (number: number): Warning => ({
  code: 'action-open-again',
  text: `Corrective action ${number} is open again: the step that it changed failed on a job inspected after the change.`,
});

export const confirmConclusion: Act<ConfirmCommand & { id: string; confirmationId: string }, Done> = {
  operation: 'callbacks.confirm-conclusion',
  run: (work, input) => withCallback(work, input.id, (callback) => confirm(work, callback, input)),
};

async function confirm(work: Work, callback: CallbackRow, input: ConfirmCommand & { confirmationId: string }): Promise<Outcome<Done>> {
  const [newest] = await conclusionsOf(work.tx, callback.id);
  const job = await findJobForCallback(work.tx, callback.jobId);
  const there = job!.pair.map(({ id }) => id);
  const by = actorId(work.actor)!;
  const others = (await judgesNow(work.tx)).filter((id) => !there.includes(id) && id !== newest?.actorId);
  const facts = { newest, actor: by, isOwner: isOwner(rolesOf(work.actor)), onTheJob: there.includes(by), others: others.length };
  const decided = decideConfirmation(facts, input);
  if (!decided.ok) return decided;
  const textId = input.words === undefined ? null : await keepText(work.tx, work.newId(), input.words, work.now);
  const { confirmationId: id, conclusionId, way } = input;
  await saveConfirmation(work.tx, { id, conclusionId, way, textId, actorId: by, at: work.now });
  return record(work, callback, { kind: 'conclusion_confirmed', state: callback.state, details: { conclusionId, way } });
}
