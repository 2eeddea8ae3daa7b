// Setting up the second factor: the password, a picture for the phone's camera, and a first code as proof.
import { useState, type ReactNode } from 'react';
import { Button, Group, PasswordInput, Stack, Textarea, TextInput } from '@mantine/core';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import { meQuery } from '../../api/people.ts';
import { beginFactor, confirmFactor, securityQuery } from '../../api/security.ts';
import { Form } from '../../ui/Form.tsx';
import { Section } from '../../ui/Section.tsx';
import { useFields } from '../../ui/useFields.ts';
import { CopyText } from './CopyText.tsx';
import { QrPicture } from './QrPicture.tsx';
import classes from './security.module.css';

const LABELS = { password: 'Your password' };
const CODE = { code: 'The six digits that the phone shows' };
const SHOW = { 'aria-label': 'Show the password', tabIndex: 0 };

type Begun = { secret: string; uri: string };

export function FactorOff({ onCodes }: { onCodes: (codes: string[]) => void }): ReactNode {
  const [begun, setBegun] = useState<Begun | null>(null);
  return (
    <Section title="Second factor" brief="off">
      {begun ? <Confirm begun={begun} onCodes={onCodes} /> : <Begin onBegun={setBegun} />}
    </Section>
  );
}

function Begin({ onBegun }: { onBegun: (begun: Begun) => void }): ReactNode {
  const begin = useMutation({ mutationFn: beginFactor, onSuccess: onBegun });
  const fields = useFields({ password: '' }, LABELS, begin.error, 'begin');
  return (
    <>
      <p>
        With it, somebody who learned your password still cannot sign in: a code of your phone is asked for too. Any authenticator app does,
        also without signal.
      </p>
      <Form
        error={begin.error}
        labels={LABELS}
        scope="begin"
        submit="Set it up"
        busy={begin.isPending}
        onSubmit={() => begin.mutate(fields.values)}
      >
        <PasswordInput {...fields.text('password')} autoComplete="current-password" maw={360} required visibilityToggleButtonProps={SHOW} />
      </Form>
    </>
  );
}

function Confirm({ begun, onCodes }: { begun: Begun; onCodes: (codes: string[]) => void }): ReactNode {
  const queries = useQueryClient();
  const confirm = useMutation({
    mutationFn: confirmFactor,
    onSuccess: async ({ codes }) => {
      onCodes(codes);
      await Promise.all([meQuery, securityQuery].map(({ queryKey }) => queries.invalidateQueries({ queryKey })));
    },
  });
  const fields = useFields({ code: '' }, CODE, confirm.error, 'confirm');
  return (
    <Form
      error={confirm.error}
      labels={CODE}
      scope="confirm"
      submit="That is the code"
      busy={confirm.isPending}
      onSubmit={() => confirm.mutate(fields.values)}
    >
      <Stack gap="sm">
        <p>
          Take this picture with the authenticator app of your phone. Are you on that phone? Open the app from here, or copy the key into
          it. Then type the code that it shows.
        </p>
        <QrPicture text={begun.uri} />
        <Textarea
          label="Key"
          value={begun.secret.replace(/(.{4})(?=.)/g, '$1 ')}
          readOnly
          autosize
          maw={480}
          classNames={{ input: classes.key }}
          onFocus={(event) => event.currentTarget.select()}
        />
        <Group>
          <Button component="a" href={begun.uri} variant="default">
            Open the app of this phone
          </Button>
          <CopyText text={begun.secret}>Copy the key</CopyText>
        </Group>
        <TextInput {...fields.text('code')} autoComplete="one-time-code" inputMode="numeric" maw={360} required autoFocus />
      </Stack>
    </Form>
  );
}
