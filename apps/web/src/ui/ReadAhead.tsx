// Everything of today and tomorrow read ahead onto the phone, so that it is there without signal.
import { useEffect } from 'react';
import { useQuery, useQueryClient, type QueryClient } from '@tanstack/react-query';
import { useRouter } from '@tanstack/react-router';
import type { Ahead } from '@backsight/contract/sitework/ahead';
import { agreementQuery } from '../api/agreements.ts';
import { endingQuery, wayInQuery } from '../api/desk.ts';
import { useMe } from '../api/people.ts';
import { keepApp } from '../api/phone/app.ts';
import { dropReplies } from '../api/phone/replies.ts';
import { aheadQuery, dayQuery, recordQuery, startQuery } from '../api/sitework.ts';
import { todayIn } from './time.ts';

/** For people who go to visits. Shows nothing: the site screens say how things stand. */
export function ReadAhead(): null {
  const { zone } = useMe();
  const queries = useQueryClient();
  const { data, dataUpdatedAt } = useQuery(aheadQuery);
  const router = useRouter();
  useEffect(() => void keepApp(), []);
  useEffect(() => {
    if (!data || Date.now() - dataUpdatedAt > 60_000) return;
    void queries.prefetchQuery(dayQuery);
    const today = todayIn(zone);
    for (const visit of data.visits) readVisit(queries, visit, today);
    const ids = new Set<unknown>(data.visits.map(({ start }) => start.visit.id));
    void dropReplies(queries, ({ queryKey }) => queryKey[2] === 'way-in' && !ids.has(queryKey[1]));
    void router.preloadRoute({ to: '/my-day' });
  }, [data, dataUpdatedAt, queries, router, zone]);
  return null;
}

/** What the screens of one visit ask for. How to get in, codes included, only on its day. */
function readVisit(queries: QueryClient, { start: { visit, gate } }: Ahead['visits'][number], today: string): void {
  if (visit.recordId) void queries.prefetchQuery(recordQuery(visit.recordId));
  else void queries.prefetchQuery(startQuery(visit.id));
  void queries.prefetchQuery(endingQuery(visit.id));
  if (visit.day === today) void queries.prefetchQuery(wayInQuery(visit.id, true));
  if (gate.missing.includes('agreement-unsigned')) void queries.prefetchQuery(agreementQuery(visit.jobId));
}
