// Signatures taken at the door: kept on this phone with their own time until the service has them, so that no signal is needed to sign.
import { useSyncExternalStore } from 'react';
import type { agreementsRoutes } from '@backsight/contract/agreements';
import type { BodyOf } from '@backsight/contract/route';
import { signOnSite } from './agreements.ts';
import { asProblem } from './problemError.ts';

export type Signing = BodyOf<typeof agreementsRoutes.signOnSite>;
/**
 * `refused`: the service's sentence, when it will not take the signature as it is. `late`: it was kept, but a newer agreement had taken the
 * place of the one that was signed; shown until somebody has read it.
 */
export type WaitingSigning = { signerId: string; jobId: string; signer: string; body: Signing; refused?: string; late?: true };

const listKey = (personId: string): string => `backsight.signings.${personId}`;
const listeners = new Set<() => void>();
const memory = new Map<string, { text: string; list: WaitingSigning[] }>();

const read = (personId: string): WaitingSigning[] => {
  const text = localStorage.getItem(listKey(personId)) ?? '[]';
  const known = memory.get(personId);
  if (known?.text === text) return known.list;
  const list = JSON.parse(text) as WaitingSigning[];
  memory.set(personId, { text, list });
  return list;
};

/** @throws DOMException when the phone's store is full */
const write = (personId: string, list: readonly WaitingSigning[]): void => {
  localStorage.setItem(listKey(personId), JSON.stringify(list));
  for (const tell of listeners) tell();
};

const subscribe = (tell: () => void): (() => void) => {
  listeners.add(tell);
  window.addEventListener('storage', tell);
  return () => {
    listeners.delete(tell);
    window.removeEventListener('storage', tell);
  };
};

/** Signatures that this phone still holds for a person. */
export const useSignings = (personId: string): WaitingSigning[] => useSyncExternalStore(subscribe, () => read(personId));

/** Keeps a signature on the phone first; sending is another step. @throws DOMException when the phone's store is full */
export const keepSigning = (personId: string, one: WaitingSigning): void =>
  write(personId, [...read(personId).filter(({ signerId }) => signerId !== one.signerId), one]);

export const dropSigning = (personId: string, signerId: string): void =>
  write(
    personId,
    read(personId).filter((one) => one.signerId !== signerId),
  );

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
  for (const one of read(personId).filter(({ refused, late }) => !refused && !late)) {
    try {
      const { late } = await signOnSite({ ...one.body, signerId: one.signerId });
      took = true;
      if (late) mark(personId, one.signerId, { late: true });
      else dropSigning(personId, one.signerId);
    } catch (error) {
      const problem = asProblem(error);
      const final = problem !== null && problem.status >= 400 && problem.status < 500 && problem.status !== 401 && problem.status !== 429;
      if (!final) return took;
      mark(personId, one.signerId, { refused: problem.message });
    }
  }
  return took;
}

const mark = (personId: string, signerId: string, what: Pick<WaitingSigning, 'refused' | 'late'>): void =>
  write(
    personId,
    read(personId).map((one) => (one.signerId === signerId ? { ...one, ...what } : one)),
  );
