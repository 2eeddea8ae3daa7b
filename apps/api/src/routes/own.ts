// What people keep about their own work, and the calendar behind a private address.
import type { FastifyInstance } from 'fastify';
import { calendarRoutes, educationRoutes, mileageRoutes } from '@backsight/contract/people/own';
import { keptSearchRoutes } from '@backsight/contract/people/keptSearches';
import { closeFeed, openFeed, readFeed, readFeedState } from '@backsight/usecases/people/calendarFeed';
import { addEducation, readCertificate, readEducation, withdrawEducation } from '@backsight/usecases/people/education';
import { changeMileageRate, enterMileage, exportMileage, readMileage } from '@backsight/usecases/people/mileage';
import { deleteSearch, keepSearch, readKeptSearches, renameSearch } from '@backsight/usecases/people/keptSearches';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

const fileName = (name: string): string => name.replace(/[^\w. -]/g, '_');

export function ownApi(app: FastifyInstance, services: Services): void {
  const directory = services.config.dataDir;
  mount(app, services, educationRoutes.list, ({ read, params, actor, now }) => readEducation(read, params.id, { actor, now }));
  mount(app, services, educationRoutes.add, ({ act, params, body }) => act(addEducation, { ...body, personId: params.id, directory }));
  mount(app, services, educationRoutes.withdraw, ({ act, params }) => act(withdrawEducation, params));
  mount(app, services, educationRoutes.certificate, async ({ read, params, actor, reply }) => {
    const file = await readCertificate(read, { id: params.id, actor, directory });
    if (!file.ok) return file;
    reply.type(file.value.mediaType).header('content-disposition', `attachment; filename="${fileName(file.value.name)}"`);
    return file.value.bytes;
  });
  mount(app, services, keptSearchRoutes.list, ({ read, actor }) => readKeptSearches(read, actor));
  mount(app, services, keptSearchRoutes.keep, ({ act, body }) => act(keepSearch, body));
  mount(app, services, keptSearchRoutes.rename, ({ act, params, body }) => act(renameSearch, { ...params, ...body }));
  mount(app, services, keptSearchRoutes.remove, ({ act, params }) => act(deleteSearch, params));
  mount(app, services, mileageRoutes.list, ({ read, query, actor, now }) => readMileage(read, query, { actor, now }));
  mount(app, services, mileageRoutes.export, async ({ read, query, actor, now, reply }) => {
    const table = await exportMileage(read, query, { actor, now });
    if (!table.ok) return table;
    reply
      .type('text/csv; charset=utf-8; header=present')
      .header('content-disposition', `attachment; filename="miles-${query.from}-${query.to}.csv"`);
    return table.value;
  });
  mount(app, services, mileageRoutes.enter, ({ act, params, body }) => act(enterMileage, { ...body, personId: params.id }));
  mount(app, services, mileageRoutes.rate, ({ act, body }) => act(changeMileageRate, body));
  mount(app, services, calendarRoutes.state, ({ read, request }) => readFeedState(read, request.session!.personId));
  mount(app, services, calendarRoutes.open, ({ act }) => act(openFeed, { publicUrl: services.config.publicUrl }));
  mount(app, services, calendarRoutes.close, ({ act }) => act(closeFeed, {}));
}

/** The calendar itself, for calendar programs: the secret in the address is the only key, and is never logged. */
export function calendarFeeds(app: FastifyInstance, services: Services): void {
  const options = { logLevel: 'error' as const, config: { rateLimit: { max: 60, timeWindow: '1 minute' } }, schema: { hide: true } };
  app.get('/calendar/:file', options, async (request, reply) => {
    const file = String((request.params as { file?: unknown }).file ?? '');
    const token = /^([\w-]{43})\.ics$/.exec(file)?.[1];
    const feed = token ? await readFeed(services.database.read, token, services.clock()) : null;
    reply.headers({ 'referrer-policy': 'no-referrer', 'x-robots-tag': 'noindex', 'cache-control': 'private, no-cache' });
    if (!feed) return reply.code(404).type('text/plain; charset=utf-8').send('There is no calendar under this address any more.\n');
    reply.header('etag', feed.etag);
    if (request.headers['if-none-match']?.split(',').some((tag) => tag.trim() === feed.etag)) return reply.code(304).send();
    return reply.type('text/calendar; charset=utf-8; method=PUBLISH').send(feed.text);
  });
}
