// Calls about agreement texts and the rules of states.
import { queryOptions } from '@tanstack/react-query';
import { agreementTextsRoutes as routes } from '@backsight/contract/agreementTexts';
import type { BodyOf } from '@backsight/contract/route';
import { rulePacksRoutes } from '@backsight/contract/rulePacks';
import { call } from './call.ts';

export const textsQuery = queryOptions({ queryKey: ['agreement-texts'], queryFn: ({ signal }) => call(routes.texts, { signal }) });
export const textQuery = (id: string) =>
  queryOptions({ queryKey: ['agreement-texts', id], queryFn: ({ signal }) => call(routes.text, { params: { id }, signal }) });
export const textComparisonQuery = (id: string, withId: string) =>
  queryOptions({
    queryKey: ['agreement-texts', id, 'against', withId],
    queryFn: ({ signal }) => call(routes.compare, { params: { id }, query: { with: withId }, signal }),
  });
export const previewText = (body: BodyOf<typeof routes.preview>) => call(routes.preview, { body });
export const draftText = (body: BodyOf<typeof routes.draft>) => call(routes.draft, { body, key: body.id });
export const changeText = ({ id, version, ...body }: BodyOf<typeof routes.change> & { id: string; version: number }) =>
  call(routes.change, { params: { id }, body, version });
export const discardText = ({ id, version }: { id: string; version: number }) => call(routes.discard, { params: { id }, version });
export const approveText = ({ id, key, ...body }: BodyOf<typeof routes.approve> & { id: string; key: string }) =>
  call(routes.approve, { params: { id }, body, key });
export const withdrawText = ({ id, key }: { id: string; key: string }) => call(routes.withdraw, { params: { id }, body: {}, key });
export const recordReview = ({ textId, key, ...body }: BodyOf<typeof routes.review> & { textId: string; key: string }) =>
  call(routes.review, { params: { id: textId }, body, key });

export const rulePacksQuery = queryOptions({ queryKey: ['rule-packs'], queryFn: ({ signal }) => call(rulePacksRoutes.packs, { signal }) });
export const chooseStates = (states: string[]) => call(rulePacksRoutes.choose, { body: { states } });
