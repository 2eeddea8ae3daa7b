// How the firm handles a complaint, for anybody to read: the steps, the times that it sets itself, who decides, and how to appeal.
import { CUSTOMARY_CLOCKS } from '@backsight/domain/callbacks/clocks';
import { afterRules } from '@backsight/store/callbacks/after';
import type { Reader } from '@backsight/store/database';
import { findFirm } from '@backsight/store/firm';

export type Process = Awaited<ReturnType<typeof readProcess>>;

/** null before the firm is set up. */
export async function readProcess(reader: Reader, _now: Date) {
  const firm = await findFirm(reader);
  if (!firm) return null;
  const { acknowledge, triage, decision } = CUSTOMARY_CLOCKS;
  return {
    firm: firm.name,
    phone: firm.phone,
    email: firm.email,
    address: firm.address,
    terms: { acknowledge, triage, decision, visit: { amount: 10, unit: 'businessDays' as const } },
    ...(await afterRules(reader)),
  };
}
