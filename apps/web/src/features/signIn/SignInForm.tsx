// Address and password, and the code of the phone where one is asked for; what was typed stays after a refusal.
import type { ReactNode } from 'react';
import { PasswordInput, Stack, TextInput } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { signIn } from '../../api/people.ts';
import { asProblem } from '../../api/problemError.ts';
import { Form } from '../../ui/Form.tsx';
import { useFields } from '../../ui/useFields.ts';

const LABELS = { email: 'E-mail address', password: 'Password', code: 'Code of your phone' };
/** Refusals of somebody whose password is right. */
const OF_THE_CODE = ['code-needed', 'code-wrong', 'factor-unreadable'];

export function SignInForm({ onSignedIn }: { onSignedIn: () => void }): ReactNode {
  const enter = useMutation({ mutationFn: signIn, onSuccess: onSignedIn });
  const code = asProblem(enter.error)?.code ?? '';
  const first = code === 'code-needed'; // no mistake, only the next thing to type
  const fields = useFields({ email: '', password: '', code: '' }, LABELS, first ? null : enter.error, 'sign-in');
  const asked = OF_THE_CODE.includes(code) || fields.values.code !== '';
  return (
    <Form
      error={first ? null : enter.error}
      labels={LABELS}
      scope="sign-in"
      submit="Sign in"
      busy={enter.isPending}
      onSubmit={() => enter.mutate(asked ? fields.values : { email: fields.values.email, password: fields.values.password })}
    >
      <Stack gap="sm">
        <TextInput {...fields.text('email')} type="email" autoComplete="username" autoFocus />
        <PasswordInput
          {...fields.text('password')}
          autoComplete="current-password"
          visibilityToggleButtonProps={{ 'aria-label': 'Show the password', tabIndex: 0 }}
        />
        {asked ? (
          <TextInput
            {...fields.text('code')}
            autoComplete="one-time-code"
            description="The six digits that it shows now. Phone lost? One of your recovery codes."
            autoFocus
          />
        ) : null}
      </Stack>
    </Form>
  );
}
