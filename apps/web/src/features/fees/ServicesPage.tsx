// What clients can order: name, words that callers use, where it is offered, and how long it takes. Prices are rules of the fee schedule.
import { useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { ServiceLine } from '@backsight/contract/jobs/services';
import { servicesQuery } from '../../api/feeSetUp.ts';
import { useMe } from '../../api/people.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { dayText } from '../../ui/time.ts';
import { useOpenedFrom } from '../../ui/opened.ts';
import { Minutes } from './Minutes.tsx';
import { ServiceForm } from './ServiceForm.tsx';

export function ServicesPage(): ReactNode {
  const { roles } = useMe();
  const found = useQuery(servicesQuery);
  const [chosen, setChosen] = useState<string | null>(null);
  useOpenedFrom(chosen);
  const owner = roles.includes('owner');
  const items = found.data?.items ?? [];
  const service = items.find(({ key }) => key === chosen);
  const names = Object.fromEntries(items.map(({ key, name }) => [key, name]));
  const close = () => setChosen(null);
  return (
    <Page
      title="Services"
      about="What clients can order. Its price is an add-on rule of the fee schedule."
      actions={owner && chosen === null ? <Button onClick={() => setChosen('')}>Add a service</Button> : undefined}
    >
      <ProblemNote of={found.error} />
      {found.isPending ? <Loading /> : null}
      {chosen === '' ? (
        <Section title="Add a service">
          <ServiceForm names={names} done={close} />
        </Section>
      ) : null}
      {service ? (
        <Section title={service.name}>
          <ServiceForm key={service.key} service={service} names={names} done={close} />
        </Section>
      ) : null}
      {found.data ? (
        <DataTable caption="Services" columns={columnsFor(owner ? setChosen : null)} rows={items} rowKey={({ key }) => key} />
      ) : null}
      <Minutes mayChange={owner} />
    </Page>
  );
}

const columnsFor = (choose: ((key: string) => void) | null): Column<ServiceLine>[] => [
  { key: 'name', head: 'Service', cell: ({ name }) => name },
  { key: 'words', head: 'Found by', cell: ({ searchWords }) => searchWords.join(', ') },
  { key: 'who', head: 'Done by', cell: ({ providerOnly }) => (providerOnly ? 'an outside provider' : 'our pair') },
  { key: 'state', head: 'Offered', cell: ({ endedOn }) => (endedOn === null ? 'yes' : `not since ${dayText(endedOn)}`) },
  { key: 'jobs', head: 'Jobs', align: 'right', cell: ({ jobs }) => jobs.toLocaleString('en-US') },
  ...(choose
    ? [
        {
          key: 'act',
          head: 'Change',
          cell: ({ key, name }: ServiceLine) => (
            <Button size="compact-sm" variant="default" aria-label={`Change ${name}`} onClick={() => choose(key)}>
              Change
            </Button>
          ),
        },
      ]
    : []),
];
