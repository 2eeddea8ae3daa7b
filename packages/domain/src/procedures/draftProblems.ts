// What still stands in the way of approving a draft, seen together with the other procedures of the book.
import { checkRevision } from './book.ts';
import type { Step } from './step.ts';

const pointsAt = (step: Step): string[] => [
  ...step.after,
  ...(step.evidence.kind === 'count' && step.evidence.mustMatch !== undefined ? [step.evidence.mustMatch] : []),
];

/** Steps of other procedures that wait for a step which the draft takes away. */
const leftBehind = (base: readonly Step[], steps: readonly Step[], elsewhere: readonly Step[]): string[] => {
  const kept = new Set(steps.map(({ key }) => key));
  const gone = new Set(base.map(({ key }) => key).filter((key) => !kept.has(key)));
  return elsewhere.flatMap((step) =>
    pointsAt(step)
      .filter((key) => gone.has(key))
      .map((key) => `Step "${step.key}" of another procedure waits for "${key}", which this draft removes.`),
  );
};

/** One plain sentence each; empty when the draft may be approved. `base` is the revision it starts from, `elsewhere` are the steps of the other procedures. */
export const draftProblems = (base: readonly Step[], steps: readonly Step[], elsewhere: readonly Step[]): string[] =>
  steps.length === 0 ? ['It has no steps.'] : [...checkRevision(steps, elsewhere), ...leftBehind(base, steps, elsewhere)];
