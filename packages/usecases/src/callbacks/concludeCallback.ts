// Writes down what a callback is traced to.
import { decideConclusion, type ConclusionCommand } from '@backsight/domain/callbacks/conclusion';
import { moveTo } from '@backsight/domain/callbacks/state';
import { saveConclusion } from '@backsight/store/callbacks';
import { entryKeys, findJobForCallback, workedSteps } from '@backsight/store/callbacks/job';
import { keepText } from '@backsight/store/text';
import type { Act } from '../run.ts';
import { actorId, record, withCallback, type Done } from './steps/callback.ts';

export type ConcludeInput = ConclusionCommand & { id: string; conclusionId: string; words?: string };

export const concludeCallback: Act<ConcludeInput, Done> = {
  operation: 'callbacks.conclude',
  run: (work, input) =>
    withCallback(work, input.id, async (callback) => {
      const next = moveTo(callback, 'conclude');
      if (!next.ok) return next;
      const job = await findJobForCallback(work.tx, callback.jobId);
      const by = actorId(work.actor)!;
      const facts = {
        steps: await workedSteps(work.tx, callback.jobId),
        entries: await entryKeys(work.tx, callback.jobId),
        onTheJob: job!.pair.some(({ id }) => id === by),
      };
      const decided = decideConclusion(facts, input);
      if (!decided.ok) return decided;
      const textId = input.words === undefined ? null : await keepText(work.tx, work.newId(), input.words, work.now);
      await saveConclusion(work.tx, {
        id: input.conclusionId,
        callbackId: callback.id,
        ...decided.value,
        textId,
        actorId: by,
        at: work.now,
      });
      return record(
        work,
        callback,
        { kind: 'concluded', state: next.value, details: { conclusionId: input.conclusionId } },
        decided.warnings,
      );
    }),
};
