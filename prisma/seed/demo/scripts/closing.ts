// Before the seal: answers that differ are settled on site, and each of the pair signs off.
import { actKey, type ActWords, type SiteAct } from '@backsight/domain/sitework/act';
import { readRecord } from '@backsight/usecases/sitework/readRecord';
import { recordEntries, type EntryInput } from '@backsight/usecases/sitework/recordEntries';
import { actorOf, byId } from '../people.ts';
import type { Stage } from '../stage.ts';
import type { PlayedJob } from './context.ts';

const WHY = [
  'looked again together; the closer look counts',
  'seen from the better side the second time',
  'read again with the other meter',
];

/** Device counters of these acts begin behind those of the steps. */
const LATER = 10_000;

export async function bothSignOff(stage: Stage, job: PlayedJob, recordId: string): Promise<void> {
  const read = await readRecord(stage.reader, { recordId, actor: actorOf(byId(job.first)) });
  if (!read.ok) throw new Error(`a record of the demo cannot be read: ${read.code}`);
  const { comparisons, steps, openedAt } = read.value;
  const settled = comparisons
    .filter(({ result }) => result === 'differ')
    .map(({ stepKey, itemId }, at): [SiteAct, ActWords] => [{ do: 'settled', stepKey, item: itemId }, { note: WHY[at % WHY.length]! }]);
  const off: [SiteAct, ActWords] = [{ do: 'signed_off', from: openedAt, until: stage.now().toISOString() }, {}];
  for (const person of [job.first, job.second]) {
    const acts = person === job.first ? [...settled, off] : [off];
    const entries = acts.map(([act, words], at): EntryInput => ({
      id: stage.newId(),
      packageId: steps[0]!.packageId,
      stepKey: actKey(act.do),
      itemId: null,
      outcome: 'done',
      evidence: null,
      reason: null,
      note: null,
      observedBy: person,
      observedAt: stage.now().toISOString(),
      observedApprox: false,
      deviceSeq: LATER + at,
      corrects: null,
      act,
      words,
    }));
    const { results } = await stage.act(actorOf(byId(person)), recordEntries, { recordId, entries });
    const refused = results.find(({ stored }) => !stored);
    if (refused) throw new Error(`an act of the demo was refused: ${refused.sentence}`);
  }
}
