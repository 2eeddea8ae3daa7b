// The calls at the desk: the one that is served and those kept aside, in this browser until a time is held, so that a reload loses nothing.
// They belong to the person who typed them, and go when that person signs out.
import { useEffect, useState } from 'react';
import { useMe } from '../../api/people.ts';
import { typedPlace } from '../../ui/draft.ts';
import { blankDraft, untouched, type Draft } from './draft.ts';

const placesOf = (personId: string) => ({ served: typedPlace(personId, 'call'), aside: typedPlace(personId, 'calls aside') });

/** `dropped`: what was typed when somebody began anew, to take it back. */
type Calls = { draft: Draft; aside: readonly Draft[]; dropped: Draft | null };
export type Desk = Calls & {
  change: (part: Partial<Draft>) => void;
  /** Begins anew, and keeps nothing of the call but the way back. */
  drop: () => void;
  /** Keeps the call, and begins with another one. */
  putAside: () => void;
  /** Goes on with a call kept aside or dropped; the one that was served is kept aside. */
  takeUp: (jobId: string) => void;
};

/** A draft as it was stored: made whole, and looking no further back than today. */
function stored(found: Partial<Draft>, today: string): Draft {
  const draft = { ...blankDraft(today), ...found };
  return draft.fromDay < today ? { ...draft, fromDay: today, start: null } : draft;
}

function read(place: string): unknown {
  try {
    return JSON.parse(localStorage.getItem(place) ?? 'null');
  } catch {
    return null;
  }
}

function write(place: string, value: unknown, nothing: boolean): void {
  if (nothing) localStorage.removeItem(place);
  else localStorage.setItem(place, JSON.stringify(value));
}

/** Nothing was said and nothing chosen: such a call is not kept. */
const blank = (draft: Draft): boolean => untouched(draft) && draft.services.length === 1 && draft.start === null && draft.inquiry === null;

function kept(personId: string, today: string): Calls {
  const places = placesOf(personId);
  const [draft, aside] = [read(places.served) as Partial<Draft> | null, read(places.aside) as Partial<Draft>[] | null];
  return { draft: stored(draft ?? {}, today), aside: (aside ?? []).map((one) => stored(one, today)), dropped: null };
}

export function useDesk(today: string): Desk {
  const { id } = useMe();
  const [calls, set] = useState(() => kept(id, today));
  useEffect(() => write(placesOf(id).served, calls.draft, blank(calls.draft)), [id, calls.draft]);
  useEffect(() => write(placesOf(id).aside, calls.aside, calls.aside.length === 0), [id, calls.aside]);
  return {
    ...calls,
    change: (part) => set((now) => ({ ...now, draft: { ...now.draft, ...part } })),
    drop: () => set(({ draft, aside }) => ({ draft: blankDraft(today), aside, dropped: untouched(draft) ? null : draft })),
    putAside: () =>
      set((now) => (untouched(now.draft) ? now : { draft: blankDraft(today), aside: [...now.aside, now.draft], dropped: null })),
    takeUp: (jobId) => set((now) => takenUp(now, jobId)),
  };
}

function takenUp({ draft, aside, dropped }: Calls, jobId: string): Calls {
  const wanted = [...aside, ...(dropped ? [dropped] : [])].find((one) => one.jobId === jobId);
  if (!wanted) return { draft, aside, dropped };
  const others = aside.filter((one) => one !== wanted);
  return { draft: wanted, aside: untouched(draft) ? others : [...others, draft], dropped: null };
}

/** Forgets the call that is served, once its time is held. */
export const forgetDraft = (personId: string): void => localStorage.removeItem(placesOf(personId).served);
