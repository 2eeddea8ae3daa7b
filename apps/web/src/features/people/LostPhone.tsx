// For an owner: somebody lost the phone and the recovery codes, and signs in with the password alone until a second factor is set up anew.
import { useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import { resetFactor } from '../../api/security.ts';
import { saved } from '../../ui/saved.ts';
import { Section } from '../../ui/Section.tsx';
import { WithPassword } from '../../ui/WithPassword.tsx';

export function LostPhone({ personId, name }: { personId: string; name: string }): ReactNode {
  const [asking, setAsking] = useState(false);
  const reset = async ({ password }: { password: string }) => {
    await resetFactor({ id: personId, password });
    saved(`${name} signs in without a code of the phone.`);
  };
  return (
    <Section title="Phone lost?">
      {asking ? (
        <WithPassword scope="reset" act="Take it off" send={reset} onBack={() => setAsking(false)}>
          {name} is signed out everywhere, and then signs in with the password alone. Be sure who asks: see the person, or call the number
          on file.
        </WithPassword>
      ) : (
        <>
          <p>Whoever lost the phone signs in with a recovery code. Without either, take the second factor off.</p>
          <Button variant="default" onClick={() => setAsking(true)}>
            Take the second factor off
          </Button>
        </>
      )}
    </Section>
  );
}
