// Asks before an act that cannot be taken back: says what will happen, and the button names the act.
import type { ReactNode } from 'react';
import { Button, Group } from '@mantine/core';
import { Modal } from './Modal.ts';
import { ProblemNote } from './ProblemNote.tsx';

type Props = {
  opened: boolean;
  title: string;
  /** What will happen. */
  children: ReactNode;
  /** Name of the act on its button, for example 'Cancel the job'. */
  act: string;
  busy?: boolean;
  error?: unknown;
  onConfirm: () => void;
  onClose: () => void;
};

export function ConfirmDialog({ opened, title, children, act, busy = false, error, onConfirm, onClose }: Props): ReactNode {
  return (
    <Modal opened={opened} onClose={onClose} title={title} closeButtonProps={{ 'aria-label': 'Close' }}>
      <ProblemNote of={error} />
      {children}
      <Group mt="lg" justify="flex-end">
        <Button variant="default" onClick={onClose}>
          Go back
        </Button>
        <Button loading={busy} onClick={onConfirm}>
          {act}
        </Button>
      </Group>
    </Modal>
  );
}
