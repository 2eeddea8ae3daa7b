// The one catalogue of refusals: every code that any rule may answer, with its sentence.
import { sharedRefusals } from './shared/refusals.ts';
import { peopleRefusals } from './people/refusals.ts';
import type { RefusalLine } from './shared/refusal.ts';

export const refusals = { ...sharedRefusals, ...peopleRefusals };

export type RefusalCode = keyof typeof refusals;

/** The catalogue line of a code. */
export const refusalLine = (code: RefusalCode): RefusalLine => refusals[code];
