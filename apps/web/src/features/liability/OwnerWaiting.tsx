// Decisions that wait: remedies to approve, conclusions to confirm; and what is approved and not yet done.
import type { ReactNode } from 'react';
import { REMEDIES } from '@backsight/contract/callbacks';
import type { OwnerPage } from '@backsight/contract/liability/owner';
import { ownerTables } from '@backsight/contract/liability/ownerTables';
import { tableAddress } from '../../api/tables.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Money } from '../../ui/Money.tsx';
import { Section } from '../../ui/Section.tsx';
import { When } from '../../ui/When.tsx';
import { TableFiles } from './TableFiles.tsx';

type Row = { key: string; callbackId: string; number: number; what: string; cents: number | null; by: string; at: string };
const COLUMNS: Column<Row>[] = [
  {
    key: 'callback',
    head: 'Callback',
    oneLine: true,
    cell: (row) => <TextLink to="/callbacks/$callbackId" params={{ callbackId: row.callbackId }}>{`Callback ${row.number}`}</TextLink>,
  },
  { key: 'what', head: 'What waits', cell: (row) => row.what },
  { key: 'cents', head: 'Amount', align: 'right', cell: (row) => (row.cents === null ? 'no money' : <Money cents={row.cents} />) },
  { key: 'by', head: 'From', cell: (row) => row.by },
  { key: 'at', head: 'Since', cell: (row) => <When at={row.at} /> },
];
const kindOf = (kind: string): string => REMEDIES[kind as keyof typeof REMEDIES] ?? kind;

export function OwnerWaiting({ data: { waiting, conclusions } }: { data: OwnerPage }): ReactNode {
  const rowOf =
    (what: string) =>
    (w: OwnerPage['waiting'][number]): Row => ({
      key: w.remedyId,
      callbackId: w.callbackId,
      number: w.number,
      what: `${what}: ${kindOf(w.kind)}`,
      cents: w.cents,
      by: w.proposer,
      at: w.recordedAt,
    });
  const asked: Row[] = [
    ...waiting.filter(({ state }) => state === 'proposed').map(rowOf('Approve')),
    ...conclusions.map((c) => ({
      key: c.callbackId,
      callbackId: c.callbackId,
      number: c.number,
      what: 'Confirm the conclusion',
      cents: null,
      by: c.by,
      at: c.happenedAt,
    })),
  ];
  const approved = waiting.filter(({ state }) => state === 'approved').map(rowOf('Approved, to be done'));
  return (
    <div id="waiting">
      <Section
        title="Waiting for a decision"
        {...(asked.length === 0 ? { brief: 'nothing waits' } : {})}
        {...(asked.length + approved.length > 0
          ? { actions: <TableFiles csv={tableAddress(ownerTables.page, 'waiting')} of="what waits" /> }
          : {})}
      >
        {asked.length === 0 ? null : <DataTable caption="Decisions that wait" columns={COLUMNS} rows={asked} rowKey={(row) => row.key} />}
        {approved.length > 0 ? (
          <details style={{ marginTop: 'var(--bs-space-5)' }}>
            <summary>{`${approved.length} approved and still to be done`}</summary>
            <DataTable caption="Approved remedies that are still to be done" columns={COLUMNS} rows={approved} rowKey={(row) => row.key} />
          </details>
        ) : null}
      </Section>
    </div>
  );
}
