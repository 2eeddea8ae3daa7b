// The firm's advice in danger: what is said on the phone and on the client's page. An owner approves the words.
import type { ReactNode } from 'react';
import { Alert, Button, Stack, Textarea } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { SafetyAdvice } from '@backsight/contract/callbacks/intake';
import { adviceQuery, approveAdvice } from '../../api/callbackIntake.ts';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Form } from '../../ui/Form.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { When } from '../../ui/When.tsx';
import { OneOpen, useOneOpen } from './oneOpen.tsx';
import { DANGERS, type Danger } from './words.ts';

type Old = { danger: Danger; words: string; by: string; at: string };
const COLUMNS: Column<Old>[] = [
  { key: 'danger', head: 'Danger', cell: (o) => DANGERS[o.danger].split(':')[0] },
  { key: 'words', head: 'Words', cell: (o) => o.words },
  { key: 'by', head: 'Approved by', cell: (o) => o.by },
  { key: 'at', head: 'When', cell: (o) => <When at={o.at} /> },
];

export function AdvicePage(): ReactNode {
  const found = useQuery(adviceQuery);
  const owner = useMe().roles.includes('owner');
  return (
    <Page
      title="Advice in danger"
      width="narrow"
      about="Said to a caller who may be in danger, and shown on the client’s page as soon as danger is ticked. Local fire services and utilities go before it. We are no emergency service."
    >
      <ProblemNote of={found.error} />
      {found.isPending ? <Loading /> : null}
      <OneOpen>
        {(found.data?.advice ?? []).map((one) => (
          <One key={one.danger} one={one} owner={owner} />
        ))}
      </OneOpen>
      {found.data && found.data.history.length > 0 ? (
        <Section title="Approved before and now">
          <DataTable caption="Approved wordings" columns={COLUMNS} rows={found.data.history} rowKey={(o) => o.danger + o.at} />
        </Section>
      ) : null}
    </Page>
  );
}

function One({ one, owner }: { one: SafetyAdvice; owner: boolean }): ReactNode {
  const [open, setOpen] = useOneOpen(one.danger);
  return (
    <Section title={DANGERS[one.danger]}>
      {one.approved ? null : <Alert mb="sm">Not yet approved: these words come with the service. An owner approves them, or others.</Alert>}
      {open ? null : <p>{one.words}</p>}
      <p>
        <small>
          {`Reading grade ${one.grade}. `}
          {one.approved ? (
            <>
              {`Approved by ${one.approved.by}, `}
              <When at={one.approved.at} />
            </>
          ) : null}
        </small>
      </p>
      {open ? <Edit one={one} close={() => setOpen(false)} /> : null}
      {owner && !open ? (
        <Button variant="default" onClick={() => setOpen(true)} aria-label={`Edit and approve: ${DANGERS[one.danger].split(':')[0]}`}>
          Edit and approve
        </Button>
      ) : null}
    </Section>
  );
}

const LABELS = { words: 'Words' };

function Edit({ one, close }: { one: SafetyAdvice; close: () => void }): ReactNode {
  const send = useSend(approveAdvice, {
    refresh: ['safety-advice'],
    said: 'Approved: these words count from now on.',
    then: ({ warnings }) => (warnings.length === 0 ? close() : undefined),
  });
  const fields = useFields({ words: one.words }, LABELS, send.error, undefined, one.danger);
  return (
    <Stack>
      {send.data?.warnings.map(({ text }) => (
        <Alert key={text} title="Approved, but hard to read">
          {text}
        </Alert>
      ))}
      <Form
        error={send.error}
        labels={LABELS}
        draft={fields.draft}
        submit="Approve these words"
        busy={send.isPending}
        onSubmit={() => send.mutate({ id: newId(), danger: one.danger, words: fields.values.words })}
        besides={
          <Button variant="default" onClick={close}>
            Go back
          </Button>
        }
      >
        <Textarea
          {...fields.text('words')}
          required
          autosize
          minRows={3}
          description="Short sentences and short words. Aim at reading grade 6 or less."
        />
      </Form>
    </Stack>
  );
}
