// What was recorded beside what the procedure asked, step by step, and what the report said of it; for one system or every one.
import { useState, type ReactNode } from 'react';
import { NativeSelect, Title } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { Callback } from '@backsight/contract/callbacks';
import { evidenceQuery } from '../../api/callbacks.ts';
import { Empty } from '../../ui/Empty.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { Besides } from './Besides.tsx';
import { Photos, Recorded } from './Recorded.tsx';
import { Reported } from './Reported.tsx';

/** `whole`: it stands within the page of the whole evidence. */
export function Evidence({ callback, whole = false }: { callback: Callback; whole?: boolean }): ReactNode {
  const found = useQuery(evidenceQuery(callback.id));
  const [system, setSystem] = useState(callback.system);
  const evidence = found.data;
  if (!evidence)
    return (
      <Section title="Evidence">
        <ProblemNote of={found.error} />
        {found.isPending ? <Loading /> : null}
      </Section>
    );
  const systems = [...new Map(evidence.steps.map((s) => [s.system, s.procedureTitle]))].map(([value, label]) => ({ value, label }));
  const traced = callback.conclusions?.[0]?.stepKey ?? null;
  const shown = systems.some(({ value }) => value === system) ? system : '';
  const title = systems.find(({ value }) => value === shown)?.label;
  return (
    <Section
      title={whole ? 'Recorded, and reported' : 'Evidence'}
      actions={
        <NativeSelect
          aria-label="System shown"
          value={shown}
          onChange={(e) => setSystem(e.currentTarget.value)}
          data={[{ value: '', label: 'Every system' }, ...systems]}
        />
      }
    >
      {evidence.steps.length === 0 ? (
        <Empty>There is no site record of this job.</Empty>
      ) : (
        <>
          <Photos photos={evidence.photos.filter(({ about }) => about !== null)} />
          <Recorded steps={evidence.steps.filter((s) => shown === '' || s.system === shown)} files={evidence} traced={traced} />
        </>
      )}
      <Besides acts={evidence.acts.filter((act) => shown === '' || act.atPlace || (act.systems?.includes(shown) ?? true))} />
      <Title order={3} mt="md">
        The report said
      </Title>
      {evidence.reports.length === 0 ? (
        <Empty>No report of this job is on file.</Empty>
      ) : (
        evidence.reports.map((report) => <Reported key={report.id} report={report} system={title ?? null} />)
      )}
    </Section>
  );
}
