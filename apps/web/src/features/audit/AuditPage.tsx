// The audit trail: who did what, when, on which thing; and the walk that proves it whole.
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import { useInfiniteQuery, useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { AuditEntry } from '@backsight/contract/audit';
import { auditQuery } from '../../api/audit.ts';
import { peopleQuery, useMe } from '../../api/people.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { When } from '../../ui/When.tsx';
import { CheckChain } from './CheckChain.tsx';
import { asWritten, sayDetails, words } from './details.ts';

const route = getRouteApi('/shell/audit');

const columnsFor = (names: ReadonlyMap<string, string>, zone: string): Column<AuditEntry>[] => [
  { key: 'at', head: 'When', cell: ({ at }) => <When at={at} /> },
  { key: 'who', head: 'Who', cell: ({ actorName, actorKind }) => actorName ?? (actorKind === 'service' ? 'the service' : 'a client') },
  { key: 'what', head: 'What', cell: ({ done }) => done },
  {
    key: 'thing',
    head: 'On',
    cell: ({ thingKind, thingId, thingName }) => (
      <TextLink to="/audit" search={{ thingKind, thingId }}>
        {thingName ?? words(thingKind)}
      </TextLink>
    ),
  },
  {
    key: 'details',
    head: 'Details',
    cell: ({ operation, details }) => (
      <Details said={sayDetails(details, { names, zone })} written={[`operation: ${operation}`, ...asWritten(details)]} />
    ),
  },
  { key: 'seal', head: 'Seal', align: 'right', cell: ({ sealNo }) => sealNo ?? 'in a moment' },
];

/** In words, and below as it was written: that is what the seals stand for. */
function Details({ said, written }: { said: string; written: readonly string[] }): ReactNode {
  return (
    <>
      {said ? <div>{said}</div> : null}
      <details style={{ display: 'inline-block', verticalAlign: 'top' }}>
        <summary>As written</summary>
        {written.map((line) => (
          <div key={line} style={{ overflowWrap: 'anywhere' }}>
            {line}
          </div>
        ))}
      </details>
    </>
  );
}

export function AuditPage(): ReactNode {
  const search = route.useSearch();
  const trail = useInfiniteQuery(auditQuery(search));
  const { zone } = useMe();
  const people = useQuery(peopleQuery).data ?? [];
  const names = new Map(people.map(({ id, name }) => [id, name]));
  const rows = trail.data?.pages.flatMap(({ items }) => items) ?? [];
  return (
    <Page title="Audit trail" about="Everything that was done, newest first. Nobody can change it, and the seals show if somebody did.">
      <CheckChain />
      {search.thingId ? (
        <p>
          Only about {rows[0]?.thingName ?? `one ${words(search.thingKind ?? 'thing')}`}.{' '}
          <TextLink to="/audit" search={{}}>
            Show everything
          </TextLink>
        </p>
      ) : null}
      <ProblemNote of={trail.error} />
      {trail.isPending ? <Loading /> : null}
      {trail.data && rows.length === 0 ? <Empty>Nothing was done yet.</Empty> : null}
      {rows.length > 0 ? <DataTable caption="Audit trail" columns={columnsFor(names, zone)} rows={rows} rowKey={({ id }) => id} /> : null}
      {trail.hasNextPage ? (
        <Button mt="md" variant="default" loading={trail.isFetchingNextPage} onClick={() => void trail.fetchNextPage()}>
          Show older ones
        </Button>
      ) : null}
    </Page>
  );
}
