// One fee schedule: its rules in words or as a draft that is edited, how it differs from another, what it would charge and would have brought.
import type { ReactNode } from 'react';
import { NativeSelect } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { FeeRule, SchedulePage as Schedule } from '@backsight/contract/fees/schedules';
import { scheduleQuery, schedulesQuery } from '../../api/feeSetUp.ts';
import { useMe } from '../../api/people.ts';
import { useDraft } from '../../ui/draft.ts';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { Differences } from './Differences.tsx';
import { DraftEditor } from './DraftEditor.tsx';
import { OverJobs } from './OverJobs.tsx';
import { ScheduleActs } from './ScheduleActs.tsx';
import { WhatIf } from './WhatIf.tsx';

const route = getRouteApi('/shell/fee-schedules/$scheduleId');
const STATES = { draft: 'Draft', in_force: 'In force or put in force', withdrawn: 'Withdrawn before it began' };

export function SchedulePage(): ReactNode {
  const { scheduleId } = route.useParams();
  const { beside } = route.useSearch();
  const navigate = route.useNavigate();
  const found = useQuery(scheduleQuery(scheduleId, beside));
  return (
    <Page
      title={found.data ? `Fee schedule ${found.data.number}: ${found.data.name}` : 'Fee schedule'}
      about={found.data ? STATES[found.data.state] : undefined}
    >
      <ProblemNote of={found.error} />
      {found.isPending ? <Loading /> : null}
      {found.data ? (
        <Content
          key={`${scheduleId}-${found.data.version}`}
          schedule={found.data}
          onBeside={(id) => void navigate({ search: { beside: id }, replace: true })}
        />
      ) : null}
    </Page>
  );
}

function Content({ schedule, onBeside }: { schedule: Schedule; onBeside: (id: string) => void }): ReactNode {
  const { roles } = useMe();
  const editing = schedule.state === 'draft' && roles.includes('owner');
  const typed = useDraft({ name: schedule.name, rules: schedule.rules as FeeRule[] }, editing ? 'schedule' : null);
  const others = useQuery(schedulesQuery).data?.items ?? [];
  return (
    <>
      {roles.includes('owner') ? <ScheduleActs schedule={schedule} /> : null}
      {editing ? <DraftEditor schedule={schedule} typed={typed} /> : <InWords schedule={schedule} />}
      <Section title="What one house would cost">
        <WhatIf rules={typed.values.rules} services={schedule.services} />
      </Section>
      <Section title="Beside another schedule">
        <NativeSelect
          label="Compared with"
          maw={360}
          value={schedule.beside.id}
          onChange={(event) => onBeside(event.currentTarget.value)}
          data={others
            .filter(({ id }) => id !== schedule.id || id === schedule.beside.id)
            .map(({ id, number, name }) => ({ value: id, label: `${number}. ${name}` }))}
        />
        <Differences schedule={schedule} />
        <OverJobs schedule={schedule} />
      </Section>
    </>
  );
}

const InWords = ({ schedule }: { schedule: Schedule }): ReactNode => (
  <Section title="Rules">
    <ol>
      {(schedule.rules as FeeRule[]).map(({ key, label }, at) => (
        <li key={key}>
          <strong>{label}</strong>: {schedule.words[at]?.text}
        </li>
      ))}
    </ol>
  </Section>
);
