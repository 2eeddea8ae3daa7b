// Miles of everybody in a period, with what is repaid for them; the list leaves as a table.
import { useState, type ReactNode } from 'react';
import { Button, Group, NativeSelect, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { DateTime } from 'luxon';
import type { Mileage, MileageDay } from '@backsight/contract/people/own';
import { mileageQuery, mileageTableAddress } from '../../../api/own.ts';
import { useMe } from '../../../api/people.ts';
import { DataTable, type Column } from '../../../ui/DataTable.tsx';
import { Empty } from '../../../ui/Empty.tsx';
import { Loading } from '../../../ui/Loading.tsx';
import { Money } from '../../../ui/Money.tsx';
import { Page } from '../../../ui/Page.tsx';
import { ProblemNote } from '../../../ui/ProblemNote.tsx';
import { Section } from '../../../ui/Section.tsx';
import { todayIn } from '../../../ui/time.ts';
import { EnterMiles } from './EnterMiles.tsx';
import { MileageTable } from './MileageTable.tsx';
import { RateForm } from './RateForm.tsx';

const route = getRouteApi('/shell/mileage');

export function MileagePage(): ReactNode {
  const me = useMe();
  const search = route.useSearch();
  const navigate = route.useNavigate();
  const today = todayIn(me.zone);
  const from = search.from ?? DateTime.fromISO(today, { zone: 'utc' }).startOf('month').toFormat('yyyy-MM-dd');
  const to = search.to ?? today;
  const list = useQuery(mileageQuery({ from, to }));
  const [chosen, setChosen] = useState<MileageDay | null>(null);
  const choose = (change: { from?: string; to?: string }) =>
    void navigate({ search: (before) => ({ ...before, ...change }), replace: true });
  return (
    <Page
      title="Miles"
      about="Planned: the estimated road from home through the visits of the day and back. Driven: what the person entered."
      actions={
        <Button component="a" href={mileageTableAddress({ from, to })} variant="default">
          Save as a table (CSV)
        </Button>
      }
    >
      <Group align="flex-end" gap="sm" mb="md" role="search" aria-label="Period">
        <TextInput label="From" type="date" value={from} onChange={(event) => choose({ from: event.currentTarget.value || undefined })} />
        <TextInput label="Until" type="date" value={to} onChange={(event) => choose({ to: event.currentTarget.value || undefined })} />
      </Group>
      <ProblemNote of={list.error} />
      {list.isPending ? <Loading /> : null}
      {list.data ? <Sums list={list.data} /> : null}
      {me.roles.includes('owner') && list.data ? <RateForm key={list.data.rateTenthCents} tenthCents={list.data.rateTenthCents} /> : null}
      {chosen ? (
        <Section title={`Miles of ${chosen.name}`}>
          <EnterMiles key={chosen.personId + chosen.day} personId={chosen.personId} row={chosen} done={() => setChosen(null)} />
        </Section>
      ) : null}
      <Section title="By day">{list.data ? <Days list={list.data} choose={setChosen} /> : null}</Section>
    </Page>
  );
}

/** The days of one person, newest first. */
function Days({ list: { days }, choose }: { list: Mileage; choose: (row: MileageDay) => void }): ReactNode {
  const people = [...new Map(days.map(({ personId, name }) => [personId, name]))].toSorted(([, a], [, b]) => a.localeCompare(b));
  const { person: wanted } = route.useSearch();
  const navigate = route.useNavigate();
  const shown = people.some(([id]) => id === wanted) ? wanted : people[0]?.[0];
  if (shown === undefined) return <Empty>No visit and no miles in this period.</Empty>;
  const rows = days.filter(({ personId }) => personId === shown).toSorted((a, b) => b.day.localeCompare(a.day));
  return (
    <>
      <NativeSelect
        label="Person"
        mb="sm"
        maw="20rem"
        value={shown}
        onChange={(event) => void navigate({ search: (before) => ({ ...before, person: event.currentTarget.value }), replace: true })}
        data={people.map(([value, label]) => ({ value, label }))}
      />
      <MileageTable rows={rows} choose={choose} />
    </>
  );
}

type Sum = { personId: string; name: string; planned: number; driven: number; missing: number; cents: number };

const COLUMNS: Column<Sum>[] = [
  { key: 'name', head: 'Person', cell: ({ name }) => name },
  { key: 'planned', head: 'Planned, miles', align: 'right', cell: ({ planned }) => (planned / 10).toFixed(1) },
  { key: 'driven', head: 'Driven, miles', align: 'right', cell: ({ driven }) => (driven / 10).toFixed(1) },
  { key: 'missing', head: 'Days not entered', align: 'right', cell: ({ missing }) => missing },
  { key: 'amount', head: 'To repay', align: 'right', cell: ({ cents }) => <Money cents={cents} /> },
];

function Sums({ list }: { list: Mileage }): ReactNode {
  const sums = new Map<string, Sum>();
  for (const { personId, name, plannedTenths, entered, cents } of list.days) {
    const sum = sums.get(personId) ?? { personId, name, planned: 0, driven: 0, missing: 0, cents: 0 };
    sum.planned += plannedTenths;
    sum.driven += entered?.tenths ?? 0;
    sum.missing += entered ? 0 : 1;
    sum.cents += cents;
    sums.set(personId, sum);
  }
  if (sums.size === 0) return null;
  const rows = [...sums.values()].toSorted((a, b) => a.name.localeCompare(b.name));
  return (
    <Section title={`By person, at ${(list.rateTenthCents / 10).toFixed(1)} cents a mile`}>
      <DataTable caption="Miles by person" columns={COLUMNS} rows={rows} rowKey={({ personId }) => personId} />
    </Section>
  );
}
