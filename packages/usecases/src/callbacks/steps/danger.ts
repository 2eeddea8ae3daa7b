// Alerts one person after the other of a danger until somebody has it. Danger waits for no business day.
import { nextToAlert } from '@backsight/domain/callbacks/onCall';
import { termAt } from '@backsight/domain/callbacks/clocks';
import { saveAlert, saveChain } from '@backsight/store/callbacks/danger';
import type { Reader } from '@backsight/store/database';
import type { Work } from '../../run.ts';
import { chainFor } from './onCall.ts';
import { datedTerms } from './runClocks.ts';

export type Dangerous = { id: string; number: number; ownerOnly: boolean };
export type Where = { address: string; town: string };

/** Minutes after which the next person is alerted, as the firm set them. */
export const alertMinutes = async (reader: Reader, now: Date): Promise<number> =>
  termAt(await datedTerms(reader), '', 'on_call', now.toISOString()).amount;

/** Begins the chain; the first is alerted in the same transaction. */
export async function startDanger(work: Work, callback: Dangerous, where: Where): Promise<void> {
  const id = work.newId();
  await saveChain(work.tx, { id, callbackId: callback.id, startedAt: work.now });
  await alertNext(work, { id, alerts: [] }, callback, where);
}

/** Alerts whoever comes next: the row and the mail are one, under one key, so that a crash leaves both or none. Answers who it is. */
export async function alertNext(
  work: Work,
  chain: { id: string; alerts: readonly { personId: string }[] },
  callback: Dangerous,
  where: Where,
): Promise<string | null> {
  const people = await chainFor(work.tx, work.now, callback.ownerOnly);
  const next = nextToAlert(
    people.map(({ id }) => id),
    chain.alerts.map(({ personId }) => personId),
  );
  const person = people.find(({ id }) => id === next);
  if (!person) return null;
  const n = chain.alerts.length + 1;
  await saveAlert(work.tx, { id: work.newId(), chainId: chain.id, n, personId: person.id, at: work.now });
  await work.mail({
    messageKey: `danger:${chain.id}:${n}`,
    toAddress: person.email,
    toName: person.name,
    subject: `Danger: callback ${callback.number}`,
    urgent: true,
    aboutKind: 'callback',
    aboutId: callback.id,
    body: [
      `Callback ${callback.number} at ${where.address}, ${where.town} was marked as a danger to people. Call back at once.`,
      `Who spoke, their phone number and "I have it": ${work.publicUrl}/danger/${callback.id}`,
      `If nobody says "I have it" within ${await alertMinutes(work.tx, work.now)} minutes, the next person is alerted.`,
    ].join('\n\n'),
  });
  return person.id;
}
