// Rules of states: every row with where it was read and how sure that is, and the states whose rules the firm takes up.
import type { ReactNode } from 'react';
import { NativeSelect } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { RulePackShown, RuleRowShown } from '@backsight/contract/rulePacks';
import { rulePacksQuery } from '../../api/agreementTexts.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { Day } from '../../ui/When.tsx';
import { dayText } from '../../ui/time.ts';
import { StatesForm } from './StatesForm.tsx';

const route = getRouteApi('/shell/state-rules');

export function RulesPage(): ReactNode {
  const { data, error, isPending } = useQuery(rulePacksQuery);
  return (
    <Page
      title="State rules"
      about="What was read of the rules of each state. It is no legal advice: read every row in the official source before you rely on it. A job follows the rules of the state of its property on its day."
    >
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data && data.packs.length === 0 ? <Empty>No rules are on file.</Empty> : null}
      {data && data.packs.length > 0 ? (
        <>
          <StatesForm key={data.states.join()} states={data.states} packs={data.packs.filter(({ inForce }) => inForce)} />
          <Chosen packs={data.packs} states={data.states} />
        </>
      ) : null}
    </Page>
  );
}

const order = (packs: readonly RulePackShown[], states: readonly string[]): RulePackShown[] =>
  packs.toSorted(
    (a, b) => Number(states.includes(b.jurisdiction)) - Number(states.includes(a.jurisdiction)) || Number(b.inForce) - Number(a.inForce),
  );

function Chosen({ packs, states }: { packs: readonly RulePackShown[]; states: readonly string[] }): ReactNode {
  const search = route.useSearch();
  const navigate = route.useNavigate();
  const inOrder = order(packs, states);
  const pack = inOrder.find(({ id }) => id === search.pack) ?? inOrder[0]!;
  return (
    <Section title={pack.name || pack.jurisdiction}>
      <NativeSelect
        label="Rules of"
        maw={420}
        data={inOrder.map(({ id, name, jurisdiction, versionDay, inForce }) => ({
          value: id,
          label: `${name || jurisdiction}, read for ${dayText(versionDay)}${inForce ? '' : ', not in force today'}`,
        }))}
        value={pack.id}
        onChange={(event) => void navigate({ search: { pack: event.currentTarget.value } })}
      />
      <p>
        {pack.inForce ? 'In force' : 'Not in force today'}; this version counts from <Day day={pack.versionDay} />. A new reading comes as a
        new version, and the old ones stay.
      </p>
      <DataTable caption="Rows of the rules" columns={COLUMNS} rows={pack.rows} rowKey={({ key }) => key} />
    </Section>
  );
}

const COLUMNS: Column<RuleRowShown>[] = [
  { key: 'about', head: 'About', cell: ({ topicWords }) => topicWords },
  {
    key: 'words',
    head: 'What it says',
    cell: ({ words, untilDay, holds }) => (
      <>
        {words}
        {untilDay ? (
          <>
            {' '}
            Until <Day day={untilDay} />.
          </>
        ) : null}
        {holds ? null : ' It does not hold today.'}
      </>
    ),
  },
  { key: 'where', head: 'Where it was read', cell: ({ citation }) => citation },
  {
    key: 'sure',
    head: 'How sure',
    cell: ({ certainty, certaintyWords }) => (certainty === 'found' ? certaintyWords : <strong>{certaintyWords}</strong>),
  },
];
