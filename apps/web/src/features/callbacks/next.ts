// The one act that comes next on a callback, for whoever looks at it.
import { isLegal, type Callback } from '@backsight/contract/callbacks';
import type { AfterCallback } from '@backsight/contract/callbacks/after';

/** `onJob`: was there, and so confirms nothing that is concluded about it. */
export type Viewer = { name: string; owner: boolean; judge: boolean; onJob: boolean };
export type NextFacts = { after: AfterCallback; letters: readonly { letter: string }[]; today: string };
/** `form`: which form of the page does it; without one somebody else has the word. */
export type Next = { words: string; form?: string };

type Of = Pick<Callback, 'kind' | 'state' | 'remedies' | 'conclusions' | 'money' | 'ownerOnly' | 'party'>;

const act = (words: string, form: string): Next => ({ words, form });
const JUDGES = 'The lead inspector or an owner';

/** null when nothing is left to do. */
export function nextAct(callback: Of, viewer: Viewer, facts: NextFacts): Next | null {
  const appeal = facts.after.appeals.find(({ result }) => result === null);
  if (appeal) return nextOfAppeal(appeal.dueOn, viewer, facts);
  if (callback.state === 'closed') return nextAfter(callback, facts);
  if (callback.kind === 'question')
    return callback.state === 'received' ? act('Say that it was heard', 'Acknowledge') : act('Answer it', 'Answer the question');
  if (callback.kind === 'near_miss') {
    if (callback.state === 'concluded') return act('Close it', 'Close');
    return viewer.judge ? act('Conclude what it is traced to', 'conclude') : { words: `${JUDGES} concludes what it is traced to` };
  }
  if (callback.state === 'received' && !isLegal(callback.kind)) return act('Speak with whoever brought it', 'Acknowledge');
  const fresh = callback.state === 'received' || callback.state === 'acknowledged';
  if (fresh && facts.after.assessment === null) return act('Assess it, and name who looks into it', 'assess');
  if (callback.kind === 'records_request') return act('Close it once it was answered', 'Close');
  if (fresh || callback.state === 'looking_into')
    return viewer.judge
      ? act('Look at the evidence, and conclude', 'conclude')
      : { words: `${facts.after.assessment?.assignee ?? JUDGES} looks into it and concludes` };
  return nextOfDecided(callback, viewer, facts);
}

function nextOfAppeal(dueOn: string, { owner, name }: Viewer, { after }: NextFacts): Next {
  const mine = owner && (after.freeOwners.length === 0 || after.freeOwners.includes(name));
  return mine
    ? act(`Decide the appeal by ${dueOn}`, 'appeal')
    : { words: `${after.freeOwners.join(' or ') || 'An owner'} decides the appeal by ${dueOn}` };
}

const canWrite = ({ ownerOnly, party, kind }: Of): boolean => !ownerOnly && party !== null && kind !== 'near_miss' && !isLegal(kind);

function nextAfter(callback: Of, { after, letters, today }: NextFacts): Next | null {
  const has = (name: string) => letters.some(({ letter }) => letter === name);
  const undone = after.appeals[0];
  if (undone?.result && !has('appeal') && canWrite(callback)) return act('Tell the result of the appeal', 'letter');
  const check = after.checks[0];
  if (check?.outcome === null && check.dueOn <= today) return act('Ask whether it held', 'check');
  const judged = callback.kind !== 'question' && callback.kind !== 'records_request';
  return judged && canWrite(callback) && !has('closing') && check ? act('Write the closing letter', 'letter') : null;
}

function nextOfDecided(callback: Of, { judge, onJob }: Viewer, { letters }: NextFacts): Next {
  const [newest] = callback.conclusions ?? [];
  if (newest?.needsConfirmation && !newest.confirmedAt)
    return { words: 'Somebody who was not on the job confirms the conclusion', ...(judge && !onJob ? { form: 'confirm' } : {}) };
  const of = (state: string) => callback.remedies.find((one) => one.state === state);
  if (callback.remedies.every(({ state }) => state === 'refused')) return act('Propose what the firm does', 'remedy');
  const waiting = of('proposed');
  if (waiting) return act('Approve or refuse what was proposed', `decide-${waiting.id}`);
  if (canWrite(callback) && !letters.some(({ letter }) => letter === 'decision')) return act('Tell in writing what was decided', 'letter');
  if (of('approved')) return { words: 'Carry out what was agreed' };
  if ((callback.money?.reservedCents ?? 0) > 0) return act('Release the money that is still set aside', 'reserve');
  return act('Close it', 'Close');
}
