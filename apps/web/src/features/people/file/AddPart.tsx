// A section of the file with a button that opens the form for one more, and closes it when that is done.
import { useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import { Section } from '../../../ui/Section.tsx';
import { useOpener } from '../../../ui/useOpener.ts';

type Props = { title: string; add: string; may: boolean; form: (done: () => void) => ReactNode; children: ReactNode };

export function AddPart({ title, add, may, form, children }: Props): ReactNode {
  const [open, setOpen] = useState(false);
  const close = () => setOpen(false);
  const opener = useOpener(open);
  return (
    <Section
      title={title}
      actions={
        may && !open ? (
          <Button ref={opener} size="compact-md" variant="default" onClick={() => setOpen(true)}>
            {add}
          </Button>
        ) : undefined
      }
    >
      {children}
      {open ? <div style={{ marginTop: 'var(--bs-space-6)' }}>{form(close)}</div> : null}
    </Section>
  );
}

/** The way out of such a form. */
export const Leave = ({ done }: { done: () => void }): ReactNode => (
  <Button variant="default" onClick={done}>
    Leave without saving
  </Button>
);
