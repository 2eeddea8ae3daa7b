// Names of what an act speaks of: items, persons, steps, and earlier acts.
import type { MemberRecord, SealedRecord } from '@backsight/contract/sitework';
import type { KnownAct } from '@backsight/domain/sitework/act';
import { nameOfAct, type Naming } from '@backsight/domain/sitework/sayAct';
import { clockText } from '../../ui/time.ts';
import { itemName, nameOf } from './recordModel.ts';

export const namingOf = (record: MemberRecord | SealedRecord, acts: readonly KnownAct[], zone: string): Naming => ({
  thing: (id) => itemName(record, id) ?? nameOfAct(acts, id) ?? 'something',
  person: (id) => nameOf(record, id),
  step: (key) => record.steps.find(({ stepKey }) => stepKey === key)?.title ?? key,
  clock: (iso) => clockText(iso, zone),
});
