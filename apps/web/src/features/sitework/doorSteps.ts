// An act at the door, and with it the entries of the steps that it answers.
import type { ActWords, SiteAct } from '@backsight/domain/sitework/act';
import { doorAnswer } from '@backsight/domain/sitework/doorAnswers';
import { actEntry } from './acts.ts';
import { BLANK, entryOf } from './drafts.ts';
import type { Site } from './SitePage.tsx';

/** Steps that somebody has recorded already are left as they are. Answers whether everything could be kept. */
export function addAtDoor({ record, recorded, addEntries }: Site, act: SiteAct, words: ActWords = {}): Promise<boolean> {
  const answered = record.steps
    .filter((step) => step.itemId === null && !step.partnerCheck && !recorded(step))
    .flatMap((step) => {
      const answer = doorAnswer(step, act, words);
      return answer ? [{ ...entryOf(step, { ...BLANK, note: answer.note }, record.me), evidence: answer.evidence }] : [];
    });
  return addEntries([actEntry(record, act, words), ...answered]);
}
