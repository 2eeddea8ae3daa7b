// Hours of continuing education: what was taken with its certificate, what the rule pack needs, what is missing.
import { useState, type ReactNode } from 'react';
import { Button, FileInput, NumberInput, SimpleGrid, TextInput } from '@mantine/core';
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type { Education as Page } from '@backsight/contract/people/own';
import { newId } from '../../../api/ids.ts';
import { addEducation, certificateAddress, educationQuery, withdrawEducation } from '../../../api/own.ts';
import { useMe } from '../../../api/people.ts';
import { DataTable, type Column } from '../../../ui/DataTable.tsx';
import { Empty } from '../../../ui/Empty.tsx';
import { Follows } from '../../../ui/Follows.tsx';
import { Form } from '../../../ui/Form.tsx';
import { Loading } from '../../../ui/Loading.tsx';
import { ProblemNote } from '../../../ui/ProblemNote.tsx';
import { saved } from '../../../ui/saved.ts';
import { dayText, todayIn } from '../../../ui/time.ts';
import { inputId, useFields } from '../../../ui/useFields.ts';
import { useSend } from '../../../ui/useSend.ts';
import { Day } from '../../../ui/When.tsx';
import { asBase64 } from '../../../ui/file.ts';
import { AddPart, Leave } from './AddPart.tsx';

type Entry = Page['entries'][number];
const LABELS = { category: 'Category', title: 'Course', onDay: 'Taken on', minutes: 'Hours', file: 'Certificate, PDF or picture' };
/** So many are read at a glance; what counts is said above them. */
const FEW = 3;
const hours = (minutes: number): string => `${Math.round(minutes / 6) / 10} h`;

export function Education({ personId }: { personId: string }): ReactNode {
  const page = useQuery(educationQuery(personId));
  const withdraw = useSend(withdrawEducation, { refresh: ['people', personId, 'education'], said: 'The hours were withdrawn.' });
  const columns: Column<Entry>[] = [
    { key: 'title', head: 'Course', cell: ({ title }) => title },
    { key: 'category', head: 'Category', cell: ({ category }) => category },
    { key: 'day', head: 'Taken on', cell: ({ onDay }) => <Day day={onDay} /> },
    { key: 'hours', head: 'Hours', align: 'right', cell: ({ minutes }) => hours(minutes) },
    { key: 'file', head: 'Certificate', cell: ({ id, fileName }) => (fileName ? <a href={certificateAddress(id)}>{fileName}</a> : 'none') },
    {
      key: 'act',
      head: 'Change',
      cell: ({ id, title }) => (
        <Button size="compact-sm" variant="default" aria-label={`Withdraw ${title}`} onClick={() => withdraw.mutate(id)}>
          Withdraw
        </Button>
      ),
    },
  ];
  return (
    <AddPart title="Education hours" add="Add hours" may form={(done) => <Add personId={personId} done={done} />}>
      <ProblemNote of={page.error ?? withdraw.error} />
      {page.isPending ? <Loading /> : null}
      {page.data ? <Standing page={page.data} /> : null}
      {page.data?.entries.length === 0 ? <Empty>No hours are on file.</Empty> : null}
      {page.data && page.data.entries.length > 0 ? (
        <details open={page.data.entries.length <= FEW}>
          <summary style={{ paddingBlock: 'var(--bs-space-4)' }}>Courses on file ({page.data.entries.length})</summary>
          <Follows>Hours that are withdrawn count no more, and their certificate has to be sent in anew.</Follows>
          <DataTable caption="Education hours" columns={columns} rows={page.data.entries} rowKey={({ id }) => id} />
        </details>
      ) : null}
    </AddPart>
  );
}

function Standing({ page: { standing, supervised, sources } }: { page: Page }): ReactNode {
  return (
    <>
      {standing ? (
        <p>
          {hours(standing.doneMinutes)} of {hours(standing.needMinutes)} from {dayText(standing.fromDay)} to {dayText(standing.untilDay)}.{' '}
          {standing.missingMinutes > 0 ? (
            <strong style={standing.stage ? { color: 'var(--bs-wrong)' } : undefined}>
              {hours(standing.missingMinutes)} missing{standing.stage ? `, less than ${standing.stage} days left` : ''}.
            </strong>
          ) : (
            'Nothing is missing.'
          )}
        </p>
      ) : (
        <p>No hours are asked: there is no license today, or the rules on file name no number.</p>
      )}
      {supervised ? (
        <p>
          {supervised.done} finished {supervised.done === 1 ? 'inspection' : 'inspections'} beside a first inspector
          {supervised.need === null ? '; the rules on file ask for no number' : ` of ${supervised.need} needed`}.
        </p>
      ) : null}
      {sources.length > 0 ? (
        <p style={{ color: 'var(--bs-ink-soft)', fontSize: 'var(--bs-text-small)' }}>Rule: {sources.join('; ')}.</p>
      ) : null}
    </>
  );
}

function Add({ personId, done }: { personId: string; done: () => void }): ReactNode {
  const { zone } = useMe();
  const queries = useQueryClient();
  const [file, setFile] = useState<File | null>(null);
  const [ids, setIds] = useState(() => ({ id: newId(), key: newId() }));
  const add = useMutation({
    mutationFn: async (entry: { category: string; title: string; onDay: string; minutes: number }) =>
      addEducation({ ...entry, ...ids, personId, file: file ? { name: file.name, base64: await asBase64(file) } : null }),
    onSettled: () => setIds((before) => ({ ...before, key: newId() })),
    onSuccess: async () => {
      await queries.invalidateQueries({ queryKey: ['people', personId, 'education'] });
      saved('The hours are on file.');
      done();
    },
  });
  const fields = useFields(
    { category: '', title: '', onDay: todayIn(zone), minutes: '' as number | '', file: '' },
    LABELS,
    add.error,
    'education',
  );
  const { category, title, onDay, minutes } = fields.values;
  const hoursInput = fields.value('minutes');
  return (
    <Form
      error={add.error}
      labels={LABELS}
      scope="education"
      draft={fields.draft}
      submit="Put the hours on file"
      busy={add.isPending}
      onSubmit={() => add.mutate({ category, title, onDay, minutes: minutes === '' ? 0 : Math.round(minutes * 60) })}
      besides={<Leave done={done} />}
    >
      <SimpleGrid cols={{ base: 1, xs: 2 }}>
        <TextInput {...fields.text('title')} required />
        <TextInput {...fields.text('category')} required description="As the board names it, for example Structure" />
        <TextInput {...fields.text('onDay')} type="date" required />
        <NumberInput
          {...hoursInput}
          value={minutes}
          onChange={(typed) => hoursInput.onChange(typed === '' ? '' : Number(typed))}
          min={0}
          max={240}
          step={0.5}
          decimalScale={2}
          required
        />
      </SimpleGrid>
      <FileInput
        id={inputId('file', 'education')}
        label={LABELS.file}
        mt="sm"
        accept="application/pdf,image/jpeg,image/png"
        value={file}
        onChange={setFile}
        error={fields.text('file').error}
        clearable
        clearButtonProps={{ 'aria-label': 'Take the certificate off' }}
      />
    </Form>
  );
}
