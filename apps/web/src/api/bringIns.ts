// Calls about spreadsheets from which records are brought in.
import { infiniteQueryOptions, queryOptions } from '@tanstack/react-query';
import {
  bringInRoutes as routes,
  type BringIn,
  type BringInMapping,
  type BringInProblem,
  type RecordKind,
} from '@backsight/contract/firm/bringIns';
import { addressOf, call } from './call.ts';

export const bringInsQuery = infiniteQueryOptions({
  queryKey: ['bring-ins'],
  queryFn: ({ pageParam, signal }) => call(routes.list, { query: pageParam === '' ? {} : { before: pageParam }, signal }),
  initialPageParam: '',
  getNextPageParam: (page) => page.next,
});

/** States in which the service works at a spreadsheet. */
const AT_WORK: readonly BringIn['state'][] = ['checking', 'bringing', 'undoing'];
export const isAtWork = ({ state }: Pick<BringIn, 'state'>): boolean => AT_WORK.includes(state);

/** Asked again every second while the service works at it. */
export const bringInQuery = (id: string) =>
  queryOptions({
    queryKey: ['bring-ins', id],
    queryFn: ({ signal }) => call(routes.one, { params: { id }, signal }),
    refetchInterval: ({ state }) => (state.data && isAtWork(state.data) ? 1_000 : false),
  });

type Which = { id: string; version: number; weight: BringInProblem['weight'] | null };
export const problemsQuery = ({ id, version, weight }: Which) =>
  infiniteQueryOptions({
    queryKey: ['bring-ins', id, 'problems', version, weight],
    queryFn: ({ pageParam, signal }) =>
      call(routes.problems, {
        params: { id },
        query: { ...(weight === null ? {} : { weight }), ...(pageParam === '' ? {} : { after: Number(pageParam) }) },
        signal,
      }),
    initialPageParam: '',
    getNextPageParam: (page) => page.next,
  });
export const broughtQuery = (id: string) =>
  infiniteQueryOptions({
    queryKey: ['bring-ins', id, 'records'],
    queryFn: ({ pageParam, signal }) =>
      call(routes.brought, { params: { id }, query: pageParam === '' ? {} : { after: pageParam }, signal }),
    initialPageParam: '',
    getNextPageParam: (page) => page.next,
  });
export const dependsQuery = (id: string) =>
  queryOptions({
    queryKey: ['bring-ins', id, 'depends'],
    queryFn: ({ signal }) => call(routes.depends, { params: { id }, signal }),
    staleTime: 0,
  });

type Seen = { id: string; version: number };
export type Taken = { id: string; kind: RecordKind; file?: { name: string; base64: string }; text?: string };
export const takeFile = ({ key, ...body }: Taken & { key: string }) => call(routes.take, { body, key });
export const mapColumns = ({ id, version, mapping }: Seen & { mapping: BringInMapping }) =>
  call(routes.map, { params: { id }, version, body: mapping });
export const bringThemIn = ({ id, version, leaveOut }: Seen & { leaveOut: boolean }) =>
  call(routes.bring, { params: { id }, version, body: { leaveOut } });
export const takeThemOut = ({ id, version }: Seen) => call(routes.undo, { params: { id }, version });
export const throwAway = ({ id, version }: Seen) => call(routes.throwAway, { params: { id }, version });
export const sampleAddress = (kind: RecordKind): string => addressOf(routes.sample.path, { kind });
export const problemsAddress = (id: string): string => addressOf(routes.problemsTable.path, { id });
