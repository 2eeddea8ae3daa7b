// What is on file about people: licenses, qualifications, hours, absences, pairing rules, where they must not go.
import type { FastifyInstance } from 'fastify';
import { personFileRoutes as routes } from '@backsight/contract/people/file';
import { addLicense, addQualification, endLicense, endQualification } from '@backsight/usecases/people/credentials';
import { addBar, addPairing, endPairing, liftBar } from '@backsight/usecases/people/pairing';
import { findBarChoices, listPairing, readLapsing, readPersonFile } from '@backsight/usecases/people/readFile';
import { addAbsence, decideAboutAbsence, withdrawAbsence } from '@backsight/usecases/people/absences';
import { addException, setHours, withdrawException } from '@backsight/usecases/people/times';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

export function personFileApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.file, ({ read, params, actor, now }) => readPersonFile(read, params.id, { actor, now }));
  mount(app, services, routes.addLicense, ({ act, body, params }) => act(addLicense, { ...body, personId: params.id }));
  mount(app, services, routes.endLicense, ({ act, body, params }) => act(endLicense, { id: params.id, untilDay: body.untilDay }));
  mount(app, services, routes.addQualification, ({ act, body, params }) => act(addQualification, { ...body, personId: params.id }));
  mount(app, services, routes.endQualification, ({ act, body, params }) =>
    act(endQualification, { id: params.id, untilDay: body.untilDay }),
  );
  mount(app, services, routes.setHours, ({ act, body, params }) => act(setHours, { ...body, personId: params.id }));
  mount(app, services, routes.addAbsence, ({ act, body, params }) => act(addAbsence, { ...body, personId: params.id }));
  mount(app, services, routes.decideAbsence, ({ act, body, params }) => act(decideAboutAbsence, { ...body, id: params.id }));
  mount(app, services, routes.addException, ({ act, body, params }) => act(addException, { ...body, personId: params.id }));
  mount(app, services, routes.withdrawException, ({ act, params }) => act(withdrawException, params));
  mount(app, services, routes.withdrawAbsence, ({ act, params }) => act(withdrawAbsence, params));
  mount(app, services, routes.addBar, ({ act, body, params }) => act(addBar, { ...body, personId: params.id }));
  mount(app, services, routes.liftBar, ({ act, params }) => act(liftBar, params));
  mount(app, services, routes.barChoices, ({ read, query }) => findBarChoices(read, query.kind, query.text));
  mount(app, services, routes.pairing, ({ read }) => listPairing(read));
  mount(app, services, routes.addPairing, ({ act, body }) => act(addPairing, body));
  mount(app, services, routes.endPairing, ({ act, params }) => act(endPairing, params));
  mount(app, services, routes.lapsing, ({ read, now, query }) => readLapsing(read, now, query.days));
}
