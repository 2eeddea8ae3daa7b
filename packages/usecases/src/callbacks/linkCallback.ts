// Two callbacks of a property turn out to belong together, or not to.
import { accept } from '@backsight/domain/shared/outcome';
import type { Act } from '../run.ts';
import { withCallback, type Done } from './steps/callback.ts';
import { linkTo, unlink, type LinkTo } from './steps/linkCallbacks.ts';

export const linkCallback: Act<{ id: string; link: LinkTo; words?: string }, Done> = {
  operation: 'callbacks.link',
  run: (work, { id, link, words }) =>
    withCallback(work, id, async (callback) => {
      const linked = await linkTo(work, callback, link, words);
      return linked.ok ? accept(linked.value.done) : linked;
    }),
};

export const unlinkCallback: Act<{ id: string; words: string }, Done> = {
  operation: 'callbacks.unlink',
  run: (work, { id, words }) => withCallback(work, id, (callback) => unlink(work, callback, words)),
};
