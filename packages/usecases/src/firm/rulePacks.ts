// Rules of states: what is on file, and the states whose rules the firm takes up.
import { CERTAINTIES, packOn, rowsOn, TOPICS } from '@backsight/domain/shared/rulePack';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { firmStates, listRulePacks, saveFirmStates } from '@backsight/store/firm/rulePacks';
import type { Act, Work } from '../run.ts';
import { FIRM_THING, localDay } from './steps/localDay.ts';

/** Every state with all its versions; each row says whether it holds today. */
export async function readRulePacks(reader: Reader, now: Date) {
  const { today } = await localDay(reader, now);
  const [packs, states] = [await listRulePacks(reader), await firmStates(reader)];
  return {
    states,
    packs: packs.map((pack) => {
      const holding = new Set(rowsOn(pack.rows, today));
      return {
        id: pack.id,
        jurisdiction: pack.jurisdiction,
        name: pack.name,
        versionDay: pack.versionDay,
        inForce: packOn(packs, pack.jurisdiction, today)?.id === pack.id,
        rows: pack.rows.map(({ effect: _, ...row }) => ({
          ...row,
          topicWords: TOPICS[row.topic],
          certaintyWords: CERTAINTIES[row.certainty],
          holds: holding.has(pack.rows.find(({ key }) => key === row.key)!),
        })),
      };
    }),
  };
}

/** The states whose rules texts are held against from now on. Refusals: state-unknown. */
export const chooseStates: Act<{ states: readonly string[] }, { states: string[] }> = { operation: 'firm.choose-states', run: choose };

async function choose(work: Work, input: { states: readonly string[] }): Promise<Outcome<{ states: string[] }>> {
  const known = new Set((await listRulePacks(work.tx)).map(({ jurisdiction }) => jurisdiction));
  const missing = input.states.find((state) => !known.has(state));
  if (missing !== undefined) return refuse('state-unknown', { state: missing }, 'states');
  const states = [...new Set(input.states)].sort();
  const before = await firmStates(work.tx);
  await saveFirmStates(work.tx, states);
  await work.did('firm', FIRM_THING, { statesBefore: before, statesAfter: states });
  return accept({ states });
}
