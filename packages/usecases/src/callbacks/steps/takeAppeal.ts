// Takes an appeal in, from the private link or from the office for the complainant; every owner hears of it.
import { mayAppeal } from '@backsight/domain/callbacks/after';
import type { Outcome } from '@backsight/domain/shared/outcome';
import type { CallbackRow } from '@backsight/store/callbacks';
import { afterRules } from '@backsight/store/callbacks/after';
import { saveAppeal } from '@backsight/store/callbacks/appeals';
import { listPeople } from '@backsight/store/people';
import { keepText } from '@backsight/store/text';
import type { Work } from '../../run.ts';
import { appealFacts } from './appealFacts.ts';
import { record, type Done } from './callback.ts';

/** Refusals: those of `mayAppeal`. */
export async function takeAppeal(
  work: Work,
  callback: CallbackRow,
  { way, words }: { way: 'link' | 'office'; words: string },
): Promise<Outcome<Done>> {
  const may = mayAppeal(await appealFacts(work.tx, callback, work.now), await afterRules(work.tx));
  if (!may.ok) return may;
  const id = work.newId();
  const textId = await keepText(work.tx, work.newId(), words, work.now);
  await saveAppeal(work.tx, { id, callbackId: callback.id, way, textId, dueOn: may.value.dueOn, at: work.now });
  for (const owner of (await listPeople(work.tx)).filter(({ endedOn, roles }) => endedOn === null && roles.includes('owner')))
    await work.mail({
      messageKey: `appeal:${id}:${owner.id}`,
      toAddress: owner.email,
      toName: owner.name,
      subject: `Appeal: callback ${callback.number}`,
      body: `Somebody asks an owner to look again at what was decided in callback ${callback.number}. Decide by ${may.value.dueOn}.`,
      aboutKind: 'callback',
      aboutId: callback.id,
    });
  return record(work, callback, { kind: 'appealed', state: callback.state, details: { appealId: id, way, dueOn: may.value.dueOn } });
}
