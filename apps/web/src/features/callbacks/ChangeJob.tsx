// The office took it under the wrong job: the right one is found, and the reason is kept.
import { useState, type ReactNode } from 'react';
import { Alert, Button, Stack, Textarea } from '@mantine/core';
import type { Callback, FoundJob } from '@backsight/contract/callbacks';
import { changeJob } from '../../api/callbackIntake.ts';
import { Form } from '../../ui/Form.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { FindJob } from './FindJob.tsx';
import { useOneOpen } from './oneOpen.tsx';

const LABELS = { words: 'Why it is that job', jobId: 'The job' };

/** Not offered once something was decided: that stays with its job. Before, what follows is said when it is done. */
export function ChangeJob({ callback }: { callback: Callback }): ReactNode {
  const [open, setOpen] = useOneOpen('job');
  const [job, setJob] = useState<FoundJob | null>(null);
  const [warned, setWarned] = useState<string[]>([]);
  const send = useSend(changeJob, {
    refresh: ['callbacks'],
    said: 'It was moved to the other job.',
    then: ({ warnings }) => {
      setWarned(warnings.map(({ text }) => text));
      setJob(null);
      setOpen(false);
    },
  });
  const fields = useFields({ words: '', jobId: '' }, LABELS, send.error, undefined, 'job');
  const decided = (callback.conclusions ?? []).length > 0 || callback.remedies.some(({ state }) => state !== 'refused');
  const back = (
    <Button variant="default" onClick={() => (job ? setJob(null) : setOpen(false))}>
      Go back
    </Button>
  );
  const said = warned.map((text) => (
    <Alert key={text} title="Besides">
      {text}
    </Alert>
  ));
  if (!open)
    return decided ? (
      said
    ) : (
      <>
        <Button variant="default" onClick={() => setOpen(true)}>
          It is about another job
        </Button>
        {said}
      </>
    );
  return (
    <Stack w="100%" maw="48rem" align="start">
      {job ? (
        <Form
          error={send.error}
          labels={LABELS}
          draft={fields.draft}
          submit={`Move it to job ${job.number}`}
          busy={send.isPending}
          onSubmit={() => send.mutate({ id: callback.id, jobId: job.id, words: fields.values.words })}
          besides={back}
        >
          <p>{`From job ${callback.job.number}, ${callback.job.address}, to job ${job.number}, ${job.address}. Evidence, agreement, claim window and counts follow the new job.`}</p>
          <Textarea {...fields.text('words')} required autosize minRows={2} autoFocus />
        </Form>
      ) : (
        <>
          <FindJob label="Which job is it really about?" first={callback.job.address} visitedOnly={false} onFound={setJob} />
          {back}
        </>
      )}
    </Stack>
  );
}
