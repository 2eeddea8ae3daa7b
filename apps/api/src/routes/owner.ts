// The owner's page with the rows behind its numbers, and the claim windows that are still open.
import type { FastifyInstance } from 'fastify';
import { ownerRoutes as routes } from '@backsight/contract/liability/owner';
import { windowRoutes } from '@backsight/contract/liability/windows';
import { readOwner } from '@backsight/usecases/liability/owner/readOwner';
import {
  readCallbacksOfMonth,
  readCash,
  readEntries,
  readHeld,
  readOpenCallbacks,
  readOverrides,
} from '@backsight/usecases/liability/owner/readRows';
import { readUnsignedStarts, readWindowJobs, readWindows } from '@backsight/usecases/liability/owner/readWindows';
import type { Actor } from '@backsight/usecases/run';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

/** Files for the owner alone are counted for owners only. */
const sees = (actor: Actor): boolean => actor.kind === 'person' && actor.roles.includes('owner');

export function ownerApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.page, ({ read, actor, now }) => readOwner(read, { now, seeOwnerOnly: sees(actor) }));
  mount(app, services, routes.entries, ({ read, actor, query }) => readEntries(read, { ...query, seeOwnerOnly: sees(actor) }));
  mount(app, services, routes.openCallbacks, ({ read, actor, now, query }) =>
    readOpenCallbacks(read, { ...query, now, seeOwnerOnly: sees(actor) }),
  );
  mount(app, services, routes.callbacks, ({ read, actor, now, query }) =>
    readCallbacksOfMonth(read, { ...query, now, seeOwnerOnly: sees(actor) }),
  );
  mount(app, services, routes.overrides, ({ read, query }) => readOverrides(read, query));
  mount(app, services, routes.held, ({ read, actor }) => readHeld(read, sees(actor)));
  mount(app, services, routes.cash, ({ read, actor, now }) => readCash(read, { now, seeOwnerOnly: sees(actor) }));
  mount(app, services, windowRoutes.page, ({ read, actor, now }) => readWindows(read, { now, seeOwnerOnly: sees(actor) }));
  mount(app, services, windowRoutes.jobs, ({ read, actor, now, query }) =>
    readWindowJobs(read, { ...query, now, seeOwnerOnly: sees(actor) }),
  );
  mount(app, services, windowRoutes.unsignedStarts, ({ read, actor, now, query }) =>
    readUnsignedStarts(read, { ...query, now, seeOwnerOnly: sees(actor) }),
  );
}
