// What is noted at the door answers the steps of the book that ask for the same, so that nothing is typed twice.
import type { Evidence } from '../procedures/step.ts';
import { LOADS, RAIN, SNOW, UTILITY, type ActWords, type SiteAct } from './act.ts';
import type { EntryEvidence } from './value.ts';

type Answer = { option: string } | { note: string } | { value: number; note: string } | 'confirm';

const offOf = (act: Extract<SiteAct, { do: 'conditions' }>): string => {
  const off = (['water', 'gas', 'electricity'] as const).filter((one) => act[one] === 'off');
  return off.length === 0 ? 'all on' : off.map((one) => `${one} ${UTILITY.off} as found`).join(', ');
};

/** Answers by the keys that the starter's procedure book gives such steps; a firm with other keys is asked as its book says. */
function answersOf(act: SiteAct, words: ActWords): Record<string, Answer> {
  if (act.do === 'arrival')
    return {
      'adult-present-or-vacant': { option: act.there },
      'animals-secured': 'confirm',
      'recording-and-private-things': { option: act.recording },
    };
  if (act.do === 'conditions')
    return {
      'weather-outside': { value: act.outdoorF, note: `Rain in the last 48 hours: ${RAIN[act.rain48]}; snow: ${SNOW[act.snow]}` },
      'utilities-as-found': { note: offOf(act) },
    };
  if (act.do !== 'loads') return {};
  const loads = act.loads.map((load) => LOADS[load]).join(', ');
  return { 'ask-before-power': { note: loads === '' ? 'none' : `${loads}: ${words.where ?? ''}` } };
}

type Asked = { stepKey: string; evidence: Evidence };

/** The entry's evidence and note, or null where the act does not answer the step as it is worded. */
export function doorAnswer({ stepKey, evidence }: Asked, act: SiteAct, words: ActWords): { evidence: EntryEvidence; note: string } | null {
  const answer = answersOf(act, words)[stepKey];
  if (answer === undefined) return null;
  if (answer === 'confirm') return evidence.kind === 'confirm' ? { evidence: { kind: 'confirm' }, note: '' } : null;
  if ('option' in answer)
    return evidence.kind === 'choice' && evidence.options.some(({ key }) => key === answer.option)
      ? { evidence: { kind: 'choice', option: answer.option }, note: '' }
      : null;
  if ('value' in answer)
    return evidence.kind === 'reading' && evidence.unit === 'F'
      ? { evidence: { kind: 'reading', value: answer.value, unit: 'F' }, note: answer.note }
      : null;
  return evidence.kind === 'note' ? { evidence: { kind: 'note' }, note: answer.note } : null;
}
