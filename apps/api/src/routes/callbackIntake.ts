// How callbacks come in: by the office, a mail or the client's link; their photos and links; advice in danger; answers to questions.
import type { FastifyInstance } from 'fastify';
import { intakeRoutes as routes } from '@backsight/contract/callbacks/intake';
import { refuse } from '@backsight/domain/shared/outcome';
import { whoseLink } from '@backsight/usecases/agreements/clientPage';
import { sendReportLink } from '@backsight/usecases/agreements/sendReportLink';
import { answerQuestion } from '@backsight/usecases/callbacks/answerQuestion';
import { addCallbackPhoto, addPhotoAsClient, readCallbackPhoto, storeCallbackPhoto } from '@backsight/usecases/callbacks/callbackPhotos';
import { changeJob } from '@backsight/usecases/callbacks/changeJob';
import { linkCallback, unlinkCallback } from '@backsight/usecases/callbacks/linkCallback';
import { readEarlier, readIntake, readStepsOfJob } from '@backsight/usecases/callbacks/readIntake';
import { reportAsClient } from '@backsight/usecases/callbacks/reportByLink';
import { approveAdvice, readAdvice } from '@backsight/usecases/callbacks/safetyAdvice';
import type { Actor } from '@backsight/usecases/run';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

const rolesOf = (actor: Actor) => (actor.kind === 'person' ? actor.roles : []);

export function callbackIntakeApi(app: FastifyInstance, services: Services): void {
  const { publicUrl } = services.config;
  mount(app, services, routes.earlier, ({ read, params, actor }) => readEarlier(read, { jobId: params.id, roles: rolesOf(actor) }));
  mount(app, services, routes.steps, ({ read, params }) => readStepsOfJob(read, params.id));
  mount(
    app,
    services,
    routes.came,
    async ({ read, params, actor }) =>
      (await readIntake(read, { id: params.id, roles: rolesOf(actor) })) ?? refuse('not-found', { thing: 'callback' }),
  );
  mount(app, services, routes.link, ({ act, params, body }) => act(linkCallback, { id: params.id, ...body }));
  mount(app, services, routes.changeJob, ({ act, params, body }) => act(changeJob, { id: params.id, ...body }));
  mount(app, services, routes.unlink, ({ act, params, body }) => act(unlinkCallback, { id: params.id, ...body }));
  mount(app, services, routes.answer, ({ act, params, body }) => act(answerQuestion, { id: params.id, ...body }));
  mount(app, services, routes.sendLink, ({ act, params, body }) => act(sendReportLink, { jobId: params.id, ...body, publicUrl }));
  mount(app, services, routes.advice, ({ read }) => readAdvice(read));
  mount(app, services, routes.approveAdvice, ({ act, params, body }) => act(approveAdvice, { ...params, ...body }));
  photoApi(app, services);
  clientApi(app, services);
}

function photoApi(app: FastifyInstance, services: Services): void {
  const { dataDir: directory } = services.config;
  mount(app, services, routes.addPhoto, async ({ act, read, params, body, actor }) => {
    const stored = await storeCallbackPhoto(read, { ...body, callbackId: params.id, actor, directory });
    return stored.ok ? act(addCallbackPhoto, stored.value) : stored;
  });
  mount(app, services, routes.photo, async ({ read, params, query, actor, reply }) => {
    const photo = await readCallbackPhoto(read, { ...params, as: query.size, roles: rolesOf(actor), directory });
    if (!photo.ok) return photo;
    reply.type(photo.value.mediaType);
    return photo.value.bytes;
  });
  mount(app, services, routes.original, async ({ read, params, actor, reply }) => {
    const photo = await readCallbackPhoto(read, { ...params, as: 'original', roles: rolesOf(actor), directory });
    if (!photo.ok) return photo;
    reply.type(photo.value.mediaType).header('content-disposition', `attachment; filename="photo-${params.photoId}"`);
    return photo.value.bytes;
  });
}

/** Without sign-in: the token is the only key, and the act is done as the client whose link it is. */
function clientApi(app: FastifyInstance, services: Services): void {
  const { runner, config } = services;
  mount(app, services, routes.report, async ({ read, now, body: { token, ...body }, request }) => {
    const whose = await whoseLink(read, token, now);
    return whose.ok ? reportAsClient(runner, { ...body, ...whose.value }, String(request.headers['idempotency-key'])) : whose;
  });
  mount(app, services, routes.reportPhoto, async ({ read, now, body: { token, ...body } }) => {
    const whose = await whoseLink(read, token, now);
    return whose.ok ? addPhotoAsClient({ reader: read, runner }, { ...body, whose: whose.value, directory: config.dataDir }) : whose;
  });
}
