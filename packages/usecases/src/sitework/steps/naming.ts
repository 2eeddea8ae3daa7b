// What things, persons and steps of a record are called where its acts are put into words.
import { DateTime } from 'luxon';
import { nameOfAct, type Naming } from '@backsight/domain/sitework/sayAct';
import type { LoadedRecord } from './loadRecord.ts';

/** Clock times are those of the firm's zone. */
export function namingOf({ items, visit, steps, acts }: LoadedRecord, zone: string): Naming {
  return {
    thing: (id) => items.find((item) => item.id === id)?.label ?? nameOfAct(acts, id) ?? 'something',
    person: (id) => visit.pair.find(({ personId }) => personId === id)?.name ?? 'somebody else',
    step: (key) => steps.find(({ stepKey }) => stepKey === key)?.body.title ?? key,
    clock: (iso) => DateTime.fromISO(iso, { zone, locale: 'en-US' }).toFormat('h:mm a'),
  };
}
