// How this phone stands with the service, in words, on every site screen: what waits, why, and how old what is shown is.
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useClockAhead } from '../../api/clock.ts';
import { useMe } from '../../api/people.ts';
import { canOpenOffline } from '../../api/phone/app.ts';
import { isWaiting, useOutbox } from '../../api/phone/outbox.ts';
import { photoWaits, useKept } from '../../api/phone/photos.ts';
import { useSendingState, type SendingState } from '../../api/phone/sending.ts';
import { useReached } from '../../api/reached.ts';
import { askToSignIn } from '../../api/signedOut.ts';
import { dayQuery } from '../../api/sitework.ts';
import { instantText } from '../../ui/time.ts';
import classes from './sitework.module.css';

const WHY: Record<SendingState, string> = {
  idle: '',
  working: ' Sending now.',
  unreached: ' No connection: it is tried again by itself.',
  signed_out: ' Your session has ended.',
};

const countOf = (count: number, one: string): string[] => (count > 0 ? [`${count} ${one}${count === 1 ? '' : 's'} not yet sent`] : []);

/** '4 not sent yet and 3 photos not yet sent'. */
const unsent = (entries: number, photos: number, spoken: number): string =>
  [...(entries > 0 ? [`${entries} not sent yet`] : []), ...countOf(photos, 'photo'), ...countOf(spoken, 'spoken note')].join(' and ');

/** `readAt`: when the service was last heard about what is on the screen, in milliseconds. */
export function SyncNote({ readAt }: { readAt?: number }): ReactNode {
  const me = useMe();
  const ahead = useClockAhead();
  const online = useReached();
  const sending = useSendingState();
  const day = useQuery({ ...dayQuery, enabled: false });
  const rows = useOutbox().filter((row) => row.personId === me.id);
  const waiting = rows.filter(isWaiting).length;
  const kept = useKept();
  const [photos, spoken] = [kept.photos, kept.spoken].map(
    (files) => files.filter((file) => file.personId === me.id && photoWaits(file)).length,
  );
  const waits = waiting + photos! + spoken! > 0;
  const refused = rows.filter(({ state }) => state === 'refused').length;
  const heard = readAt ?? day.dataUpdatedAt;
  return (
    <div aria-live="polite">
      <p className={classes.sync}>
        {waits ? (
          <>
            <strong>{unsent(waiting, photos!, spoken!)}, kept on this phone.</strong>
            {online ? WHY[sending] : WHY.unreached}
          </>
        ) : (
          'Everything is sent.'
        )}
        {refused > 0 ? <strong> {refused} not taken: see the record.</strong> : null}
        {!online && heard > 0 ? `${waits ? ' As' : ' No connection; as'} of ${instantText(new Date(heard).toISOString(), me.zone)}.` : ''}
      </p>
      {waiting > 0 && online && sending === 'signed_out' ? (
        <Button size="lg" onClick={askToSignIn}>
          Sign in to send it
        </Button>
      ) : null}
      {ahead === 0 ? null : (
        <p className={classes.notice}>
          This device's clock is about {Math.abs(ahead) < 100 ? `${Math.abs(ahead)} minutes` : `${Math.round(Math.abs(ahead) / 60)} hours`}{' '}
          {ahead > 0 ? 'ahead' : 'behind'}. What you record is set right when it is sent; look at the times that you enter yourself.
        </p>
      )}
      {canOpenOffline() ? null : (
        <p className={classes.caution}>
          <strong>Not for use without signal</strong>
          This address is not secure (no https), so a browser cannot open Backsight without signal here. What is written while a page is
          open is kept on this phone all the same.
        </p>
      )}
    </div>
  );
}
