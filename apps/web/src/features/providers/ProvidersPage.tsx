// Outside providers: what they do beside our pair, for what price, and until when their papers hold.
import { useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { Provider } from '@backsight/contract/schedule/crew';
import { providersQuery } from '../../api/crew.ts';
import { useMe } from '../../api/people.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Money } from '../../ui/Money.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { todayIn } from '../../ui/time.ts';
import { useOpenedFrom } from '../../ui/opened.ts';
import { Day } from '../../ui/When.tsx';
import { ProviderForm } from './ProviderForm.tsx';

export function ProvidersPage(): ReactNode {
  const { zone } = useMe();
  const found = useQuery(providersQuery);
  const [chosen, setChosen] = useState<string | null>(null);
  useOpenedFrom(chosen);
  const close = () => setChosen(null);
  const provider = found.data?.providers.find(({ id }) => id === chosen);
  return (
    <Page
      title="Outside providers"
      about="Sewer camera, well, septic, insects, chimney, pool: done beside our pair by somebody else. A lapsed license or certificate is not offered."
      actions={found.data && chosen === null ? <Button onClick={() => setChosen('new')}>Add a provider</Button> : undefined}
    >
      <ProblemNote of={found.error} />
      {found.isPending ? <Loading /> : null}
      {chosen === 'new' && found.data ? (
        <Section title="Add a provider">
          <ProviderForm services={found.data.services} done={close} />
        </Section>
      ) : null}
      {provider && found.data ? (
        <Section title={provider.name}>
          <ProviderForm key={provider.id} services={found.data.services} provider={provider} done={close} />
        </Section>
      ) : null}
      {found.data?.providers.length === 0 ? <Empty>No outside provider is on file.</Empty> : null}
      {found.data && found.data.providers.length > 0 ? (
        <DataTable
          caption="Outside providers"
          columns={columnsFor(todayIn(zone), setChosen)}
          rows={found.data.providers}
          rowKey={({ id }) => id}
        />
      ) : null}
    </Page>
  );
}

const WHOLE = { whiteSpace: 'nowrap' } as const;

/** A paper with its last day, which stays in one piece. */
const until = (what: string, day: string | null, today: string): ReactNode => (
  <div>
    {what}{' '}
    {day === null ? (
      'not asked'
    ) : (
      <>
        until{' '}
        <span style={WHOLE}>
          <Day day={day} />
          {day < today ? ', lapsed' : ''}
        </span>
      </>
    )}
  </div>
);

const Who = ({ name, phone }: { name: string; phone: string }): ReactNode => (
  <>
    {name}
    <div style={WHOLE}>{phone}</div>
  </>
);

const columnsFor = (today: string, choose: (id: string) => void): Column<Provider>[] => [
  { key: 'service', head: 'Service', cell: ({ serviceName }) => serviceName },
  { key: 'name', head: 'Provider', cell: ({ name, phone }) => <Who name={name} phone={phone} /> },
  { key: 'contract', head: 'Contracts with', cell: ({ contractsWithUs }) => (contractsWithUs ? 'the firm' : 'the client') },
  { key: 'cost', head: 'Cost', cell: ({ costCents }) => <Money cents={costCents} /> },
  {
    key: 'time',
    head: 'Time',
    cell: ({ minutes, offsetMinutes }) => (
      <>
        {minutes} min, {offsetMinutes === 0 ? <span style={WHOLE}>from our start</span> : `${offsetMinutes} min after our start`}
      </>
    ),
  },
  {
    key: 'papers',
    head: 'Papers',
    cell: ({ licenseUntil, insuranceUntil }) => (
      <>
        {until('License', licenseUntil, today)}
        {until('Certificate', insuranceUntil, today)}
      </>
    ),
  },
  { key: 'ahead', head: 'Visits ahead', cell: ({ ahead, endedOn }) => (endedOn === null ? String(ahead) : 'ended') },
  {
    key: 'act',
    head: 'Change',
    cell: ({ id, name }) => (
      <Button size="compact-sm" variant="default" aria-label={`Change ${name}`} onClick={() => choose(id)}>
        Change
      </Button>
    ),
  },
];
