// When what waits on this phone is sent: mounted once for the whole app.
import { useCallback, useEffect } from 'react';
import { useQueryClient } from '@tanstack/react-query';
import { sendPhotos } from './photoSending.ts';
import { sendWaiting } from './sending.ts';

/** At once, when the connection comes back, and every four seconds: an answer that was lost on the way is soon asked for again. */
export function useSendingOf(personId: string, some: boolean): void {
  const queries = useQueryClient();
  const sendNow = useCallback(async () => {
    const records = await sendWaiting(personId);
    for (const recordId of records) await queries.invalidateQueries({ queryKey: ['record', recordId] });
    if (records.size > 0) await queries.invalidateQueries({ queryKey: ['my-day'] });
    void sendPhotos(personId, (recordId) => void queries.invalidateQueries({ queryKey: ['record', recordId] }));
  }, [personId, queries]);
  useEffect(() => {
    if (!some) return;
    void sendNow();
    const timer = setInterval(() => void sendNow(), 4_000);
    window.addEventListener('online', sendNow);
    return () => {
      clearInterval(timer);
      window.removeEventListener('online', sendNow);
    };
  }, [some, sendNow]);
}
