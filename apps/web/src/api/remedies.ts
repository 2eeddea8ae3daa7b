// Calls about putting a callback right.
import { keepPreviousData, queryOptions } from '@tanstack/react-query';
import { remedyRoutes as routes } from '@backsight/contract/callbacks/remedies';
import type { BodyOf, QueryOf } from '@backsight/contract/route';
import { call } from './call.ts';

export const puttingRightQuery = (id: string) =>
  queryOptions({ queryKey: ['callbacks', id, 'right'], queryFn: ({ signal }) => call(routes.puttingRight, { params: { id }, signal }) });
export const lookedAgainQuery = (id: string) =>
  queryOptions({ queryKey: ['callbacks', id, 'visits'], queryFn: ({ signal }) => call(routes.visits, { params: { id }, signal }) });
export const conflictsQuery = (id: string, query: QueryOf<typeof routes.conflicts>) =>
  queryOptions({
    queryKey: ['callbacks', id, 'conflicts', query],
    queryFn: ({ signal }) => call(routes.conflicts, { params: { id }, query, signal }),
    placeholderData: keepPreviousData,
  });

type Of<B> = B & { id: string };
const split = <B extends object>({ id, ...body }: Of<B>) => ({ params: { id }, body: body as unknown as B });

export const addEstimate = (sent: Of<BodyOf<typeof routes.addEstimate>>) => call(routes.addEstimate, split(sent));
export const amendRemedy = (sent: Of<BodyOf<typeof routes.amend>>) => call(routes.amend, split(sent));
export const offerRemedy = (sent: Of<BodyOf<typeof routes.offer>>) => call(routes.offer, split(sent));
export const endOffer = (sent: Of<BodyOf<typeof routes.endOffer>>) => call(routes.endOffer, split(sent));
export const issueRelease = ({ id }: { id: string }) => call(routes.release, { params: { id }, body: {} });
export const notifyInsurer = (sent: Of<BodyOf<typeof routes.notify>>) => call(routes.notify, split(sent));
export const namePolicy = (sent: Of<BodyOf<typeof routes.namePolicy>>) => call(routes.namePolicy, split(sent));
export const openCase = (sent: Of<BodyOf<typeof routes.openCase>>) => call(routes.openCase, split(sent));
export const endCase = (sent: Of<BodyOf<typeof routes.endCase>>) => call(routes.endCase, split(sent));
export const payCase = (sent: Of<BodyOf<typeof routes.payCase>>) => call(routes.payCase, split(sent));
export const reverseEntry = (sent: Of<BodyOf<typeof routes.reverse>>) => call(routes.reverse, split(sent));
