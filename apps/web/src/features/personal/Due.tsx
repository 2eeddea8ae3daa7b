// What is due to be disposed of, what is held, and what went.
import { useState, type ReactNode } from 'react';
import { Button, Checkbox } from '@mantine/core';
import type { DisposedRecords, DueRecords, HeldRecords } from '@backsight/contract/personal';
import { newId } from '../../api/ids.ts';
import { disposeDue } from '../../api/personal.ts';
import { ConfirmDialog } from '../../ui/ConfirmDialog.tsx';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { Section } from '../../ui/Section.tsx';
import { useSend } from '../../ui/useSend.ts';
import { Day, When } from '../../ui/When.tsx';
import { RECORD_WORDS } from './words.ts';

const keyOf = ({ kind, id }: DueRecords): string => `${kind} ${id}`;

const COLUMNS: Column<DueRecords>[] = [
  { key: 'what', head: 'What', cell: ({ name }) => name },
  { key: 'kind', head: 'Records', cell: ({ kind, holds }) => (holds === '' ? RECORD_WORDS[kind] : `${RECORD_WORDS[kind]}: ${holds}`) },
  { key: 'last', head: 'Last day', cell: ({ lastDay }) => <Day day={lastDay} /> },
  { key: 'until', head: 'Kept until', cell: ({ until }) => <Day day={until} /> },
];
/** As many as one act takes. */
const AT_ONCE = 200;

export function Due({ due, more }: { due: DueRecords[]; more: boolean }): ReactNode {
  const [left, setLeft] = useState<readonly string[]>([]);
  const [asking, setAsking] = useState<string | null>(null);
  const chosen = due.filter((one) => !left.includes(keyOf(one))).slice(0, AT_ONCE);
  const dispose = useSend(disposeDue, { refresh: ['personal'], said: 'They were disposed of.', then: () => setAsking(null) });
  const take: Column<DueRecords> = {
    key: 'take',
    head: 'Dispose of it',
    cell: (one) => (
      <Checkbox
        aria-label={`Dispose of: ${one.name}, ${RECORD_WORDS[one.kind]}`}
        checked={!left.includes(keyOf(one))}
        onChange={(event) => setLeft(event.currentTarget.checked ? left.filter((key) => key !== keyOf(one)) : [...left, keyOf(one)])}
      />
    ),
  };
  if (due.length === 0)
    return (
      <Section title="Due to be disposed of">
        <Empty>Nothing is due: every record is within its time, held, or gone already.</Empty>
      </Section>
    );
  return (
    <Section title="Due to be disposed of" brief={more ? `the oldest ${due.length}` : `${due.length}`}>
      <p>
        Look through the list first, and leave out what you want to keep. Of a job its number, days, state and amounts stay, with ledger and
        audit trail.{more ? ' There are more than stand here: the next ones follow when the oldest are gone.' : ''}
      </p>
      <DataTable caption="Records whose time is over" columns={[...COLUMNS, take]} rows={due} rowKey={keyOf} />
      <Button mt="md" disabled={chosen.length === 0} onClick={() => setAsking(newId())}>
        {`Dispose of ${chosen.length} of ${due.length}`}
      </Button>
      <ConfirmDialog
        opened={asking !== null}
        title={`Dispose of ${chosen.length}?`}
        act="Dispose of them"
        busy={dispose.isPending}
        error={dispose.error}
        onClose={() => setAsking(null)}
        onConfirm={() => dispose.mutate({ key: asking!, units: chosen.map(({ kind, id }) => ({ kind, id })) })}
      >
        <p>
          Names, addresses, papers, photos, mail and what was written go for good, files from the disk within a minute. It cannot be taken
          back. Backups made before still hold them.
        </p>
      </ConfirmDialog>
    </Section>
  );
}

const HELD: Column<HeldRecords>[] = [
  { key: 'what', head: 'What', cell: ({ name }) => name },
  { key: 'kind', head: 'Records', cell: ({ kind }) => RECORD_WORDS[kind] },
  { key: 'until', head: 'Time was over', cell: ({ until }) => <Day day={until} /> },
  { key: 'held', head: 'Why it stays', cell: ({ held }) => held, sentences: true },
];

export const Held = ({ held }: { held: HeldRecords[] }): ReactNode => (
  <Section title="Their time is over, but they are held" brief={`${held.length}`}>
    <DataTable caption="Records that are held" columns={HELD} rows={held} rowKey={keyOf} />
  </Section>
);

const GONE: Column<DisposedRecords>[] = [
  { key: 'what', head: 'What', cell: ({ kind, name }) => [name, RECORD_WORDS[kind]].filter(Boolean).join(': ') },
  { key: 'why', head: 'Why', cell: ({ because }) => (because === 'asked' ? 'somebody asked' : 'its time was over') },
  { key: 'until', head: 'Kept until', cell: ({ keptUntil }) => <Day day={keptUntil} /> },
  {
    key: 'by',
    head: 'By',
    cell: ({ by, at }) => (
      <>
        {by}, <When at={at} />
      </>
    ),
  },
];

export const Disposed = ({ disposed }: { disposed: DisposedRecords[] }): ReactNode => (
  <Section title="Disposed of lately" folds="always" brief={`${disposed.length}`}>
    <DataTable caption="What was disposed of" columns={GONE} rows={disposed} rowKey={({ id }) => id} />
  </Section>
);
