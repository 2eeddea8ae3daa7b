// Addresses from which mail came back: whom to ask for another, or to clear when it is right after all.
import type { ReactNode } from 'react';
import { Button, Group } from '@mantine/core';
import type { MailSettings } from '@backsight/contract/mail';
import { clearAddress } from '../../api/mail.ts';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useSend } from '../../ui/useSend.ts';
import { When } from '../../ui/When.tsx';

export function BadAddresses({ bad }: { bad: MailSettings['badAddresses'] }): ReactNode {
  const clear = useSend(clearAddress, { refresh: ['mail'], said: 'Mail goes to this address again.' });
  if (bad.length === 0) return null;
  return (
    <Section title="Ask for another address">
      <ProblemNote of={clear.error} />
      <ul style={{ listStyle: 'none', padding: 0 }}>
        {bad.map(({ address, reason, recordedAt, people }) => (
          <li key={address}>
            <Group gap="sm">
              <span>
                <strong>{people.join(', ')}</strong>: {address} came back <When at={recordedAt} /> ({reason})
              </span>
              <Button
                size="compact-sm"
                variant="default"
                aria-label={`It is right after all: ${address}`}
                onClick={() => clear.mutate(address)}
              >
                It is right after all
              </Button>
            </Group>
          </li>
        ))}
      </ul>
    </Section>
  );
}
