// What can be done with a second factor that is on: new recovery codes, and taking it off. Either with password and code.
import { useState, type ReactNode } from 'react';
import { Button, Group } from '@mantine/core';
import { useQueryClient } from '@tanstack/react-query';
import type { Security } from '@backsight/contract/people/security';
import { removeFactor, renewCodes, securityQuery } from '../../api/security.ts';
import { saved } from '../../ui/saved.ts';
import { Section } from '../../ui/Section.tsx';
import { WithPassword, type Said } from '../../ui/WithPassword.tsx';

export function FactorOn({ security, onCodes }: { security: Security; onCodes: (codes: string[]) => void }): ReactNode {
  const queries = useQueryClient();
  const [doing, setDoing] = useState<'codes' | 'off' | null>(null);
  const again = () => queries.invalidateQueries({ queryKey: securityQuery.queryKey });
  const renew = async (said: Said) => {
    const { codes } = await renewCodes(said);
    onCodes(codes);
    await again();
  };
  const remove = async (said: Said) => {
    await removeFactor(said);
    saved('The second factor is off.');
    await again();
  };
  return (
    <Section title="Second factor" brief="on">
      <p>
        {security.codesLeft === 0
          ? 'No recovery code is left: without the phone you could not sign in. Make new ones.'
          : `${security.codesLeft} recovery ${security.codesLeft === 1 ? 'code is' : 'codes are'} left for the day on which the phone is lost.`}
        {security.mustHave ? ' Here everybody like you signs in with a second factor, so it stays on.' : ''}
      </p>
      {doing === 'codes' ? (
        <WithPassword code scope="codes" act="Make new codes" send={renew} onBack={() => setDoing(null)}>
          The codes of before are good no more.
        </WithPassword>
      ) : doing === 'off' ? (
        <WithPassword code scope="off" act="Take it off" send={remove} onBack={() => setDoing(null)}>
          From then on the password alone signs you in. Your other sessions end.
        </WithPassword>
      ) : (
        <Group>
          <Button variant="default" onClick={() => setDoing('codes')}>
            New recovery codes
          </Button>
          {security.mustHave ? null : (
            <Button variant="default" onClick={() => setDoing('off')}>
              Take it off
            </Button>
          )}
        </Group>
      )}
    </Section>
  );
}
