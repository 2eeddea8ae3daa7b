// The register of reports in sequence: to read, to print, and as a table to hand to whoever may ask for it.
import type { ReactNode } from 'react';
import { Button, Group, TextInput } from '@mantine/core';
import { useInfiniteQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { RegisterLine } from '@backsight/contract/sitework/register';
import { useMe } from '../../api/people.ts';
import { reportRegisterQuery } from '../../api/sitework.ts';
import { DataTable } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { todayIn } from '../../ui/time.ts';
import { Day, When } from '../../ui/When.tsx';

const route = getRouteApi('/shell/report-register');

export function ReportRegisterPage(): ReactNode {
  const me = useMe();
  const today = todayIn(me.zone);
  const { from = `${today.slice(0, 7)}-01`, to = today } = route.useSearch();
  const navigate = route.useNavigate();
  const days = { from, to };
  const choose = (change: { from?: string | undefined; to?: string | undefined }) =>
    void navigate({ search: (before) => ({ ...before, ...change }), replace: true });
  const { data, error, isPending, ...more } = useInfiniteQuery(reportRegisterQuery(days));
  const lines = data?.pages.flatMap(({ items }) => items) ?? [];
  /** Paper takes every line, also those that the screen has not asked for yet. */
  const printAll = async () => {
    let { hasNextPage } = more;
    while (hasNextPage) ({ hasNextPage } = await more.fetchNextPage());
    setTimeout(() => window.print());
  };
  return (
    <Page
      title="Register of reports"
      about="In sequence, by the day of the inspection. Numbers are never given twice and none is left out."
      actions={
        <Button variant="default" onClick={() => void printAll()}>
          Print
        </Button>
      }
    >
      <Group align="end" mb="md">
        <TextInput
          label="Inspected from"
          type="date"
          value={days.from}
          onChange={(event) => choose({ from: event.currentTarget.value || undefined })}
        />
        <TextInput label="until" type="date" value={days.to} onChange={(event) => choose({ to: event.currentTarget.value || undefined })} />
        <a href={`/api/report-register.csv?from=${from}&to=${to}`}>As a table (CSV)</a>
      </Group>
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data && lines.length === 0 ? <Empty>No report in these days.</Empty> : null}
      {lines.length > 0 ? <DataTable caption="Register of reports" columns={COLUMNS} rows={lines} rowKey={({ no }) => String(no)} /> : null}
      {more.hasNextPage ? (
        <Button mt="md" variant="default" loading={more.isFetchingNextPage} onClick={() => void more.fetchNextPage()}>
          Show more reports
        </Button>
      ) : null}
    </Page>
  );
}

const named = ({ people }: RegisterLine, did: 'inspected' | 'prepared'): string =>
  people
    .filter((one) => one.did === did)
    .map(({ name, license }) => (license ? `${name} (${license})` : name))
    .join(', ');

const COLUMNS = [
  { key: 'no', head: 'Number', oneLine: true, cell: (line: RegisterLine) => line.no },
  { key: 'inspected', head: 'Inspected', oneLine: true, cell: (line: RegisterLine) => <Day day={line.inspectedOn} /> },
  {
    key: 'report',
    head: 'Report',
    cell: (line: RegisterLine) => (
      <>
        <TextLink to="/jobs/$jobId/report" params={{ jobId: line.jobId }}>
          <Day day={line.reportOn} />
        </TextLink>
        {line.revisedOn.map((day) => (
          <div key={day}>
            revised <Day day={day} />
          </div>
        ))}
        {line.sha256.map((one) => (
          <div key={one} title={`SHA-256 of the file that left: ${one}`}>
            <small>{one.slice(0, 12)}…</small>
          </div>
        ))}
      </>
    ),
  },
  { key: 'client', head: 'Client', cell: (line: RegisterLine) => line.clients.join(', ') },
  { key: 'address', head: 'Address', cell: (line: RegisterLine) => line.address },
  { key: 'by', head: 'Inspected by', cell: (line: RegisterLine) => named(line, 'inspected') },
  { key: 'prepared', head: 'Prepared by', cell: (line: RegisterLine) => named(line, 'prepared') },
  {
    key: 'delivered',
    head: 'Delivered',
    cell: (line: RegisterLine) =>
      line.deliveredAt ? (
        <span>
          <When at={line.deliveredAt} /> to {line.deliveredTo.join(', ')}
        </span>
      ) : (
        'not yet'
      ),
  },
];
