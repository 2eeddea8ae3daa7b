// For how many years each kind of record is kept, beside what states ask for.
import { useState, type ReactNode } from 'react';
import { Button, NumberInput, Textarea } from '@mantine/core';
import type { RetentionPolicy } from '@backsight/contract/personal';
import { newId } from '../../api/ids.ts';
import { setRetention } from '../../api/personal.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Form } from '../../ui/Form.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Section } from '../../ui/Section.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useOpenedFrom } from '../../ui/opened.ts';
import { useSend } from '../../ui/useSend.ts';
import { When } from '../../ui/When.tsx';

const stateWords = ({ name, years, citation, lawSeen }: RetentionPolicy['states'][number]): string =>
  lawSeen ? `${name}: ${years} years (${citation})` : `${name}: no law seen; ${years} years as a caution`;

const COLUMNS: Column<RetentionPolicy>[] = [
  { key: 'kind', head: 'Records', cell: ({ name }) => name },
  { key: 'holds', head: 'What it holds', cell: ({ holds }) => holds },
  { key: 'years', head: 'Kept', cell: ({ years, from }) => `${years} years from ${from}` },
  {
    key: 'states',
    head: 'State rules on file',
    cell: ({ states }) => states.map(stateWords).join('; ') || 'none',
  },
  {
    key: 'set',
    head: 'Set by',
    cell: ({ set }) =>
      set === null ? (
        'built in'
      ) : (
        <>
          {set.by}, <When at={set.at} />: {set.reason}
        </>
      ),
  },
];

export function Policy({ policy, note }: { policy: RetentionPolicy[]; note: string }): ReactNode {
  const [changing, setChanging] = useState<RetentionPolicy | null>(null);
  useOpenedFrom(changing);
  const change: Column<RetentionPolicy> = {
    key: 'change',
    head: 'Change',
    cell: (one) => (
      <Button size="compact-sm" variant="default" aria-label={`Change the years of: ${one.name}`} onClick={() => setChanging(one)}>
        Change
      </Button>
    ),
  };
  return (
    <Section title="For how long records are kept">
      <p>
        {note} The rules of each state, and how sure they are, stand in <TextLink to="/state-rules">State rules</TextLink>. A job is kept as
        long as the longest of policy and state says; while a callback, a hold, an invoice or the job itself is open, it is never due.
      </p>
      <DataTable caption="Years for each kind of record" columns={[...COLUMNS, change]} rows={policy} rowKey={({ kind }) => kind} />
      {changing ? <Change key={changing.kind} policy={changing} done={() => setChanging(null)} /> : null}
    </Section>
  );
}

const LABELS = { years: 'Years', reason: 'Why, and who advised it' };

function Change({ policy, done }: { policy: RetentionPolicy; done: () => void }): ReactNode {
  const [id] = useState(newId);
  const send = useSend(setRetention, { refresh: ['personal'], said: 'The years were saved.', then: done });
  const fields = useFields<{ years: number | ''; reason: string }>({ years: policy.years, reason: '' }, LABELS, send.error, 'years');
  return (
    <Form
      error={send.error}
      labels={LABELS}
      scope="years"
      submit={`Keep ${policy.name.toLowerCase()} so long`}
      busy={send.isPending}
      onSubmit={() => send.mutate({ id, kind: policy.kind, years: fields.values.years as number, reason: fields.values.reason })}
      besides={
        <Button variant="default" onClick={done}>
          Leave without saving
        </Button>
      }
    >
      <NumberInput {...fields.number('years')} required min={1} max={99} maw="10rem" mt="md" />
      <Textarea {...fields.text('reason')} required autosize minRows={2} mt="sm" />
    </Form>
  );
}
