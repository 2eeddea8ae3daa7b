// Ends holds whose time is over; the clock asks for it, and nothing depends on when.
import { accept, type Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { countLapsedHolds } from '@backsight/store/schedule/visits';
import type { Act, Runner, Work } from '../run.ts';
import { lapseHolds as lapse } from '../schedule/steps/reserveStart.ts';

const lapseHoldsAct: Act<Record<string, never>, { lapsed: number }> = { operation: 'jobs.lapse-holds', run };

async function run(work: Work): Promise<Outcome<{ lapsed: number }>> {
  const lapsed = await lapse(work);
  const firmId = '00000000-0000-0000-0000-000000000001';
  if (lapsed === 0) await work.did('firm', firmId, { lapsed });
  return accept({ lapsed });
}

/** Ends every hold whose time is over and answers how many there were; stays quiet when there is none. */
export async function lapseHolds(parts: { database: { read: Reader }; runner: Runner; clock: () => Date }): Promise<number> {
  if ((await countLapsedHolds(parts.database.read, parts.clock())) === 0) return 0;
  const outcome = await parts.runner.run(lapseHoldsAct, {}, { actor: { kind: 'service' } });
  return outcome.ok ? outcome.value.lapsed : 0;
}
