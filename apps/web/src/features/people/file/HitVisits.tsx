// The booked visits that a change hits: they stay booked until somebody changes them.
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import { Empty } from '../../../ui/Empty.tsx';

export function HitVisits({ warnings, done }: { warnings: { code: string; text: string }[]; done: () => void }): ReactNode {
  return (
    <div role="alert">
      <Empty
        action={
          <Button variant="default" size="compact-md" onClick={done}>
            I have seen this
          </Button>
        }
      >
        Saved. It hits {warnings.length === 1 ? 'a booked visit' : `${warnings.length} booked visits`}:
      </Empty>
      <ul>
        {warnings.map(({ text }) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
    </div>
  );
}
