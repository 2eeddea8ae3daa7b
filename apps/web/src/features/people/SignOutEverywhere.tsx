// For an owner: somebody lost a device, or leaves today. All sessions of that person end.
import { useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import { endAllSessions } from '../../api/security.ts';
import { saved } from '../../ui/saved.ts';
import { Section } from '../../ui/Section.tsx';
import { WithPassword } from '../../ui/WithPassword.tsx';

export function SignOutEverywhere({ personId, name }: { personId: string; name: string }): ReactNode {
  const [asking, setAsking] = useState(false);
  const end = async ({ password }: { password: string }) => {
    const { ended } = await endAllSessions({ id: personId, password });
    saved(ended === 0 ? `${name} was not signed in anywhere.` : `${name} is signed out everywhere.`);
  };
  return (
    <Section title="Signed in elsewhere?">
      {asking ? (
        <WithPassword scope="end-all" act="Sign out everywhere" send={end} onBack={() => setAsking(false)}>
          {name} is signed out on every device, and signs in anew with the password of now.
        </WithPassword>
      ) : (
        <>
          <p>A device is lost, or somebody leaves today: end every session of {name}.</p>
          <Button variant="default" onClick={() => setAsking(true)}>
            Sign out everywhere
          </Button>
        </>
      )}
    </Section>
  );
}
