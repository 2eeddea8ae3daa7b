// How long things take: the minutes of an inspection rule by rule, and those of the other kinds of visits.
import { useState, type ReactNode } from 'react';
import { Button, Group, NumberInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { MinutesRow, VisitKindLine } from '@backsight/contract/jobs/services';
import { changeMinutes, changeVisitKind, minutesQuery } from '../../api/feeSetUp.ts';
import { asProblem } from '../../api/problemError.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Form } from '../../ui/Form.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { inputId } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';

export function Minutes({ mayChange }: { mayChange: boolean }): ReactNode {
  const found = useQuery(minutesQuery);
  return (
    <>
      <Section title="What takes the time of an inspection">
        <p>Counts for jobs that are booked from now on; jobs that are booked keep the minutes of their day.</p>
        <ProblemNote of={found.error} />
        {found.isPending ? <Loading /> : null}
        {found.data ? <Rules key={found.data.version} version={found.data.version} rules={found.data.rules} mayChange={mayChange} /> : null}
      </Section>
      {found.data ? (
        <Section title="Other kinds of visits">
          <p>Visits that are booked keep their length.</p>
          <Kinds kinds={found.data.kinds} mayChange={mayChange} />
        </Section>
      ) : null}
    </>
  );
}

const wrongAt = (error: unknown, at: string): string | undefined => asProblem(error)?.fields.find(({ field }) => field === at)?.message;

const OF = { visit: 'at the house', report: 'writing, after the visit', walk_through: 'the client is shown the house' };

function Rules({ version, rules, mayChange }: { version: number; rules: MinutesRow[]; mayChange: boolean }): ReactNode {
  const [typed, setTyped] = useState<Record<string, number | string>>(() =>
    Object.fromEntries(rules.map(({ key, minutes }) => [key, minutes])),
  );
  const save = useSend(changeMinutes, { refresh: ['minutes'], said: 'The minutes count for what is booked from now on.' });
  const labels = Object.fromEntries(rules.map(({ key, label }) => [`minutes.${key}`, `Minutes: ${label}`]));
  const changed = rules.filter(({ key, minutes }) => typed[key] !== minutes);
  const columns: Column<MinutesRow>[] = [
    { key: 'label', head: 'What', cell: ({ label }) => label },
    { key: 'when', head: 'When', cell: ({ when }) => when },
    { key: 'of', head: 'For', cell: (row) => `${OF[row.of]}${row.each ? `, ${row.each}` : ''}` },
    {
      key: 'minutes',
      head: 'Minutes',
      align: 'right',
      cell: ({ key, label, minutes }) =>
        mayChange ? (
          <NumberInput
            id={inputId(`minutes.${key}`)}
            aria-label={`Minutes: ${label}`}
            size="xs"
            w="5.5rem"
            min={0}
            max={720}
            allowDecimal={false}
            error={wrongAt(save.error, `minutes.${key}`)}
            value={typed[key] ?? minutes}
            onChange={(value) => setTyped((before) => ({ ...before, [key]: value }))}
          />
        ) : (
          minutes
        ),
    },
  ];
  const table = <DataTable caption="What takes the time of an inspection" columns={columns} rows={rules} rowKey={({ key }) => key} />;
  if (!mayChange) return table;
  const minutes = Object.fromEntries(changed.map(({ key }) => [key, Number(typed[key] === '' ? Number.NaN : typed[key])]));
  return (
    <Form
      error={save.error}
      labels={labels}
      submit="Save the minutes"
      busy={save.isPending}
      onSubmit={() => save.mutate({ version, minutes })}
    >
      {table}
    </Form>
  );
}

function Kinds({ kinds, mayChange }: { kinds: VisitKindLine[]; mayChange: boolean }): ReactNode {
  const [chosen, setChosen] = useState<string | null>(null);
  const kind = kinds.find(({ key }) => key === chosen);
  const columns: Column<VisitKindLine>[] = [
    { key: 'name', head: 'Kind', cell: ({ name }) => name },
    { key: 'crew', head: 'Done by', cell: ({ crewSize }) => (crewSize === 2 ? 'a pair' : 'one person') },
    { key: 'minutes', head: 'Minutes', align: 'right', cell: ({ minutes }) => minutes },
    { key: 'report', head: 'Writing', align: 'right', cell: ({ reportMinutes }) => reportMinutes },
    ...(mayChange
      ? [
          {
            key: 'act',
            head: 'Change',
            cell: ({ key, name }: VisitKindLine) => (
              <Button size="compact-sm" variant="default" aria-label={`Change ${name}`} onClick={() => setChosen(key)}>
                Change
              </Button>
            ),
          },
        ]
      : []),
  ];
  return (
    <>
      <DataTable caption="Other kinds of visits" columns={columns} rows={kinds} rowKey={({ key }) => key} />
      {kind ? <KindForm key={`${kind.key}-${kind.version}`} kind={kind} done={() => setChosen(null)} /> : null}
    </>
  );
}

const LABELS = { minutes: 'Minutes of the visit', reportMinutes: 'Minutes of writing after it' };

function KindForm({ kind, done }: { kind: VisitKindLine; done: () => void }): ReactNode {
  const [minutes, setMinutes] = useState<number | string>(kind.minutes);
  const [reportMinutes, setReport] = useState<number | string>(kind.reportMinutes);
  const save = useSend(changeVisitKind, { refresh: ['minutes'], said: `${kind.name} takes as long from now on.`, then: done });
  const number = (typed: number | string): number => (typed === '' ? Number.NaN : Number(typed));
  return (
    <Section title={kind.name}>
      <Form
        error={save.error}
        labels={LABELS}
        scope="kind"
        submit="Save"
        busy={save.isPending}
        onSubmit={() =>
          save.mutate({ key: kind.key, version: kind.version, minutes: number(minutes), reportMinutes: number(reportMinutes) })
        }
        besides={
          <Button variant="default" onClick={done}>
            Leave it
          </Button>
        }
      >
        <Group align="start">
          <NumberInput
            id={inputId('minutes', 'kind')}
            label={LABELS.minutes}
            min={5}
            max={720}
            allowDecimal={false}
            error={wrongAt(save.error, 'minutes')}
            value={minutes}
            onChange={setMinutes}
          />
          <NumberInput
            id={inputId('reportMinutes', 'kind')}
            label={LABELS.reportMinutes}
            min={0}
            max={720}
            allowDecimal={false}
            error={wrongAt(save.error, 'reportMinutes')}
            value={reportMinutes}
            onChange={setReport}
          />
        </Group>
      </Form>
    </Section>
  );
}
