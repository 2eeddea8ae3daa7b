// Agreement texts and the rules of states that they are held against.
import type { FastifyInstance } from 'fastify';
import { agreementTextsRoutes as routes } from '@backsight/contract/agreementTexts';
import { rulePacksRoutes } from '@backsight/contract/rulePacks';
import { refuse } from '@backsight/domain/shared/outcome';
import { previewText, readText, readTextComparison, readTexts } from '@backsight/usecases/agreements/readTexts';
import { recordAttorneyApproval } from '@backsight/usecases/agreements/recordAttorneyApproval';
import { approveTextDraft, changeText, discardText, draftText, withdrawApprovedText } from '@backsight/usecases/agreements/texts';
import { chooseStates, readRulePacks } from '@backsight/usecases/firm/rulePacks';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

const noText = () => refuse('not-found', { thing: 'agreement text' });

export function agreementTextsApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.texts, ({ read, now }) => readTexts(read, now));
  mount(app, services, routes.text, async ({ read, params, now }) => (await readText(read, { id: params.id, now })) ?? noText());
  mount(
    app,
    services,
    routes.compare,
    async ({ read, params, query }) => (await readTextComparison(read, { id: params.id, withId: query.with })) ?? noText(),
  );
  mount(app, services, routes.preview, ({ read, body, now }) => previewText(read, { ...body, now }));
  mount(app, services, routes.draft, ({ act, body }) => act(draftText, body));
  mount(app, services, routes.change, ({ act, params, body, version }) => act(changeText, { ...body, id: params.id, version }));
  mount(app, services, routes.discard, ({ act, params, version }) => act(discardText, { id: params.id, version }));
  mount(app, services, routes.approve, ({ act, params, body }) => act(approveTextDraft, { ...body, id: params.id }));
  mount(app, services, routes.withdraw, ({ act, params }) => act(withdrawApprovedText, { id: params.id }));
  mount(app, services, routes.review, ({ act, params, body }) => act(recordAttorneyApproval, { ...body, textId: params.id }));
  mount(app, services, rulePacksRoutes.packs, ({ read, now }) => readRulePacks(read, now));
  mount(app, services, rulePacksRoutes.choose, ({ act, body }) => act(chooseStates, body));
}
