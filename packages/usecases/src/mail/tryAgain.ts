// Puts a mail that is stuck first in line again.
import { accept, refuse } from '@backsight/domain/shared/outcome';
import { tryAgainAt } from '@backsight/store/mail';
import type { Act } from '../run.ts';

export const tryMailAgain: Act<{ id: string }, { id: string }> = {
  operation: 'mail.try_again',
  run: async (work, { id }) => {
    const state = await tryAgainAt(work.tx, id, work.now);
    if (state === null) return refuse('not-found', { thing: 'mail' });
    if (state !== 'waiting' && state !== 'given_up') return refuse('mail-not-stuck', { state });
    await work.did('mail', id, { stateBefore: state });
    return accept({ id });
  },
};
