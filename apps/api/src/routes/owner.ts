// The owner's page with the rows behind its numbers, and the claim windows that are still open.
import type { FastifyInstance } from 'fastify';
import { ownerTables as pages } from '@backsight/contract/liability/ownerTables';
import { windowTables as windows } from '@backsight/contract/liability/windows';
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
import type { Services } from '../http/services.ts';
import { mountPage } from '../http/table.ts';

/** Files for the owner alone are counted for owners only. */
const sees = (actor: Actor): boolean => actor.kind === 'person' && actor.roles.includes('owner');

export function ownerApi(app: FastifyInstance, services: Services): void {
  mountPage(app, services, pages.page, ({ read, actor, now }, every) => readOwner(read, { now, every, seeOwnerOnly: sees(actor) }));
  mountPage(app, services, pages.entries, ({ read, actor, query }, every) =>
    readEntries(read, { ...query, every, seeOwnerOnly: sees(actor) }),
  );
  mountPage(app, services, pages.openCallbacks, ({ read, actor, now, query }, every) =>
    readOpenCallbacks(read, { ...query, now, every, seeOwnerOnly: sees(actor) }),
  );
  mountPage(app, services, pages.callbacks, ({ read, actor, now, query }, every) =>
    readCallbacksOfMonth(read, { ...query, now, every, seeOwnerOnly: sees(actor) }),
  );
  mountPage(app, services, pages.overrides, ({ read, query }, every) => readOverrides(read, { ...query, every }));
  mountPage(app, services, pages.held, ({ read, actor }) => readHeld(read, sees(actor)));
  mountPage(app, services, pages.cash, ({ read, actor, now }) => readCash(read, { now, seeOwnerOnly: sees(actor) }));
  mountPage(app, services, windows.page, ({ read, actor, now }) => readWindows(read, { now, seeOwnerOnly: sees(actor) }));
  mountPage(app, services, windows.jobs, ({ read, actor, now, query }, every) =>
    readWindowJobs(read, { ...query, now, every, seeOwnerOnly: sees(actor) }),
  );
  mountPage(app, services, windows.unsignedStarts, ({ read, actor, now, query }, every) =>
    readUnsignedStarts(read, { ...query, now, every, seeOwnerOnly: sees(actor) }),
  );
}
