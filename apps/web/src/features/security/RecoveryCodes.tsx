// The codes for whoever loses the phone, shown once.
import { useEffect, useRef, type ReactNode } from 'react';
import { Button, Group } from '@mantine/core';
import { Section } from '../../ui/Section.tsx';
import { CopyText } from './CopyText.tsx';
import classes from './security.module.css';

export function RecoveryCodes({ codes, onKept }: { codes: readonly string[]; onKept: () => void }): ReactNode {
  const start = useRef<HTMLParagraphElement>(null);
  useEffect(() => start.current?.focus(), []);
  return (
    <Section title="Keep these codes" brief="shown this once">
      <p ref={start} tabIndex={-1}>
        The second factor is on. When the phone is lost, each of these signs you in once in its place. Print them or write them down, and
        keep them away from the phone.
      </p>
      <ol className={classes.codes}>
        {codes.map((code) => (
          <li key={code}>{code}</li>
        ))}
      </ol>
      <Group>
        <Button onClick={onKept}>I have kept them</Button>
        <Button variant="default" onClick={() => window.print()}>
          Print
        </Button>
        <CopyText text={codes.join('\n')}>Copy</CopyText>
      </Group>
    </Section>
  );
}
