// One person inside or outside the firm: found by name, given everything that is kept of them, erased by the list that is shown.
import { useState, type FormEvent, type ReactNode } from 'react';
import { Button, Group, NativeSelect, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { ASKED_HOW, type AskedHow, type EraseLine, type FoundPerson, type Subject } from '@backsight/contract/personal';
import { newId } from '../../api/ids.ts';
import { erasePerson, erasureQuery, exportPerson, foundPeopleQuery } from '../../api/personal.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { Follows } from '../../ui/Follows.tsx';
import { Form } from '../../ui/Form.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { Day } from '../../ui/When.tsx';
import { dayText } from '../../ui/time.ts';

const route = getRouteApi('/shell/personal-data');

export function OnePerson({ owner }: { owner: boolean }): ReactNode {
  const { q = '', subject, id } = route.useSearch();
  const navigate = route.useNavigate();
  const [typed, setTyped] = useState(q);
  const found = useQuery(foundPeopleQuery(q));
  const look = (event: FormEvent) => {
    event.preventDefault();
    void navigate({ search: typed.trim() === '' ? {} : { q: typed.trim() } });
  };
  return (
    <Section title="One person">
      <form onSubmit={look}>
        <Group align="end" gap="sm">
          <TextInput
            label="Part of a name, an address or a phone"
            value={typed}
            onChange={(event) => setTyped(event.currentTarget.value)}
            maw="24rem"
          />
          <Button type="submit" variant="default">
            Find
          </Button>
        </Group>
      </form>
      <ProblemNote of={found.error} />
      {found.data?.length === 0 ? <Empty>Nobody is kept under that.</Empty> : null}
      {found.data && found.data.length > 0 && !id ? (
        <DataTable caption="People found" columns={FOUND} rows={found.data} rowKey={({ id: one }) => one} />
      ) : null}
      {subject && id ? <Chosen key={id} subject={subject} id={id} owner={owner} /> : null}
    </Section>
  );
}

const FOUND: Column<FoundPerson>[] = [
  {
    key: 'name',
    head: 'Name',
    cell: ({ subject, id, name }) => (
      <TextLink to="/personal-data" search={{ subject, id }}>
        {name}
      </TextLink>
    ),
  },
  { key: 'who', head: 'Who', cell: ({ subject }) => (subject === 'party' ? 'outside the firm' : 'of the firm') },
  { key: 'about', head: 'Known by', cell: ({ about }) => about },
];

function Chosen({ subject, id, owner }: { subject: Subject; id: string; owner: boolean }): ReactNode {
  const { data, error, isPending } = useQuery({ ...erasureQuery(subject, id), enabled: owner });
  const made = useSend(exportPerson, { refresh: ['audit'], said: 'The file was made: your browser keeps it.', then: keepFile });
  return (
    <>
      {data ? <h3>{data.name}</h3> : null}
      <Button variant="default" mt="sm" loading={made.isPending} onClick={() => made.mutate({ subject, id })}>
        Everything about this person, as a file
      </Button>
      <Follows>A ZIP file with a page to read, the same as data, and the papers. That it was made stands in the audit trail.</Follows>
      <ProblemNote of={error ?? made.error} />
      {owner && isPending ? <Loading /> : null}
      {data ? (
        <Erase subject={subject} id={id} name={data.name} lines={data.lines} fingerprint={data.fingerprint} backups={data.backups} />
      ) : null}
      {data?.asked.map((one) => (
        <p key={one.id}>
          Asked {ASKED_HOW[one.askedHow]} on {dayText(one.askedOn)}; erased by {one.by}.
        </p>
      ))}
    </>
  );
}

/** Hands the bytes to the browser, as a link to a file would. */
function keepFile({ name, file }: { name: string; file: Blob }): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(file);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

const LINES: Column<EraseLine>[] = [
  { key: 'what', head: 'What', cell: ({ what }) => what, sentences: true },
  { key: 'goes', head: 'Goes or stays', oneLine: true, cell: ({ goes }) => (goes ? 'Goes' : <strong>Stays</strong>) },
  {
    key: 'why',
    head: 'Why',
    sentences: true,
    cell: ({ why, until }) => (
      <>
        {why}
        {until ? (
          <>
            {' '}
            Until <Day day={until} />.
          </>
        ) : null}
      </>
    ),
  },
];

const LABELS = { askedOn: 'Asked on', askedHow: 'How' };
type Props = { subject: Subject; id: string; name: string; lines: EraseLine[]; fingerprint: string; backups: string };

function Erase({ subject, id, name, lines, fingerprint, backups }: Props): ReactNode {
  const [key] = useState(newId);
  const erase = useSend(erasePerson, { refresh: ['personal'], said: 'It was erased. What stays, and until when, is in the list.' });
  const fields = useFields<{ askedOn: string; askedHow: AskedHow }>({ askedOn: '', askedHow: 'mail' }, LABELS, erase.error, 'erase');
  const going = lines.filter(({ goes }) => goes).length;
  return (
    <>
      <h3>If {name} asks to be erased</h3>
      <DataTable caption="What goes and what stays" columns={LINES} rows={lines} rowKey={({ act, id: of, what }) => act + (of ?? what)} />
      <p>{backups} The audit trail and the ledger name people by numbers alone, and stay whole.</p>
      {going === 0 ? (
        <p>Nothing is left that may go now.</p>
      ) : (
        <Form
          error={erase.error}
          labels={LABELS}
          scope="erase"
          submit={`Erase what goes (${going} of ${lines.length})`}
          busy={erase.isPending}
          onSubmit={() => erase.mutate({ subject, subjectId: id, id: key, fingerprint, ...fields.values })}
        >
          <Group align="start" gap="md">
            <TextInput {...fields.text('askedOn')} type="date" required />
            <NativeSelect {...fields.text('askedHow')} data={Object.entries(ASKED_HOW).map(([value, label]) => ({ value, label }))} />
          </Group>
          <Follows>It cannot be taken back. Answer whoever asked within the time that their law gives; your attorney knows it.</Follows>
        </Form>
      )}
    </>
  );
}
