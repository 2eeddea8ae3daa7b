// One step: what it is like in a sentence, then failures over time, how its text came to be, whether changes helped, and what records hold.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { StepPage as Step } from '@backsight/contract/liability/steps';
import { stepQuery } from '../../api/liabilitySteps.ts';
import { ControlChart } from '../../ui/charts/ControlChart.tsx';
import { findingOf, gapFindingOf } from '../../ui/charts/findings.ts';
import { Details } from '../../ui/Details.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Money } from '../../ui/Money.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { When } from '../../ui/When.tsx';
import { counted } from './monthWords.ts';
import { StepCallbacks } from './StepCallbacks.tsx';
import { StepExposure } from './StepExposure.tsx';
import { StepText } from './StepText.tsx';
import { inThousand, perThousand, shareText } from './stepWords.ts';
import { TableLink } from './TableLink.tsx';

const address = getRouteApi('/shell/liabilities/steps/$stepKey');

export function StepPage(): ReactNode {
  const { stepKey } = address.useParams();
  const { data, error, isPending } = useQuery(stepQuery(stepKey));
  return (
    <Page
      title={data?.title ?? 'Step'}
      about={data ? <strong>{data.sentence}</strong> : undefined}
      actions={<TextLink to="/liabilities/steps">All steps</TextLink>}
    >
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data ? <Content step={data} /> : null}
    </Page>
  );
}

const Content = ({ step }: { step: Step }): ReactNode => (
  <>
    <Section title="Failures">
      <Failures step={step} />
    </Section>
    <Section title="How the text came to be">
      <StepText step={step} />
    </Section>
    <Section title="Did the changes help?">
      <Changes step={step} />
    </Section>
    <Section title="What the records hold">
      <Records step={step} />
    </Section>
    <Section title="How often it applied">
      <StepExposure step={step} />
    </Section>
    <Section title="Callbacks traced to it">
      <StepCallbacks step={step} />
    </Section>
  </>
);

function Failures({ step }: { step: Step }): ReactNode {
  return (
    <>
      <Details
        short
        rows={[
          [
            'Procedure',
            <TextLink key="p" to="/procedures/$procedureId" params={{ procedureId: step.procedureId }}>
              {step.procedureTitle}
            </TextLink>,
          ],
          ['Times it applied', `${step.times.toLocaleString('en-US')} on ${step.jobs.toLocaleString('en-US')} jobs`],
          ['Callbacks traced to it', String(step.failures)],
          ['Near-misses, counted apart', String(step.nearMisses)],
          ['Rate of failure, and where it likely lies', perThousand(step.rate)],
          ['Paid', <Money key="m" cents={step.paidCents} />],
          ['Set aside', <Money key="s" cents={step.reservedCents} />],
          ['Recovered', <Money key="r" cents={step.recoveredCents} />],
          ...(step.waiting > 0 ? [['Waiting for confirmation, not counted', String(step.waiting)] as const] : []),
        ]}
      />
      <StepChart step={step} />
    </>
  );
}

function StepChart({ step: { chart, stepKey } }: { step: Step }): ReactNode {
  if (!chart.ok) return <p>{`No control chart. ${chart.sentence}`}</p>;
  const gaps = chart.kind === 'between';
  return (
    <>
      <ControlChart
        title={
          gaps
            ? gapFindingOf({
                points: chart.points,
                what: 'Failures',
                format: (value) => counted(Math.round(value), 'time applied', 'times applied'),
              })
            : findingOf({ points: chart.points, what: 'Failures in 1,000 times it applied', format: inThousand })
        }
        summary={chart.summary}
        points={chart.points}
        marks={chart.marks}
        goodSide={chart.goodSide}
        xName={gaps ? 'Up to this failure' : chart.kind === 'months' ? 'Month of inspection' : 'Quarter of inspection'}
        yName={gaps ? 'Times the step applied in between' : 'Failures in 1,000 times the step applied'}
        {...(gaps ? {} : { format: inThousand })}
        also={[{ key: 'of', head: gaps ? 'Counted from' : 'Failures in times applied', align: 'right', cell: (p) => p.of }]}
      />
      <p>
        {chart.choice} <TableLink stepKey={stepKey} of="chart" />
      </p>
    </>
  );
}

const percent = (share: number): string => `${(share * 100).toFixed(0)} %`;

/** The exact answer, or why there is none yet; more of it stands with the corrective action. */
function Changes({ step }: { step: Step }): ReactNode {
  if (step.changes.length === 0) return <p>No corrective action has changed this step because of a callback yet.</p>;
  return step.changes.map((c) => (
    <div key={c.actionId + c.revisionId} style={{ marginBottom: 'var(--bs-space-6)' }}>
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
}

const Records = ({ step }: { step: Step }): ReactNode => (
  <>
    <Details
      rows={[
        ['Evidence meets the step', shareText(step.met)],
        ['Skipped (no entry, or cut short)', shareText(step.skipped)],
        ['Could not be inspected', shareText(step.couldNot)],
        ['The two of the pair recorded different results', shareText(step.differed)],
      ]}
    />
    <p>
      <small>
        Of the times on sealed records, with Wilson&apos;s 95 % interval. That something could not be inspected safely is always an accepted
        answer; a high share says that the step asks for what houses here do not allow.
      </small>
    </p>
  </>
);
