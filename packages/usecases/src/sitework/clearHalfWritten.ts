// Removes halves of files that a service left behind which was killed while it wrote them.
import { clearHalfWritten as clear } from '@backsight/store/sitework/files';

/** Answers how many. */
export const clearHalfWritten = ({ directory, now }: { directory: string; now: Date }): Promise<number> => clear(directory, now);
