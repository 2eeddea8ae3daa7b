// How the firm handles a complaint, for anybody to read: the steps, the times that it sets itself, who decides, and how to appeal.
import { termAt, type Clock, type Term } from '@backsight/domain/callbacks/clocks';
import { afterRules } from '@backsight/store/callbacks/after';
import type { Reader } from '@backsight/store/database';
import { findFirm } from '@backsight/store/firm';
import { datedTerms } from './steps/runClocks.ts';

export type Process = Awaited<ReturnType<typeof readProcess>>;

/** null before the firm is set up. */
export async function readProcess(reader: Reader, now: Date) {
  const firm = await findFirm(reader);
  if (!firm) return null;
  const terms = await datedTerms(reader);
  const term = (clock: Clock): Term => termAt(terms, 'missed', clock, now.toISOString());
  return {
    firm: firm.name,
    phone: firm.phone,
    email: firm.email,
    address: firm.address,
    terms: { acknowledge: term('acknowledge'), triage: term('triage'), visit: term('visit'), decision: term('decision') },
    ...(await afterRules(reader)),
  };
}
