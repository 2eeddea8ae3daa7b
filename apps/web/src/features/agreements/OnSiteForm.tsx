// Records a signature that was given on paper: photographed on the spot, or with the place where the paper is kept.
import { useState, type ReactNode } from 'react';
import { FileInput, TextInput } from '@mantine/core';
import type { SignerShown } from '@backsight/contract/agreements';
import { ProblemError } from '../../api/problemError.ts';
import { Form } from '../../ui/Form.tsx';
import { smallPhoto } from '../../ui/photo.ts';
import { inputId, useFields } from '../../ui/useFields.ts';
import { useDoor } from './useDoor.ts';

const LABELS = {
  photo: 'Photo or scan of the signed paper',
  keptWhere: 'Or: where the paper is kept',
  name: 'Name as signed',
  interpreter: 'Interpreter, if there was one',
};

const missing = (field: string, title: string): ProblemError =>
  new ProblemError({ type: 'about:blank', status: 0, code: 'paper-proof-missing', title, field });

export function OnSiteForm({ signer, jobId, onDone }: { signer: SignerShown; jobId: string; onDone: () => void }): ReactNode {
  const [file, setFile] = useState<File | null>(null);
  const [problem, setProblem] = useState<ProblemError | null>(null);
  const door = useDoor(signer, jobId);
  const fields = useFields({ photo: '', keptWhere: '', name: signer.name, interpreter: '' }, LABELS, problem, 'sign', signer.id);
  const submit = async () => {
    const { keptWhere, name, interpreter } = fields.values;
    if (!file && keptWhere.trim() === '')
      return setProblem(missing('photo', 'Add a photo of the signed paper, or say where the paper is kept.'));
    if (name.trim() === '') return setProblem(missing('name', 'Type the name as it was signed.'));
    setProblem(null);
    const photo = file ? await smallPhoto(file) : null;
    if (await door.sign({ method: 'paper', name, consent: false, interpreter, keptWhere, photo })) {
      fields.draft?.forget();
      onDone();
    } else setProblem(missing('photo', "This phone's store is full. Send what waits on it first, or leave the photo out."));
  };
  return (
    <Form
      error={problem}
      labels={LABELS}
      scope="sign"
      draft={fields.draft}
      submit="Record the signature"
      busy={door.busy}
      onSubmit={() => void submit()}
    >
      <FileInput
        id={inputId('photo', 'sign')}
        label={LABELS.photo}
        accept="image/jpeg,image/png,application/pdf"
        clearable
        clearButtonProps={{ 'aria-label': 'Take the photo out' }}
        value={file}
        onChange={setFile}
        error={problem?.fields.find(({ field }) => field === 'photo')?.message}
      />
      <TextInput {...fields.text('keptWhere')} mt="sm" maxLength={200} placeholder="Folder of the job, first drawer" />
      <TextInput {...fields.text('name')} mt="sm" maxLength={120} />
      <TextInput {...fields.text('interpreter')} mt="sm" maxLength={120} />
    </Form>
  );
}
