// The outbox.
import type { FastifyInstance } from 'fastify';
import { mailRoutes as routes } from '@backsight/contract/mail';
import { readOutbox } from '@backsight/usecases/mail/readOutbox';
import { tryMailAgain } from '@backsight/usecases/mail/tryAgain';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

export function mailApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.list, ({ read, query }) => readOutbox(read, query.before ?? null, query.limit));
  mount(app, services, routes.again, ({ act, params }) => act(tryMailAgain, { id: params.id }));
}
