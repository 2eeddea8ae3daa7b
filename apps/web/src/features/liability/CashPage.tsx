// Cash ahead: what is set aside with the chance that it leaves soon, and what used to leave unforeseen.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { STATES } from '@backsight/contract/callbacks';
import type { CashRow, CashEstimate } from '@backsight/contract/liability/owner';
import { formatUsd, shortUsd } from '@backsight/domain/shared/money';
import { ownerTables } from '@backsight/contract/liability/ownerTables';
import { cashQuery } from '../../api/owner.ts';
import { tableAddress } from '../../api/tables.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Details } from '../../ui/Details.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Money } from '../../ui/Money.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { Day } from '../../ui/When.tsx';
import { TableFiles } from './TableFiles.tsx';

const chance = (of: CashRow['days30']): ReactNode =>
  of ? (
    <>
      {`${Math.round(of.share * 100)} %, `}
      <Money cents={of.cents} />
      <br />
      <small>{`${of.callbacks} callbacks ${of.ages}`}</small>
    </>
  ) : (
    'too few to tell'
  );
const COLUMNS: Column<CashRow>[] = [
  {
    key: 'number',
    head: 'Callback',
    oneLine: true,
    cell: (row) => (
      <TextLink to="/callbacks/$callbackId" params={{ callbackId: row.callbackId }}>
        {row.number}
      </TextLink>
    ),
  },
  { key: 'state', head: 'State', cell: (row) => STATES[row.state as keyof typeof STATES] ?? row.state },
  { key: 'cents', head: 'Set aside', align: 'right', cell: (row) => <Money cents={row.cents} /> },
  {
    key: 'since',
    head: 'Since',
    cell: (row) => (
      <>
        <Day day={row.since} />
        {`, ${row.days} ${row.days === 1 ? 'day' : 'days'}`}
      </>
    ),
  },
  { key: '30', head: 'Leaves within 30 days', align: 'right', cell: (row) => chance(row.days30) },
  { key: '90', head: 'Leaves within 90 days', align: 'right', cell: (row) => chance(row.days90) },
];
const said = (of: CashEstimate): ReactNode =>
  of.ok ? (
    <>
      <strong>{`About ${shortUsd(of.cents)}`}</strong>
      {of.lower === null || of.upper === null ? '. ' : `, about ${of.ofTen} of 10 times ${shortUsd(of.lower)} to ${shortUsd(of.upper)}. `}
      {of.method}
    </>
  ) : (
    of.sentence
  );
const stretches = (cents: readonly number[]): string =>
  cents.length === 0 ? 'none lies behind the firm yet' : cents.map((one) => formatUsd(one)).join(', ');

export function CashPage(): ReactNode {
  const { data, error, isPending } = useQuery(cashQuery);
  return (
    <Page
      title="Cash ahead"
      about="What is likely to leave soon. A planning estimate from how money left before, as of last night; not an actuarial opinion. Recoveries are not counted."
      actions={<TextLink to="/liabilities">Liabilities</TextLink>}
    >
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data ? (
        <>
          <Details
            rows={[
              ['Next 30 days', said(data.days30)],
              ['Next 90 days', said(data.days90)],
            ]}
          />
          <Section title="Set aside now" actions={<TableFiles csv={tableAddress(ownerTables.cash, 'reserves')} of="set aside now" />}>
            {data.items.length === 0 ? (
              <Empty>Nothing is set aside.</Empty>
            ) : (
              <DataTable
                caption="Money set aside for open callbacks"
                columns={COLUMNS}
                rows={data.items}
                rowKey={(row) => row.callbackId}
              />
            )}
          </Section>
          <Section title="What left before though nothing was set aside for it">
            <Details
              rows={[
                ['In stretches of 30 days, the newest first', stretches(data.unforeseen30)],
                ['In stretches of 90 days, the newest first', stretches(data.unforeseen90)],
              ]}
            />
          </Section>
        </>
      ) : null}
    </Page>
  );
}
