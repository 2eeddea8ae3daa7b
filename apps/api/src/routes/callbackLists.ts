// Looking through callbacks: the steps that one may be traced to.
import type { FastifyInstance } from 'fastify';
import { likelyRoutes } from '@backsight/contract/callbacks/likely';
import { readLikely } from '@backsight/usecases/callbacks/readLikely';
import { refuse } from '@backsight/domain/shared/outcome';
import type { Actor } from '@backsight/usecases/run';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

const rolesOf = (actor: Actor) => (actor.kind === 'person' ? actor.roles : []);

export function callbackListsApi(app: FastifyInstance, services: Services): void {
  mount(
    app,
    services,
    likelyRoutes.read,
    async ({ read, params, query, actor, now }) =>
      (await readLikely(read, { id: params.id, words: query.q ?? null, roles: rolesOf(actor), now })) ??
      refuse('not-found', { thing: 'callback' }),
  );
}
