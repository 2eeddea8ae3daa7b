// Takes in a report that was written elsewhere, as a PDF that is kept under its fingerprint.
import { useState, type ReactNode } from 'react';
import { FileInput, SimpleGrid, TextInput } from '@mantine/core';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import type { Register } from '@backsight/contract/sitework/reports';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { takeInReport } from '../../api/sitework.ts';
import { asBase64 } from '../../ui/file.ts';
import { Form } from '../../ui/Form.tsx';
import { saved } from '../../ui/saved.ts';
import { todayIn } from '../../ui/time.ts';
import { inputId, useFields } from '../../ui/useFields.ts';
import classes from './sitework.module.css';

const LABELS = { completedOn: 'Inspection completed on', reportOn: 'Report date', file: 'PDF of the report' };

export function TakeInReport({ register }: { register: Register }): ReactNode {
  const me = useMe();
  const queries = useQueryClient();
  const [file, setFile] = useState<File | null>(null);
  const [ids, setIds] = useState(() => ({ id: newId(), key: newId() }));
  const take = useMutation({
    mutationFn: async (dates: { completedOn: string; reportOn: string }) => {
      const base64 = file ? await asBase64(file) : '';
      return takeInReport({ jobId: register.jobId, ...ids, ...dates, file: { name: file?.name ?? '', base64 } });
    },
    onSettled: () => setIds((before) => ({ ...before, key: newId() })),
    onSuccess: async ({ version }) => {
      saved(`Version ${version} was taken in.`);
      setFile(null);
      setIds({ id: newId(), key: newId() });
      await queries.invalidateQueries({ queryKey: ['jobs', register.jobId, 'reports'] });
    },
  });
  const fields = useFields({ completedOn: register.inspectedOn ?? '', reportOn: todayIn(me.zone), file: '' }, LABELS, take.error);
  return (
    <details className={classes.more}>
      <summary>Take in a report made elsewhere</summary>
      <Form
        error={take.error}
        labels={LABELS}
        submit="Take it in"
        busy={take.isPending}
        onSubmit={() => take.mutate({ completedOn: fields.values.completedOn, reportOn: fields.values.reportOn })}
      >
        <SimpleGrid cols={{ base: 1, xs: 2 }}>
          <TextInput {...fields.text('completedOn')} type="date" required />
          <TextInput {...fields.text('reportOn')} type="date" required />
        </SimpleGrid>
        <FileInput
          id={inputId('file')}
          label={LABELS.file}
          description="At most 15 MB"
          accept="application/pdf"
          mt="sm"
          required
          clearable
          clearButtonProps={{ 'aria-label': 'Take the file out' }}
          value={file}
          onChange={setFile}
        />
      </Form>
    </details>
  );
}
