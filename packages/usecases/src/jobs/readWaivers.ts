// Charges that were waived, for the owner.
import type { Reader } from '@backsight/store/database';
import { listWaivers } from '@backsight/store/jobs/waivers';

export const readWaivers = async (reader: Reader) => ({
  items: (await listWaivers(reader)).map((one) => ({ ...one, at: one.at.toISOString() })),
});
