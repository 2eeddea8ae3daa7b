// Behind the link of a mail: whoever is new, or forgot, chooses a password.
import type { ReactNode } from 'react';
import { PasswordInput } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { getRouteApi, useRouter } from '@tanstack/react-router';
import { choosePasswordByLink } from '../../api/people.ts';
import { Form } from '../../ui/Form.tsx';
import { TextLink } from '../../ui/links.tsx';
import { saved } from '../../ui/saved.ts';
import { useFields } from '../../ui/useFields.ts';
import { OutsideCard } from './OutsideCard.tsx';

const LABELS = { password: 'New password' };
const route = getRouteApi('/new-password/$token');

export function NewPasswordPage(): ReactNode {
  const { token } = route.useParams();
  const router = useRouter();
  const choose = useMutation({
    mutationFn: choosePasswordByLink,
    onSuccess: async () => {
      saved('Your password is set. Sign in with it.');
      await router.navigate({ href: '/sign-in', replace: true });
    },
  });
  const fields = useFields({ password: '' }, LABELS, choose.error);
  return (
    <OutsideCard title="Choose a password">
      <Form
        error={choose.error}
        labels={LABELS}
        submit="Set this password"
        busy={choose.isPending}
        help={<TextLink to="/forgotten">Ask for a new link</TextLink>}
        onSubmit={() => choose.mutate({ token, password: fields.values.password })}
      >
        <PasswordInput
          {...fields.text('password')}
          autoComplete="new-password"
          description="At least 12 characters. Three or four words that only you would put together do well."
          autoFocus
          required
          visibilityToggleButtonProps={{ 'aria-label': 'Show the password', tabIndex: 0 }}
        />
      </Form>
    </OutsideCard>
  );
}
