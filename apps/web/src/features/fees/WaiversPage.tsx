// Charges that the rules asked for and that somebody waived: for the owner.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { WAIVED, type WaiverLine } from '@backsight/contract/jobs/waivers';
import { waiversQuery } from '../../api/feeSetUp.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Money } from '../../ui/Money.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { When } from '../../ui/When.tsx';

const COLUMNS: Column<WaiverLine>[] = [
  {
    key: 'job',
    head: 'Job',
    cell: ({ jobId, jobNumber, address }) => (
      <>
        <TextLink to="/jobs/$jobId" params={{ jobId }}>
          {String(jobNumber)}
        </TextLink>{' '}
        {address}
      </>
    ),
  },
  { key: 'what', head: 'What was not charged', cell: ({ what }) => WAIVED[what] ?? what },
  { key: 'cents', head: 'By the rule', align: 'right', cell: ({ cents }) => <Money cents={cents} /> },
  { key: 'reason', head: 'Why', cell: ({ reason }) => reason },
  {
    key: 'by',
    head: 'Waived',
    cell: ({ by, at }) => (
      <>
        <When at={at} /> by {by ?? 'the service'}
      </>
    ),
  },
];

export function WaiversPage(): ReactNode {
  const found = useQuery(waiversQuery);
  return (
    <Page
      title="Waived charges"
      about="Late moves, late cancellings and visits without access that were not charged although the rule says so. The rules are set on the page of the firm."
    >
      <ProblemNote of={found.error} />
      {found.isPending ? <Loading /> : null}
      {found.data?.items.length === 0 ? <Empty>Nothing was waived.</Empty> : null}
      {found.data && found.data.items.length > 0 ? (
        <DataTable caption="Waived charges" columns={COLUMNS} rows={found.data.items} rowKey={({ id }) => id} />
      ) : null}
    </Page>
  );
}
