// Throws a spreadsheet away that was not brought in.
import { useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import { useNavigate } from '@tanstack/react-router';
import type { BringIn } from '@backsight/contract/firm/bringIns';
import { throwAway } from '../../api/bringIns.ts';
import { ConfirmDialog } from '../../ui/ConfirmDialog.tsx';
import { useSend } from '../../ui/useSend.ts';

export function ThrowAway({ of: { id, version } }: { of: BringIn }): ReactNode {
  const navigate = useNavigate();
  const [asked, setAsked] = useState(false);
  const send = useSend(throwAway, {
    refresh: ['bring-ins'],
    said: 'The spreadsheet was thrown away.',
    then: () => void navigate({ to: '/bring-in' }),
  });
  return (
    <>
      <Button variant="default" onClick={() => setAsked(true)}>
        Throw it away
      </Button>
      <ConfirmDialog
        opened={asked}
        title="Throw this spreadsheet away?"
        act="Throw it away"
        busy={send.isPending}
        error={send.error}
        onConfirm={() => send.mutate({ id, version })}
        onClose={() => setAsked(false)}
      >
        <p>Nothing was brought in from it. What you said of its columns goes with it; your own file stays where it is.</p>
      </ConfirmDialog>
    </>
  );
}
