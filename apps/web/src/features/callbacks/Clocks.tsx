// Every clock of a callback, and waiting for the client, with its history.
import type { ReactNode } from 'react';
import { Alert, Group } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { CLOCKS, type CallbackClocks } from '@backsight/contract/callbacks/clocks';
import { clocksQuery, pauseCallback, resumeCallback } from '../../api/callbackClocks.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { When } from '../../ui/When.tsx';
import { officeTime, termText } from './clockWords.ts';
import { WordsAct } from './WordsAct.tsx';

type Clock = CallbackClocks['clocks'][number];
type Pause = CallbackClocks['pauses'][number];

const COLUMNS: Column<Clock>[] = [
  { key: 'clock', head: 'Clock', cell: ({ clock }) => CLOCKS[clock] },
  { key: 'due', head: 'Due', cell: (c) => (c.standsStill ? 'stands still' : <When at={c.dueAt} />) },
  { key: 'now', head: 'How it stands', cell: (c) => <Standing clock={c} /> },
  { key: 'term', head: 'Runs for', cell: (c) => `${termText(c)} (${c.source})` },
];
const PAUSES: Column<Pause>[] = [
  {
    key: 'from',
    head: 'Waited from',
    cell: ({ fromAt, from }) => (
      <>
        <When at={fromAt} />
        {from ? `, ${from}` : ''}
      </>
    ),
  },
  {
    key: 'until',
    head: 'Until',
    cell: ({ untilAt, until }) =>
      untilAt ? (
        <>
          <When at={untilAt} />
          {until ? `, ${until}` : ''}
        </>
      ) : (
        'still waiting'
      ),
  },
  { key: 'minutes', head: 'Given back', cell: ({ officeMinutes }) => officeTime(officeMinutes) },
  { key: 'why', head: 'Why', cell: ({ words }) => words ?? '(erased)' },
];

function Standing({ clock: { metAt, metBy, droppedAt, standsStill, overdueMinutes, leftMinutes, unit } }: { clock: Clock }): ReactNode {
  if (droppedAt) return 'no longer asked for';
  const late = overdueMinutes === null ? '' : `${metAt ? ', late' : 'overdue'} by ${officeTime(overdueMinutes)}`;
  if (metAt)
    return (
      <>
        done <When at={metAt} />
        {metBy ? `, ${metBy}` : ''}
        {late}
      </>
    );
  if (late) return <strong>{late}</strong>;
  if (standsStill) return `${officeTime(leftMinutes ?? 0)} left when it goes on`;
  return unit === 'days' ? 'runs' : `${officeTime(leftMinutes ?? 0)} left`;
}

function standing(clocks: readonly Clock[]): string {
  const running = clocks.filter(({ metAt, droppedAt }) => metAt === null && droppedAt === null);
  return running.length === 0 ? 'None runs.' : `Running: ${running.map(({ clock }) => CLOCKS[clock].toLowerCase()).join(', ')}.`;
}

export function Clocks({ id, closed }: { id: string; closed: boolean }): ReactNode {
  const { data, error } = useQuery(clocksQuery(id));
  return (
    <Section
      title="Clocks"
      folds={closed ? 'always' : true}
      brief={closed ? 'None runs: it is closed.' : data ? standing(data.clocks) : null}
    >
      <ProblemNote of={error} />
      {data?.paused ? (
        <Alert mb="sm" title="Waiting for the client">
          Visit and decision stand still, and will be due later by the office time that passes. Nothing else waits.
        </Alert>
      ) : null}
      {data && data.clocks.length === 0 ? <Empty>No clock runs for this kind.</Empty> : null}
      {data && data.clocks.length > 0 ? (
        <DataTable caption="Clocks" columns={COLUMNS} rows={data.clocks} rowKey={({ clock, startedAt }) => clock + startedAt} />
      ) : null}
      {data && !closed ? <Waiting id={id} paused={data.paused} mayPause={data.mayPause} /> : null}
      {data && data.pauses.length > 0 ? (
        <DataTable caption="Waiting for the client" columns={PAUSES} rows={data.pauses} rowKey={(pause) => pause.id} />
      ) : null}
    </Section>
  );
}

function Waiting({ id, paused, mayPause }: { id: string; paused: boolean; mayPause: boolean }): ReactNode {
  return (
    <Group my="sm" align="start">
      {paused ? (
        <WordsAct
          act="Let the clocks go on"
          label="What the client said or sent (may stay empty)"
          said="The clocks go on."
          send={(words) => resumeCallback(words ? { id, words } : { id })}
        />
      ) : null}
      {mayPause ? (
        <WordsAct
          act="Wait for the client"
          label="What we wait for"
          said="Visit and decision stand still."
          needed
          send={(words) => pauseCallback({ id, words: words ?? '' })}
        />
      ) : null}
    </Group>
  );
}
