// The firm: its set-up, settings, offices, closed days, insurance and lent authority.
import type { FastifyInstance } from 'fastify';
import { firmRoutes as routes, setUpRoutes } from '@backsight/contract/firm';
import { endLoan, lendAuthority, setDiscountLimit, setLimit } from '@backsight/usecases/firm/authority';
import { changeFirm } from '@backsight/usecases/firm/changeFirm';
import { changeOffice } from '@backsight/usecases/firm/changeOffice';
import { closeDay, openDay } from '@backsight/usecases/firm/closedDays';
import { addPolicy, changePolicy, endPolicy } from '@backsight/usecases/firm/policies';
import { readAuthority, readFirm } from '@backsight/usecases/firm/readSettings';
import { setUp, setUpNeeded } from '@backsight/usecases/firm/setUp';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

export function firmApi(app: FastifyInstance, services: Services): void {
  mount(app, services, setUpRoutes.state, async ({ read }) => ({ needed: await setUpNeeded(read) }));
  mount(app, services, setUpRoutes.setUp, ({ act, body }) => act(setUp(services.setUp), body));
  mount(app, services, routes.firm, ({ read, now }) => readFirm(read, now));
  mount(app, services, routes.change, ({ act, body, version }) => act(changeFirm, { version, edit: body }));
  mount(app, services, routes.changeOffice, ({ act, body, params }) => act(changeOffice, { id: params.id, edit: body }));
  mount(app, services, routes.closeDay, ({ act, body, params }) => act(closeDay, { day: params.day, name: body.name }));
  mount(app, services, routes.openDay, ({ act, params }) => act(openDay, params));
  mount(app, services, routes.authority, ({ read, now }) => readAuthority(read, now));
  mount(app, services, routes.addPolicy, ({ act, body }) => act(addPolicy, body));
  mount(app, services, routes.endPolicy, ({ act, body, params }) => act(endPolicy, { ...body, id: params.id }));
  mount(app, services, routes.changePolicy, ({ act, body, params }) => act(changePolicy, { ...body, id: params.id }));
  mount(app, services, routes.setDiscountLimit, ({ act, body, params }) => act(setDiscountLimit, { ...params, ...body }));
  mount(app, services, routes.setLimit, ({ act, body, params }) => act(setLimit, { role: params.role, limitCents: body.limitCents }));
  mount(app, services, routes.lend, ({ act, body }) => act(lendAuthority, body));
  mount(app, services, routes.endLoan, ({ act, params }) => act(endLoan, params));
}
