// Usual hours of a person; new ones count from a day on and end the old.
import { useState, type ReactNode } from 'react';
import { TextInput } from '@mantine/core';
import type { PersonFile } from '@backsight/contract/people/file';
import { useMe } from '../../../api/people.ts';
import { setHours } from '../../../api/personFile.ts';
import { asProblem } from '../../../api/problemError.ts';
import { BUSINESS_WEEK, clockOf, spanOf, WEEKDAYS, type TypedWeek } from '../../../ui/clock.ts';
import { DataTable, type Column } from '../../../ui/DataTable.tsx';
import { Empty } from '../../../ui/Empty.tsx';
import { Form } from '../../../ui/Form.tsx';
import { todayIn } from '../../../ui/time.ts';
import { useFields } from '../../../ui/useFields.ts';
import { useSend } from '../../../ui/useSend.ts';
import { WeekInput } from '../../../ui/WeekInput.tsx';
import { Day } from '../../../ui/When.tsx';
import { AddPart, Leave } from './AddPart.tsx';
import { HitVisits } from './HitVisits.tsx';

type Span = PersonFile['hours'][number];
type Set = { fromDay: string; untilDay: string | null; spans: Span[] };
const LABELS = { fromDay: 'From this day on' };

/** The spans that count in the same days, together; the newest first. */
const setsOf = (rows: Span[]): Set[] => {
  const sets: Set[] = [];
  for (const span of rows) {
    const known = sets.find(({ fromDay, untilDay }) => fromDay === span.fromDay && untilDay === span.untilDay);
    if (known) known.spans.push(span);
    else sets.push({ fromDay: span.fromDay, untilDay: span.untilDay, spans: [span] });
  }
  return sets;
};

const COLUMNS: Column<Set>[] = [
  {
    key: 'days',
    head: 'Counts',
    cell: ({ fromDay, untilDay }) => (
      <>
        from <Day day={fromDay} />
        {untilDay ? (
          <>
            , before <Day day={untilDay} />
          </>
        ) : null}
      </>
    ),
  },
  {
    key: 'hours',
    head: 'Hours',
    cell: ({ spans }) =>
      spans
        .map(
          ({ weekday, startMinute, endMinute }) => `${WEEKDAYS[weekday - 1]!.slice(0, 3)} ${clockOf(startMinute)} to ${clockOf(endMinute)}`,
        )
        .join(', '),
  },
];

export function Hours({ personId, rows, mayChange }: { personId: string; rows: Span[]; mayChange: boolean }): ReactNode {
  return (
    <AddPart
      title="Usual hours"
      add="Set new hours"
      may={mayChange}
      form={(done) => <Change personId={personId} rows={rows} done={done} />}
    >
      {rows.length === 0 ? (
        <Empty>No hours are on file. Without them nobody is offered for a visit.</Empty>
      ) : (
        <DataTable
          caption="Usual hours"
          columns={COLUMNS}
          rows={setsOf(rows)}
          rowKey={({ fromDay, untilDay }) => `${fromDay}${untilDay}`}
        />
      )}
    </AddPart>
  );
}

const weekOf = (rows: Span[]): TypedWeek => {
  const open = rows.filter(({ untilDay }) => untilDay === null);
  if (open.length === 0) return BUSINESS_WEEK;
  return WEEKDAYS.map((_, at) => {
    const span = open.find(({ weekday }) => weekday === at + 1);
    return span ? { from: clockOf(span.startMinute), until: clockOf(span.endMinute) } : { from: '', until: '' };
  });
};

function Change({ personId, rows, done }: { personId: string; rows: Span[]; done: () => void }): ReactNode {
  const { zone } = useMe();
  const [week, setWeek] = useState(() => weekOf(rows));
  const save = useSend(setHours, {
    refresh: ['people', personId, 'file'],
    said: 'The hours were set.',
    then: ({ warnings }) => warnings.length === 0 && done(),
  });
  const fields = useFields({ fromDay: todayIn(zone) }, LABELS, save.error);
  const send = () => {
    const spans = week.flatMap((day, at) => {
      const span = spanOf(day);
      return span ? [{ weekday: at + 1, startMinute: span[0], endMinute: span[1] }] : [];
    });
    save.mutate({ personId, fromDay: fields.values.fromDay, spans });
  };
  const wrong = asProblem(save.error)?.fields.find(({ field }) => field.startsWith('spans'))?.message;
  if (save.data && save.data.warnings.length > 0) return <HitVisits warnings={save.data.warnings} done={done} />;
  return (
    <Form error={save.error} labels={LABELS} submit="Set these hours" busy={save.isPending} onSubmit={send} besides={<Leave done={done} />}>
      <TextInput {...fields.text('fromDay')} type="date" required maw="16rem" />
      <WeekInput legend="Hours" about="Blank: does not work on that day" value={week} onChange={setWeek} error={wrong} />
    </Form>
  );
}
