// Looking through callbacks: lists, groups, a table, and the steps that one may be traced to.
import type { FastifyInstance } from 'fastify';
import { likelyRoutes } from '@backsight/contract/callbacks/likely';
import { callbackListRoutes as routes } from '@backsight/contract/callbacks/lists';
import { exportCallbacks } from '@backsight/usecases/callbacks/exportCallbacks';
import { groupCallbacks, listCallbacks } from '@backsight/usecases/callbacks/readCallbacks';
import { readLikely } from '@backsight/usecases/callbacks/readLikely';
import { refuse } from '@backsight/domain/shared/outcome';
import type { Actor } from '@backsight/usecases/run';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

const rolesOf = (actor: Actor) => (actor.kind === 'person' ? actor.roles : []);

export function callbackListsApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.list, ({ read, query: { which, before, ...find }, actor, now }) =>
    listCallbacks(read, { which, find, before: before ?? null, roles: rolesOf(actor), now }),
  );
  mount(app, services, routes.groups, ({ read, query: { which, by, ...find }, actor, now }) =>
    groupCallbacks(read, { which, find, by, roles: rolesOf(actor), now }),
  );
  mount(app, services, routes.table, async ({ read, query: { which, opinions, money, ...find }, actor, now, reply }) => {
    const asks = { opinions: opinions === 'yes', money: money === 'yes' };
    const table = await exportCallbacks(read, { which, find, ...asks, roles: rolesOf(actor), now });
    if (table.ok)
      reply.type('text/csv; charset=utf-8; header=present').header('content-disposition', 'attachment; filename="callbacks.csv"');
    return table;
  });
  mount(
    app,
    services,
    likelyRoutes.read,
    async ({ read, params, query, actor, now }) =>
      (await readLikely(read, { id: params.id, words: query.q ?? null, roles: rolesOf(actor), now })) ??
      refuse('not-found', { thing: 'callback' }),
  );
}
