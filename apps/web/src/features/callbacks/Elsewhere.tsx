// Other jobs done by the same step and revision whose record shows the same gap; each is looked at, and the owner decides who is told.
import { useState, type ReactNode } from 'react';
import { Button, Group, NativeSelect } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { GAPS, VERDICTS, type ElsewhereJob } from '@backsight/contract/callbacks/change';
import { elsewhereQuery, type ElsewhereSearch } from '../../api/correctiveActions.ts';
import { DataTable } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { When } from '../../ui/When.tsx';
import { LookElsewhere } from './LookElsewhere.tsx';
import { TellElsewhere } from './TellElsewhere.tsx';
import { useOneOpen } from './oneOpen.tsx';

export function Elsewhere({ actionId }: { actionId: string }): ReactNode {
  const [open, setOpen] = useState(false);
  return (
    <Section
      title="The same elsewhere"
      actions={
        open ? null : (
          <Button variant="default" onClick={() => setOpen(true)}>
            Look for the same elsewhere
          </Button>
        )
      }
    >
      <p>
        Other jobs that were done by the same step in the same revision. Looking at them is free; whether their clients are told is the
        decision of an owner, after the insurer&apos;s word. A danger to people is told at once. Nothing is sent by itself.
      </p>
      {open ? <List actionId={actionId} /> : null}
    </Section>
  );
}

function List({ actionId }: { actionId: string }): ReactNode {
  const [search, setSearch] = useState<ElsewhereSearch>({});
  const { data, error, isPending } = useQuery(elsewhereQuery(actionId, search));
  if (isPending || !data) return error ? <ProblemNote of={error} /> : <Loading />;
  if (!data.step || !data.gap) return <Empty>The callbacks were traced to no step.</Empty>;
  const shown = data.shown.length > 0 ? data.shown : (Object.keys(GAPS) as (typeof data.shown)[number][]);
  const { step, gap } = data;
  return (
    <>
      <ProblemNote of={error} />
      <Group align="end" mb="sm">
        {data.steps.length > 1 ? (
          <NativeSelect
            label="Step"
            value={step}
            onChange={(event) => setSearch({ step: event.currentTarget.value })}
            data={data.steps.map((s) => ({ value: s.name, label: `${s.title} (${s.procedureTitle}, revision ${s.revisionNumber})` }))}
          />
        ) : null}
        <NativeSelect
          label="Gap"
          description={
            data.shown.length > 0 ? 'What the failed entry shows' : 'The failed entry shows none of these: choose what to look for'
          }
          value={gap}
          onChange={(event) => setSearch({ step, gap: event.currentTarget.value as typeof gap })}
          data={shown.map((value) => ({ value, label: GAPS[value] }))}
        />
      </Group>
      {data.jobs.length === 0 ? <Empty>No other job shows this gap.</Empty> : <Jobs actionId={actionId} gap={gap} jobs={data.jobs} />}
      <Group mt="sm">
        {search.before ? (
          <Button variant="default" onClick={() => setSearch({ step, gap })}>
            From the newest
          </Button>
        ) : null}
        {data.next === null ? null : (
          <Button variant="default" onClick={() => setSearch({ step, gap, before: data.next! })}>
            Older ones
          </Button>
        )}
      </Group>
    </>
  );
}

const recordedAt = ({ places }: ElsewhereJob): ReactNode =>
  places
    .filter(({ hasGap }) => hasGap)
    .map((place) => (
      <span key={place.item ?? ''} style={{ display: 'block' }}>
        {place.item ? `${place.item}: ` : ''}
        {place.recorded.length === 0 ? 'nothing' : place.recorded.map((r) => `${r.answer} (${r.by})`).join('; ')}
      </span>
    ));

const Jobs = ({ actionId, gap, jobs }: { actionId: string; gap: keyof typeof GAPS; jobs: ElsewhereJob[] }): ReactNode => (
  <DataTable
    caption="Other jobs whose record shows the gap"
    columns={[
      {
        key: 'job',
        head: 'Job',
        cell: (j) => (
          <>
            <TextLink to="/jobs/$jobId/record" params={{ jobId: j.jobId }}>{`Job ${j.jobNumber}`}</TextLink>
            <br />
            <When at={j.inspectedAt} />
          </>
        ),
      },
      { key: 'recorded', head: 'Recorded at the step', cell: recordedAt },
      { key: 'look', head: 'Looked at', cell: (j) => <Looked actionId={actionId} gap={gap} job={j} /> },
      { key: 'told', head: 'Client told', cell: (j) => <Told actionId={actionId} job={j} /> },
    ]}
    rows={jobs}
    rowKey={(j) => j.jobId}
  />
);

type OfJob = { actionId: string; job: ElsewhereJob };

function Looked({ actionId, gap, job }: OfJob & { gap: keyof typeof GAPS }): ReactNode {
  const [open, setOpen] = useOneOpen(`look-${job.jobId}`);
  if (open) return <LookElsewhere actionId={actionId} jobId={job.jobId} gap={gap} onDone={() => setOpen(false)} />;
  return (
    <>
      {job.look ? (
        <span style={{ display: 'block' }}>
          <strong>{VERDICTS[job.look.verdict]}</strong>
          {`, ${job.look.by}: ${job.look.words}`}
        </span>
      ) : null}
      <Button variant="default" size="compact-sm" onClick={() => setOpen(true)} aria-label={`Say what job ${job.jobNumber} shows`}>
        {job.look ? 'Look again' : 'Say what it shows'}
      </Button>
    </>
  );
}

function Told({ actionId, job }: OfJob): ReactNode {
  const [open, setOpen] = useOneOpen(`tell-${job.jobId}`);
  const { decision: d } = job;
  if (open) return <TellElsewhere actionId={actionId} job={job} onDone={() => setOpen(false)} />;
  return (
    <>
      {d ? (
        <span style={{ display: 'block' }}>
          <strong>{d.decision === 'tell' ? (d.danger ? 'told at once: danger' : 'told') : 'not told'}</strong>
          {`, ${d.by}: ${d.words}`}
          {d.insurerWord ? `; insurer: ${d.insurerWord}` : ''}
          {d.attorneyWord ? `; attorney: ${d.attorneyWord}` : ''}
          {d.told.map((t) => `; ${t.name}: ${t.way === 'mail' ? 'mail' : 'no address, call'}`).join('')}
        </span>
      ) : null}
      {d?.decision === 'tell' ? null : (
        <Button
          variant="default"
          size="compact-sm"
          onClick={() => setOpen(true)}
          aria-label={`Decide whether the client of job ${job.jobNumber} is told`}
        >
          Decide
        </Button>
      )}
    </>
  );
}
