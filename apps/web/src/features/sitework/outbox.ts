// Entries that were typed but that the service has not confirmed: kept on this phone, per person, until it has them.
import { useSyncExternalStore } from 'react';
import type { NewEntry } from '@backsight/contract/sitework';
import { sendEntries } from '../../api/sitework.ts';
import { asProblem } from '../../api/problemError.ts';

/** `refused`: the service's sentence, when it will not take the entry as it is. `stored`: the service has it; kept until the screen has it from there. */
export type Waiting = { recordId: string; entry: NewEntry; refused?: string; stored?: true };

export const isUnsent = (w: Waiting): boolean => !w.refused && !w.stored;

const listKey = (personId: string): string => `backsight.entries.${personId}`;
const SEQ = 'backsight.device-counter';
const listeners = new Set<() => void>();
const memory = new Map<string, { text: string; list: Waiting[] }>();

const read = (personId: string): Waiting[] => {
  const text = localStorage.getItem(listKey(personId)) ?? '[]';
  const known = memory.get(personId);
  if (known?.text === text) return known.list;
  const list = parsed(text);
  memory.set(personId, { text, list });
  return list;
};

const parsed = (text: string): Waiting[] => {
  try {
    return JSON.parse(text) as Waiting[];
  } catch {
    return [];
  }
};

const write = (personId: string, list: readonly Waiting[]): void => {
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

/** What this phone still holds for a person, on every record. */
export const useWaiting = (personId: string): Waiting[] => useSyncExternalStore(subscribe, () => read(personId));

/** Next number of this device's counter: the order of entries, whatever its clock says. */
export function nextSeq(): number {
  const next = Number(localStorage.getItem(SEQ) ?? 0) + 1;
  localStorage.setItem(SEQ, String(next));
  return next;
}

/** Keeps entries on the phone first; sending is another step. */
export const keep = (personId: string, recordId: string, entries: readonly NewEntry[]): void =>
  write(personId, [...read(personId), ...entries.map((entry) => ({ recordId, entry }))]);

export const discard = (personId: string, entryId: string): void =>
  write(
    personId,
    read(personId).filter(({ entry }) => entry.id !== entryId),
  );

/** Forgets what the service has, once the screen shows it from there; without `shown` all that it has, after the record was read anew. */
export function forgetStored(personId: string, recordId: string, shown?: ReadonlySet<string>): void {
  const list = read(personId);
  const left = list.filter((w) => !(w.stored && w.recordId === recordId && (shown === undefined || shown.has(w.entry.id))));
  if (left.length < list.length) write(personId, left);
}

const sending = new Map<string, Promise<boolean>>();

/** Sends what waits for a record, 50 at a time, one sender at a time. Answers whether the service took anything. Failing leaves everything kept. */
export function send(personId: string, recordId: string): Promise<boolean> {
  const running = sending.get(recordId);
  if (running) return running;
  const work = sendAll(personId, recordId).finally(() => sending.delete(recordId));
  sending.set(recordId, work);
  return work;
}

async function sendAll(personId: string, recordId: string): Promise<boolean> {
  let took = false;
  for (;;) {
    const batch = read(personId)
      .filter((w) => w.recordId === recordId && isUnsent(w))
      .slice(0, 50);
    if (batch.length === 0) return took;
    try {
      const { results } = await sendEntries(
        recordId,
        batch.map(({ entry }) => entry),
      );
      const answers = new Map(results.map((r) => [r.id, r]));
      write(
        personId,
        read(personId).map((w) => settled(w, answers.get(w.entry.id))),
      );
      took = true;
    } catch (error) {
      const problem = asProblem(error);
      const final = problem !== null && problem.status >= 400 && problem.status < 500 && problem.status !== 401 && problem.status !== 429;
      if (final)
        write(
          personId,
          read(personId).map((w) => (batch.some((b) => b.entry.id === w.entry.id) ? { ...w, refused: problem.message } : w)),
        );
      return took;
    }
  }
}

const settled = (w: Waiting, answer: { stored: boolean; sentence: string | null } | undefined): Waiting =>
  answer === undefined ? w : answer.stored ? { ...w, stored: true } : { ...w, refused: answer.sentence ?? 'not accepted' };
