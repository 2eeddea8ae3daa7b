// The audit trail: who did what, when, on which thing; and the walk that proves it whole.
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import { useInfiniteQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { AuditEntry } from '@backsight/contract/audit';
import { auditQuery } from '../../api/audit.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { When } from '../../ui/When.tsx';
import { CheckChain } from './CheckChain.tsx';

const route = getRouteApi('/shell/audit');
const words = (name: string): string => name.replace(/[._-]/g, ' ');
const detailsOf = (details: Record<string, unknown>): string =>
  Object.entries(details)
    .map(
      ([name, value]) =>
        `${words(name.replace(/([A-Z])/g, ' $1').toLowerCase())}: ${Array.isArray(value) ? value.join(', ') || 'none' : String(value ?? 'none')}`,
    )
    .join('; ');

const COLUMNS: Column<AuditEntry>[] = [
  { key: 'at', head: 'When', cell: ({ at }) => <When at={at} /> },
  { key: 'who', head: 'Who', cell: ({ actorName, actorKind }) => actorName ?? (actorKind === 'service' ? 'the service' : 'a client') },
  { key: 'what', head: 'What', cell: ({ operation }) => words(operation) },
  {
    key: 'thing',
    head: 'On',
    cell: ({ thingKind, thingId }) => (
      <TextLink to="/audit" search={{ thingKind, thingId }}>
        {words(thingKind)}
      </TextLink>
    ),
  },
  { key: 'details', head: 'Details', cell: ({ details }) => <span style={{ overflowWrap: 'anywhere' }}>{detailsOf(details)}</span> },
  { key: 'seal', head: 'Seal', align: 'right', cell: ({ sealNo }) => sealNo ?? 'in a moment' },
];

export function AuditPage(): ReactNode {
  const search = route.useSearch();
  const trail = useInfiniteQuery(auditQuery(search));
  const rows = trail.data?.pages.flatMap(({ items }) => items) ?? [];
  return (
    <Page title="Audit trail" about="Everything that was done, newest first. Nobody can change it, and the seals show if somebody did.">
      <CheckChain />
      {search.thingId ? (
        <p>
          Only about one {words(search.thingKind ?? 'thing')}.{' '}
          <TextLink to="/audit" search={{}}>
            Show everything
          </TextLink>
        </p>
      ) : null}
      <ProblemNote of={trail.error} />
      {trail.isPending ? <Loading /> : null}
      {trail.data && rows.length === 0 ? <Empty>Nothing was done yet.</Empty> : null}
      {rows.length > 0 ? <DataTable caption="Audit trail" columns={COLUMNS} rows={rows} rowKey={({ id }) => id} /> : null}
      {trail.hasNextPage ? (
        <Button mt="md" variant="default" loading={trail.isFetchingNextPage} onClick={() => void trail.fetchNextPage()}>
          Show older ones
        </Button>
      ) : null}
    </Page>
  );
}
