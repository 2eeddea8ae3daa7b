// What still stands in the way of approving a draft, seen together with the other procedures of the book.
import { checkRevision } from './book.ts';
import { questionProblems, type Question } from './questions.ts';
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

export type DraftToCheck = {
  /** Steps of the revision it starts from. */
  base: readonly Step[];
  steps: readonly Step[];
  questions: readonly Question[];
  /** Ends the procedure: it has no steps then. */
  retires: boolean;
  /** Steps of the other procedures. */
  elsewhere: readonly Step[];
};

/** One plain sentence each; empty when the draft may be approved. */
export const draftProblems = ({ base, steps, questions, retires, elsewhere }: DraftToCheck): string[] =>
  steps.length === 0 && !retires
    ? ['It has no steps.']
    : [...checkRevision(steps, elsewhere), ...leftBehind(base, steps, elsewhere), ...questionProblems(questions, steps)];
