// What an edit of a draft may do to step keys: a key keeps its procedure, its origin and its meaning for life.
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import { nothingPersonalInSteps } from './personal.ts';
import type { Step } from './step.ts';

/** A key that was used before, by this procedure or another. `last` is its step in the newest approved revision that has it. */
export type KnownKey = { key: string; procedureId: string; derivedFrom: string | null; last: Step | null };

export type NewKey = { key: string; procedureId: string; derivedFrom: string | null };

/** What another meaning is: another kind of evidence, or being done for other things. Then figures before and after would not compare. */
export const newMeaning = (before: Step, after: Step): string | null => {
  if (before.evidence.kind !== after.evidence.kind) return 'it is recorded in another way';
  return before.per === after.per ? null : 'it is done for other things';
};

const checkKnown = (step: Step, known: KnownKey, procedureId: string, field: string): Outcome<null> => {
  if (known.procedureId !== procedureId) return refuse('step-key-elsewhere', { key: step.key }, `${field}.key`);
  if (known.derivedFrom !== (step.derivedFrom ?? null)) return refuse('step-origin-fixed', { key: step.key }, `${field}.derivedFrom`);
  const what = known.last === null ? null : newMeaning(known.last, step);
  return what === null ? accept(null) : refuse('step-new-meaning', { key: step.key, title: step.title, what }, `${field}.key`);
};

const checkNew = (step: Step, keys: ReadonlySet<string>, field: string): Outcome<null> => {
  if (step.derivedFrom === undefined || (keys.has(step.derivedFrom) && step.derivedFrom !== step.key)) return accept(null);
  return refuse('step-origin-unknown', { key: step.key, origin: step.derivedFrom }, `${field}.derivedFrom`);
};

/** Derivations of keys that are new must not run in a circle. */
const circular = (step: Step, steps: ReadonlyMap<string, Step>): boolean => {
  const seen = new Set<string>();
  for (let at: Step | undefined = step; at?.derivedFrom !== undefined; at = steps.get(at.derivedFrom)) {
    if (seen.has(at.key)) return true;
    seen.add(at.key);
  }
  return false;
};

/**
 * Whether a draft of `procedureId` may hold these steps; answers the keys that are used for the first time. `known` are the keys
 * among those that the steps use or derive from. What only stands in the way of approval is not asked here, so that work is never lost.
 */
export function editSteps(facts: { procedureId: string; known: readonly KnownKey[] }, steps: readonly Step[]): Outcome<NewKey[]> {
  const clean = nothingPersonalInSteps(steps);
  if (!clean.ok) return clean;
  const known = new Map(facts.known.map((one) => [one.key, one]));
  const own = new Map(steps.map((step) => [step.key, step]));
  const all = new Set([...known.keys(), ...own.keys()]);
  for (const [at, step] of steps.entries()) {
    if (steps.findIndex(({ key }) => key === step.key) !== at) return refuse('step-key-twice', { key: step.key }, `steps.${at}.key`);
    const before = known.get(step.key);
    const sound = before === undefined ? checkNew(step, all, `steps.${at}`) : checkKnown(step, before, facts.procedureId, `steps.${at}`);
    if (!sound.ok) return sound;
    if (circular(step, own))
      return refuse('step-origin-unknown', { key: step.key, origin: step.derivedFrom ?? '' }, `steps.${at}.derivedFrom`);
  }
  return accept(
    steps
      .filter(({ key }) => !known.has(key))
      .map(({ key, derivedFrom }) => ({ key, procedureId: facts.procedureId, derivedFrom: derivedFrom ?? null })),
  );
}
