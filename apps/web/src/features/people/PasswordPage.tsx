// Changes one's own password, or, for an owner, gives somebody a new one.
import type { ReactNode } from 'react';
import { PasswordInput, Stack } from '@mantine/core';
import { useMutation, useQuery } from '@tanstack/react-query';
import { getRouteApi, useNavigate } from '@tanstack/react-router';
import { changeOwnPassword, personQuery, setPassword, useMe } from '../../api/people.ts';
import { Form } from '../../ui/Form.tsx';
import { ButtonLink } from '../../ui/links.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { saved } from '../../ui/saved.ts';
import { useFields } from '../../ui/useFields.ts';
import { LostPhone } from './LostPhone.tsx';
import { SignOutEverywhere } from './SignOutEverywhere.tsx';

const LABELS = { present: 'Present password', owners: 'Your own password', password: 'New password' };
const SHOW = { 'aria-label': 'Show the password', tabIndex: 0 };
const route = getRouteApi('/shell/people/$personId/password');

export function PasswordPage(): ReactNode {
  const me = useMe();
  const navigate = useNavigate();
  const { personId } = route.useParams();
  const own = personId === me.id;
  const proof = own ? 'present' : 'owners';
  const person = useQuery(personQuery(personId));
  const change = useMutation({
    mutationFn: own ? changeOwnPassword : setPassword,
    onSuccess: async () => {
      saved(
        own ? 'Your password was changed. Your other sessions have ended.' : `${person.data?.name ?? 'This person'} has a new password.`,
      );
      await navigate({ to: '/people/$personId', params: { personId } });
    },
  });
  const fields = useFields({ present: '', owners: '', password: '' }, LABELS, change.error);
  const back = (
    <ButtonLink to="/people/$personId" params={{ personId }} variant="default">
      Back
    </ButtonLink>
  );
  return (
    <Page
      title={own ? 'Change your password' : `New password for ${person.data?.name ?? 'this person'}`}
      width="narrow"
      about="Changing it ends every other session of this person."
    >
      <ProblemNote of={person.error} />
      {own || me.roles.includes('owner') ? (
        <Form
          error={change.error}
          labels={LABELS}
          submit="Change the password"
          busy={change.isPending}
          besides={back}
          onSubmit={() => change.mutate({ id: personId, present: fields.values[proof], password: fields.values.password })}
        >
          <Stack maw={360}>
            <PasswordInput {...fields.text(proof)} autoComplete="current-password" required visibilityToggleButtonProps={SHOW} />
            <PasswordInput
              {...fields.text('password')}
              autoComplete="new-password"
              required
              description="At least 12 characters. Three or four words that only you would put together do well."
              visibilityToggleButtonProps={SHOW}
            />
          </Stack>
        </Form>
      ) : (
        <p>Only an owner gives somebody a new password.</p>
      )}
      {!own && me.roles.includes('owner') ? (
        <>
          <SignOutEverywhere personId={personId} name={person.data?.name ?? 'this person'} />
          <LostPhone personId={personId} name={person.data?.name ?? 'this person'} />
        </>
      ) : null}
    </Page>
  );
}
