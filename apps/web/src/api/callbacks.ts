// Calls about callbacks, remedies and corrective actions.
import { keepPreviousData, queryOptions } from '@tanstack/react-query';
import { callbackRoutes as routes } from '@backsight/contract/callbacks';
import { actionRoutes } from '@backsight/contract/callbacks/actions';
import type { BodyOf } from '@backsight/contract/route';
import { call } from './call.ts';
import { noteSeen, seenVersion } from './seen.ts';

export type Intake = BodyOf<typeof routes.receive>;

export const foundJobsQuery = (q: string) =>
  queryOptions({
    queryKey: ['callbacks', 'jobs', q],
    queryFn: ({ signal }) => call(routes.jobs, { query: { q }, signal }),
    enabled: q.trim().length > 1,
    placeholderData: keepPreviousData,
  });
export const callbackQuery = (id: string) =>
  queryOptions({
    queryKey: ['callbacks', id],
    queryFn: async ({ signal }) => {
      const callback = await call(routes.one, { params: { id }, signal });
      noteSeen(id, callback.version);
      return callback;
    },
  });
export const evidenceQuery = (id: string) =>
  queryOptions({ queryKey: ['callbacks', id, 'evidence'], queryFn: ({ signal }) => call(routes.evidence, { params: { id }, signal }) });
export const actionsQuery = (revision?: string) =>
  queryOptions({
    queryKey: ['callbacks', 'actions', revision ?? 'all'],
    queryFn: ({ signal }) => call(actionRoutes.list, { query: revision ? { revision } : {}, signal }),
  });

export const receiveCallback = ({ key, ...body }: Intake & { key: string }) => call(routes.receive, { body, key });

type Of<B> = B & { id: string };
/** An act on a callback, held against the version that is shown. */
const split = <B extends object>({ id, ...body }: Of<B>) => ({ params: { id }, body: body as unknown as B, version: seenVersion(id) });
const anyway = <B extends object>({ id, ...body }: Of<B>) => ({ params: { id }, body: body as unknown as B });

type Said = { words?: string };
export const acknowledge = (sent: Of<Said>) => call(routes.acknowledge, split(sent));
export const addNote = (sent: Of<{ words: string }>) => call(routes.note, anyway(sent));
export const becomeCallback = (sent: Of<BodyOf<typeof routes.become>>) => call(routes.become, split(sent));
export const conclude = (sent: Of<BodyOf<typeof routes.conclude>>) => call(routes.conclude, split(sent));
export const setReserve = (sent: Of<BodyOf<typeof routes.reserve>>) => call(routes.reserve, split(sent));
export const clearCallback = (sent: Of<BodyOf<typeof routes.clear>>) => call(routes.clear, split(sent));
export const recover = (sent: Of<BodyOf<typeof routes.recover>>) => call(routes.recover, split(sent));
export const proposeRemedy = (sent: Of<BodyOf<typeof routes.propose>>) => call(routes.propose, split(sent));
export const decideRemedy = (sent: Of<BodyOf<typeof routes.decide>>) => call(routes.decide, split(sent));
export const payRemedy = (sent: Of<BodyOf<typeof routes.pay>>) => call(routes.pay, split(sent));
export const finishRemedy = (sent: Of<Said>) => call(routes.finish, split(sent));
export type ChosenVisit = BodyOf<typeof routes.bookVisit>;
export const visitStartsQuery = (id: string, fromDay: string) =>
  queryOptions({
    queryKey: ['starts', 'remedy', id, fromDay],
    queryFn: ({ signal }) => call(routes.visitStarts, { params: { id }, query: { fromDay }, signal }),
    placeholderData: keepPreviousData,
    staleTime: 15_000,
  });
export const bookVisit = (sent: Of<ChosenVisit>) => call(routes.bookVisit, split(sent));
export const closeCallback = (sent: Of<Said>) => call(routes.close, split(sent));
export const reopenCallback = (sent: Of<{ words: string }>) => call(routes.reopen, split(sent));
export const createAction = (body: BodyOf<typeof actionRoutes.create>) => call(actionRoutes.create, { body });
export const linkRevision = (sent: Of<{ revisionId: string }>) => call(actionRoutes.link, split(sent));
export const draftForAction = (sent: Of<BodyOf<typeof actionRoutes.draft>>) => call(actionRoutes.draft, split(sent));
