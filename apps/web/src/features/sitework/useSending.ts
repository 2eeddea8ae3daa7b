// Sends what waits on this phone: at once, when the connection comes back, and every quarter of a minute.
import { useCallback, useEffect } from 'react';
import { useQueryClient } from '@tanstack/react-query';
import type { NewEntry } from '@backsight/contract/sitework';
import { keep, send, useWaiting, type Waiting } from './outbox.ts';

/** Entries that wait for this record, and the way to add some. */
export function useSending(personId: string, recordId: string): { waiting: Waiting[]; record: (entries: NewEntry[]) => void } {
  const queries = useQueryClient();
  const waiting = useWaiting(personId);
  const open = waiting.filter((w) => w.recordId === recordId && !w.refused).length;
  const sendNow = useCallback(async () => {
    if (await send(personId, recordId)) await queries.invalidateQueries({ queryKey: ['record', recordId] });
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
  return { waiting: waiting.filter((w) => w.recordId === recordId), record: (entries) => keep(personId, recordId, entries) };
}
