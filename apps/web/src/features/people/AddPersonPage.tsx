// Adds somebody to the firm. Sending twice adds one person: the form keeps its id and its key.
import { useRef, useState, type ReactNode } from 'react';
import { Checkbox, PasswordInput, SimpleGrid, TextInput } from '@mantine/core';
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useNavigate } from '@tanstack/react-router';
import { newId } from '../../api/ids.ts';
import { addPerson, peopleQuery, useMe, invitePerson } from '../../api/people.ts';
import { whileSending } from '../../ui/draft.ts';
import { Form } from '../../ui/Form.tsx';
import { ButtonLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { saved } from '../../ui/saved.ts';
import { todayIn } from '../../ui/time.ts';
import { useFields } from '../../ui/useFields.ts';
import { BLANK, numberOrNothing, PERSON_LABELS, PersonInputs, type Finding, type PersonDraft } from './PersonInputs.tsx';
import { mayAdd } from './words.ts';

/** A new home is found by its ZIP code, which stands for its latitude. */
const LABELS = { ...PERSON_LABELS, homeLat: 'ZIP code', startedOn: 'Starts on', password: 'First password' };

/** Until a place is found the longitude is missing with it: that is said once. */
const { homeLon: _, ...BY_ZIP } = LABELS;

export function AddPersonPage(): ReactNode {
  const me = useMe();
  const people = useQuery(peopleQuery);
  const office = people.data?.find(({ id }) => id === me.id)?.officeId;
  return (
    <Page title="Add a person" width="narrow" about="A new person can be put into pairs once licenses and working hours are on file.">
      <ProblemNote of={people.error} />
      {people.isPending ? <Loading /> : null}
      {mayAdd(me.roles) ? office ? <AddForm officeId={office} /> : null : <p>Only the owner and the office manager add people.</p>}
    </Page>
  );
}

function AddForm({ officeId }: { officeId: string }): ReactNode {
  const me = useMe();
  const navigate = useNavigate();
  const queries = useQueryClient();
  const [invites, setInvites] = useState(true);
  const [{ id, key }] = useState(() => ({ id: newId(), key: newId() }));
  const add = useMutation({
    mutationFn: addPerson,
    onSuccess: async (_, sent) => {
      const invited =
        invites &&
        sent.password === undefined &&
        (await invitePerson({ id }).then(
          () => true,
          () => false,
        ));
      await queries.invalidateQueries({ queryKey: ['people'] });
      saved(`${fields.values.name} was added.${invited ? ` A mail with a link to choose a password goes to ${fields.values.email}.` : ''}`);
      await navigate({ to: '/people/$personId', params: { personId: id } });
    },
  });
  const fields = useFields({ ...BLANK, startedOn: todayIn(me.zone), password: '' }, LABELS, add.error);
  const placeRef: Finding = useRef(null);
  const send = (place = fields.values as Pick<PersonDraft, 'homeLat' | 'homeLon'>) => {
    const { password, ...rest } = fields.values;
    add.mutate({
      ...rest,
      homeLat: numberOrNothing(place.homeLat),
      homeLon: numberOrNothing(place.homeLon),
      ...(password ? { password } : {}),
      id,
      officeId,
      key,
    });
  };
  /** Whoever types the ZIP code last and is faster than its place waits for it. */
  const sendWithPlace = () => {
    if (fields.values.homeLat !== '' || !placeRef.current) return send();
    void placeRef.current.then((place) => whileSending(fields.draft, () => send(place ?? undefined)));
  };
  return (
    <Form
      error={add.error}
      labels={fields.values.homeLat === '' ? BY_ZIP : LABELS}
      draft={fields.draft}
      submit="Add this person"
      busy={add.isPending}
      onSubmit={sendWithPlace}
      besides={
        <ButtonLink to="/people" variant="default">
          Back to people
        </ButtonLink>
      }
    >
      <PersonInputs fields={fields} placeRef={placeRef} />
      <SimpleGrid cols={{ base: 1, xs: 2 }} mt="md">
        <TextInput {...fields.text('startedOn')} type="date" required />
        <PasswordInput
          {...fields.text('password')}
          autoComplete="new-password"
          description="At least 12 characters; leave it empty to let this person choose"
          visibilityToggleButtonProps={{ 'aria-label': 'Show the password', tabIndex: 0 }}
        />
      </SimpleGrid>
      {fields.values.password === '' ? (
        <Checkbox
          mt="md"
          checked={invites}
          onChange={(event) => setInvites(event.currentTarget.checked)}
          label="Send a mail with a link to choose a password"
        />
      ) : null}
    </Form>
  );
}
