// The calls kept aside while another one is served, each one press away.
import type { ReactNode } from 'react';
import { Button, Group } from '@mantine/core';
import type { Draft } from './draft.ts';
import type { Desk } from './useDesk.ts';
import classes from './desk.module.css';

const nameOf = ({ caller, address, phone, town }: Draft): string =>
  [caller.trim() || 'no name yet', address.trim() || town.trim() || phone.trim()].filter(Boolean).join(', ');

export function OtherCalls({ desk: { aside, dropped, takeUp } }: { desk: Desk }): ReactNode {
  if (aside.length === 0 && !dropped) return null;
  return (
    <section aria-label="Other calls" className={classes.others}>
      <Group gap="xs">
        {aside.length > 0 ? <span>Kept aside:</span> : null}
        {aside.map((one) => (
          <Button key={one.jobId} size="compact-md" variant="default" onClick={() => takeUp(one.jobId)}>
            Go on with {nameOf(one)}
          </Button>
        ))}
        {dropped ? (
          <Button size="compact-md" variant="default" onClick={() => takeUp(dropped.jobId)}>
            Take back what was typed for {nameOf(dropped)}
          </Button>
        ) : null}
      </Group>
    </section>
  );
}
