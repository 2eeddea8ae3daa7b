// What is typed into a long form stays in this browser until it is sent, so that a reload, another screen or an ended session loses nothing.
// It belongs to the person who typed it, is given back only to the very form that it was typed into, and goes when that person signs out.
import { useRef, useState } from 'react';
import { useQueryClient } from '@tanstack/react-query';
import { meQuery } from '../api/people.ts';

const PREFIX = 'backsight.typed';
const DAYS_14 = 14 * 86_400_000;
/** Papers and photos are too large to keep; what opens a door, of a house or of the service, is not written down. */
const NEVER = /password|^code$|keyBox|alarm|file|photo/i;
/** A time of day that a form begins with is that of its opening. */
const MOMENT = /^\d{4}-\d\d-\d\dT/;
const LONGEST = 20_000;

type Values = Record<string, unknown>;
type Kept = { at: number; over: string; values: Values };
/** `found`: what is shown was typed earlier. `keep`: writes down what changed since. `forget`: it was sent. */
export type Draft = { found: boolean; keep: () => void; forget: () => void; beginAnew: () => void };

const personPrefix = (personId: string): string => `${PREFIX}.${personId}.`;
/** Where a screen keeps itself what a person types. */
export const typedPlace = (personId: string, name: string): string => `${personPrefix(personId)}${name}`;

const keepable = (values: Values): Values =>
  Object.fromEntries(
    Object.entries(values).filter(([name, value]) => !NEVER.test(name) && (typeof value !== 'string' || value.length <= LONGEST)),
  );

const textOf = (values: Values): string =>
  JSON.stringify(keepable(values), (_, value: unknown) => (typeof value === 'string' && MOMENT.test(value) ? '' : value));

function read(place: string): Kept | null {
  try {
    const kept = JSON.parse(localStorage.getItem(place) ?? 'null') as Kept | null;
    return kept && Date.now() - kept.at < DAYS_14 ? kept : null;
  } catch {
    return null;
  }
}

function write(place: string, kept: Kept): void {
  try {
    localStorage.setItem(place, JSON.stringify(kept));
  } catch {
    // A full or forbidden store keeps nothing; typing goes on.
  }
}

const remove = (place: string): void => localStorage.removeItem(place);

function placesOf(personId: string): string[] {
  const own = personPrefix(personId);
  return Object.keys(localStorage).filter((place) => place.startsWith(own));
}

/** How many forms hold something that this person typed and did not send. */
export const draftsOf = (personId: string): number => placesOf(personId).length;
export const forgetDrafts = (personId: string): void => placesOf(personId).forEach(remove);

/**
 * State of a form that is kept while it is typed, where it shows `Kept`. `name` tells apart the forms of one screen; null keeps nothing. Values typed over others
 * than `initial` are not given back: the thing has changed meanwhile, or is another one.
 */
export function useDraft<T extends Values>(initial: T, name: string | null) {
  const personId = useQueryClient().getQueryData(meQuery.queryKey)?.id ?? '';
  const [{ place, first, typed }] = useState(() => {
    const spot = name === null ? null : `${personPrefix(personId)}${window.location.pathname} ${name}`;
    const text = spot === null ? '' : textOf(initial);
    const kept = spot === null ? null : read(spot);
    return { place: spot, first: text, typed: kept?.over === text ? kept.values : null };
  });
  const [values, setValues] = useState<T>(() => ({ ...initial, ...typed }));
  const [found, setFound] = useState(typed !== null);
  const shown = useRef(values);
  /** What is on file: as the form began, and then what was sent last. */
  const over = useRef(first);
  const keep = () => {
    if (place === null || shown.current === values) return;
    shown.current = values;
    const text = textOf(values);
    if (text === first) over.current = first;
    if (text === over.current) remove(place);
    else write(place, { at: Date.now(), over: over.current, values: keepable(values) });
  };
  const forget = () => {
    if (place !== null) remove(place);
    over.current = textOf(shown.current);
    setFound(false);
  };
  const beginAnew = () => {
    forget();
    over.current = first;
    setValues(initial);
  };
  const draft: Draft | null = place === null ? null : { found, keep, forget, beginAnew };
  return { values, setValues, draft };
}

let submitting: Draft | null = null;
const sentFrom = new WeakMap<object, Draft>();

/** Runs what a form does when it is sent; the request that begins meanwhile is the one that empties the draft. */
export function whileSending(draft: Draft | null | undefined, submit: () => void): void {
  submitting = draft ?? null;
  try {
    submit();
  } finally {
    submitting = null;
  }
}

export const noteRequest = (request: object): void => void (submitting && sentFrom.set(request, submitting));
export const noteSuccess = (request: object): void => sentFrom.get(request)?.forget();
