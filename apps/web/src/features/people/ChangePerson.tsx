// Changes a person. Only what was changed is sent; if somebody else was faster, both versions are shown and nothing typed is lost.
import { useState, type ReactNode } from 'react';
import { Button, PasswordInput, TextInput } from '@mantine/core';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useNavigate } from '@tanstack/react-router';
import type { Person } from '@backsight/contract/people';
import { changePerson, personQuery, type PersonChange } from '../../api/people.ts';
import { asProblem } from '../../api/problemError.ts';
import { Form } from '../../ui/Form.tsx';
import { ButtonLink } from '../../ui/links.tsx';
import { saved } from '../../ui/saved.ts';
import { inputId, useFields } from '../../ui/useFields.ts';
import { changesOf, differences, draftOf, type ChangeDraft } from './changes.ts';
import { PERSON_LABELS, PersonInputs } from './PersonInputs.tsx';

const LABELS = { ...PERSON_LABELS, endedOn: 'Leaves on', password: 'Your own password' } satisfies Record<keyof ChangeDraft, string> & {
  password: string;
};
const SHOW = { 'aria-label': 'Show the password', tabIndex: 0 };

export function ChangePerson({ person }: { person: Person }): ReactNode {
  const navigate = useNavigate();
  const queries = useQueryClient();
  const [base, setBase] = useState(person);
  const back = () => navigate({ to: '/people/$personId', params: { personId: person.id }, search: {} });
  const save = useMutation({
    mutationFn: (change: PersonChange) => changePerson({ id: person.id, version: base.version, change }),
    onSuccess: async () => {
      await queries.invalidateQueries({ queryKey: ['people'] });
      saved('The changes were saved.');
      await back();
    },
    onError: (error) => {
      if (asProblem(error)?.code === 'changed-meanwhile') void queries.invalidateQueries({ queryKey: personQuery(person.id).queryKey });
    },
  });
  const fields = useFields(draftOf(person), LABELS, save.error);
  const [password, setPassword] = useState('');
  const moved = fields.values.email.trim().toLowerCase() !== base.email.toLowerCase();
  const wrong = asProblem(save.error)?.fields.find(({ field }) => field === 'password');
  const takeNewest = () => {
    fields.setValues(draftOf(person));
    keepMine();
  };
  const keepMine = () => {
    setBase(person);
    save.reset();
  };
  const help =
    asProblem(save.error)?.code === 'changed-meanwhile' ? (
      <Newest draft={fields.values} newest={person} onTake={takeNewest} onKeep={keepMine} />
    ) : undefined;
  const send = () => {
    const change = changesOf(draftOf(base), fields.values);
    if (Object.keys(change).length === 0) void back();
    else save.mutate(moved ? { ...change, password } : change);
  };
  return (
    <Form
      error={save.error}
      labels={LABELS}
      draft={fields.draft}
      submit="Save the changes"
      busy={save.isPending}
      help={help}
      onSubmit={send}
      besides={
        <ButtonLink to="/people/$personId" params={{ personId: person.id }} search={{}} variant="default">
          Leave without saving
        </ButtonLink>
      }
    >
      <PersonInputs fields={fields} />
      <TextInput
        {...fields.text('endedOn')}
        type="date"
        mt="md"
        maw="20rem"
        description="From this day on, signing in is not possible. Blank: stays."
      />
      {moved ? (
        <PasswordInput
          label={LABELS.password}
          value={password}
          onChange={(event) => setPassword(event.currentTarget.value)}
          id={inputId('password')}
          error={wrong?.message}
          description="The address is what somebody signs in with, so say that it is you."
          autoComplete="current-password"
          mt="md"
          maw="20rem"
          required
          visibilityToggleButtonProps={SHOW}
        />
      ) : null}
    </Form>
  );
}

type NewestProps = { draft: ChangeDraft; newest: Person; onTake: () => void; onKeep: () => void };

function Newest({ draft, newest, onTake, onKeep }: NewestProps): ReactNode {
  const rows = differences(draft, draftOf(newest));
  return (
    <>
      {rows.length > 0 ? (
        <ul>
          {rows.map(({ name, mine, theirs }) => (
            <li key={name}>
              {LABELS[name]}: now on file "{theirs}", you have "{mine}"
            </li>
          ))}
        </ul>
      ) : (
        <p>What is on file now is the same as what you have.</p>
      )}
      <Button size="compact-sm" onClick={onKeep} me="xs">
        Keep mine and go on
      </Button>
      <Button size="compact-sm" variant="default" onClick={onTake}>
        Take what is on file
      </Button>
    </>
  );
}
