// Tells the service what was done on this phone: in its order, in batches, by one sender at a time, as often as it takes.
import { useSyncExternalStore } from 'react';
import { asProblem, type ProblemError } from '../problemError.ts';
import { post } from '../call.ts';
import { sendEntries } from '../sitework.ts';
import { newId } from '../ids.ts';
import { askToSignIn } from '../signedOut.ts';
import { sendSignings } from '../signings.ts';
import { deviceOf, isWaiting, rowsOf, settle } from './outbox.ts';
import type { Row } from './store.ts';

const BATCH = 50;

/** working: asking now; unreached: the last try found no connection; signed_out: the service wants a sign-in first; idle: nothing more to say. */
export type SendingState = 'idle' | 'working' | 'unreached' | 'signed_out';
let state: SendingState = 'idle';
const listeners = new Set<() => void>();
const say = (next: SendingState): void => {
  state = next;
  for (const tell of listeners) tell();
};
export const useSendingState = (): SendingState =>
  useSyncExternalStore(
    (tell) => {
      listeners.add(tell);
      return () => listeners.delete(tell);
    },
    () => state,
  );

/** A browser that was killed may have lost the sign-in, or it ran out: whoever holds the phone is asked at once, not with every try. */
let askedToSignIn = false;
const giveUp = ({ status }: ProblemError): void => {
  if (status !== 401) return say('unreached');
  say('signed_out');
  if (!askedToSignIn) askToSignIn();
  askedToSignIn = true;
};

let running: Promise<ReadonlySet<string>> | null = null;

/** Sends what waits for a person. Answers the records of which the service took something; failing leaves everything kept. */
export function sendWaiting(personId: string): Promise<ReadonlySet<string>> {
  running ??= alone(() => sendAll(personId)).finally(() => {
    running = null;
  });
  return running;
}

/** One window of the browser sends at a time. Without locks (plain http) each window is on its own: the service stores once all the same. */
const alone = (work: () => Promise<ReadonlySet<string>>): Promise<ReadonlySet<string>> =>
  navigator.locks ? navigator.locks.request('backsight-sending', work) : work();

/** What the other phone of the pair may still settle: it waits with the service's sentence and is asked again, what is behind it goes first. */
const NOT_YET = new Set(['still-inside', 'not-restored']);

/** What goes next: one act, or entries of one record that follow each other. What belongs to a record that is not open waits. */
function nextOf(rows: readonly Row[], notYet: ReadonlySet<number>): Row[] {
  const shut = new Set(
    rows.filter(({ what, state: at }) => what.kind === 'act' && what.opens && at === 'refused').map(({ recordId }) => recordId),
  );
  const free = rows.filter((row) => isWaiting(row) && !shut.has(row.recordId) && !notYet.has(row.n));
  const first = free[0];
  if (!first || first.what.kind !== 'entry') return first ? [first] : [];
  const end = free.findIndex((row) => row.what.kind !== 'entry' || row.recordId !== first.recordId);
  return free.slice(0, Math.min(end === -1 ? free.length : end, BATCH));
}

async function sendAll(personId: string): Promise<ReadonlySet<string>> {
  const took = new Set<string>();
  const notYet = new Set<number>();
  for (;;) {
    const next = nextOf(rowsOf(personId), notYet);
    if (next.length === 0) break;
    say('working');
    try {
      await sendSome(next);
      askedToSignIn = false;
      took.add(next[0]!.recordId);
    } catch (error) {
      const problem = asProblem(error)!;
      if (!isFinal(problem)) {
        giveUp(problem);
        return took;
      }
      const again = NOT_YET.has(problem.code);
      for (const { n } of again ? next : []) notYet.add(n);
      await settle(new Map(next.map((row) => [row.n, { state: again ? 'waiting' : 'refused', why: problem.message }])));
    }
  }
  say('idle');
  return took;
}

/** A start hangs on signatures that were taken on this phone: those go first. */
async function sendAct(row: Row, { path, body, opens }: Extract<Row['what'], { kind: 'act' }>): Promise<void> {
  if (!opens) return void (await post(path, body, row.id));
  await sendSignings(row.personId);
  await post(path, { ...body, sentAt: new Date().toISOString() }, newId());
}

const isFinal = ({ status }: ProblemError): boolean => status >= 400 && status < 500 && ![401, 408, 425, 429].includes(status);

async function sendSome(next: readonly Row[]): Promise<void> {
  const [first] = next;
  if (first!.what.kind === 'act') {
    await sendAct(first!, first!.what);
    return settle(new Map([[first!.n, { state: 'stored' }]]));
  }
  const { results } = await sendEntries(
    first!.recordId,
    await deviceOf(first!.personId),
    next.flatMap(({ what }) => (what.kind === 'entry' ? [what.entry] : [])),
  );
  const answers = new Map(results.map((r) => [r.id, r]));
  return settle(
    new Map(
      next.flatMap((row) => {
        const answer = answers.get(row.id);
        if (!answer || answer.code === 'batch-full') return [];
        return [
          [row.n, answer.stored ? { state: 'stored' as const } : { state: 'refused' as const, why: answer.sentence ?? 'not accepted' }],
        ];
      }),
    ),
  );
}
