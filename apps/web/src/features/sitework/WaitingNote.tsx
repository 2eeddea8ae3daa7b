// Says what this phone has not sent yet, always in the same one line so that nothing moves under a thumb; and what the service would not take.
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import { discard, isUnsent, type Waiting } from './outbox.ts';
import classes from './sitework.module.css';

export function WaitingNote({
  personId,
  waiting,
  titleOf,
}: {
  personId: string;
  waiting: readonly Waiting[];
  titleOf: (stepKey: string) => string;
}): ReactNode {
  const open = waiting.filter(isUnsent).length;
  const refused = waiting.filter((w) => w.refused);
  return (
    <div aria-live="polite">
      <p className={classes.soft}>{open > 0 ? <strong>{open} not sent yet, kept on this phone</strong> : 'Everything is sent.'}</p>
      {refused.map(({ entry, refused: why }) => (
        <div key={entry.id} className={classes.caution}>
          <strong>Not taken: {titleOf(entry.stepKey)}</strong>
          {why}
          {entry.note ? ` Your note: ${entry.note}` : ''}
          <div>
            <Button variant="default" size="lg" mt="xs" onClick={() => discard(personId, entry.id)}>
              Remove it here
            </Button>
          </div>
        </div>
      ))}
    </div>
  );
}
