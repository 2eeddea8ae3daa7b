// Fails a test with the messages of a check, one a line.
import { expect } from 'vitest';

/** Passes when the check found nothing. */
export const expectNone = (messages: readonly string[]): void => {
  if (messages.length > 0) expect.fail(`\n${messages.join('\n')}`);
};
