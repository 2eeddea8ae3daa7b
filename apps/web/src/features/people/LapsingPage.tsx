// What lapses in the next 180 days, and what lapsed in the last 30 and was not renewed.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import type { Lapsing } from '@backsight/contract/people/file';
import { lapsingQuery } from '../../api/personFile.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Day } from '../../ui/When.tsx';

const DAYS = 180;
const COLUMNS: Column<Lapsing>[] = [
  { key: 'what', head: 'What', cell: ({ what }) => what },
  {
    key: 'who',
    head: 'Whose',
    cell: ({ who, personId, kind }) =>
      personId ? (
        <TextLink to="/people/$personId" params={{ personId }} search={{}}>
          {who}
        </TextLink>
      ) : kind === 'kit' || kind === 'kit_check' ? (
        <TextLink to="/kit">{who}</TextLink>
      ) : kind === 'provider' ? (
        <TextLink to="/providers">{who}</TextLink>
      ) : (
        <TextLink to="/firm">{who}</TextLink>
      ),
  },
  {
    key: 'stage',
    head: 'Left',
    oneLine: true,
    cell: ({ stage, lapsed }) => (lapsed ? 'overdue' : stage ? `under ${stage} days` : 'more'),
  },
  {
    key: 'on',
    head: 'Last day',
    oneLine: true,
    cell: ({ on, lapsed }) => (
      <>
        <Day day={on} />
        {lapsed ? ', lapsed' : ''}
      </>
    ),
  },
];

export function LapsingPage(): ReactNode {
  const rows = useQuery(lapsingQuery(DAYS));
  return (
    <Page
      title="What lapses soon"
      about={`Licenses, education, qualifications, calibrations, checks of kit, policies and papers of outside providers that end in the next ${DAYS} days and have no follower. The office and the person get a mail 180, 90 and 30 days before, for kit 30.`}
    >
      <ProblemNote of={rows.error} />
      {rows.isPending ? <Loading /> : null}
      {rows.data?.length === 0 ? <Empty>Nothing lapses in the next {DAYS} days.</Empty> : null}
      {rows.data && rows.data.length > 0 ? (
        <DataTable caption="What lapses soon" columns={COLUMNS} rows={rows.data} rowKey={({ kind, id, what }) => kind + id + what} />
      ) : null}
    </Page>
  );
}
