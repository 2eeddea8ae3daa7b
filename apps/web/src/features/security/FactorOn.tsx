// What can be done with a second factor that is on: new recovery codes, and taking it off. Either with the password.
import { useState, type ReactNode } from 'react';
import { Button, Group, PasswordInput } from '@mantine/core';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import type { Security } from '@backsight/contract/people/security';
import { removeFactor, renewCodes, securityQuery } from '../../api/security.ts';
import { Follows } from '../../ui/Follows.tsx';
import { Form } from '../../ui/Form.tsx';
import { saved } from '../../ui/saved.ts';
import { Section } from '../../ui/Section.tsx';
import { useFields } from '../../ui/useFields.ts';

const LABELS = { password: 'Your password' };
const SHOW = { 'aria-label': 'Show the password', tabIndex: 0 };

export function FactorOn({ security, onCodes }: { security: Security; onCodes: (codes: string[]) => void }): ReactNode {
  const queries = useQueryClient();
  const [doing, setDoing] = useState<'codes' | 'off' | null>(null);
  const again = () => queries.invalidateQueries({ queryKey: securityQuery.queryKey });
  const renew = async (sent: { password: string }) => {
    const { codes } = await renewCodes(sent);
    onCodes(codes);
    await again();
  };
  const remove = async (sent: { password: string }) => {
    await removeFactor(sent);
    saved('The second factor is off.');
    await again();
  };
  return (
    <Section title="Second factor" brief="on">
      <p>
        {security.codesLeft === 0
          ? 'No recovery code is left: without the phone you could not sign in. Make new ones.'
          : `${security.codesLeft} recovery ${security.codesLeft === 1 ? 'code is' : 'codes are'} left for the day on which the phone is lost.`}
        {security.mustHave ? ' Whoever signs in as an owner has a second factor, so it stays on.' : ''}
      </p>
      {doing === 'codes' ? (
        <WithPassword scope="codes" act="Make new codes" send={renew} onBack={() => setDoing(null)}>
          The codes of before are good no more.
        </WithPassword>
      ) : doing === 'off' ? (
        <WithPassword scope="off" act="Take it off" send={remove} onBack={() => setDoing(null)}>
          From then on the password alone signs you in.
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

type Asked = { scope: string; act: string; send: (sent: { password: string }) => Promise<void>; onBack: () => void; children: ReactNode };

function WithPassword({ scope, act, send, onBack, children }: Asked): ReactNode {
  const sending = useMutation({ mutationFn: send, onSuccess: onBack });
  const fields = useFields({ password: '' }, LABELS, sending.error, scope);
  const back = (
    <Button variant="default" onClick={onBack}>
      Back
    </Button>
  );
  return (
    <Form
      error={sending.error}
      labels={LABELS}
      scope={scope}
      submit={act}
      busy={sending.isPending}
      besides={back}
      onSubmit={() => sending.mutate(fields.values)}
    >
      <Follows>{children}</Follows>
      <PasswordInput
        {...fields.text('password')}
        autoComplete="current-password"
        maw={360}
        required
        autoFocus
        visibilityToggleButtonProps={SHOW}
      />
    </Form>
  );
}
