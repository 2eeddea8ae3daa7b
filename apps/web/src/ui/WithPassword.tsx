// An act that one does only with the own password typed anew, and a code of the phone where one is asked for; opens in the place of its button.
import type { ReactNode } from 'react';
import { Button, PasswordInput, Stack, TextInput } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { Follows } from './Follows.tsx';
import { Form } from './Form.tsx';
import { useFields } from './useFields.ts';

const LABELS = { password: 'Your own password', code: 'Code of your phone' };
const SHOW = { 'aria-label': 'Show the password', tabIndex: 0 };

export type Said = { password: string; code: string };
type Props = {
  /** Name of the form among others of the page. */
  scope: string;
  /** Name of the act on its button. */
  act: string;
  /** Whether a code of the phone is asked for too. */
  code?: boolean;
  send: (said: Said) => Promise<unknown>;
  /** Closes it: after the act, and by the button. */
  onBack: () => void;
  /** What will happen. */
  children: ReactNode;
};

export function WithPassword({ scope, act, code = false, send, onBack, children }: Props): ReactNode {
  const sending = useMutation({ mutationFn: send, onSuccess: onBack });
  const fields = useFields({ password: '', code: '' }, LABELS, sending.error, scope);
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
      <Stack gap="sm" maw={360}>
        <PasswordInput {...fields.text('password')} autoComplete="current-password" required autoFocus visibilityToggleButtonProps={SHOW} />
        {code ? (
          <TextInput {...fields.text('code')} autoComplete="one-time-code" description="Or one of your recovery codes." required />
        ) : null}
      </Stack>
    </Form>
  );
}
