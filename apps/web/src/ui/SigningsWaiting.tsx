// Says which signatures this phone still holds, sends them when there is signal, and shows what came of those that met something newer.
import { useCallback, useEffect, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import { useQueryClient } from '@tanstack/react-query';
import { useMe } from '../api/people.ts';
import { dropSigning, sendSignings, useSignings, type WaitingSigning } from '../api/signings.ts';
import { When } from './When.tsx';
import classes from './note.module.css';

export function SigningsWaiting(): ReactNode {
  const me = useMe();
  const waiting = useSignings(me.id);
  useSendSignings(me.id, waiting.filter(({ refused, late }) => !refused && !late).length);
  if (waiting.length === 0) return null;
  return (
    <section aria-label="Signatures on this phone" className={classes.waiting}>
      {waiting.map((one) => (
        <Waiting key={one.signerId} one={one} onDrop={() => void dropSigning(me.id, one.signerId)} />
      ))}
    </section>
  );
}

function Waiting({ one, onDrop }: { one: WaitingSigning; onDrop: () => void }): ReactNode {
  const signed = (
    <>
      {one.signer} signed {one.body.signedAt ? <When at={one.body.signedAt} /> : null}
    </>
  );
  if (one.late)
    return (
      <div role="status">
        <p>
          <strong>{signed}: kept, but a newer agreement is there meanwhile.</strong> The newest still needs a signature.
        </p>
        <Button variant="default" size="xs" onClick={onDrop}>
          I have read this
        </Button>
      </div>
    );
  if (one.refused)
    return (
      <div role="status">
        <p>
          <strong>{signed}, and the service did not take it:</strong> {one.refused} It is still on this phone.
        </p>
        <Button variant="default" size="xs" onClick={onDrop}>
          Throw it away
        </Button>
      </div>
    );
  return (
    <p role="status">
      <strong>{signed}, on this phone.</strong> It is sent as soon as there is signal.
    </p>
  );
}

/** At once, when the connection comes back, and every quarter of a minute. */
function useSendSignings(personId: string, open: number): void {
  const queries = useQueryClient();
  const sendNow = useCallback(async () => {
    if (!(await sendSignings(personId))) return;
    await Promise.all(['agreements', 'visit', 'jobs', 'my-day'].map((key) => queries.invalidateQueries({ queryKey: [key] })));
  }, [personId, queries]);
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
}
