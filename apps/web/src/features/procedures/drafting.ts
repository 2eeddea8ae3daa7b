// Edits of the list of steps of a draft, as the screen makes them.
import { keyFor } from '@backsight/domain/shared/keyFor';
import type { Step } from '@backsight/domain/procedures/step';

export const blankStep = (key: string): Step => ({
  key,
  title: 'New step',
  instruction: '',
  why: '',
  evidence: { kind: 'confirm' },
  applies: { always: true },
  per: 'property',
  basis: { kind: 'own_extra' },
  who: 'either',
  style: 'do_then_confirm',
  minutes: 1,
  kit: [],
  after: [],
  references: [],
});

/** The step at `at` one place up or down; the same list at the ends. */
export function shifted(steps: readonly Step[], at: number, by: -1 | 1): Step[] {
  const list = [...steps];
  const to = at + by;
  if (to < 0 || to >= list.length) return list;
  [list[at], list[to]] = [list[to]!, list[at]!];
  return list;
}

/** A step that means something else takes over: new key, derived from the old one, which orders of other steps follow. */
export function replacedAt(steps: readonly Step[], at: number, taken: readonly string[]): Step[] {
  const old = steps[at]!;
  const key = keyFor(`${old.title} again`, taken);
  return steps.map((step, place) =>
    place === at ? { ...old, key, derivedFrom: old.key } : { ...step, after: step.after.map((one) => (one === old.key ? key : one)) },
  );
}
