// Everything of today and tomorrow read ahead onto the phone of somebody who goes to visits, and what was done there sent from any screen.
import { useEffect, type ReactNode } from 'react';
import { useQuery, useQueryClient } from '@tanstack/react-query';
import { useRouter } from '@tanstack/react-router';
import type { Ahead } from '@backsight/contract/sitework/ahead';
import { agreementQuery } from '../api/agreements.ts';
import { endingQuery } from '../api/desk.ts';
import { useMe } from '../api/people.ts';
import { keepApp } from '../api/phone/app.ts';
import { isWaiting, useOutbox } from '../api/phone/outbox.ts';
import { photoWaits, useKeptPhotos } from '../api/phone/photos.ts';
import { useSendingOf } from '../api/phone/useSending.ts';
import { aheadQuery, dayQuery, recordQuery, startQuery } from '../api/sitework.ts';

/** For people who go to visits. Shows nothing: the site screens say how things stand. */
export function OnPhone(): ReactNode {
  const me = useMe();
  const photos = useKeptPhotos().some((photo) => photo.personId === me.id && photoWaits(photo));
  const waits = useOutbox().some((row) => row.personId === me.id && isWaiting(row)) || photos;
  useSendingOf(me.id, waits);
  return me.roles.some((role) => role === 'inspector' || role === 'lead_inspector') ? <ReadAhead /> : null;
}

function ReadAhead(): null {
  const queries = useQueryClient();
  const { data, dataUpdatedAt } = useQuery(aheadQuery);
  const router = useRouter();
  useEffect(() => void keepApp(), []);
  useEffect(() => {
    if (!data || Date.now() - dataUpdatedAt > 60_000) return;
    void queries.prefetchQuery(dayQuery);
    for (const visit of data.visits) readVisit(queries, visit);
    void router.preloadRoute({ to: '/my-day' });
  }, [data, dataUpdatedAt, queries, router]);
  return null;
}

/** What the screens of one visit ask for. */
function readVisit(queries: ReturnType<typeof useQueryClient>, { start: { visit, gate } }: Ahead['visits'][number]): void {
  if (visit.recordId) void queries.prefetchQuery(recordQuery(visit.recordId));
  else void queries.prefetchQuery(startQuery(visit.id));
  void queries.prefetchQuery(endingQuery(visit.id));
  if (gate.missing.includes('agreement-unsigned')) void queries.prefetchQuery(agreementQuery(visit.jobId));
}
