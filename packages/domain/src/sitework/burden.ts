// How much a record asks of each of a pair at one house, in inputs: presses, choices, figures, notes and photos.
import type { Evidence } from '../procedures/step.ts';
import type { PackageStep } from './package.ts';
import { pagesOf } from './pages.ts';

/** Answers to give before a step is recorded; a confirmation needs none. */
const ANSWERS: Record<Evidence['kind'], number> = { confirm: 0, choice: 1, reading: 1, count: 1, note: 1, photo: 1, difference: 2 };

export type Burden = {
  /** Inputs that either of the pair may make. */
  shared: number;
  /** Inputs that both make for themselves: partner checks. */
  each: number;
  /** Inputs of one person when the shared ones are divided evenly. */
  perPerson: number;
  partnerChecks: number;
};

/** One press records a page, whether it is one step or a group that is confirmed together; exceptions come on top. */
export function burdenOf(steps: readonly PackageStep[]): Burden {
  const pages = pagesOf(
    steps.map(({ step, item, partnerCheck, procedureKey }) => ({
      ...{ stepKey: step.key, itemId: item?.id ?? null, style: step.style, sequence: step.sequence ?? null },
      ...{ partnerCheck, procedureTitle: procedureKey, answers: ANSWERS[step.evidence.kind] },
    })),
  );
  const inputs = (checked: boolean): number =>
    pages
      .filter((page) => page.steps[0]!.partnerCheck === checked)
      .reduce((sum, page) => sum + 1 + page.steps.reduce((answers, one) => answers + one.answers, 0), 0);
  const [shared, each] = [inputs(false), inputs(true)];
  return { shared, each, perPerson: Math.ceil(shared / 2) + each, partnerChecks: steps.filter(({ partnerCheck }) => partnerCheck).length };
}
