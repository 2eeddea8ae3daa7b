// Figures of the steps: how often each applied and failed, with intervals, and whether a change helped.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import type { StepFigures } from '@backsight/contract/liability';
import { stepFiguresQuery } from '../../api/liability.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { When } from '../../ui/When.tsx';

/** Above this the interval spans most of what is possible and says nothing. */
const TELLING = 0.5;

/** '3 in 1,000 (0.6 to 8.8)': failures per thousand times the step applied, with the exact 95 % interval. */
function perThousand(rate: StepFigures['rate']): string {
  if (!rate) return 'never applied';
  if (rate.upper > TELLING) return 'too few times to tell';
  const n = (value: number): string => (value * 1000).toLocaleString('en-US', { maximumFractionDigits: 1 });
  return `${n(rate.rate)} in 1,000 (${n(rate.lower)} to ${n(rate.upper)})`;
}

const percent = (share: number): string => `${(share * 100).toFixed(0)} %`;

/** The number, one click from the list of what it counts. */
const found = (step: string, n: number, kind?: 'near_miss'): ReactNode =>
  n === 0 ? (
    0
  ) : (
    <TextLink to="/callbacks" search={{ which: 'all', step, ...(kind ? { kind } : {}) }}>
      {n}
    </TextLink>
  );

const COLUMNS: Column<StepFigures>[] = [
  {
    key: 'step',
    head: 'Step',
    cell: (s) => (
      <span>
        {s.title}
        <br />
        <small style={{ fontWeight: 'normal' }}>{s.procedureTitle}</small>
      </span>
    ),
  },
  { key: 'times', head: 'Times the step applied', align: 'right', cell: (s) => s.times.toLocaleString('en-US') },
  { key: 'jobs', head: 'Jobs', align: 'right', cell: (s) => s.jobs.toLocaleString('en-US') },
  { key: 'failures', head: 'Traced callbacks', align: 'right', cell: (s) => found(s.stepKey, s.failures) },
  { key: 'near', head: 'Near-misses', align: 'right', cell: (s) => found(s.stepKey, s.nearMisses, 'near_miss') },
  { key: 'rate', head: 'Rate and where it likely lies', cell: (s) => perThousand(s.rate) },
];

export function StepsPage(): ReactNode {
  const { data, error, isPending } = useQuery(stepFiguresQuery);
  const changed = data?.steps.filter((s) => s.changes.length > 0) ?? [];
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
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {changed.length > 0 ? (
        <Section title="Did the changes help?">
          {changed.map((s) => (
            <Changes key={s.stepKey} step={s} />
          ))}
        </Section>
      ) : null}
      {data ? (
        <Section title="Every step">
          <EveryStep steps={data.steps} />
        </Section>
      ) : null}
    </Page>
  );
}

/** Steps that something was traced to stand open; the many others are one click away. */
function EveryStep({ steps }: { steps: StepFigures[] }): ReactNode {
  const traced = steps.filter((s) => s.failures + s.nearMisses > 0);
  const others = steps.filter((s) => s.failures + s.nearMisses === 0);
  if (steps.length === 0) return <Empty>No step has been worked yet.</Empty>;
  return (
    <>
      {traced.length > 0 ? (
        <DataTable caption="Steps that callbacks were traced to" columns={COLUMNS} rows={traced} rowKey={(s) => s.stepKey} />
      ) : (
        <p>No callback has been traced to a step yet.</p>
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

const Changes = ({ step }: { step: StepFigures }): ReactNode =>
  step.changes.map((c) => (
    <div key={c.actionId + c.revisionId} style={{ marginBottom: '1rem' }}>
      <strong>{`${step.title}: revision ${c.revisionNumber}, corrective action ${c.actionNumber}`}</strong>
      {', in force from '}
      <When at={c.inForceFrom} />
      {'. '}
      <TextLink to="/corrective-actions/$actionId" params={{ actionId: c.actionId }}>
        What can be said of it
      </TextLink>
      <p>{c.comparison.sentence}</p>
      <p>{`Rate before: ${perThousand(c.before.rate)}; after: ${perThousand(c.after.rate)}.`}</p>
      <p>
        {c.evidence
          ? `Sooner to see: in ${c.evidence.met} of ${c.evidence.total} times on sealed records the evidence meets the changed step (${percent(c.evidence.met / c.evidence.total)}; likely ${percent(c.evidence.lower)} to ${percent(c.evidence.upper)}).`
          : 'No sealed record has been made under this revision yet.'}
      </p>
    </div>
  ));
