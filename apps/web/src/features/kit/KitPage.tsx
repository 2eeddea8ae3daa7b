// The firm's kit: pieces by kind with calibration; out of service and back.
import { useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { KitItem } from '@backsight/contract/people/kit';
import { kitQuery } from '../../api/personFile.ts';
import { useMe } from '../../api/people.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { todayIn } from '../../ui/time.ts';
import { Day } from '../../ui/When.tsx';
import { AddKit } from './AddKit.tsx';
import { ChangeKit } from './ChangeKit.tsx';

export function KitPage(): ReactNode {
  const me = useMe();
  const kit = useQuery(kitQuery);
  const [chosen, setChosen] = useState<string | null>(null);
  const may = me.roles.some((role) => role !== 'inspector');
  const item = kit.data?.items.find(({ id }) => id === chosen);
  const close = () => setChosen(null);
  return (
    <Page
      title="Kit"
      about="What pairs carry that is shared, and until when it is calibrated."
      actions={may && chosen !== 'new' ? <Button onClick={() => setChosen('new')}>Add a piece</Button> : undefined}
    >
      <ProblemNote of={kit.error} />
      {kit.isPending ? <Loading /> : null}
      {chosen === 'new' && kit.data ? (
        <Section title="Add a piece">
          <AddKit kinds={kit.data.kinds} done={close} />
        </Section>
      ) : null}
      {item ? (
        <Section title={`${item.name} ${item.serial}`}>
          <ChangeKit key={item.id} item={item} done={close} />
        </Section>
      ) : null}
      {kit.data?.items.length === 0 ? <Empty>No piece of kit is on file.</Empty> : null}
      {kit.data && kit.data.items.length > 0 ? (
        <DataTable
          caption="Kit"
          columns={columnsFor(todayIn(me.zone), may ? setChosen : null)}
          rows={kit.data.items}
          rowKey={({ id }) => id}
        />
      ) : null}
    </Page>
  );
}

const columnsFor = (today: string, choose: ((id: string) => void) | null): Column<KitItem>[] => [
  { key: 'name', head: 'Kind', cell: ({ name }) => name },
  { key: 'serial', head: 'Serial number', cell: ({ serial }) => serial },
  {
    key: 'calibrated',
    head: 'Calibrated until',
    cell: ({ calibratedUntil }) =>
      calibratedUntil === null ? (
        'not calibrated'
      ) : (
        <>
          <Day day={calibratedUntil} />
          {calibratedUntil < today ? ', lapsed' : ''}
        </>
      ),
  },
  {
    key: 'state',
    head: 'In service',
    cell: ({ endedOn }) =>
      endedOn === null ? (
        'yes'
      ) : (
        <>
          out since <Day day={endedOn} />
        </>
      ),
  },
  { key: 'note', head: 'Note', cell: ({ note }) => note },
  ...(choose
    ? [
        {
          key: 'act',
          head: 'Change',
          cell: ({ id, name, serial }: KitItem) => (
            <Button size="compact-sm" variant="default" aria-label={`Change ${name} ${serial}`} onClick={() => choose(id)}>
              Change
            </Button>
          ),
        },
      ]
    : []),
];
