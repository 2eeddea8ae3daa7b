// Damage or injury on the visit, recorded before leaving: it opens a callback of that kind the same hour.
import { DAMAGES, type ActWords, type SiteAct } from '@backsight/domain/sitework/act';
import type { Warning } from '@backsight/domain/shared/outcome';
import { takeIn } from '../../callbacks/steps/takeIn.ts';
import type { Work } from '../../run.ts';
import type { LoadedRecord } from './loadRecord.ts';

type Met = { id: string; act: Extract<SiteAct, { do: 'damage' }>; words: ActWords };

/** Federal clocks from memory; a person reads the rule before relying on them. */
const REPORTING =
  'If one of us was hurt, federal reporting may be due: a death within 8 hours; an in-patient stay, an amputation or the loss of an eye within 24 hours (29 CFR 1904.39, from memory). The owner decides.';

/** Words of an injury stand in the callback alone, which only an owner sees. The callback takes the act's id: it is opened once. */
export async function recordDamage(work: Work, { visit }: LoadedRecord, { id, act, words }: Met): Promise<Warning[]> {
  const told = words.client ? `\nTold on the spot: ${words.client}.` : '';
  const taken = await takeIn(work, {
    id,
    jobId: visit.jobId,
    speaker: 'pair',
    way: 'site',
    kind: 'damage_or_injury',
    safety: act.safety,
    ownerOnly: act.what === 'injury',
    system: '',
    place: words.where ?? '',
    remedySought: '',
    words: `Recorded by the pair before leaving: ${DAMAGES[act.what]}. ${words.note ?? ''}${told}`,
  });
  if (!taken.ok) throw new Error(`damage on site was not taken in: ${taken.code}`);
  const opened = { code: 'callback-opened', text: `Callback ${taken.value.number} was opened. Promise nothing; the office calls.` };
  return act.what === 'injury' ? [opened, { code: 'injury-reporting', text: REPORTING }] : [opened];
}
