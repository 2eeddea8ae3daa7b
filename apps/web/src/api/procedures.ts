// Calls about the procedure book.
import { keepPreviousData, queryOptions } from '@tanstack/react-query';
import { proceduresRoutes as routes } from '@backsight/contract/procedures';
import { procedureTableRoutes as tables } from '@backsight/contract/procedures/table';
import type { BodyOf } from '@backsight/contract/route';
import { addressOf, call } from './call.ts';

export const bookQuery = queryOptions({ queryKey: ['procedures'], queryFn: ({ signal }) => call(routes.book, { signal }) });
export const coverageQuery = (jurisdiction: string | undefined) =>
  queryOptions({
    queryKey: ['procedures', 'coverage', jurisdiction ?? ''],
    queryFn: ({ signal }) => call(routes.coverage, { query: { jurisdiction }, signal }),
    placeholderData: keepPreviousData,
  });
export const coveragePaper = (jurisdiction: string): string => addressOf(routes.coveragePaper.path, {}, { jurisdiction });
export const dutiesQuery = queryOptions({
  queryKey: ['procedures', 'duties'],
  queryFn: ({ signal }) => call(routes.duties, { signal }),
  staleTime: Infinity,
});
export const mineQuery = queryOptions({ queryKey: ['procedures', 'mine'], queryFn: ({ signal }) => call(routes.mine, { signal }) });
export const procedureQuery = (id: string) =>
  queryOptions({ queryKey: ['procedures', id], queryFn: ({ signal }) => call(routes.procedure, { params: { id }, signal }) });
export const revisionQuery = (id: string) =>
  queryOptions({ queryKey: ['procedures', 'revision', id], queryFn: ({ signal }) => call(routes.revision, { params: { id }, signal }) });
export const comparisonQuery = (id: string) =>
  queryOptions({
    queryKey: ['procedures', 'comparison', id],
    queryFn: ({ signal }) => call(routes.comparison, { params: { id }, signal }),
  });
export const acknowledgementsQuery = (id: string) =>
  queryOptions({
    queryKey: ['procedures', 'acknowledgements', id],
    queryFn: ({ signal }) => call(routes.acknowledgements, { params: { id }, signal }),
  });
export const impactQuery = (id: string) =>
  queryOptions({ queryKey: ['procedures', 'impact', id], queryFn: ({ signal }) => call(routes.impact, { params: { id }, signal }) });

type Keyed = { key: string };
export const draftRevision = ({ procedureId, key, ...body }: BodyOf<typeof routes.draft> & Keyed & { procedureId: string }) =>
  call(routes.draft, { params: { id: procedureId }, body, key });
export const changeDraft = ({ id, version, ...body }: BodyOf<typeof routes.change> & { id: string; version: number }) =>
  call(routes.change, { params: { id }, version, body });
export const discardDraft = (sent: { id: string; version: number }) =>
  call(routes.discard, { params: { id: sent.id }, version: sent.version });
export const approveRevision = ({ id, key, ...body }: BodyOf<typeof routes.approve> & Keyed & { id: string }) =>
  call(routes.approve, { params: { id }, body, key });
export const withdrawRevision = ({ id, key }: Keyed & { id: string }) => call(routes.withdraw, { params: { id }, body: {}, key });
export const acknowledgeRevision = ({ id, key }: Keyed & { id: string }) =>
  call(routes.acknowledge, { params: { id }, body: { where: 'ahead', happenedAt: null }, key });
export const beginProcedure = ({ key, slug, ...body }: Omit<BodyOf<typeof routes.begin>, 'key'> & Keyed & { slug: string }) =>
  call(routes.begin, { body: { ...body, key: slug }, key });
export const answerQuestions = ({ id, key, ...body }: BodyOf<typeof routes.answer> & Keyed & { id: string }) =>
  call(routes.answer, { params: { id }, body, key });

export const paperAddress = (id: string): string => addressOf(tables.paper.path, { id });
export const tableAddress = (id: string): string => addressOf(tables.table.path, { id });
export const checkTable = ({ id, text }: { id: string; text: string }) => call(tables.check, { params: { id }, body: { text } });
export const takeInTable = ({ id, version, text }: { id: string; version: number; text: string }) =>
  call(tables.takeIn, { params: { id }, version, body: { text } });
