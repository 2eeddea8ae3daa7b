// When what waits on this phone is sent: mounted once for the whole app.
import { useCallback, useEffect } from 'react';
import { useQueryClient } from '@tanstack/react-query';
import { sendPhotos } from './photoSending.ts';
import { sendWaiting } from './sending.ts';

/** Milliseconds until the next try: soon, since an answer may just have been lost on the way; then less and less often. */
const SOON = 1000;
const LATER = 8000;

/** At once, when the connection comes back, and as often as it takes while somebody looks: a phone in a pocket saves its battery. */
export function useSendingOf(personId: string, some: boolean): void {
  const queries = useQueryClient();
  const sendNow = useCallback(async (): Promise<boolean> => {
    const records = await sendWaiting(personId);
    for (const recordId of records) await queries.invalidateQueries({ queryKey: ['record', recordId] });
    if (records.size > 0) await queries.invalidateQueries({ queryKey: ['my-day'] });
    void sendPhotos(personId, (recordId) => void queries.invalidateQueries({ queryKey: ['record', recordId] }));
    return records.size > 0;
  }, [personId, queries]);
  useEffect(() => {
    if (!some) return;
    let timer: ReturnType<typeof setTimeout> | undefined;
    let wait = SOON;
    let over = false;
    const again = async (): Promise<void> => {
      const took = await sendNow().catch(() => false);
      if (took) wait = SOON;
      clearTimeout(timer);
      if (!over && !document.hidden) timer = setTimeout(() => void again(), wait);
      wait = Math.min(wait * 2, LATER);
    };
    const atOnce = (): void => {
      wait = SOON;
      void again();
    };
    atOnce();
    const onLook = (): void => (document.hidden ? clearTimeout(timer) : atOnce());
    window.addEventListener('online', atOnce);
    document.addEventListener('visibilitychange', onLook);
    return () => {
      over = true;
      clearTimeout(timer);
      window.removeEventListener('online', atOnce);
      document.removeEventListener('visibilitychange', onLook);
    };
  }, [some, sendNow]);
}
