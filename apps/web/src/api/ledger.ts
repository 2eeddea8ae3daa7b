// Calls about the books: balances, entries, accounts, closed months.
import { infiniteQueryOptions, queryOptions } from '@tanstack/react-query';
import { ledgerRoutes as routes } from '@backsight/contract/fees/ledger';
import type { BodyOf, QueryOf } from '@backsight/contract/route';
import { call } from './call.ts';

export type Filter = Omit<QueryOf<typeof routes.entries>, 'before' | 'limit'>;

export const trialBalanceQuery = (until?: string) =>
  queryOptions({
    queryKey: ['money', 'balance', until ?? ''],
    queryFn: ({ signal }) => call(routes.trialBalance, { query: until ? { until } : {}, signal }),
  });
export const entriesQuery = (filter: Filter) =>
  infiniteQueryOptions({
    queryKey: ['money', 'entries', filter],
    queryFn: ({ signal, pageParam }) =>
      call(routes.entries, { query: { ...filter, limit: 30, ...(pageParam ? { before: pageParam } : {}) }, signal }),
    initialPageParam: '',
    getNextPageParam: (page) => page.next,
  });
export const accountsQuery = queryOptions({ queryKey: ['money', 'accounts'], queryFn: ({ signal }) => call(routes.accounts, { signal }) });
export const booksQuery = queryOptions({ queryKey: ['money', 'books'], queryFn: ({ signal }) => call(routes.books, { signal }) });

export type NewAccount = BodyOf<typeof routes.addAccount>;
export const addAccount = ({ key, ...body }: NewAccount & { key: string }) => call(routes.addAccount, { body, key });
export const nameAccount = ({ code, name }: { code: string; name: string }) =>
  call(routes.nameAccount, { params: { code }, body: { name } });
export const enterByHand = (body: BodyOf<typeof routes.enter>) => call(routes.enter, { body, key: body.id });
export const closeBooks = (body: BodyOf<typeof routes.close>) => call(routes.close, { body, key: body.id });
export const reopenBooks = (body: BodyOf<typeof routes.reopen>) => call(routes.reopen, { body, key: body.id });
