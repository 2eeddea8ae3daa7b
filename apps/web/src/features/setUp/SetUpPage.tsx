// The first screen of a new firm: its name and place, its hours, its owner, and whether to begin with the examples.
import { useEffect, useState, type ReactNode } from 'react';
import { Title } from '@mantine/core';
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useRouter } from '@tanstack/react-router';
import { setUpFirm, setUpQuery } from '../../api/firm.ts';
import { newId } from '../../api/ids.ts';
import { signIn } from '../../api/people.ts';
import { asProblem } from '../../api/problemError.ts';
import { BUSINESS_WEEK } from '../../ui/clock.ts';
import { Form } from '../../ui/Form.tsx';
import { TextLink } from '../../ui/links.tsx';
import { saved } from '../../ui/saved.ts';
import { inputId, useFields } from '../../ui/useFields.ts';
import { WeekInput } from '../../ui/WeekInput.tsx';
import { bodyOf, EMPTY, LABELS } from './fields.ts';
import { SetUpInputs } from './SetUpInputs.tsx';

export function SetUpPage(): ReactNode {
  const { data } = useQuery(setUpQuery);
  useEffect(() => {
    document.title = 'Set up the firm · Backsight';
  }, []);
  return (
    <main style={{ maxWidth: '46rem', margin: '0 auto', padding: 'var(--bs-space-9) var(--bs-space-6) var(--bs-space-10)' }}>
      <p style={{ margin: 0 }}>Backsight</p>
      <Title order={1} mb="xs">
        Set up the firm
      </Title>
      {data && !data.needed ? (
        <p>
          The firm is already set up.{' '}
          <TextLink to="/sign-in" search={{}}>
            Sign in
          </TextLink>
        </p>
      ) : (
        <SetUpForm />
      )}
    </main>
  );
}

function SetUpForm(): ReactNode {
  const router = useRouter();
  const queries = useQueryClient();
  const [ids] = useState(() => ({ office: newId(), owner: newId(), key: newId() }));
  const [week, setWeek] = useState(BUSINESS_WEEK);
  const begin = useMutation({
    mutationFn: setUpFirm,
    onSuccess: async (_, { owner }) => {
      const inside = await signIn({ email: owner.email, password: owner.password }).then(
        () => true,
        () => false,
      );
      queries.clear();
      saved(inside ? 'The firm is set up, and you are signed in as its owner.' : 'The firm is set up. Sign in as its owner.');
      await router.navigate({ href: inside ? '/' : '/sign-in' });
    },
  });
  const fields = useFields(EMPTY, LABELS, begin.error);
  const send = () => begin.mutate({ ...bodyOf(fields.values, week, ids), key: ids.key });
  return (
    <Form error={begin.error} labels={LABELS} draft={fields.draft} submit="Set up the firm" busy={begin.isPending} onSubmit={send}>
      <p>This database is empty. Whoever started the service sees a set-up code where it was started.</p>
      <SetUpInputs
        fields={fields}
        hours={
          <WeekInput
            id={inputId('office.hours')}
            legend={LABELS['office.hours']}
            about="Blank: closed"
            value={week}
            onChange={setWeek}
            error={asProblem(begin.error)?.fields.find(({ field }) => field.startsWith('office.hours'))?.message}
          />
        }
      />
    </Form>
  );
}
