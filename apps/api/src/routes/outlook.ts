// What a change still to come would mean: figured when asked, kept only when the owner says so.
import type { FastifyInstance } from 'fastify';
import { outlookRoutes as routes, outlookTables as pages } from '@backsight/contract/liability/outlook';
import { refuse } from '@backsight/domain/shared/outcome';
import { dropOutlook, keepOutlook, readKeptOutlooks } from '@backsight/usecases/liability/outlook/keepOutlook';
import { readOutlook } from '@backsight/usecases/liability/outlook/readOutlook';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';
import { mountPage } from '../http/table.ts';

/** The past is as known at an instant; of what is still to come nothing is known. */
const pastOf = (asOf: string | undefined, now: Date): Date | null => {
  const at = asOf === undefined ? now : new Date(asOf);
  return at <= now ? at : null;
};
const notYet = () => refuse('outlook-not-yet', {}, 'asOf');

export function outlookApi(app: FastifyInstance, services: Services): void {
  mountPage(app, services, pages.read, async ({ read, query: { seed, asOf, ...scenario }, now }) => {
    const at = pastOf(asOf, now);
    return at ? readOutlook(read, { scenario, seed, asOf: at }) : notYet();
  });
  mountPage(app, services, pages.kept, async ({ read }) => ({ items: await readKeptOutlooks(read) }));
  mount(app, services, routes.keep, async ({ act, body: { id, name, seed, asOf, ...scenario }, now }) => {
    const at = pastOf(asOf, now);
    return at ? act(keepOutlook, { id, name, scenario, seed, asOf: at }) : notYet();
  });
  mount(app, services, routes.remove, ({ act, params }) => act(dropOutlook, params));
}
