// Signatures taken at the door: kept on this phone with their own time until the service has them, so that no signal is needed to sign.
import { useSyncExternalStore } from 'react';
import { signOnSite } from './agreements.ts';
import { phone, SURE, type KeptSigning, type WaitingSigning } from './phone/store.ts';
import { asProblem } from './problemError.ts';

export type { Signing, WaitingSigning } from './phone/store.ts';

let list: readonly KeptSigning[] = [];
const listeners = new Set<() => void>();
const others = typeof BroadcastChannel === 'undefined' ? null : new BroadcastChannel('backsight-signings');

async function reload(tellOthers = true): Promise<void> {
  list = await (await phone()).getAll('signings');
  for (const tell of listeners) tell();
  if (tellOthers) others?.postMessage('changed');
}
others?.addEventListener('message', () => void reload(false));

/** Call once before the first screen. */
export const loadSignings = (): Promise<void> => reload(false);

const subscribe = (tell: () => void): (() => void) => {
  listeners.add(tell);
  return () => listeners.delete(tell);
};
const all = (): readonly KeptSigning[] => list;

/** Signatures that this phone still holds for a person. */
export const useSignings = (personId: string): WaitingSigning[] =>
  useSyncExternalStore(subscribe, all).filter((one) => one.personId === personId);

/** Keeps a signature on the phone first, written through to the disk; sending is another step. @throws when the phone's store is full or closed */
export async function keepSigning(personId: string, one: WaitingSigning): Promise<void> {
  const tx = (await phone()).transaction('signings', 'readwrite', SURE);
  await tx.store.put({ ...one, personId });
  await tx.done;
  await reload();
}

export async function dropSigning(personId: string, signerId: string): Promise<void> {
  await (await phone()).delete('signings', [personId, signerId]);
  await reload();
}

let sending: Promise<boolean> | null = null;

/** Sends what waits, one after the other. Answers whether the service took anything; failing leaves everything kept. */
export function sendSignings(personId: string): Promise<boolean> {
  sending ??= sendAll(personId).finally(() => {
    sending = null;
  });
  return sending;
}

async function sendAll(personId: string): Promise<boolean> {
  let took = false;
  for (const one of list.filter(({ personId: whose, refused, late }) => whose === personId && !refused && !late)) {
    try {
      const { late } = await signOnSite({ ...one.body, signerId: one.signerId });
      took = true;
      if (late) await keepSigning(personId, { ...one, late: true });
      else await dropSigning(personId, one.signerId);
    } catch (error) {
      const problem = asProblem(error);
      const final = problem !== null && problem.status >= 400 && problem.status < 500 && problem.status !== 401 && problem.status !== 429;
      if (!final) return took;
      await keepSigning(personId, { ...one, refused: problem.message });
    }
  }
  return took;
}
