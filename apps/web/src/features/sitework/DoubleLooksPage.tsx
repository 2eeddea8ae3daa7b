// A second blind look at a sample: how often, and what the two looks agree on and miss; on average over systems and quarters, never for a job or a person.
import { useState, type ReactNode } from 'react';
import { Button, Checkbox, NumberInput } from '@mantine/core';
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type { DoubleLooks } from '@backsight/contract/sitework/doubleLooks';
import { useMe } from '../../api/people.ts';
import { changeDoubleLooks, doubleLooksQuery } from '../../api/sitework.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { saved } from '../../ui/saved.ts';
import { Section } from '../../ui/Section.tsx';
import classes from './sitework.module.css';

export function DoubleLooksPage(): ReactNode {
  const me = useMe();
  const { data, error, isPending } = useQuery(doubleLooksQuery);
  return (
    <Page
      title="Double looks"
      about="On a sample of jobs both members look at one system, each without the other's answer. What two looks miss is told on average only."
      actions={<TextLink to="/liabilities/steps">Figures of the steps</TextLink>}
    >
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data && me.roles.includes('owner') ? <Rules key={data.rules.version} rules={data.rules} /> : null}
      {data?.lines === null ? <Empty>Agreement and estimate are off. An owner may turn them on.</Empty> : null}
      {data?.lines && data.all ? <Figures lines={data.lines} all={data.all} fewest={data.fewest} /> : null}
    </Page>
  );
}

function Rules({ rules }: { rules: DoubleLooks['rules'] }): ReactNode {
  const queries = useQueryClient();
  const [oneIn, setOneIn] = useState<number | string>(rules.doubleLookOneIn);
  const [shown, setShown] = useState(rules.showAgreement);
  const change = useMutation({
    mutationFn: changeDoubleLooks,
    onSuccess: async () => {
      saved('Saved. It holds for visits that are handed out from now on.');
      await queries.invalidateQueries({ queryKey: ['double-looks'] });
    },
  });
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        change.mutate({ doubleLookOneIn: Number(oneIn), showAgreement: shown, version: rules.version });
      }}
    >
      <ProblemNote of={change.error} />
      <NumberInput
        label="One job in"
        description="0 for none. The pair cannot choose which job or system it is. Steps that only one can reach are never part of it."
        min={0}
        max={100}
        allowDecimal={false}
        maw={320}
        value={oneIn}
        onChange={setOneIn}
      />
      <Checkbox
        mt="sm"
        label="Show agreement and estimate"
        description="Ask the attorney first: such figures can be asked for in a suit."
        checked={shown}
        onChange={(event) => setShown(event.currentTarget.checked)}
      />
      <Button type="submit" mt="sm" mb="lg" loading={change.isPending} disabled={oneIn === ''}>
        Save
      </Button>
    </form>
  );
}

type Line = NonNullable<DoubleLooks['lines']>[number];
type Any = Omit<Line, 'system' | 'quarter'>;
const two = (value: number): string => value.toFixed(2);
const agreement = (line: Any, fewest: number): string => {
  if (line.pairs < fewest || line.observed === null) return 'too few';
  const kappa = line.kappa === null ? 'only one answer was given' : `kappa ${two(line.kappa)}`;
  return `${(line.observed * 100).toFixed(0)} % the same, ${kappa}`;
};
const estimate = ({ estimate: found, looks }: Any): string =>
  found === null
    ? 'too few'
    : `${looks.first + looks.second - looks.both} seen, about ${found.total.toFixed(0)} in all (${found.lower.toFixed(0)} to ${found.upper.toFixed(0)})`;

function Figures({ lines, all, fewest }: { lines: Line[]; all: Any; fewest: number }): ReactNode {
  const columns: Column<Line>[] = [
    { key: 'system', head: 'System', cell: (line) => line.system },
    { key: 'quarter', head: 'Quarter', cell: (line) => line.quarter },
    { key: 'pairs', head: 'Answers of both', align: 'right', cell: (line) => line.pairs },
    { key: 'agreement', head: 'Agreement', cell: (line) => agreement(line, fewest) },
    { key: 'estimate', head: 'Seen, and estimated in all', cell: estimate },
  ];
  return (
    <Section title="On average">
      <p>
        Over everything: {all.pairs} answers of both; {all.pairs < fewest ? 'too few' : `${agreement(all, fewest)}; ${estimate(all)}`}.
      </p>
      <p className={classes.soft}>
        The first answer that a step offers counts as nothing found; first blind answers only, before any correction. Kappa: Cohen (1960),
        pooled over steps. Estimate: two looks (Chapman 1951), 95 % by Seber (1970). It assumes that everything is equally easy to see and
        that the two look independently: what is hidden from both makes it too low. Below {fewest} answers nothing is computed.
      </p>
      {lines.length === 0 ? (
        <Empty>No record with two blind answers is sealed yet.</Empty>
      ) : (
        <DataTable caption="By system and quarter" columns={columns} rows={lines} rowKey={({ system, quarter }) => system + quarter} />
      )}
    </Section>
  );
}
