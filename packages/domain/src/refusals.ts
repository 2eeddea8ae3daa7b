// The one catalogue of refusals: every code that any rule may answer, with its sentence.
import { sharedRefusals } from './shared/refusals.ts';
import { firmRefusals } from './firm/refusals.ts';
import { jobRefusals } from './jobs/refusals.ts';
import { peopleRefusals } from './people/refusals.ts';
import { scheduleRefusals } from './schedule/refusals.ts';
import { agreementsRefusals } from './agreements/refusals.ts';
import { feesRefusals } from './fees/refusals.ts';
import { siteworkRefusals } from './sitework/refusals.ts';
import { afterRefusals, callbackRefusals, changeRefusals, opinionRefusals, remedyRefusals } from './callbacks/refusals.ts';
import { procedureRefusals } from './procedures/refusals.ts';
import { liabilityRefusals } from './liability/refusals.ts';
import { mailRefusals } from './mail/refusals.ts';
import { personalRefusals } from './personal/refusals.ts';
import type { RefusalLine } from './shared/refusal.ts';

export const refusals = {
  ...sharedRefusals,
  ...procedureRefusals,
  ...firmRefusals,
  ...peopleRefusals,
  ...jobRefusals,
  ...scheduleRefusals,
  ...feesRefusals,
  ...agreementsRefusals,
  ...mailRefusals,
  ...siteworkRefusals,
  ...callbackRefusals,
  ...opinionRefusals,
  ...afterRefusals,
  ...changeRefusals,
  ...remedyRefusals,
  ...liabilityRefusals,
  ...personalRefusals,
};

export type RefusalCode = keyof typeof refusals;

/** The catalogue line of a code. */
export const refusalLine = (code: RefusalCode): RefusalLine => refusals[code];
