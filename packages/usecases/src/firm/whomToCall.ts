// Whom a client calls whose link does not help: name and phone number of the firm.
import type { Reader } from '@backsight/store/database';
import { findFirm } from '@backsight/store/firm';

export type WhomToCall = { firm: string; firmPhone: string };

/** null before the firm is set up. */
export async function whomToCall(reader: Reader): Promise<WhomToCall | null> {
  const firm = await findFirm(reader);
  return firm && { firm: firm.name, firmPhone: firm.phone };
}
