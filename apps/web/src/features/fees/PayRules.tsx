// How each person is paid from a day on, and setting it anew. What was frozen keeps its rule.
import { useState, type ReactNode } from 'react';
import { NativeSelect, SimpleGrid, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { PayRuleBody, PayRuleLine } from '@backsight/contract/fees/pay';
import { payRulesQuery, setPayRule } from '../../api/feeSetUp.ts';
import { newId } from '../../api/ids.ts';
import { peopleQuery, useMe } from '../../api/people.ts';
import { centsOf } from '../../ui/amount.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Form } from '../../ui/Form.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { formatUsd } from '@backsight/domain/shared/money';
import { Section } from '../../ui/Section.tsx';
import { todayIn } from '../../ui/time.ts';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { Day } from '../../ui/When.tsx';

const BASES = { share: 'share of the fee, percent', job: 'amount for each job, dollars', hours: 'hours of the visit, dollars an hour' };
const WRITERS = { none: 'nothing besides', percent: 'percent of the fee', amount: 'amount for a report, dollars' };

/** The rule in words. */
function ruleText({ basis, writer }: PayRuleBody): string {
  const pair =
    basis.kind === 'share'
      ? `${basis.firstPercent}% of the fee as first, ${basis.secondPercent}% as second`
      : `${formatUsd(basis.firstCents)} ${basis.kind === 'job' ? 'a job' : 'an hour'} as first, ${formatUsd(basis.secondCents)} as second`;
  if (writer.kind === 'none') return pair;
  return `${pair}; for the report ${writer.kind === 'percent' ? `${writer.percent}% of the fee` : formatUsd(writer.cents)}`;
}

const COLUMNS: Column<PayRuleLine>[] = [
  { key: 'person', head: 'Person', cell: ({ person }) => person },
  { key: 'from', head: 'From', oneLine: true, cell: ({ fromDay }) => <Day day={fromDay} /> },
  { key: 'rule', head: 'Rule', cell: ({ body }) => ruleText(body) },
  { key: 'by', head: 'Set by', cell: ({ by }) => by },
];

export function PayRules(): ReactNode {
  const rules = useQuery(payRulesQuery);
  return (
    <>
      {rules.isPending ? <Loading /> : null}
      {rules.data && rules.data.items.length > 0 ? (
        <DataTable caption="Pay rules" columns={COLUMNS} rows={rules.data.items} rowKey={({ id }) => id} />
      ) : null}
      <Section title="Set a rule">
        <SetRule key={rules.data?.items.length ?? 0} />
      </Section>
    </>
  );
}

const LABELS = {
  personId: 'Person',
  fromDay: 'From the day',
  kind: 'Paid by',
  first: 'As first',
  second: 'As second',
  writerKind: 'For writing the report',
  writer: 'Percent or dollars for the report',
  rule: 'Rule',
};

const numberOf = (typed: string): number => (typed.trim() === '' ? Number.NaN : Number(typed));

function ruleOf(typed: { kind: string; first: string; second: string; writerKind: string; writer: string }): PayRuleBody {
  const { kind, first, second, writerKind, writer } = typed;
  const basis =
    kind === 'share'
      ? ({ kind, firstPercent: numberOf(first), secondPercent: numberOf(second) } as const)
      : { kind: kind as 'job' | 'hours', firstCents: centsOf(first), secondCents: centsOf(second) };
  if (writerKind === 'percent') return { basis, writer: { kind: writerKind, percent: numberOf(writer) } };
  return { basis, writer: writerKind === 'amount' ? { kind: writerKind, cents: centsOf(writer) } : { kind: 'none' } };
}

function SetRule(): ReactNode {
  const { zone } = useMe();
  const people = useQuery(peopleQuery);
  const [ids] = useState(() => ({ id: newId(), key: newId() }));
  const set = useSend(setPayRule, { refresh: ['pay'], said: 'The rule counts from its day on.' });
  const fields = useFields(
    { personId: '', fromDay: todayIn(zone), kind: 'share', first: '30', second: '20', writerKind: 'none', writer: '', rule: '' },
    LABELS,
    set.error,
    'pay',
  );
  const { personId, fromDay, ...typed } = fields.values;
  const options = (words: Record<string, string>) => Object.entries(words).map(([value, label]) => ({ value, label }));
  const chosen = personId || people.data?.[0]?.id || '';
  return (
    <Form
      error={set.error}
      labels={LABELS}
      scope="pay"
      draft={fields.draft}
      submit="Set this rule"
      busy={set.isPending}
      onSubmit={() => set.mutate({ ...ids, personId: chosen, fromDay, rule: ruleOf(typed) })}
    >
      <SimpleGrid cols={{ base: 1, xs: 2 }}>
        <NativeSelect
          {...fields.text('personId')}
          value={chosen}
          data={people.data?.map(({ id, name }) => ({ value: id, label: name })) ?? []}
        />
        <TextInput {...fields.text('fromDay')} type="date" />
        <NativeSelect {...fields.text('kind')} data={options(BASES)} />
        <div />
        <TextInput {...fields.text('first')} inputMode="decimal" />
        <TextInput {...fields.text('second')} inputMode="decimal" />
        <NativeSelect {...fields.text('writerKind')} data={options(WRITERS)} />
        {fields.values.writerKind === 'none' ? null : <TextInput {...fields.text('writer')} inputMode="decimal" />}
      </SimpleGrid>
    </Form>
  );
}
