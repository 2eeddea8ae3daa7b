// How long the clocks of callbacks run, by kind, with the source of each time and what was set before.
import { useState, type ReactNode } from 'react';
import { Button, NativeSelect, NumberInput, SimpleGrid, Stack, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { KINDS } from '@backsight/contract/callbacks';
import { CLOCKS, FIRM_TIMES, UNITS, type ClockTerm } from '@backsight/contract/callbacks/clocks';
import { setTerm, termsQuery, type NewTerm } from '../../api/callbackClocks.ts';
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
import { termText } from './clockWords.ts';
import { OneOpen, useOneOpen } from './oneOpen.tsx';

const NAMES: Record<ClockTerm['clock'], string> = { ...CLOCKS, ...FIRM_TIMES };
const kindName = (kind: ClockTerm['kind']): string =>
  kind === '' ? 'For all kinds' : KINDS[kind].charAt(0).toUpperCase() + KINDS[kind].slice(1);

export function TermsPage(): ReactNode {
  const owner = useMe().roles.includes('owner');
  const { data, error, isPending } = useQuery(termsQuery);
  const kinds = [...new Set((data ?? []).map(({ kind }) => kind))];
  return (
    <Page
      title="Clocks of callbacks"
      about="By when a callback is acknowledged, sorted, visited, answered, decided and told to the insurer. A change counts for what is received from then on. Deadlines of legal papers are set by hand from the paper."
    >
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      <OneOpen>
        {kinds.map((kind) => (
          <OfKind key={kind} kind={kind} terms={(data ?? []).filter((term) => term.kind === kind)} owner={owner} />
        ))}
      </OneOpen>
    </Page>
  );
}

function OfKind({ kind, terms, owner }: { kind: ClockTerm['kind']; terms: ClockTerm[]; owner: boolean }): ReactNode {
  const columns: Column<ClockTerm>[] = [
    { key: 'clock', head: 'Clock', cell: ({ clock }) => NAMES[clock] },
    { key: 'now', head: 'Runs for', cell: ({ now }) => termText(now) },
    { key: 'source', head: 'Where it comes from', cell: ({ now }) => now.source },
    { key: 'set', head: 'Set', cell: (term) => <History term={term} /> },
    ...(owner ? [{ key: 'act', head: 'Change', cell: (term: ClockTerm) => <ChangeButton term={term} /> }] : []),
  ];
  return (
    <Section title={kindName(kind)} folds>
      <DataTable caption={kindName(kind)} columns={columns} rows={terms} rowKey={({ clock }) => clock} />
      {terms.map((term) => (
        <ChangeForm key={term.clock} term={term} />
      ))}
    </Section>
  );
}

function History({ term: { set, customary } }: { term: ClockTerm }): ReactNode {
  if (set.length === 0) return 'never: the customary time';
  return (
    <>
      {set.map((one) => (
        <div key={one.id}>
          {termText(one)} from <When at={one.fromAt} />, {one.by}
        </div>
      ))}
      <div>before: {termText(customary)}</div>
    </>
  );
}

const LABELS = { amount: 'How many', unit: 'Of what', source: 'Where it comes from' };

function ChangeButton({ term: { kind, clock } }: { term: ClockTerm }): ReactNode {
  const [open, setOpen] = useOneOpen(`${kind} ${clock}`);
  return (
    <Button
      size="compact-sm"
      variant="default"
      aria-expanded={open}
      aria-label={`Change: ${kindName(kind)}, ${NAMES[clock]}`}
      onClick={() => setOpen(!open)}
    >
      Change
    </Button>
  );
}

function ChangeForm({ term: { kind, clock, now } }: { term: ClockTerm }): ReactNode {
  const [open, setOpen] = useOneOpen(`${kind} ${clock}`);
  const [id, renew] = useState(newId);
  const save = useSend(setTerm, {
    ...{ refresh: ['callback-terms'], said: 'It counts for what is received from now on.' },
    then: () => {
      renew(newId());
      setOpen(false);
    },
  });
  const fields = useFields({ amount: now.amount, unit: now.unit as NewTerm['unit'], source: '' }, LABELS, save.error);
  if (!open) return null;
  return (
    <Stack maw="40rem" mt="sm">
      <h3>{NAMES[clock]}</h3>
      <Form
        error={save.error}
        labels={LABELS}
        submit="Set this time"
        busy={save.isPending}
        onSubmit={() => save.mutate({ id, kind, clock, ...fields.values })}
        besides={
          <Button variant="default" onClick={() => setOpen(false)}>
            Go back
          </Button>
        }
      >
        <SimpleGrid cols={{ base: 1, xs: 2 }}>
          <NumberInput {...fields.number('amount')} allowDecimal={false} />
          <NativeSelect {...fields.text('unit')} data={Object.entries(UNITS).map(([unit, label]) => ({ value: unit, label }))} />
        </SimpleGrid>
        <TextInput {...fields.text('source')} required mt="sm" placeholder="Our handbook, page 4" />
      </Form>
    </Stack>
  );
}
