// Which column of the file is which of our fields, with its first rows; guessed from the heads, and changed as it should be.
import type { ReactNode } from 'react';
import { Group, NativeSelect } from '@mantine/core';
import { fieldsOf, readDay, readMoney, type BringIn, type Field } from '@backsight/contract/firm/bringIns';
import { mapColumns } from '../../api/bringIns.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { useDraft } from '../../ui/draft.ts';
import { Form } from '../../ui/Form.tsx';
import { Follows } from '../../ui/Follows.tsx';
import { dayText } from '../../ui/time.ts';
import { inputId } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { ThrowAway } from './ThrowAway.tsx';
import classes from './bringIn.module.css';

type Chosen = {
  columns: Record<string, string>;
  days: BringIn['mapping']['formats']['days'];
  money: BringIn['mapping']['formats']['money'];
};

const DAYS = [
  { value: 'mdy', label: 'month/day/year (3/9/2024)' },
  { value: 'dmy', label: 'day/month/year (9/3/2024)' },
  { value: 'iso', label: 'year-month-day (2024-03-09)' },
];
const MONEY = [
  { value: 'dollars', label: 'dollars (450.00)' },
  { value: 'cents', label: 'cents (45000)' },
];

export function MapColumns({ of }: { of: BringIn }): ReactNode {
  const fields = fieldsOf(of.kind);
  const send = useSend(mapColumns, { refresh: ['bring-ins'], said: 'It is being looked through.' });
  const { columns, formats } = of.mapping;
  const initial: Chosen = { columns: Object.fromEntries(Object.entries(columns).map(([key, at]) => [key, String(at)])), ...formats };
  const { values, setValues, draft } = useDraft(initial, `columns of ${of.id}`);
  const labels = Object.fromEntries(fields.map(({ key, label }) => [`columns.${key}`, label]));
  const choose = (key: string, at: string) => setValues((before) => ({ ...before, columns: { ...before.columns, [key]: at } }));
  const used = new Set(Object.values(values.columns));
  const unused = of.heads.filter((head, at) => head !== '' && !used.has(String(at)));
  const submit = () =>
    send.mutate({
      ...{ id: of.id, version: of.version },
      mapping: {
        columns: Object.fromEntries(Object.entries(values.columns).flatMap(([key, at]) => (at === '' ? [] : [[key, Number(at)]]))),
        formats: { days: values.days, money: values.money },
      },
    });
  return (
    <Form
      error={send.error}
      labels={labels}
      draft={draft}
      submit="Look it through"
      busy={send.isPending}
      onSubmit={submit}
      besides={<ThrowAway of={of} />}
    >
      <p>
        Each line is one of our fields, with the column that seems to be it and what stands in its first rows. Change what is not right.
      </p>
      <DataTable caption="Columns" columns={columnsFor(of, values, choose)} rows={fields} rowKey={({ key }) => key} />
      <Formats of={of} fields={fields} values={values} onChange={(change) => setValues((before) => ({ ...before, ...change }))} />
      <p>{unused.length === 0 ? 'Every column is used.' : `Not brought in: ${unused.join(', ')}. They stay in your file.`}</p>
      <Follows>Every row is looked through first. Nothing is brought in before you say so.</Follows>
    </Form>
  );
}

const cellsOf = (of: BringIn, at: string | undefined): string[] =>
  at === undefined || at === '' ? [] : of.examples.slice(0, 3).flatMap(({ cells }) => (cells[Number(at)] ? [cells[Number(at)]!] : []));

function columnsFor(of: BringIn, values: Chosen, choose: (key: string, at: string) => void): Column<Field>[] {
  const heads = of.heads.map((head, at) => ({ value: String(at), label: head === '' ? `column ${at + 1}, without a head` : head }));
  const open = (field: Field): boolean =>
    field.needed !== undefined &&
    !values.columns[field.key] &&
    (field.needed === true || !field.needed.some((other) => Boolean(values.columns[other])));
  return [
    {
      key: 'field',
      head: 'Our field',
      cell: (field) => (
        <>
          {field.label}
          {field.needed ? <span className={classes.needed}> (needed)</span> : null}
        </>
      ),
    },
    {
      key: 'column',
      head: 'Column of the file',
      cell: (field) => (
        <NativeSelect
          id={inputId(`columns.${field.key}`)}
          aria-label={`Column for ${field.label}`}
          data={[{ value: '', label: 'none' }, ...heads]}
          value={values.columns[field.key] ?? ''}
          error={open(field) ? 'Choose a column' : undefined}
          onChange={(event) => choose(field.key, event.currentTarget.value)}
        />
      ),
    },
    { key: 'examples', head: 'First rows', cell: (field) => <Examples cells={cellsOf(of, values.columns[field.key])} help={field.help} /> },
  ];
}

const Examples = ({ cells, help }: { cells: string[]; help: string | undefined }): ReactNode =>
  cells.length === 0 ? (
    <span className={classes.examples}>{help ?? ''}</span>
  ) : (
    <span className={classes.examples}>
      {cells.map((cell, at) => (
        <span key={at}>{cell}</span>
      ))}
    </span>
  );

type FormatsProps = { of: BringIn; fields: Field[]; values: Chosen; onChange: (change: Partial<Chosen>) => void };

/** How days and amounts are written, where the file has any, with the first of each as it is read. */
function Formats({ of, fields, values, onChange }: FormatsProps): ReactNode {
  const first = (cell: Field['cell']): string | undefined =>
    fields.filter((field) => field.cell === cell).flatMap(({ key }) => cellsOf(of, values.columns[key]))[0];
  const [day, money] = [first('day'), first('money')];
  return (
    <Group align="flex-start" mt="md" gap="lg">
      {day === undefined ? null : (
        <NativeSelect
          label="Days are written as"
          data={DAYS}
          value={values.days}
          description={asRead(day, readDay(day, values.days), dayText)}
          onChange={(event) => onChange({ days: event.currentTarget.value as Chosen['days'] })}
        />
      )}
      {money === undefined ? null : (
        <NativeSelect
          label="Amounts are in"
          data={MONEY}
          value={values.money}
          description={asRead(money, readMoney(money, values.money), (cents) => `$${(cents / 100).toFixed(2)}`)}
          onChange={(event) => onChange({ money: event.currentTarget.value as Chosen['money'] })}
        />
      )}
    </Group>
  );
}

const asRead = <T,>(cell: string, read: { ok: true; value: T } | { ok: false }, say: (value: T) => string): string =>
  read.ok ? `${cell} is read as ${say(read.value)}` : `${cell} cannot be read so`;
