// Estimates of independent contractors side by side, the lowest first, and recording one.
import { useState, type ReactNode } from 'react';
import { Alert, Button, FileInput, SimpleGrid, Stack, TextInput, Textarea } from '@mantine/core';
import type { Estimate } from '@backsight/contract/callbacks/remedies';
import { parseUsd } from '@backsight/domain/shared/money';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { addEstimate } from '../../api/remedies.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { asBase64 } from '../../ui/file.ts';
import { whileSending } from '../../ui/draft.ts';
import { Form } from '../../ui/Form.tsx';
import { Money } from '../../ui/Money.tsx';
import { todayIn } from '../../ui/time.ts';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { Day } from '../../ui/When.tsx';
import { useOneOpen } from './oneOpen.tsx';

const COLUMNS: Column<Estimate>[] = [
  { key: 'who', head: 'Contractor', cell: ({ contractor, license }) => `${contractor}${license ? `, ${license}` : ''}` },
  { key: 'cents', head: 'Amount', align: 'right', cell: ({ cents }) => <Money cents={cents} /> },
  { key: 'scope', head: 'For', cell: ({ scope }) => scope },
  { key: 'day', head: 'Day', cell: ({ estimatedOn }) => <Day day={estimatedOn} /> },
  { key: 'file', head: 'File', cell: ({ id, file }) => (file ? <a href={`/api/estimates/${id}/file`}>{file}</a> : 'none') },
];

export function Estimates({ id, estimates, may }: { id: string; estimates: Estimate[]; may: boolean }): ReactNode {
  const [open, setOpen] = useOneOpen('estimate');
  const who = new Set(estimates.map(({ contractor }) => contractor.toLowerCase()));
  return (
    <>
      {estimates.length > 0 ? (
        <DataTable caption="Estimates of contractors" columns={COLUMNS} rows={estimates} rowKey={(e) => e.id} />
      ) : null}
      {who.size === 1 ? (
        <Alert title="Only one contractor has given an estimate" my="sm">
          A second one shows that the first is fair.
        </Alert>
      ) : null}
      {may && !open ? (
        <Button variant="default" mb="md" onClick={() => setOpen(true)}>
          Record an estimate
        </Button>
      ) : null}
      {open ? <Add id={id} onDone={() => setOpen(false)} /> : null}
    </>
  );
}

const LABELS = {
  contractor: 'Contractor',
  license: 'License, if known',
  cents: 'Amount',
  estimatedOn: 'Day of the estimate',
  scope: 'What would be done',
  file: 'The estimate itself',
};

function Add({ id, onDone }: { id: string; onDone: () => void }): ReactNode {
  const { zone } = useMe();
  const [estimateId] = useState(newId);
  const [file, setFile] = useState<File | null>(null);
  const send = useSend(addEstimate, { refresh: ['callbacks'], said: 'The estimate is recorded.', then: onDone });
  const fields = useFields({ contractor: '', license: '', cents: '', estimatedOn: todayIn(zone), scope: '', file: '' }, LABELS, send.error);
  const { cents, file: _, ...typed } = fields.values;
  const submit = async () => {
    const sent = file === null ? null : { name: file.name, base64: await asBase64(file) };
    whileSending(fields.draft, () => send.mutate({ id, estimateId, ...typed, cents: parseUsd(cents) ?? -1, file: sent }));
  };
  return (
    <Stack maw="40rem" mb="md">
      <Form
        error={send.error}
        labels={LABELS}
        draft={fields.draft}
        submit="Record it"
        busy={send.isPending}
        onSubmit={() => void submit()}
        besides={
          <Button variant="default" onClick={onDone}>
            Go back
          </Button>
        }
      >
        <SimpleGrid cols={{ base: 1, xs: 2 }}>
          <TextInput {...fields.text('contractor')} required />
          <TextInput {...fields.text('license')} />
          <TextInput {...fields.text('cents')} required inputMode="decimal" placeholder="720.00" />
          <TextInput {...fields.text('estimatedOn')} type="date" required />
        </SimpleGrid>
        <Textarea {...fields.text('scope')} required autosize minRows={2} />
        <FileInput
          label={LABELS.file}
          description="A PDF, JPEG or PNG, up to 8 MB"
          accept="application/pdf,image/jpeg,image/png"
          clearable
          value={file}
          onChange={setFile}
        />
      </Form>
    </Stack>
  );
}
