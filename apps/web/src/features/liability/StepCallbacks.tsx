// Callbacks that were traced to a step, newest inspections first; near-misses apart, for they are no failures.
import type { ReactNode } from 'react';
import { CAUSES, KINDS, type StepPage } from '@backsight/contract/liability/steps';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Money } from '../../ui/Money.tsx';
import { Day } from '../../ui/When.tsx';
import { TableLink } from './TableLink.tsx';

type Traced = StepPage['callbacks'][number];
const COLUMNS: Column<Traced>[] = [
  {
    key: 'number',
    head: 'Callback',
    oneLine: true,
    cell: (c) => <TextLink to="/callbacks/$callbackId" params={{ callbackId: c.id }}>{`Callback ${c.number}`}</TextLink>,
  },
  { key: 'kind', head: 'Kind', cell: (c) => KINDS[c.kind] },
  { key: 'place', head: 'Place', cell: (c) => c.place },
  { key: 'cause', head: 'Conclusion', cell: (c) => CAUSES[c.cause as keyof typeof CAUSES] ?? c.cause },
  { key: 'inspected', head: 'Inspected on', cell: (c) => <Day day={c.inspectedOn} /> },
  { key: 'received', head: 'Received on', cell: (c) => <Day day={c.receivedOn} /> },
  { key: 'revision', head: 'Revision', align: 'right', cell: (c) => c.revision ?? 'older' },
  { key: 'cost', head: 'Cost', align: 'right', cell: (c) => <Money cents={c.incurredCents} /> },
];

export function StepCallbacks({ step }: { step: StepPage }): ReactNode {
  const { callbacks, nearMissCallbacks, failures, nearMisses, unnamed } = step;
  return (
    <>
      {callbacks.length === 0 ? (
        <p>No callback {failures > 0 ? 'that you may see ' : ''}has been traced to this step.</p>
      ) : (
        <>
          <DataTable caption="Callbacks traced to this step" columns={COLUMNS} rows={callbacks} rowKey={(c) => c.id} />
          <p>
            <TableLink stepKey={step.stepKey} of="callbacks" />
          </p>
        </>
      )}
      {callbacks.length < failures && callbacks.length === 50 ? <p>{`The newest 50 of ${failures}.`}</p> : null}
      <h3>Near-misses</h3>
      {nearMissCallbacks.length === 0 ? (
        <p>None. A near-miss was noticed and put right by ourselves; it counts as no failure.</p>
      ) : (
        <DataTable caption="Near-misses at this step" columns={COLUMNS} rows={nearMissCallbacks} rowKey={(c) => c.id} />
      )}
      {nearMissCallbacks.length < nearMisses && nearMissCallbacks.length === 50 ? <p>{`The newest 50 of ${nearMisses}.`}</p> : null}
      {unnamed > 0 ? <p>{`${unnamed} more ${unnamed === 1 ? 'is' : 'are'} for the owner alone: counted, not named.`}</p> : null}
    </>
  );
}
