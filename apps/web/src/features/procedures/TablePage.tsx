// Takes a firm's own steps out of a table (CSV) into a draft: looked at first, every problem by its line; nothing changes until it is said.
import { useState, type ReactNode } from 'react';
import { Button, FileInput, Group } from '@mantine/core';
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { getRouteApi, useNavigate } from '@tanstack/react-router';
import type { TableCheck } from '@backsight/contract/procedures/table';
import { checkTable, revisionQuery, takeInTable, tableAddress } from '../../api/procedures.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { ButtonLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { saved } from '../../ui/saved.ts';

const route = getRouteApi('/shell/procedures/table/$revisionId');

/** Spreadsheets save either as UTF-8 or in the old Windows letters. */
async function textOf(file: File): Promise<string> {
  const bytes = await file.arrayBuffer();
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return new TextDecoder('windows-1252').decode(bytes);
  }
}

export function TablePage(): ReactNode {
  const { revisionId } = route.useParams();
  const { data, error, isPending } = useQuery({ ...revisionQuery(revisionId), refetchOnWindowFocus: false });
  return (
    <Page
      title="Take steps in from a table"
      about={data ? `${data.procedure.title}, draft of revision ${data.number}` : undefined}
      actions={
        <ButtonLink to="/procedures/draft/$revisionId" params={{ revisionId }} variant="default">
          Back to the draft
        </ButtonLink>
      }
    >
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data?.state === 'draft' ? <Import id={data.id} version={data.version} /> : null}
      {data && data.state !== 'draft' ? <p>This revision is no draft any more.</p> : null}
    </Page>
  );
}

function Import({ id, version }: { id: string; version: number }): ReactNode {
  const queries = useQueryClient();
  const navigate = useNavigate();
  const [text, setText] = useState<string | null>(null);
  const check = useMutation({ mutationFn: checkTable });
  const take = useMutation({
    mutationFn: takeInTable,
    onSuccess: async ({ steps }) => {
      await queries.invalidateQueries({ queryKey: ['procedures'] });
      saved(`${steps} ${steps === 1 ? 'step was' : 'steps were'} taken in.`);
      await navigate({ to: '/procedures/draft/$revisionId', params: { revisionId: id } });
    },
  });
  const choose = async (file: File | null) => {
    check.reset();
    take.reset();
    const read = file ? await textOf(file) : null;
    setText(read);
    if (read !== null) check.mutate({ id, text: read });
  };
  const stops = check.data?.problems.some((problem) => problem.stops) ?? true;
  return (
    <>
      <p>
        One row is one step. The heads of the columns are those of the <a href={tableAddress(id)}>table of this draft</a>: title,
        instruction and why are needed, the rest may be left out. A row with the key of a step changes that step; others are added at the
        end. Steps that are not in the table stay.
      </p>
      <FileInput
        label="Table (CSV)"
        placeholder="Choose a file"
        accept=".csv,text/csv"
        maw={420}
        clearable
        clearButtonProps={{ 'aria-label': 'Take the file away' }}
        onChange={(file) => void choose(file)}
      />
      <ProblemNote of={check.error ?? take.error} />
      {check.isPending ? <Loading /> : null}
      {check.data ? <Checked of={check.data} /> : null}
      <Group mt="lg">
        <Button
          disabled={text === null || stops}
          loading={take.isPending}
          onClick={() => text !== null && take.mutate({ id, version, text })}
        >
          Take these steps in
        </Button>
      </Group>
    </>
  );
}

const DOES = { adds: 'is added', changes: 'changes', same: 'stays as it is' };

const PROBLEMS: Column<TableCheck['problems'][number] & { at: number }>[] = [
  { key: 'line', head: 'Line', cell: ({ line, column }) => (column === null ? line : `${line}, ${column}`) },
  { key: 'text', head: 'What is wrong', cell: ({ text }) => text },
  { key: 'when', head: 'Put right', cell: ({ stops }) => (stops ? 'before it is taken in' : 'before approval') },
];
const STEPS: Column<TableCheck['steps'][number]>[] = [
  { key: 'title', head: 'Step', cell: ({ title }) => title },
  { key: 'line', head: 'Line', align: 'right', cell: ({ line }) => line },
  { key: 'key', head: 'Key', cell: ({ key }) => key },
  { key: 'does', head: 'It', cell: ({ does }) => DOES[does] },
];

function Checked({ of: { lines, steps, problems } }: { of: TableCheck }): ReactNode {
  const stopping = problems.filter(({ stops }) => stops).length;
  return (
    <div role="status">
      <p>
        <strong>
          {lines} {lines === 1 ? 'row' : 'rows'} read, nothing changed yet.{' '}
          {stopping === 0 ? 'All can be taken in.' : `${stopping} to put right first.`}
        </strong>
      </p>
      {problems.length > 0 ? (
        <DataTable
          caption="Problems by line"
          columns={PROBLEMS}
          rows={problems.map((problem, at) => ({ ...problem, at }))}
          rowKey={({ at }) => String(at)}
        />
      ) : null}
      {steps.length > 0 ? (
        <>
          <h2>Steps</h2>
          <DataTable caption="Steps of the table" columns={STEPS} rows={steps} rowKey={({ line }) => String(line)} />
        </>
      ) : null}
    </div>
  );
}
