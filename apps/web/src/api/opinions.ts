// Calls about opinions of callbacks, accounts of the pair, and what stands around a callback.
import { queryOptions } from '@tanstack/react-query';
import { backgroundRoutes } from '@backsight/contract/callbacks/background';
import { errorKindRoutes, opinionRoutes as routes } from '@backsight/contract/callbacks/opinions';
import type { BodyOf } from '@backsight/contract/route';
import { addressOf, call } from './call.ts';

export const opinionsQuery = (id: string) =>
  queryOptions({ queryKey: ['callbacks', id, 'opinions'], queryFn: ({ signal }) => call(routes.one, { params: { id }, signal }) });
export const backgroundQuery = (id: string) =>
  queryOptions({
    queryKey: ['callbacks', id, 'background'],
    queryFn: ({ signal }) => call(backgroundRoutes.one, { params: { id }, signal }),
  });
/** Where the facts part of the file is read on paper. */
export const factsAddress = (id: string): string => addressOf(backgroundRoutes.facts.path, { id });

type Of<B> = B & { id: string };
const split = <B extends object>({ id, ...body }: Of<B>) => ({ params: { id }, body: body as unknown as B });

export const confirmConclusion = (sent: Of<BodyOf<typeof routes.confirm>>) => call(routes.confirm, split(sent));
export const askAccount = (sent: Of<BodyOf<typeof routes.ask>>) => call(routes.ask, split(sent));
export const markForCounsel = (sent: Of<BodyOf<typeof routes.mark>>) => call(routes.mark, split(sent));

export const myAccountQuery = (id: string) =>
  queryOptions({ queryKey: ['my-account', id], queryFn: ({ signal }) => call(routes.myAccount, { params: { id }, signal }) });
export const giveAccount = (sent: Of<BodyOf<typeof routes.give>>) => call(routes.give, split(sent));

export const errorKindsQuery = queryOptions({ queryKey: ['error-kinds'], queryFn: ({ signal }) => call(errorKindRoutes.one, { signal }) });
export const allowErrorKinds = (body: BodyOf<typeof errorKindRoutes.allow>) => call(errorKindRoutes.allow, { body });
