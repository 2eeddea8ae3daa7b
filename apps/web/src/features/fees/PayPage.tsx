// Pay: the statement of a period by person, and for the owner how each is paid from a day on.
import type { ReactNode } from 'react';
import { Button, Group, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { PAY_PARTS, type PayLineShown } from '@backsight/contract/fees/pay';
import { payQuery, payTableAddress } from '../../api/feeSetUp.ts';
import { useMe } from '../../api/people.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Money } from '../../ui/Money.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { todayIn } from '../../ui/time.ts';
import { Day } from '../../ui/When.tsx';
import { PayRules } from './PayRules.tsx';

const LINES: Column<PayLineShown>[] = [
  { key: 'day', head: 'Day', oneLine: true, cell: ({ happenedOn }) => <Day day={happenedOn} /> },
  {
    key: 'job',
    head: 'Job',
    cell: ({ jobId, jobNumber, address }) => (
      <>
        <TextLink to="/jobs/$jobId" params={{ jobId }}>
          {String(jobNumber)}
        </TextLink>{' '}
        {address}
      </>
    ),
  },
  { key: 'part', head: 'Part', cell: ({ part, visitKind }) => `${PAY_PARTS[part]}, ${visitKind.toLowerCase()}` },
  { key: 'reason', head: 'By the rule', cell: ({ reason }) => reason },
  { key: 'cents', head: 'Pay', align: 'right', cell: ({ cents }) => <Money cents={cents} /> },
];

const route = getRouteApi('/shell/pay');
type Total = { personId: string; person: string; cents: number; visits: number };
const TOTALS: Column<Total>[] = [
  { key: 'person', head: 'Person', cell: ({ person }) => person },
  { key: 'visits', head: 'Lines', align: 'right', cell: ({ visits }) => visits },
  { key: 'cents', head: 'Pay', align: 'right', cell: ({ cents }) => <Money cents={cents} /> },
];

export function PayPage(): ReactNode {
  const { zone, roles } = useMe();
  const today = todayIn(zone);
  const { from = `${today.slice(0, 7)}-01`, until = today } = route.useSearch();
  const navigate = route.useNavigate();
  const choose = (days: { from?: string | undefined; until?: string | undefined }) =>
    void navigate({ search: (before) => ({ ...before, ...days }), replace: true });
  const found = useQuery(payQuery({ from, until }));
  return (
    <Page
      title="Pay"
      about="Frozen when a visit is over: who did it, and the rule then in force. Nothing is ever taken off for callbacks (Wis. Stat. 103.455, from memory), and no rule can see them."
      actions={
        <Button component="a" href={payTableAddress({ from, until })} variant="default">
          Save as a table (CSV)
        </Button>
      }
    >
      <Group align="flex-end" gap="sm" mb="md" role="search" aria-label="Period">
        <TextInput label="From" type="date" value={from} onChange={(event) => choose({ from: event.currentTarget.value || undefined })} />
        <TextInput
          label="Until"
          type="date"
          value={until}
          onChange={(event) => choose({ until: event.currentTarget.value || undefined })}
        />
      </Group>
      <ProblemNote of={found.error} />
      {found.isPending ? <Loading /> : null}
      {found.data && found.data.totals.length === 0 ? <Empty>No visit of this period is over.</Empty> : null}
      {found.data && found.data.totals.length > 0 ? (
        <DataTable caption="Pay by person" columns={TOTALS} rows={found.data.totals} rowKey={({ personId }) => personId} />
      ) : null}
      {found.data?.totals.map(({ personId, person }) => (
        <details key={personId} style={{ marginTop: 'var(--bs-space-4)' }}>
          <summary>Statement of {person}</summary>
          <DataTable
            caption={`Pay of ${person}`}
            columns={LINES}
            rows={found.data.lines.filter((line) => line.personId === personId)}
            rowKey={({ visitId, part }) => visitId + part}
          />
        </details>
      ))}
      {roles.includes('owner') ? (
        <Section title="How each is paid">
          <PayRules />
        </Section>
      ) : null}
    </Page>
  );
}
