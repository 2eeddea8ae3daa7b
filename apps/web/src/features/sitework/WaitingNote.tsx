// Says what this phone has not sent yet, always in the same one line so that nothing moves under a thumb; and what the service would not take.
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import { settle } from '../../api/phone/outbox.ts';
import { useKept } from '../../api/phone/photos.ts';
import { RefusedPhotos } from './later.tsx';
import { SyncNote } from './SyncNote.tsx';
import type { Waiting } from './useRecord.ts';
import classes from './sitework.module.css';

export function WaitingNote({ waiting, recordId }: { waiting: readonly Waiting[]; recordId?: string }): ReactNode {
  const refused = useKept().files.some(({ state }) => state === 'refused');
  return (
    <div>
      <SyncNote />
      {waiting
        .filter(({ state, why }) => state === 'waiting' && why)
        .map((row) => (
          <p key={row.n} className={classes.notice}>
            {row.says} waits and is sent by itself: {row.why}
          </p>
        ))}
      {waiting
        .filter(({ state }) => state === 'refused')
        .map((row) => (
          <Refused key={row.n} row={row} />
        ))}
      {refused ? <RefusedPhotos recordId={recordId} /> : null}
    </div>
  );
}

function Refused({ row }: { row: Waiting }): ReactNode {
  return (
    <div className={classes.caution}>
      <strong>Not taken: {row.says}</strong>
      {row.why}
      {row.what.kind === 'entry' && row.what.entry.note ? ` Your note: ${row.what.entry.note}` : ''}
      <div className={classes.acts}>
        <Button variant="default" size="lg" onClick={() => void settle(new Map([[row.n, { state: 'waiting' }]]))}>
          Send it again
        </Button>
        <Button variant="default" size="lg" onClick={() => void settle(new Map([[row.n, null]]))}>
          Remove it here
        </Button>
      </div>
    </div>
  );
}
