// Puts a text where the next paste takes it from, and says so.
import type { ReactNode } from 'react';
import { Button, CopyButton } from '@mantine/core';

export const CopyText = ({ text, children }: { text: string; children: ReactNode }): ReactNode => (
  <CopyButton value={text}>
    {({ copied, copy }) => (
      <Button variant="default" onClick={copy}>
        {copied ? 'Copied' : children}
      </Button>
    )}
  </CopyButton>
);
