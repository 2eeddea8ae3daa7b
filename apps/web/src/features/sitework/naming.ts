// Names of what an act speaks of: items, persons, steps, and earlier acts.
import type { MemberRecord, SealedRecord } from '@backsight/contract/sitework';
import type { KnownAct } from '@backsight/domain/sitework/act';
import { CHANGES, HAZARD_PLACES } from '@backsight/domain/sitework/act';
import type { Naming } from '@backsight/domain/sitework/sayAct';
import { clockText } from '../../ui/time.ts';
import { itemName, nameOf } from './recordModel.ts';

export function namingOf(record: MemberRecord | SealedRecord, acts: readonly KnownAct[], zone: string): Naming {
  const ofAct = (id: string): string | null => {
    const found = acts.find((known) => known.id === id);
    if (found?.act.do === 'changed') return `${CHANGES[found.act.thing]}, ${found.words.where ?? ''}`;
    return found?.act.do === 'went_in' ? HAZARD_PLACES[found.act.place] : null;
  };
  return {
    thing: (id) => itemName(record, id) ?? ofAct(id) ?? 'something',
    person: (id) => nameOf(record, id),
    step: (key) => record.steps.find(({ stepKey }) => stepKey === key)?.title ?? key,
    clock: (iso) => clockText(iso, zone),
  };
}
