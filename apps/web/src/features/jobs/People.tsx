// The people on a job in their roles and who attends: adding one, taking one off, correcting an address.
import { useState, type ReactNode } from 'react';
import { Button, Checkbox, Group, NativeSelect, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { PARTY_ROLES, type JobPage as Job, type PartyRole } from '@backsight/contract/jobs';
import { newId } from '../../api/ids.ts';
import { addJobParty, changeParty, removeJobParty } from '../../api/jobs.ts';
import { deskQuery } from '../../api/desk.ts';
import { reachWords } from '../../ui/contacts/reach.ts';
import { useDraft, whileSending } from '../../ui/draft.ts';
import { Kept } from '../../ui/Kept.tsx';
import { TextLink } from '../../ui/links.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { AskOwner } from './AskOwner.tsx';
import { Attendance } from './Attendance.tsx';
import { useChange } from './useChange.ts';
import classes from './jobs.module.css';

type Party = Job['parties'][number];

export function People({ job, mayWork, isOwner }: { job: Job; mayWork: boolean; isOwner: boolean }): ReactNode {
  const [adding, setAdding] = useState(false);
  const desk = useQuery(deskQuery(job.id)).data;
  return (
    <section aria-label="People">
      <h2>People</h2>
      <ul className={classes.rows}>
        {job.parties.map((party) => (
          <OneParty key={party.id} party={party} job={job} mayWork={mayWork} isOwner={isOwner} />
        ))}
      </ul>
      {desk ? <Attendance job={job} attendance={desk.attendance} mayWork={mayWork} /> : null}
      {mayWork && !adding ? (
        <Button variant="default" onClick={() => setAdding(true)}>
          Add a person
        </Button>
      ) : null}
      {adding ? <AddParty job={job} onDone={() => setAdding(false)} /> : null}
    </section>
  );
}

function OneParty({ party, job, mayWork, isOwner }: { party: Party; job: Job; mayWork: boolean; isOwner: boolean }): ReactNode {
  const [editing, setEditing] = useState(false);
  const remove = useChange(removeJobParty, `${party.name} is off the job.`, undefined, () =>
    party.mayReceiveReport ? null : () => addJobParty({ jobId: job.id, key: newId(), id: party.partyId, role: party.role }),
  );
  return (
    <li>
      <div className={classes.words}>
        <strong>{party.name}</strong>, {PARTY_ROLES[party.role]}
        {party.minor ? ', under age' : ''}
        <div className={classes.soft}>
          {[party.phone, party.email].filter(Boolean).join(' · ') || 'no phone and no e-mail address yet'}
          {party.mayReceiveReport ? ' · receives the report' : ''}
          {reachWords(party) ? ` · ${reachWords(party)}` : ''}
          {party.askOwner ? ` · ask the owner: ${party.askOwner}` : ''}
        </div>
        <ProblemNote of={remove.error} />
        {isOwner ? <AskOwner of="person" id={party.partyId} name={party.name} /> : null}
        {mayWork ? (
          <TextLink to="/personal-data" search={{ subject: 'party', id: party.partyId }} aria-label={`Personal data of ${party.name}`}>
            Personal data
          </TextLink>
        ) : null}
      </div>
      {mayWork && !editing ? (
        <Group gap="xs">
          <Button size="compact-md" variant="default" onClick={() => setEditing(true)} aria-label={`Change the addresses of ${party.name}`}>
            Change
          </Button>
          <Button
            size="compact-md"
            variant="default"
            loading={remove.isPending}
            onClick={() => remove.mutate({ id: job.id, jobPartyId: party.id })}
            aria-label={`Take off the job: ${party.name}`}
          >
            Take off
          </Button>
        </Group>
      ) : null}
      {editing ? <ChangeParty party={party} onDone={() => setEditing(false)} /> : null}
    </li>
  );
}

function ChangeParty({ party, onDone }: { party: Party; onDone: () => void }): ReactNode {
  const { language, assistance, largePrint } = party;
  const { values, setValues, draft } = useDraft(
    { email: party.email ?? '', phone: party.phone ?? '', language, assistance, largePrint },
    `change ${party.partyId}`,
  );
  const set = (part: Partial<typeof values>) => setValues((typed) => ({ ...typed, ...part }));
  const before = { email: party.email, phone: party.phone, language, assistance, largePrint };
  const change = useChange(changeParty, 'The addresses were saved.', onDone, () => () => changeParty({ id: party.partyId, ...before }));
  return (
    <form
      className={classes.inline}
      onSubmit={(event) => {
        event.preventDefault();
        const [email, phone] = [values.email.trim() || null, values.phone.trim() || null];
        whileSending(draft, () => change.mutate({ id: party.partyId, ...values, email, phone, language: values.language.trim() }));
      }}
    >
      <Kept draft={draft} />
      <ProblemNote of={change.error} />
      <Group align="flex-end" gap="sm">
        <TextInput
          label="Phone"
          type="tel"
          value={values.phone}
          onChange={(event) => set({ phone: event.currentTarget.value })}
          autoFocus
        />
        <TextInput
          label="E-mail address"
          type="email"
          value={values.email}
          onChange={(event) => set({ email: event.currentTarget.value })}
        />
        <ReachInputs value={values} onChange={set} />
        <Button type="submit" loading={change.isPending}>
          Save
        </Button>
        <Button variant="default" onClick={onDone}>
          Leave it
        </Button>
      </Group>
    </form>
  );
}

type Reached = Pick<Party, 'language' | 'assistance' | 'largePrint'>;

/** What is to be minded before this person is called or written to. */
function ReachInputs({ value, onChange }: { value: Reached; onChange: (part: Partial<Reached>) => void }): ReactNode {
  return (
    <>
      <TextInput
        label="Language, if not English"
        maxLength={40}
        value={value.language}
        onChange={(event) => onChange({ language: event.currentTarget.value })}
      />
      <NativeSelect
        label="Calls with"
        value={value.assistance}
        data={[
          { value: 'none', label: 'no help needed' },
          { value: 'relay', label: 'a relay call' },
          { value: 'interpreter', label: 'an interpreter' },
        ]}
        onChange={(event) => onChange({ assistance: event.currentTarget.value as Reached['assistance'] })}
      />
      <Checkbox
        label="Large print"
        checked={value.largePrint}
        onChange={(event) => onChange({ largePrint: event.currentTarget.checked })}
      />
    </>
  );
}

function AddParty({ job, onDone }: { job: Job; onDone: () => void }): ReactNode {
  const [{ id, key }] = useState(() => ({ id: newId(), key: newId() }));
  const { values: form, setValues, draft } = useDraft({ name: '', role: 'payer' as PartyRole, phone: '', email: '' }, 'add a person');
  const [consent, setConsent] = useState(false); // since today: of no use on another day
  const set = (part: Partial<typeof form>) => setValues((before) => ({ ...before, ...part }));
  const add = useChange(addJobParty, `${form.name} is on the job.`, onDone);
  const send = () =>
    add.mutate({
      jobId: job.id,
      key,
      id,
      name: form.name,
      role: form.role,
      ...(form.phone ? { phone: form.phone } : {}),
      ...(form.email ? { email: form.email } : {}),
      ...(consent ? { mayReceiveReport: true, consentAt: new Date().toISOString() } : {}),
    });
  return (
    <form
      className={classes.inline}
      onSubmit={(event) => {
        event.preventDefault();
        whileSending(draft, send);
      }}
    >
      <Kept draft={draft} />
      <ProblemNote of={add.error} />
      <Group align="flex-end" gap="sm">
        <TextInput
          label="Name"
          value={form.name}
          onChange={(event) => set({ name: event.currentTarget.value })}
          autoComplete="off"
          autoFocus
          required
        />
        <NativeSelect
          label="Role"
          value={form.role}
          onChange={(event) => set({ role: event.currentTarget.value as PartyRole })}
          data={Object.entries(PARTY_ROLES).map(([value, label]) => ({ value, label }))}
        />
        <TextInput label="Phone" type="tel" value={form.phone} onChange={(event) => set({ phone: event.currentTarget.value })} />
        <TextInput label="E-mail address" type="email" value={form.email} onChange={(event) => set({ email: event.currentTarget.value })} />
        {form.role === 'client' ? null : (
          <Checkbox
            mb={8}
            label="Receives the report: the client's written consent is on file since today"
            checked={consent}
            onChange={(event) => setConsent(event.currentTarget.checked)}
          />
        )}
        <Button type="submit" loading={add.isPending}>
          Put on the job
        </Button>
        <Button variant="default" onClick={onDone}>
          Leave it
        </Button>
      </Group>
    </form>
  );
}
