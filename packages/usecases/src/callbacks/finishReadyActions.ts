// Ends corrective actions whose revision has come into force since; the clock asks for it.
import { accept, refuse } from '@backsight/domain/shared/outcome';
import { countReadyActions } from '@backsight/store/callbacks/actions';
import type { Reader } from '@backsight/store/database';
import type { Act, Runner } from '../run.ts';
import { finishActions } from './steps/finishActions.ts';

const finishAct: Act<Record<string, never>, { done: number }> = {
  operation: 'callbacks.finish-ready-actions',
  run: async (work) => {
    const done = await finishActions(work);
    return done > 0 ? accept({ done }) : refuse('not-found', { thing: 'corrective action' });
  },
};

/** Answers how many there were; stays quiet when there is none. */
export async function finishReadyActions(parts: { database: { read: Reader }; runner: Runner; clock: () => Date }): Promise<number> {
  if ((await countReadyActions(parts.database.read, parts.clock())) === 0) return 0;
  const outcome = await parts.runner.run(finishAct, {}, { actor: { kind: 'service' } });
  return outcome.ok ? outcome.value.done : 0;
}
