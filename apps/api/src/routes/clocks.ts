// Clocks of callbacks, the on-call list and alerts of danger, legal papers and injuries.
import type { FastifyInstance } from 'fastify';
import { clockRoutes } from '@backsight/contract/callbacks/clocks';
import { onCallRoutes } from '@backsight/contract/callbacks/onCall';
import { refuse } from '@backsight/domain/shared/outcome';
import { answerPaper, noteInjury, reportInjury, setPaperDays, tickSameDay } from '@backsight/usecases/callbacks/legalPapers';
import { addDuty, readOnCall, removeDuty } from '@backsight/usecases/callbacks/onCallList';
import { pauseCallback, resumeCallback } from '@backsight/usecases/callbacks/pauses';
import { readClocks } from '@backsight/usecases/callbacks/readClocks';
import { readDanger } from '@backsight/usecases/callbacks/readDanger';
import { answerDanger, markSafety } from '@backsight/usecases/callbacks/safety';
import { readTerms, setTerm } from '@backsight/usecases/callbacks/terms';
import type { Actor } from '@backsight/usecases/run';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

const rolesOf = (actor: Actor) => (actor.kind === 'person' ? actor.roles : []);
const none = () => refuse('not-found', { thing: 'callback' });

export function clocksApi(app: FastifyInstance, services: Services): void {
  mount(app, services, clockRoutes.terms, ({ read, now }) => readTerms(read, now));
  mount(app, services, clockRoutes.setTerm, ({ act, body }) => act(setTerm, body));
  mount(
    app,
    services,
    clockRoutes.ofCallback,
    async ({ read, params, actor, now }) => (await readClocks(read, { id: params.id, roles: rolesOf(actor), now })) ?? none(),
  );
  mount(app, services, clockRoutes.pause, ({ act, params, body }) => act(pauseCallback, { id: params.id, ...body }));
  mount(app, services, clockRoutes.resume, ({ act, params, body }) => act(resumeCallback, { id: params.id, ...body }));
  mount(app, services, clockRoutes.safety, ({ act, params, body }) => act(markSafety, { id: params.id, ...body }));
  mount(app, services, clockRoutes.tick, ({ act, params, body }) => act(tickSameDay, { id: params.id, ...body }));
  mount(app, services, clockRoutes.setPaper, ({ act, params, body }) => act(setPaperDays, { id: params.id, ...body }));
  mount(app, services, clockRoutes.answerPaper, ({ act, params, body }) => act(answerPaper, { id: params.id, ...body }));
  mount(app, services, clockRoutes.injury, ({ act, params, body }) => act(noteInjury, { id: params.id, ...body }));
  mount(app, services, clockRoutes.reportInjury, ({ act, params, body }) => act(reportInjury, { id: params.id, ...body }));
  mount(app, services, onCallRoutes.list, ({ read, now }) => readOnCall(read, now));
  mount(app, services, onCallRoutes.add, ({ act, body }) => act(addDuty, body));
  mount(app, services, onCallRoutes.remove, ({ act, params }) => act(removeDuty, params));
  mount(app, services, onCallRoutes.danger, async ({ read, params, actor, now }) => {
    const personId = actor.kind === 'person' ? actor.id : '';
    return (await readDanger(read, { id: params.id, personId, roles: rolesOf(actor), now })) ?? none();
  });
  mount(app, services, onCallRoutes.answer, ({ act, params }) => act(answerDanger, params));
}
