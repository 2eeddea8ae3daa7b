// Running late: what no longer fits behind this visit, and the mail that goes out, shown before it is sent.
import { useState, type ReactNode } from 'react';
import { Button, NumberInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { Late } from '@backsight/contract/schedule/late';
import { lateQuery, sayLate } from '../../api/desk.ts';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { ButtonLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { clockText } from '../../ui/time.ts';
import { useSend } from '../../ui/useSend.ts';
import { Choices } from './Choices.tsx';
import classes from './sitework.module.css';

const route = getRouteApi('/shell/visits/$visitId/late');
const USUAL = ['10', '20', '30', '45', '60'] as const;

export function LatePage(): ReactNode {
  const { visitId } = route.useParams();
  const [minutes, setMinutes] = useState(20);
  const { data, error, isPending } = useQuery(lateQuery(visitId, minutes));
  return (
    <Page title="Running late" width="narrow" about={data?.address}>
      <div className={classes.work}>
        <Choices
          legend="How late"
          name="late"
          two
          options={USUAL.map((key) => ({ key, label: `${key} minutes` }))}
          value={(USUAL as readonly string[]).includes(String(minutes)) ? (String(minutes) as (typeof USUAL)[number]) : null}
          onChange={(key) => setMinutes(Number(key))}
        />
        <NumberInput
          label="Or in minutes"
          min={1}
          max={600}
          mt="sm"
          value={minutes}
          onChange={(value) => Number(value) >= 1 && Number(value) <= 600 && setMinutes(Math.trunc(Number(value)))}
        />
        <ProblemNote of={error} />
        {isPending ? <Loading /> : null}
        {data ? <Told key={visitId} late={data} /> : null}
        <ButtonLink to="/my-day" variant="default" size="lg" mt="md">
          Back to my day
        </ButtonLink>
      </div>
    </Page>
  );
}

function Told({ late }: { late: Late }): ReactNode {
  const { zone } = useMe();
  const [ids, setIds] = useState(() => ({ id: newId(), key: newId() }));
  const say = useSend(sayLate, {
    refresh: ['visit', late.visitId],
    said: 'It is noted, and the clients are told.',
    then: () => setIds({ id: newId(), key: newId() }),
  });
  const mails = late.lines.flatMap(({ mail }) => mail);
  const own = late.lines.find(({ visitId }) => visitId === late.visitId);
  const behind = late.lines.filter((line) => line !== own);
  return (
    <>
      {own ? <p>This visit was {expectedWords(own, zone)}.</p> : null}
      <h2 className={classes.day}>Behind this visit</h2>
      {behind.length === 0 ? <p>Everything still fits.</p> : null}
      <ul className={classes.plain}>
        {behind.map((line) => (
          <li key={line.visitId}>
            <strong>{line.address}</strong>, job {line.jobNumber}: {expectedWords(line, zone)}
          </li>
        ))}
      </ul>
      <h2 className={classes.day}>Who is told</h2>
      {mails.length === 0 ? <p>Nobody by mail: no address is on file, or they were told this time already.</p> : null}
      {mails.map(({ partyId, name, email, subject, body }) => (
        <details key={partyId + subject}>
          <summary>
            Mail to {name}, {email}: {subject}
          </summary>
          <p className={classes.letter}>{body}</p>
        </details>
      ))}
      <ProblemNote of={say.error} />
      <div className={classes.acts}>
        <Button
          size="xl"
          loading={say.isPending}
          onClick={() => say.mutate({ visitId: late.visitId, minutes: late.minutes, id: ids.id, key: `${ids.key}-${late.minutes}` })}
        >
          {mails.length > 0 ? `Note it and send ${mails.length} ${mails.length === 1 ? 'mail' : 'mails'}` : 'Note it'}
        </Button>
      </div>
    </>
  );
}

const expectedWords = (line: Late['lines'][number], zone: string): string =>
  `booked for ${clockText(line.startsAt, zone)}, expected at about ${clockText(line.expectedAt, zone)} (${line.lateMinutes} minutes late)` +
  (line.call.length > 0 ? `. To call, no address: ${line.call.join(', ')}` : '') +
  (line.opens ? `. Call who opens: ${line.opens}` : '');
