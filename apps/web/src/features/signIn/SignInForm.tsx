// Address and password; what was typed stays after a refusal.
import type { ReactNode } from 'react';
import { PasswordInput, Stack, TextInput } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { signIn } from '../../api/people.ts';
import { Form } from '../../ui/Form.tsx';
import { useFields } from '../../ui/useFields.ts';

const LABELS = { email: 'E-mail address', password: 'Password' };

export function SignInForm({ onSignedIn }: { onSignedIn: () => void }): ReactNode {
  const enter = useMutation({ mutationFn: signIn, onSuccess: onSignedIn });
  const fields = useFields({ email: '', password: '' }, LABELS, enter.error, 'sign-in');
  return (
    <Form
      error={enter.error}
      labels={LABELS}
      scope="sign-in"
      submit="Sign in"
      busy={enter.isPending}
      onSubmit={() => enter.mutate(fields.values)}
    >
      <Stack gap="sm">
        <TextInput {...fields.text('email')} type="email" autoComplete="username" autoFocus />
        <PasswordInput
          {...fields.text('password')}
          autoComplete="current-password"
          visibilityToggleButtonProps={{ 'aria-label': 'Show the password', tabIndex: 0 }}
        />
      </Stack>
    </Form>
  );
}
