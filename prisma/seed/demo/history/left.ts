// How much of the demo firm's past is still to be loaded. The service asks it at every start, so it brings nothing of the past along.
import type { Reader } from '@backsight/store/database';

/** The counter of how many jobs of the past were looked at, from 1001 on; it is gone when the past is whole. */
export const BEHIND = 'demo_past';

/** Where the counter stands; null when nothing is left. */
export const nextPastNumber = async (reader: Reader): Promise<number | null> => {
  const [row] = await reader.rows<{ next: number }>('SELECT next FROM number_counter WHERE kind = $1', [BEHIND]);
  return row?.next ?? null;
};
