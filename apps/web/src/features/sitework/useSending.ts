// Sends what waits on this phone: at once, when the connection comes back, and every quarter of a minute.
import { useCallback, useEffect } from 'react';
import { useQueryClient } from '@tanstack/react-query';
import type { MemberRecord, NewEntry } from '@backsight/contract/sitework';
import { forgetStored, isUnsent, keep, send, useWaiting, type Waiting } from './outbox.ts';

/** Entries that wait for this record, and the way to add some. */
export function useSending(personId: string, shown: MemberRecord): { waiting: Waiting[]; record: (entries: NewEntry[]) => void } {
  const queries = useQueryClient();
  const recordId = shown.id;
  const waiting = useWaiting(personId);
  const open = waiting.filter((w) => w.recordId === recordId && isUnsent(w)).length;
  const sendNow = useCallback(async () => {
    if (!(await send(personId, recordId))) return;
    await queries.invalidateQueries({ queryKey: ['record', recordId] });
    if (queries.getQueryState(['record', recordId])?.status === 'success' && !queries.getQueryState(['record', recordId])?.isInvalidated)
      forgetStored(personId, recordId);
  }, [personId, recordId, queries]);
  useEffect(() => {
    if (open === 0) return;
    void sendNow();
    const timer = setInterval(() => void sendNow(), 15_000);
    window.addEventListener('online', sendNow);
    return () => {
      clearInterval(timer);
      window.removeEventListener('online', sendNow);
    };
  }, [open, sendNow]);
  useEffect(() => forgetStored(personId, recordId, new Set(shown.entries.map(({ id }) => id))), [personId, recordId, shown]);
  return { waiting: waiting.filter((w) => w.recordId === recordId), record: (entries) => keep(personId, recordId, entries) };
}
