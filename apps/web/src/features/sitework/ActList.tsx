// What was done besides the steps, in the order in which it was done.
import type { ReactNode } from 'react';
import type { SealedRecord } from '@backsight/contract/sitework';
import { ACT_NAMES } from '@backsight/domain/sitework/act';
import { sayAct } from '@backsight/domain/sitework/sayAct';
import { useMe } from '../../api/people.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { EntryPhotos } from './EntryPhotos.tsx';
import { namingOf } from './naming.ts';
import classes from './sitework.module.css';

export function ActList({ record }: { record: SealedRecord }): ReactNode {
  const me = useMe();
  const naming = namingOf(record, record.acts, me.zone);
  const columns: Column<SealedRecord['acts'][number]>[] = [
    { key: 'at', head: 'When', cell: ({ at }) => naming.clock(at) },
    { key: 'what', head: 'What', cell: ({ act }) => ACT_NAMES[act.do] },
    {
      key: 'words',
      head: 'In words',
      cell: (known) => (
        <>
          {sayAct(known, naming)}
          <EntryPhotos record={record} entryId={known.id} />
        </>
      ),
    },
    { key: 'by', head: 'Who', cell: ({ by }) => naming.person(by) },
  ];
  if (record.acts.length === 0) return null;
  return (
    <section>
      <h2 className={classes.day}>The visit as a whole</h2>
      <DataTable caption="Done besides the steps" columns={columns} rows={record.acts} rowKey={({ id }) => id} />
    </section>
  );
}
