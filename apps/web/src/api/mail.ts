// Calls about the outbox.
import { infiniteQueryOptions } from '@tanstack/react-query';
import { mailRoutes as routes } from '@backsight/contract/mail';
import { call } from './call.ts';

export const outboxQuery = infiniteQueryOptions({
  queryKey: ['mail'],
  queryFn: ({ signal, pageParam }) => call(routes.list, { query: { ...(pageParam ? { before: pageParam } : {}) }, signal }),
  initialPageParam: '',
  getNextPageParam: (page) => page.next,
});
export const tryAgain = (sent: { id: string; key: string }) => call(routes.again, { params: { id: sent.id }, body: {}, key: sent.key });
