// Everything a firm begins with: examples that it changes to its own.
import { PROCEDURES } from '../procedures/book.ts';
import { ACCOUNTS } from './accounts.ts';
import { AGREEMENT_TEXTS } from './agreement.ts';
import { DURATIONS, REQUIREMENTS } from './bookingRules.ts';
import { DESK_RULES } from './deskRules.ts';
import { FEE_SCHEDULE } from './fees.ts';
import { APPROVAL_LIMITS, RULE_PACKS } from './rulePack.ts';
import { SERVICES } from './services.ts';
import { TOWNS } from './towns.ts';
import { KIT_CHECKS, KIT_KINDS, QUALIFICATIONS, VISIT_KINDS } from './visits.ts';

export const STARTER = {
  accounts: ACCOUNTS,
  agreementTexts: AGREEMENT_TEXTS,
  bookingRules: { durations: DURATIONS, requirements: REQUIREMENTS, desk: DESK_RULES },
  feeSchedule: FEE_SCHEDULE,
  approvalLimits: APPROVAL_LIMITS,
  rulePacks: RULE_PACKS,
  services: SERVICES,
  towns: TOWNS,
  kitKinds: KIT_KINDS,
  kitChecks: KIT_CHECKS,
  qualifications: QUALIFICATIONS,
  visitKinds: VISIT_KINDS,
  procedures: PROCEDURES,
};
export type Starter = typeof STARTER;
