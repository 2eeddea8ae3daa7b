// When the first steps of a firm come before everything else on its home.
import type { FirstStepState } from '@backsight/contract/home';

/** Whether no agreement was signed yet: nothing weighs more then than these steps. Later, what needs doing today comes before them. */
export const begins = (steps: readonly FirstStepState[] = []): boolean => steps.some(({ key }) => key === 'book' || key === 'sign');
