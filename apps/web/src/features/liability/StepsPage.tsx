// The steps beside each other: the few that make most of the failures and of the cost, and every one with its figures.
import type { ReactNode } from 'react';
import { NativeSelect } from '@mantine/core';
import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { shortUsd } from '@backsight/domain/shared/money';
import type { StepFigures, StepsPage as Steps } from '@backsight/contract/liability/steps';
import { stepsQuery, stepsTableAddress, type StepsWanted } from '../../api/liabilitySteps.ts';
import { ParetoChart } from '../../ui/charts/ParetoChart.tsx';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Money } from '../../ui/Money.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { FailureCount } from './FailureCount.tsx';
import { SpanForm } from './SpanForm.tsx';
import { shareOnly, systemText, thousandShort } from './stepWords.ts';
import { TableFiles } from './TableFiles.tsx';

const address = getRouteApi('/shell/liabilities/steps');

const COLUMNS: Column<StepFigures>[] = [
  {
    key: 'step',
    head: 'Step',
    cell: (s) => (
      <span>
        <TextLink to="/liabilities/steps/$stepKey" params={{ stepKey: s.stepKey }}>
          {s.title}
        </TextLink>
        <br />
        <small style={{ fontWeight: 'normal' }}>{s.procedureTitle}</small>
      </span>
    ),
  },
  { key: 'times', head: 'Times applied', align: 'right', cell: (s) => s.times.toLocaleString('en-US') },
  {
    key: 'failures',
    head: 'Failures',
    align: 'right',
    cell: (s) => <FailureCount of={s} />,
  },
  { key: 'rate', head: 'In 1,000 times', align: 'right', oneLine: true, cell: (s) => thousandShort(s.rate) },
  { key: 'cost', head: 'Cost', align: 'right', cell: (s) => <Money cents={s.incurredCents} /> },
  { key: 'skipped', head: 'Skipped', align: 'right', oneLine: true, cell: (s) => shareOnly(s.skipped) },
  { key: 'couldNot', head: 'Could not be inspected', align: 'right', oneLine: true, cell: (s) => shareOnly(s.couldNot) },
];

export function StepsPage(): ReactNode {
  const asked = address.useSearch();
  const { data, error, isPending } = useQuery({ ...stepsQuery(asked), placeholderData: keepPreviousData });
  return (
    <Page
      title="Figures of the steps"
      about="A callback found is a procedure's failure first. The interval says where the true rate lies in 95 of 100 such cases; few cases make it wide."
      actions={
        <>
          <TextLink to="/double-looks">Double looks</TextLink> <TextLink to="/liabilities">Liabilities</TextLink>
        </>
      }
    >
      <Chosen asked={asked} data={data} />
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data ? <Content data={data} asked={asked} /> : null}
    </Page>
  );
}

/** Nothing chosen is all of it. */
function Chosen({ asked, data }: { asked: StepsWanted; data: Steps | undefined }): ReactNode {
  const navigate = address.useNavigate();
  const change = (part: StepsWanted | { system: undefined }): void =>
    void navigate({ search: (was) => ({ ...was, ...part }) as StepsWanted, replace: true });
  const months = Object.fromEntries(Object.entries({ from: asked.from, until: asked.until }).filter(([, value]) => value !== undefined));
  return (
    <SpanForm asked={months} shown={undefined} onChange={(span) => change(span as StepsWanted)}>
      <NativeSelect
        label="System"
        value={asked.system ?? ''}
        onChange={(event) => change({ system: event.currentTarget.value || undefined } as StepsWanted)}
        data={[
          { value: '', label: 'All systems' },
          ...(data?.systems ?? []).map((system) => ({ value: system, label: systemText(system) })),
        ]}
      />
    </SpanForm>
  );
}

function Content({ data, asked }: { data: Steps; asked: StepsWanted }): ReactNode {
  const bars = (of: (step: StepFigures) => number) =>
    data.steps.map((step) => ({ key: step.stepKey, name: step.title, value: Math.max(0, of(step)) }));
  const [failures, cost] = [bars((step) => step.failures), bars((step) => step.incurredCents)];
  const some = (list: typeof failures): boolean => list.some(({ value }) => value > 0);
  const below = data.steps.filter((step) => step.incurredCents < 0).length;
  return (
    <>
      <Section title="What makes most of it">
        {some(failures) ? (
          <ParetoChart
            title={data.failuresSentence.replace(/\.$/, '')}
            summary="Callbacks traced to each step, the most first; the line adds them up."
            bars={failures}
            barName="Step"
            xName="Callbacks traced to it"
            whole
          />
        ) : (
          <p>{data.failuresSentence}</p>
        )}
        {some(cost) ? (
          <ParetoChart
            title={data.costSentence.replace(/\.$/, '')}
            summary={`Cost of the callbacks traced to each step: paid and set aside, less recovered.${below > 0 ? ` Left out: ${below} where more came back than went out.` : ''}`}
            bars={cost}
            barName="Step"
            xName="Cost of its callbacks"
            format={shortUsd}
          />
        ) : (
          <p>{data.costSentence}</p>
        )}
      </Section>
      <Section title="Every step" actions={<TableFiles csv={stepsTableAddress(asked)} of="every step" />}>
        <EveryStep steps={data.steps} first={data.firstMonth} />
      </Section>
    </>
  );
}

/** Steps that something was traced to stand open; the many others are one click away. */
function EveryStep({ steps, first }: { steps: StepFigures[]; first: string | null }): ReactNode {
  const traced = steps.filter((s) => s.failures + s.nearMisses > 0 || s.incurredCents !== 0);
  const others = steps.filter((s) => !traced.includes(s));
  if (steps.length === 0) return <Empty>{first === null ? 'No step has been worked yet.' : 'No step was worked in these months.'}</Empty>;
  return (
    <>
      {traced.length > 0 ? (
        <DataTable caption="Steps that callbacks were traced to" columns={COLUMNS} rows={traced} rowKey={(s) => s.stepKey} />
      ) : (
        <p>No callback has been traced to a step in these months.</p>
      )}
      {others.length > 0 ? (
        <details style={{ marginTop: '1rem' }}>
          <summary>{`${others.length} steps without a traced callback`}</summary>
          <DataTable caption="Steps without a traced callback" columns={COLUMNS} rows={others} rowKey={(s) => s.stepKey} />
        </details>
      ) : null}
    </>
  );
}
