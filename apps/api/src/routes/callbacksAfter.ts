// Letters about callbacks, their assessment, and what follows a closing.
import type { FastifyInstance } from 'fastify';
import { afterRoutes as routes } from '@backsight/contract/callbacks/after';
import { refuse } from '@backsight/domain/shared/outcome';
import { appealForThem, decideOnAnAppeal } from '@backsight/usecases/callbacks/appeal';
import { assessCallback } from '@backsight/usecases/callbacks/assessCallback';
import { answerAfterCheck } from '@backsight/usecases/callbacks/afterCheck';
import { draftLetter, lookAtLetter } from '@backsight/usecases/callbacks/draftLetter';
import { callbackLetter } from '@backsight/usecases/callbacks/letterPaper';
import { readAfter, readAfterRules, readAnswerCounts, readLetters, setAfterRules } from '@backsight/usecases/callbacks/readAfter';
import { writeLetter } from '@backsight/usecases/callbacks/writeLetter';
import type { Actor } from '@backsight/usecases/run';
import { mount } from '../http/mount.ts';
import { sendPdf } from '../http/pdf.ts';
import { problemOf } from '../http/problem.ts';
import type { Services } from '../http/services.ts';

const rolesOf = (actor: Actor) => (actor.kind === 'person' ? actor.roles : []);
const none = () => refuse('not-found', { thing: 'callback' });

export function callbacksAfterApi(app: FastifyInstance, services: Services): void {
  const { publicUrl } = services.config;
  mount(
    app,
    services,
    routes.letters,
    async ({ read, params, actor }) => (await readLetters(read, { id: params.id, roles: rolesOf(actor) })) ?? none(),
  );
  mount(app, services, routes.letterPaper, ({ read, params, actor, reply }) => sendPdf(reply, callbackLetter(read, { ...params, actor })));
  mount(app, services, routes.draft, ({ read, params, query, actor, now }) =>
    draftLetter(read, { ...params, way: query.way ?? null, names: query.names === 'yes', publicUrl, actor, now }),
  );
  mount(app, services, routes.look, async ({ read, params, body, actor, now }) => {
    const looked = await lookAtLetter(read, { ...params, ...body, actor, now });
    if (!looked.ok) return looked;
    const { refused, ...shown } = looked.value;
    return { ...shown, problem: refused ? problemOf(refused).title : null };
  });
  mount(app, services, routes.write, ({ act, params, body }) => act(writeLetter, { ...params, ...body, publicUrl }));
  mount(app, services, routes.assess, ({ act, params, body }) => act(assessCallback, { id: params.id, ...body }));
  mount(
    app,
    services,
    routes.after,
    async ({ read, params, actor, now }) => (await readAfter(read, { id: params.id, roles: rolesOf(actor), now })) ?? none(),
  );
  mount(app, services, routes.check, ({ act, params, body }) => act(answerAfterCheck, { id: params.id, ...body }));
  mount(app, services, routes.appeal, ({ act, params, body }) => act(appealForThem, { id: params.id, ...body }));
  mount(app, services, routes.decideAppeal, ({ act, params, body }) => act(decideOnAnAppeal, { id: params.id, ...body }));
  mount(app, services, routes.rules, ({ read }) => readAfterRules(read));
  mount(app, services, routes.setRules, ({ act, body, version }) => act(setAfterRules, { ...body, version }));
  mount(app, services, routes.answers, ({ read, now }) => readAnswerCounts(read, now));
}
