// Everything that was said with the people of a job: calls, texts, talks at the door and mails in one list, the newest first.
import type { ReactNode } from 'react';
import { Button, Group } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { CHANNELS, OUTCOMES, type ContactShown, type PersonToReach } from '@backsight/contract/mail/contacts';
import { contactsQuery, sendCertificate } from '../../api/contacts.ts';
import { DataTable, type Column } from '../DataTable.tsx';
import { Empty } from '../Empty.tsx';
import { ProblemNote } from '../ProblemNote.tsx';
import { Section } from '../Section.tsx';
import { useSend } from '../useSend.ts';
import { When } from '../When.tsx';
import { LogContact } from './LogContact.tsx';
import { PrepareText } from './PrepareText.tsx';
import { reachWords } from './reach.ts';

const MAIL_STATES: Record<string, string> = { given_up: 'given up', kept: 'kept here', bounced: 'came back' };
const stateWords = ({ channel, state }: ContactShown): string =>
  channel === 'mail' ? (MAIL_STATES[state] ?? state) : OUTCOMES[state as keyof typeof OUTCOMES];

const COLUMNS: Column<ContactShown>[] = [
  { key: 'who', head: 'With', cell: ({ who }) => who },
  { key: 'how', head: 'How', cell: (row) => `${row.channel === 'mail' ? 'mail' : CHANNELS[row.channel]}, ${stateWords(row)}` },
  {
    key: 'words',
    head: 'What',
    cell: ({ words, callbackNumber }) =>
      [callbackNumber === null ? null : `callback ${callbackNumber}`, words].filter(Boolean).join(': ') || 'nothing noted',
  },
  { key: 'by', head: 'By', cell: ({ by }) => by ?? 'the service' },
  { key: 'at', head: 'When', oneLine: true, cell: ({ at }) => <When at={at} /> },
];

type Props = { jobId: string; callbackId?: string };

export function Contacts({ jobId, callbackId }: Props): ReactNode {
  const found = useQuery(contactsQuery(jobId));
  const people = once(found.data?.people ?? []);
  const rows = found.data?.contacts ?? [];
  return (
    <Section title="Contacts" actions={<LogContact jobId={jobId} people={people} {...(callbackId ? { callbackId } : {})} />}>
      <ProblemNote of={found.error} />
      <ul style={{ listStyle: 'none', padding: 0 }}>
        {people.map((person) => (
          <Reach key={person.partyId} person={person} />
        ))}
      </ul>
      {found.data && rows.length === 0 ? <Empty>Nobody was called or written to yet.</Empty> : null}
      {rows.length > 0 ? <DataTable caption="Contacts" columns={COLUMNS} rows={rows} rowKey={({ id }) => id} /> : null}
    </Section>
  );
}

/** Somebody in two roles is one person to call. */
const once = (people: readonly PersonToReach[]): PersonToReach[] => [...new Map(people.map((one) => [one.partyId, one])).values()];

function Reach({ person }: { person: PersonToReach }): ReactNode {
  const { jobId, partyId, name, phone, email, text } = person;
  const send = useSend(sendCertificate, { refresh: ['contacts'], said: `The certificate goes to ${name}.` });
  const minded = reachWords(person);
  return (
    <li style={{ padding: '0.35rem 0' }}>
      <ProblemNote of={send.error} />
      <Group gap="sm">
        <span>
          <strong>{name}</strong>
          {minded ? ` (${minded})` : ''}
          {phone ? ', ' : ', no phone number'}
          {phone ? <a href={`tel:${phone.replace(/[^\d+]/g, '')}`}>{phone}</a> : null}
        </span>
        {phone ? <PrepareText name={name} phone={phone} text={text} /> : null}
        {email ? (
          <Button
            size="compact-sm"
            variant="default"
            loading={send.isPending}
            aria-label={`Send the certificate of insurance to ${name}`}
            onClick={() => send.mutate({ jobId, partyId })}
          >
            Send certificate
          </Button>
        ) : null}
      </Group>
    </li>
  );
}
