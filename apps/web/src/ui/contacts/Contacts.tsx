// Everything that was said with the people of a job: calls, texts, talks at the door and mails in one list, the newest first.
import type { ReactNode } from 'react';
import { Button, Group } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { CHANNELS, OUTCOMES, type ContactShown, type PersonToReach } from '@backsight/contract/mail/contacts';
import { contactsQuery, sendCertificate } from '../../api/contacts.ts';
import { Empty } from '../Empty.tsx';
import { ProblemNote } from '../ProblemNote.tsx';
import { Section } from '../Section.tsx';
import { useSend } from '../useSend.ts';
import { When } from '../When.tsx';
import { LogContact } from './LogContact.tsx';
import { PrepareText } from './PrepareText.tsx';
import { reachWords } from './reach.ts';
import classes from './contacts.module.css';

const MAIL_STATES: Record<string, string> = { given_up: 'given up', kept: 'kept here', bounced: 'came back' };
const stateWords = ({ channel, state }: ContactShown): string =>
  channel === 'mail' ? (MAIL_STATES[state] ?? state) : OUTCOMES[state as keyof typeof OUTCOMES];

/** So many of the newest are seen at once. */
const NEWEST = 3;

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
      <Certificates people={people.filter(({ email }) => email !== null)} />
      {found.data && rows.length === 0 ? <Empty>Nobody was called or written to yet.</Empty> : null}
      <Said rows={rows.slice(0, NEWEST)} />
      {rows.length > NEWEST ? (
        <details>
          <summary>{rows.length - NEWEST} earlier</summary>
          <Said rows={rows.slice(NEWEST)} />
        </details>
      ) : null}
    </Section>
  );
}

const Said = ({ rows }: { rows: readonly ContactShown[] }): ReactNode => (
  <ul className={classes.said}>
    {rows.map((row) => (
      <li key={row.id}>
        <strong>{row.who}</strong>, {row.channel === 'mail' ? 'mail' : CHANNELS[row.channel]}, {stateWords(row)}:{' '}
        {[row.callbackNumber === null ? null : `callback ${row.callbackNumber}`, row.words].filter(Boolean).join(': ') || 'nothing noted'}
        <span className={classes.by}>
          {' '}
          <When at={row.at} />, {row.by ?? 'the service'}
        </span>
      </li>
    ))}
  </ul>
);

/** Somebody in two roles is one person to call. */
const once = (people: readonly PersonToReach[]): PersonToReach[] => [...new Map(people.map((one) => [one.partyId, one])).values()];

function Reach({ person }: { person: PersonToReach }): ReactNode {
  const { name, phone, text } = person;
  const minded = reachWords(person);
  return (
    <li className={classes.person}>
      <Group gap="xs">
        <span>
          <strong>{name}</strong>
          {minded ? ` (${minded})` : ''}
          {phone ? ', ' : ', no phone number'}
          {phone ? <a href={`tel:${phone.replace(/[^\d+]/g, '')}`}>{phone}</a> : null}
        </span>
        {phone ? <PrepareText name={name} phone={phone} text={text} /> : null}
      </Group>
    </li>
  );
}

/** Agents and relocation firms ask for it now and then; it goes by mail. */
function Certificates({ people }: { people: readonly PersonToReach[] }): ReactNode {
  if (people.length === 0) return null;
  return (
    <details>
      <summary>Send the insurer’s certificate</summary>
      <Group gap="xs" my="xs">
        {people.map((person) => (
          <Certificate key={person.partyId} person={person} />
        ))}
      </Group>
    </details>
  );
}

function Certificate({ person: { jobId, partyId, name } }: { person: PersonToReach }): ReactNode {
  const send = useSend(sendCertificate, { refresh: ['contacts'], said: `The certificate goes to ${name}.` });
  return (
    <div>
      <ProblemNote of={send.error} />
      <Button
        size="compact-md"
        variant="default"
        loading={send.isPending}
        aria-label={`Send the certificate of insurance to ${name}`}
        onClick={() => send.mutate({ jobId, partyId })}
      >
        To {name}
      </Button>
    </div>
  );
}
