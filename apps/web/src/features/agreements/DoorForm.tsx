// The client's part on the pair's device: consent, the word at the end of the agreement, and the signature, typed or drawn.
import { useState, type ReactNode } from 'react';
import { Checkbox, Radio, TextInput } from '@mantine/core';
import type { AgreementShown, SignerShown } from '@backsight/contract/agreements';
import { readStrokes } from '@backsight/domain/shared/strokes';
import { ProblemError } from '../../api/problemError.ts';
import { DrawField } from '../../ui/DrawField.tsx';
import { Form } from '../../ui/Form.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useDoor } from './useDoor.ts';

const LABELS = {
  read: 'I have read the agreement above',
  word: 'The word at the end of the agreement',
  consent: 'I agree to sign and to receive these papers electronically, and I could read them on this device',
  name: 'Full name',
  how: 'Sign by',
  interpreter: 'Interpreter, if somebody read this to you in another language',
};
type Draft = { read: boolean; word: string; consent: boolean; name: string; how: 'drawn' | 'typed'; interpreter: string };

/** What is missing, as the service would say it: there may be no signal to ask it. */
function missingIn(draft: Draft, word: string, strokes: number[][]): { field: string; message: string } | null {
  if (!draft.read) return { field: 'read', message: 'Please say that you have read it.' };
  if (draft.word.trim().toLowerCase() !== word) return { field: 'word', message: 'The word is not the one at the end of the agreement.' };
  if (!draft.consent) return { field: 'consent', message: 'Please agree to electronic records, or ask for paper.' };
  if (draft.name.trim().length < 3) return { field: 'name', message: 'Please type your full name.' };
  return draft.how === 'drawn' && !readStrokes(JSON.stringify(strokes)).ok
    ? { field: 'how', message: 'Please draw your signature in the field, or choose to sign by typing.' }
    : null;
}

const problemOf = ({ field, message }: { field: string; message: string }): ProblemError =>
  new ProblemError({ type: 'about:blank', status: 0, code: 'not-complete', title: message, field, errors: [{ field, message }] });

export function DoorForm({ agreement, signer }: { agreement: AgreementShown; signer: SignerShown }): ReactNode {
  const [strokes, setStrokes] = useState<number[][]>([]);
  const [problem, setProblem] = useState<ProblemError | null>(null);
  const door = useDoor(signer, agreement.jobId);
  const fields = useFields<Draft>(
    { read: false, word: '', consent: false, name: '', how: 'drawn', interpreter: '' },
    LABELS,
    problem,
    'door',
  );
  const submit = async () => {
    const { how, ...given } = fields.values;
    const missing = missingIn(fields.values, signer.word, strokes);
    if (missing) return setProblem(problemOf(missing));
    setProblem(null);
    const drawn = how === 'drawn' ? JSON.stringify(strokes) : '';
    const kept = await door.sign({ ...given, method: 'on_site_device', sha256: agreement.sha256, strokes: drawn });
    if (!kept) setProblem(problemOf({ field: 'how', message: "This phone's store is full. Sign by typing, or on paper." }));
  };
  return (
    <Form error={problem} labels={LABELS} scope="door" submit="Sign the agreement" busy={door.busy} onSubmit={() => void submit()}>
      <Checkbox {...fields.check('read')} size="lg" />
      <TextInput {...fields.text('word')} mt="md" size="md" autoComplete="off" autoCapitalize="none" spellCheck={false} maxLength={40} />
      <Checkbox {...fields.check('consent')} size="lg" mt="md" />
      <TextInput {...fields.text('name')} mt="md" size="md" autoComplete="off" maxLength={120} />
      <Radio.Group {...fields.value('how')} mt="md">
        <Radio value="drawn" label="drawing with a finger or pen" mt="xs" size="md" />
        <Radio value="typed" label="typing: the name above is my signature" mt="xs" size="md" mb="sm" />
      </Radio.Group>
      {fields.values.how === 'drawn' ? <DrawField strokes={strokes} onChange={setStrokes} /> : null}
      <TextInput {...fields.text('interpreter')} mt="md" size="md" maxLength={120} />
    </Form>
  );
}
