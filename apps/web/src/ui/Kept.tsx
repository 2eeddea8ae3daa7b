// Keeps what is typed into the form around it, says that a form shows again what was typed into it earlier, and lets one begin anew.
import { useEffect, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import type { Draft } from './draft.ts';
import classes from './note.module.css';

export function Kept({ draft }: { draft: Draft | null | undefined }): ReactNode {
  useEffect(() => draft?.keep());
  if (!draft?.found) return null;
  return (
    <div className={classes.kept} role="note">
      <p>What you typed here earlier is still here. It was not sent.</p>
      <Button variant="default" size="compact-sm" onClick={draft.beginAnew}>
        Begin anew
      </Button>
    </div>
  );
}
