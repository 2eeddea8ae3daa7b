// What was done on this phone is sent from any screen; for somebody who goes to visits the days to come are read ahead onto it.
import { lazy, Suspense, type ReactNode } from 'react';
import { useMe } from '../api/people.ts';
import { isWaiting, useOutbox } from '../api/phone/outbox.ts';
import { photoWaits, useKept } from '../api/phone/photos.ts';
import { useSendingOf } from '../api/phone/useSending.ts';
import { useIdle } from './idle.ts';

/** Behind the screen itself; where it cannot come there is no connection to read ahead by. */
const ReadAhead = lazy(() =>
  import('./ReadAhead.tsx').then(
    ({ ReadAhead: Part }) => ({ default: Part }),
    () => ({ default: () => null }),
  ),
);

export function OnPhone(): ReactNode {
  const me = useMe();
  const photos = useKept().files.some((file) => file.personId === me.id && photoWaits(file));
  const waits = useOutbox().some((row) => row.personId === me.id && isWaiting(row)) || photos;
  useSendingOf(me.id, waits);
  const idle = useIdle();
  return idle && me.roles.some((role) => role === 'inspector' || role === 'lead_inspector') ? (
    <Suspense fallback={null}>
      <ReadAhead />
    </Suspense>
  ) : null;
}
