// Whether the change helped: callbacks (slow), the evidence of the records (sooner), and checks that may be read every week.
import { useState, type ReactNode } from 'react';
import { NativeSelect } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { ActionPage as Action, StepEffect } from '@backsight/contract/callbacks/change';
import { effectQuery } from '../../api/correctiveActions.ts';
import { ControlChart } from '../../ui/charts/ControlChart.tsx';
import { DataTable } from '../../ui/DataTable.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { dayText } from '../../ui/time.ts';

const FOLLOW_UPS = [30, 90, 180, 365];

export function ActionEffect({ action }: { action: Action }): ReactNode {
  const [days, setDays] = useState<number | null>(null);
  const { data, error, isPending } = useQuery(effectQuery(action.id, days));
  return (
    <Section title="Did it help?">
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data ? (
        <>
          {data.steps.length === 0 ? (
            <p>The callbacks were traced to no step, so there is no step whose failures could be counted.</p>
          ) : null}
          {data.counted.after || data.counted.before ? <p>{countedWords(data.counted)}</p> : null}
          {data.steps.map((step) => (
            <Step key={step.stepKey} step={step} followUp={data.followUp} days={data.followUpDays}>
              <NativeSelect
                label="Time that each job is given for a callback to come"
                value={String(data.followUpDays)}
                onChange={(event) => setDays(Number(event.currentTarget.value))}
                data={FOLLOW_UPS.map((n) => ({ value: String(n), label: `${n} days` }))}
                maw="22rem"
                mb="sm"
              />
            </Step>
          ))}
        </>
      ) : null}
    </Section>
  );
}

/** Where a firm has inspected more than is needed to tell. */
function countedWords({ most, after, before }: { most: number; after: string | null; before: string | null }): string {
  const span =
    after && before ? `between ${dayText(after)} and ${dayText(before)}` : after ? `since ${dayText(after)}` : `until ${dayText(before!)}`;
  return `Counted are the ${most.toLocaleString('en-US')} inspections nearest to the change on each side: those begun ${span}.`;
}

type Props = { step: StepEffect; followUp: { within: number; total: number }; days: number; children: ReactNode };

const Step = ({ step: s, followUp, days, children }: Props): ReactNode => (
  <div style={{ marginBottom: 'var(--bs-space-9)' }}>
    <h3 style={{ margin: '0 0 var(--bs-space-4)' }}>{s.title}</h3>
    <p>
      <strong>{s.rates.sentence}</strong>
    </p>
    {children}
    <Rates step={s} />
    <p>
      {`Callbacks come months after an inspection, so a job counts only when it is ${days} days old, and only what came within those days: before and after are given the same time. `}
      {followUp.total > 0 ? `Of ${followUp.total} callbacks of this firm ${followUp.within} came within ${days} days. ` : ''}
      {s.young.jobs > 0 ? `${s.young.jobs} jobs since the change are not that old yet.` : ''}
    </p>
    <h4 style={{ margin: 'var(--bs-space-6) 0 var(--bs-space-2)' }}>Sooner to see: the evidence of the records</h4>
    <p>{s.working.sentence}</p>
    <Working step={s} />
    <h4 style={{ margin: 'var(--bs-space-6) 0 var(--bs-space-2)' }}>Checks that may be read every week</h4>
    <Checks step={s} />
  </div>
);

const two = (value: number): string => value.toFixed(2);
const perThousand = (rate: StepEffect['before']['rate']): string => {
  if (!rate) return 'no job old enough';
  const n = (value: number): string => (value * 1000).toLocaleString('en-US', { maximumFractionDigits: 1 });
  return `${n(rate.rate)} (${n(rate.lower)} to ${n(rate.upper)})`;
};

function Rates({ step: s }: { step: StepEffect }): ReactNode {
  const { comparison: c } = s.rates;
  const rows = [
    { key: 'before', name: 'Before the change', ...s.before },
    { key: 'after', name: 'After the change', ...s.after },
  ];
  return (
    <>
      <DataTable
        caption="Callbacks traced to the step, before and after the change"
        columns={[
          { key: 'name', head: 'When', cell: (r) => r.name },
          { key: 'jobs', head: 'Jobs with this step', align: 'right', cell: (r) => r.jobs.toLocaleString('en-US') },
          { key: 'failures', head: 'Callbacks traced to it', align: 'right', cell: (r) => r.failures },
          { key: 'near', head: 'Near-misses', align: 'right', cell: (r) => r.nearMisses },
          { key: 'rate', head: 'In 1,000 jobs, and where it likely lies', align: 'right', cell: (r) => perThousand(r.rate) },
        ]}
        rows={rows}
        rowKey={(r) => r.key}
      />
      {c ? (
        <p>
          {c.ratio === null
            ? 'No ratio: no failure was counted before the change.'
            : `Rate after over rate before: ${two(c.ratio)} (exact 95 % limits ${two(c.lower)} to ${c.upper === null ? 'none' : two(c.upper)}).`}
          {` Exact conditional test: p = ${c.pMinimumLikelihood.toFixed(3)} by likelihood, ${c.pDoubling.toFixed(3)} by doubling the smaller tail.`}
          {s.pAdjusted === null ? '' : ` Adjusted for the several steps of this action: ${s.pAdjusted.toFixed(3)}.`}
        </p>
      ) : null}
    </>
  );
}

const percentText = (value: number): string => `${Math.round(value)} %`;
const percent = (value: number): string => percentText(value * 100);
const share = (of: StepEffect['working']['before']): string =>
  of ? `${percent(of.count / of.total)} (${percent(of.lower)} to ${percent(of.upper)})` : 'no sealed record';
const count = ({ count: n, total }: { count: number; total: number }): string => (total === 0 ? 'none' : `${n} of ${total}`);

/** Whether more records meet the step since its change, and whether chance alone would show as much. */
function workingFinding(title: string, { before, after, difference }: StepEffect['working']): string {
  const met = (of: NonNullable<typeof before>): string => percent(of.count / of.total);
  if (!before || !after) return `${title}: records that meet it cannot be compared with before the change yet`;
  const chance =
    !difference || (difference.lower <= 0 && difference.upper >= 0) ? 'within what chance allows' : 'more than chance explains';
  return `${title}: ${met(before)} of records met it before the change, ${met(after)} since, ${chance}`;
}

function Working({ step: { title, working: w } }: { step: StepEffect }): ReactNode {
  const rows = [
    {
      key: 'met',
      label: 'the evidence meets the step as it was written then',
      before: share(w.before),
      after: share(w.after),
    },
    ...w.parts.map((part) => ({ key: part.key, label: part.label, before: count(part.before), after: count(part.after) })),
  ];
  const border = w.weeks.findIndex(({ after }) => after);
  return (
    <>
      {w.difference ? (
        <p>
          {`Difference: ${Math.round(w.difference.difference * 100)} points (${Math.round(w.difference.lower * 100)} to ${Math.round(w.difference.upper * 100)}); Fisher's exact test p = ${w.p!.toFixed(3)}.`}
          {w.likeAge?.oddsRatio != null && w.likeAge.lower !== null && w.likeAge.upper !== null
            ? ` Within houses of like age (built before 1980, and later): odds ratio ${two(w.likeAge.oddsRatio)} (${two(w.likeAge.lower)} to ${two(w.likeAge.upper)}).`
            : ''}
        </p>
      ) : null}
      {w.weeks.length > 0 ? (
        <ControlChart
          title={workingFinding(title, w)}
          summary={`Records whose evidence meets the step, week by week. ${w.sentence}`}
          xName="Week of"
          yName="Percent of sealed records"
          most={100}
          format={percentText}
          marks={border > 0 ? [{ at: border, label: 'change' }] : []}
          points={w.weeks.map((p) => ({ ...p, label: dayText(p.week), value: (100 * p.met) / p.total }))}
          also={[
            { key: 'of', head: 'Records', align: 'right', cell: (p) => `${p.met} of ${p.total}` },
            { key: 'span', head: 'When', cell: (p) => (p.after ? 'after the change' : 'before the change') },
          ]}
        />
      ) : null}
      <DataTable
        caption="What the sealed records hold at the step, before and after the change"
        columns={[
          { key: 'label', head: 'Of the sealed records', cell: (r) => r.label },
          { key: 'before', head: 'Before', align: 'right', cell: (r) => r.before },
          { key: 'after', head: 'After', align: 'right', cell: (r) => r.after },
        ]}
        rows={rows}
        rowKey={(r) => r.key}
      />
    </>
  );
}

const Checks = ({ step: { shareCheck, failureCheck } }: { step: StepEffect }): ReactNode => (
  <>
    <p>
      <strong>Share of records that do not meet the step.</strong> {shareCheck.sentence}
    </p>
    <p>
      <strong>More callbacks than before?</strong> {failureCheck.sentence}
    </p>
    <details>
      <summary>How these checks work, and how often they err</summary>
      <p>
        Looking again and again at an ordinary test and stopping when it pleases is cheating: it finds something in time even where nothing
        changed. These two count every look. The first is Wald&apos;s sequential test (Annals of Mathematical Statistics 16, 1945) of the
        share before the change against half of it; it calls a halving where nothing changed in about 5 of 100 such changes (never more than
        6.25), and misses one that is there in about 20 of 100. It takes the share before the change as known. The second is the maximized
        sequential test (Kulldorff and others, Sequential Analysis 30, 2011), for more failures only: until five failures would be expected,
        it signals falsely in 5 of 100 such changes. What was decided once stays decided.
      </p>
    </details>
  </>
);
