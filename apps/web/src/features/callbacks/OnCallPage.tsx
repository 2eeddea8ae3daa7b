// The on-call list: who is alerted first, when nobody is on call, and the lines of the list.
import type { ReactNode } from 'react';
import { Alert, Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { OnCallList } from '@backsight/contract/callbacks/onCall';
import { addDuty, onCallQuery, removeDuty } from '../../api/callbackClocks.ts';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { clockOf, WEEKDAYS } from '../../ui/clock.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useSend } from '../../ui/useSend.ts';
import { Day, When } from '../../ui/When.tsx';
import { DutyForm } from './DutyForm.tsx';

type Duty = OnCallList['duties'][number];

const days = (weekdays: readonly number[]): string =>
  weekdays.length === 7 ? 'every day' : weekdays.map((day) => WEEKDAYS[day - 1]!.slice(0, 3)).join(', ');
const hours = ({ startMinute, endMinute }: Duty): string =>
  startMinute === 0 && endMinute === 1440
    ? 'all day'
    : `${clockOf(startMinute)} to ${clockOf(endMinute)}${endMinute <= startMinute ? ' the next day' : ''}`;

export function OnCallPage(): ReactNode {
  const me = useMe();
  const { data, error, isPending } = useQuery(onCallQuery);
  const keeps = me.roles.includes('owner') || me.roles.includes('office_manager');
  return (
    <Page
      title="On call"
      about="Who is alerted when somebody may be in danger, at any hour: the first at once, then one after the other until somebody has it."
    >
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data ? (
        <>
          <Uncovered list={data} />
          <Section title="Alerted now, in this order">
            <ol>
              {data.now.map(({ id, name, phone, onCall }) => (
                <li key={id}>
                  {name}, <a href={`tel:${phone}`}>{phone}</a>
                  {onCall ? '' : ' (not on call)'}
                </li>
              ))}
            </ol>
            <p>The next one is alerted after {data.minutes} minutes. At the end it begins again.</p>
          </Section>
          <Lines list={data} keeps={keeps} />
          {keeps ? <DutyForm people={data.people} /> : null}
        </>
      ) : null}
    </Page>
  );
}

function Uncovered({ list: { uncovered } }: { list: OnCallList }): ReactNode {
  if (uncovered.length === 0) return null;
  return (
    <Alert color="orange" title="Nobody is on call for some of the coming day" mb="md">
      {uncovered.map(({ from, to }) => (
        <p key={from}>
          <When at={from} /> to <When at={to} />
        </p>
      ))}
      Owners are alerted then, and after them lead inspectors.
    </Alert>
  );
}

function Lines({ list: { duties }, keeps }: { list: OnCallList; keeps: boolean }): ReactNode {
  const remove = useSend(({ id }: Duty) => removeDuty(id), {
    refresh: ['on-call'],
    said: 'The line was taken off.',
    undo:
      ({ personId, on, position, weekdays, startMinute, endMinute, fromDay, untilDay }) =>
      () =>
        addDuty({ id: newId(), personId, on, position, weekdays, startMinute, endMinute, fromDay, untilDay }),
  });
  const columns: Column<Duty>[] = [
    { key: 'name', head: 'Who', cell: ({ name, on }) => (on ? name : `${name}: not on call`) },
    { key: 'position', head: 'Order', cell: ({ position, on }) => (on ? position : '') },
    { key: 'days', head: 'Days', cell: ({ weekdays }) => days(weekdays) },
    { key: 'hours', head: 'Hours', cell: hours },
    {
      key: 'from',
      head: 'From and until',
      cell: ({ fromDay, untilDay }) => (
        <>
          <Day day={fromDay} />
          {untilDay ? (
            <>
              {' to '}
              <Day day={untilDay} />
            </>
          ) : (
            ', until it is taken off'
          )}
        </>
      ),
    },
    { key: 'by', head: 'Set by', cell: ({ by }) => by ?? '' },
    ...(keeps
      ? [
          {
            key: 'act',
            head: 'Change',
            cell: (duty: Duty) => (
              <Button size="compact-sm" variant="default" aria-label={`Take off: ${duty.name}`} onClick={() => remove.mutate(duty)}>
                Take off
              </Button>
            ),
          },
        ]
      : []),
  ];
  return (
    <Section title="The list">
      <ProblemNote of={remove.error} />
      {duties.length === 0 ? (
        <Empty>Nobody is on the list.</Empty>
      ) : (
        <DataTable caption="On-call list" columns={columns} rows={duties} rowKey={({ id }) => id} />
      )}
    </Section>
  );
}
