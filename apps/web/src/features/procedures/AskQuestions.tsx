// The questions of a revision, on the phone. Wrong answers come back with the step in which the right one stands.
import { useState, type ReactNode } from 'react';
import { Button, Radio, Stack } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { ComparisonPage, OpenQuestion } from '@backsight/contract/procedures';
import { newId } from '../../api/ids.ts';
import { answerQuestions, revisionQuery } from '../../api/procedures.ts';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { useSend } from '../../ui/useSend.ts';
import { StepDocument } from './StepDocument.tsx';
import classes from './procedures.module.css';

export function AskQuestions({ of: { revision, questions } }: { of: ComparisonPage }): ReactNode {
  const [given, setGiven] = useState<Record<string, string>>({});
  const [wrong, setWrong] = useState<string[]>([]);
  const [asked, setAsked] = useState(false);
  const send = useSend(answerQuestions, {
    refresh: ['procedures'],
    said: 'Your answers are on file.',
    then: ({ answers }) => setWrong(answers.filter(({ correct }) => !correct).map(({ question }) => question)),
  });
  const missing = questions.filter(({ key }) => given[key] === undefined);
  const check = () => {
    setAsked(true);
    if (missing.length > 0) return;
    send.mutate({ id: revision.id, key: newId(), answers: questions.map(({ key }) => ({ question: key, option: given[key]! })) });
  };
  return (
    <section aria-label="Questions">
      <h2>{questions.length === 1 ? 'One question first' : `${questions.length} questions first`}</h2>
      <ProblemNote of={send.error} />
      <Stack gap="lg">
        {questions.map((one) => (
          <div key={one.key}>
            <Ask question={one} value={given[one.key] ?? ''} onChange={(option) => setGiven((all) => ({ ...all, [one.key]: option }))} />
            {asked && given[one.key] === undefined ? <p role="alert">Choose an answer.</p> : null}
            {wrong.includes(one.key) ? <ReadAgain revisionId={revision.id} stepKey={one.stepKey} /> : null}
          </div>
        ))}
        <Button size="xl" fullWidth loading={send.isPending} onClick={check}>
          Check my answers
        </Button>
      </Stack>
    </section>
  );
}

function Ask({ question, value, onChange }: { question: OpenQuestion; value: string; onChange: (option: string) => void }): ReactNode {
  return (
    <Radio.Group label={question.text} size="md" name={question.key} value={value} onChange={onChange}>
      {question.options.map(({ key, label }) => (
        <Radio key={key} value={key} label={label} size="md" classNames={{ body: classes.press }} />
      ))}
    </Radio.Group>
  );
}

function ReadAgain({ revisionId, stepKey }: { revisionId: string; stepKey: string }): ReactNode {
  const { data, error } = useQuery(revisionQuery(revisionId));
  const step = data?.steps.find((one) => one.step.key === stepKey);
  return (
    <div role="alert" className={classes.caution}>
      <strong>Not right. Read the step again, then choose anew.</strong>
      <ProblemNote of={error} />
      {step ? <StepDocument of={step} /> : null}
    </div>
  );
}
