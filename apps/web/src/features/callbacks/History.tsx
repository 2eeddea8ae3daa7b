// What happened, in order.
import type { ReactNode } from 'react';
import type { Callback } from '@backsight/contract/callbacks';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Section } from '../../ui/Section.tsx';
import { When } from '../../ui/When.tsx';
import { EVENTS } from './words.ts';

/** What nobody of the firm did, but the client by the private link. */
const BY_LINK = ['received', 'client_answered', 'appealed', 'release_signed', 'release_answered'];

const COLUMNS: Column<Callback['events'][number]>[] = [
  { key: 'what', head: 'What', cell: (e) => EVENTS[e.kind] ?? e.kind },
  { key: 'when', head: 'When', cell: (e) => <When at={e.happenedAt} /> },
  { key: 'who', head: 'Who', cell: (e) => e.actor ?? (BY_LINK.includes(e.kind) ? 'the client, by link' : 'the service') },
  { key: 'words', head: 'Words', cell: (e) => e.words ?? '' },
];

export const History = ({ callback }: { callback: Callback }): ReactNode => (
  <Section title="What happened" folds="always" brief={<Newest events={callback.events} />}>
    <DataTable caption="What happened" columns={COLUMNS} rows={callback.events} rowKey={(e) => e.id} />
  </Section>
);

function Newest({ events }: Pick<Callback, 'events'>): ReactNode {
  const newest = events.at(-1);
  if (!newest) return null;
  return (
    <>
      {`${events.length} ${events.length === 1 ? 'event' : 'events'}, the newest: ${EVENTS[newest.kind] ?? newest.kind}, `}
      <When at={newest.happenedAt} />
    </>
  );
}
