// What the file holds and the file, or its rows copied out of the spreadsheet.
import { useState, type ReactNode } from 'react';
import { FileInput, Radio, Textarea } from '@mantine/core';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useNavigate } from '@tanstack/react-router';
import { ALL_RECORD_KINDS, MOST_MEGABYTES, RECORD_KINDS, type RecordKind } from '@backsight/contract/firm/bringIns';
import { sampleAddress, takeFile } from '../../api/bringIns.ts';
import { newId } from '../../api/ids.ts';
import { asBase64 } from '../../ui/file.ts';
import { Form } from '../../ui/Form.tsx';
import { Follows } from '../../ui/Follows.tsx';
import { useFields } from '../../ui/useFields.ts';
import { ABOUT } from './words.ts';
import classes from './bringIn.module.css';

const LABELS = { kind: 'What does the file hold?', file: 'File (CSV)', text: 'Or paste the rows here, with their heads' };
const MOST = MOST_MEGABYTES * 1_000_000;
const megabytes = (bytes: number): string => (bytes / 1_000_000).toLocaleString('en-US', { maximumFractionDigits: 0 });

/** Said before anything is sent: a file of this size would not even be read here. */
const tooLarge = (file: File | null): string | undefined =>
  file && file.size > MOST
    ? `The file has ${megabytes(file.size)} MB; at most ${MOST_MEGABYTES} MB are taken in at once. Part it, and keep the first line in each part.`
    : undefined;

export function ChooseFile(): ReactNode {
  const queries = useQueryClient();
  const navigate = useNavigate();
  const [ids, setIds] = useState(() => ({ id: newId(), key: newId() }));
  const take = useMutation({
    mutationFn: async ({ kind, file, text }: { kind: RecordKind; file: File | null; text: string }) =>
      takeFile({ ...ids, kind, ...(file ? { file: { name: file.name.slice(-200), base64: await asBase64(file) } } : { text }) }),
    onError: () => setIds({ id: newId(), key: newId() }),
    onSuccess: async ({ id }) => {
      await queries.invalidateQueries({ queryKey: ['bring-ins'] });
      await navigate({ to: '/bring-in/$bringInId', params: { bringInId: id } });
    },
  });
  const fields = useFields({ kind: 'people' as RecordKind, file: null as File | null, text: '' }, LABELS, take.error);
  const { kind, file, text } = fields.values;
  const [nothing, setNothing] = useState(false);
  const large = tooLarge(file);
  const send = () => {
    const none = file === null && text.trim() === '';
    setNothing(none);
    if (!none && !large) take.mutate(fields.values);
  };
  return (
    <Form error={take.error} labels={LABELS} submit="Read its columns" busy={take.isPending} onSubmit={send}>
      <Radio.Group {...fields.value('kind')}>
        <div className={classes.kinds}>
          {ALL_RECORD_KINDS.map((one) => (
            <div key={one}>
              <Radio value={one} label={RECORD_KINDS[one]} description={ABOUT[one]} />
            </div>
          ))}
        </div>
      </Radio.Group>
      <p>
        <a href={sampleAddress(kind)}>Sample: {RECORD_KINDS[kind].toLowerCase()}</a> has the heads and three invented rows. Save your sheet
        in the spreadsheet as CSV (commas, semicolons and tabs are all read).
      </p>
      <FileInput
        {...fields.value('file')}
        error={large ?? (nothing ? 'Choose a file, or paste its rows below.' : fields.value('file').error)}
        placeholder="Choose a file"
        accept=".csv,.tsv,.txt,text/csv,text/tab-separated-values,text/plain"
        maw={420}
        clearable
        clearButtonProps={{ 'aria-label': 'Take the file away' }}
      />
      {file === null ? <Textarea {...fields.text('text')} autosize minRows={2} maxRows={8} maw={720} mt="md" /> : null}
      <Follows>Nothing is brought in yet: next you say which column is which.</Follows>
    </Form>
  );
}
