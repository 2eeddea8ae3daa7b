// For an owner: somebody lost the phone and the recovery codes, and signs in with the password alone until a second factor is set up anew.
import { useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import { resetFactor } from '../../api/security.ts';
import { ConfirmDialog } from '../../ui/ConfirmDialog.tsx';
import { Section } from '../../ui/Section.tsx';
import { useSend } from '../../ui/useSend.ts';

export function LostPhone({ personId, name }: { personId: string; name: string }): ReactNode {
  const [asking, setAsking] = useState(false);
  const reset = useSend(resetFactor, {
    refresh: ['security'],
    said: `${name} signs in without a code of the phone.`,
    then: () => setAsking(false),
  });
  return (
    <Section title="Phone lost?">
      <p>Whoever lost the phone signs in with a recovery code. Without either, take the second factor off, once you are sure who asks.</p>
      <Button variant="default" onClick={() => setAsking(true)}>
        Take the second factor off
      </Button>
      <ConfirmDialog
        opened={asking}
        title="Take the second factor off"
        act="Take it off"
        busy={reset.isPending}
        error={reset.error}
        onClose={() => setAsking(false)}
        onConfirm={() => reset.mutate({ id: personId })}
      >
        <p>{name} is signed out everywhere, and then signs in with the password alone.</p>
      </ConfirmDialog>
    </Section>
  );
}
