// What the pair of a job did besides the steps, in order, with the systems that each act bears on; and how partner checks came out.
import { sharesWords } from '@backsight/domain/callbacks/tradeWords';
import { bearings } from '@backsight/domain/sitework/bearing';
import { ACT_NAMES } from '@backsight/domain/sitework/act';
import { sayAct } from '@backsight/domain/sitework/sayAct';
import { placeOf } from '@backsight/domain/sitework/value';
import type { Reader } from '@backsight/store/database';
import { comparisonsOf, loadRecord, type LoadedRecord } from '../../sitework/steps/loadRecord.ts';
import { namingOf } from '../../sitework/steps/naming.ts';

type Place = { stepKey: string; itemId: string | null };

/** `place` is where the callback says it is. */
export async function besidesSteps(reader: Reader, records: readonly { recordId: string }[], zone: string, place: string) {
  const loaded: LoadedRecord[] = [];
  for (const { recordId } of records) loaded.push((await loadRecord(reader, recordId))!);
  const results = new Map(loaded.flatMap((one) => comparisonsOf(one).map((found) => [placeOf(found), found.result] as const)));
  return {
    acts: loaded.flatMap((one) => actsOf(one, zone, place)),
    comparisonAt: (at: Place) => results.get(placeOf(at)) ?? null,
  };
}

function actsOf(loaded: LoadedRecord, zone: string, place: string) {
  const naming = namingOf(loaded, zone);
  const steps = loaded.steps.map(({ stepKey, system, itemId, body }) => ({
    stepKey,
    system,
    itemId,
    per: body.per,
    place: body.place ?? null,
  }));
  return bearings(loaded.acts, steps).map(({ known, systems }) => {
    const words = sayAct(known, naming);
    return {
      ...{ id: known.id, what: ACT_NAMES[known.act.do], words, at: known.at },
      ...{ by: naming.person(known.by), writtenBy: naming.person(known.writtenBy) },
      systems: systems === null ? null : [...systems],
      atPlace: sharesWords(words, place),
    };
  });
}
