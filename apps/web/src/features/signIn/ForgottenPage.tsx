// Whoever forgot the password asks for a link. The answer is the same for every address.
import { useState, type ReactNode } from 'react';
import { TextInput } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { askForPasswordLink } from '../../api/people.ts';
import { Form } from '../../ui/Form.tsx';
import { ButtonLink } from '../../ui/links.tsx';
import { useFields } from '../../ui/useFields.ts';
import { OutsideCard } from './OutsideCard.tsx';

const LABELS = { email: 'E-mail address' };

export function ForgottenPage(): ReactNode {
  const [asked, setAsked] = useState('');
  const ask = useMutation({ mutationFn: askForPasswordLink, onSuccess: (_, sent) => setAsked(sent.email) });
  const fields = useFields({ email: '' }, LABELS, ask.error);
  const back = (
    <ButtonLink to="/sign-in" variant="default">
      Back to the sign-in
    </ButtonLink>
  );
  return (
    <OutsideCard title="Password forgotten">
      {asked ? (
        <>
          <p role="status">
            If somebody signs in with {asked}, a mail with a link goes there now. The link is good for an hour. No mail? Ask the owner of
            the firm, who can give you a new password.
          </p>
          {back}
        </>
      ) : (
        <Form
          error={ask.error}
          labels={LABELS}
          submit="Send me a link"
          busy={ask.isPending}
          besides={back}
          onSubmit={() => ask.mutate(fields.values)}
        >
          <TextInput {...fields.text('email')} type="email" autoComplete="username" autoFocus required />
        </Form>
      )}
    </OutsideCard>
  );
}
