// What the two of a pair saw and did, asked for and given before either reads anything of the other's.
import { askAccount, giveAccount } from '@backsight/usecases/callbacks/accounts';
import { actorOf, byId } from '../people.ts';
import type { Scene } from '../stage.ts';
import type { Case } from './case.ts';
import type { DemoContext } from './context.ts';

export const askPair =
  (c: Case, demo: DemoContext): Scene =>
  async (stage) => {
    for (const personId of [c.job.first, c.job.second])
      await stage.act(c.lead, askAccount, { id: c.id, requestId: stage.newId(), personId, publicUrl: demo.publicUrl });
  };

export const giveOf =
  (c: Case, who: 'first' | 'second', seen: string, did: string): Scene =>
  async (stage) =>
    void (await stage.act(actorOf(byId(c.job[who])), giveAccount, { id: c.id, accountId: stage.newId(), seen, did, further: false }));
