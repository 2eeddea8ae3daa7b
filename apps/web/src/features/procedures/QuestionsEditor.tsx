// The short questions of a draft: each about one of its steps, with answers to choose from and the right one among them.
import type { ReactNode } from 'react';
import { Button, Fieldset, Group, NativeSelect, Radio, Stack, TextInput } from '@mantine/core';
import type { RevisionPage } from '@backsight/contract/procedures';
import { keyFor } from '@backsight/domain/shared/keyFor';
import type { Step } from '@backsight/domain/procedures/step';

export type Question = NonNullable<RevisionPage['questions']>[number];
type Props = { questions: readonly Question[]; steps: readonly Step[]; onChange: (questions: Question[]) => void };

const MOST = 5;
const FRESH = [
  { key: 'a', label: '' },
  { key: 'b', label: '' },
];

export function QuestionsEditor({ questions, steps, onChange }: Props): ReactNode {
  const put = (at: number, part: Partial<Question>) => onChange(questions.map((one, place) => (place === at ? { ...one, ...part } : one)));
  const add = () => {
    const key = keyFor(
      'question',
      questions.map((one) => one.key),
    );
    onChange([...questions, { key, stepKey: steps[0]?.key ?? 'step', text: '', options: FRESH, right: 'a' }]);
  };
  return (
    <Stack gap="sm">
      <p style={{ margin: 0 }}>
        Asked on the phone before somebody can acknowledge, at most {MOST}. A wrong answer shows the step again; all answers are kept.
      </p>
      {questions.map((one, at) => (
        <OneQuestion
          key={one.key}
          number={at + 1}
          question={one}
          steps={steps}
          onChange={(part) => put(at, part)}
          onRemove={() => onChange(questions.filter((_, place) => place !== at))}
        />
      ))}
      {questions.length < MOST ? (
        <div>
          <Button variant="default" onClick={add}>
            Add a question
          </Button>
        </div>
      ) : null}
    </Stack>
  );
}

type OneProps = {
  number: number;
  question: Question;
  steps: readonly Step[];
  onChange: (part: Partial<Question>) => void;
  onRemove: () => void;
};

function OneQuestion({ number, question, steps, onChange, onRemove }: OneProps): ReactNode {
  const { key, stepKey, text, options, right } = question;
  const label = (at: number, words: string) =>
    onChange({ options: options.map((one, place) => (place === at ? { ...one, label: words } : one)) });
  const fresh = () =>
    keyFor(
      'answer',
      options.map((one) => one.key),
    ).replaceAll('-', '_');
  return (
    <Fieldset legend={`Question ${number}`}>
      <Stack gap="sm">
        <NativeSelect
          label="About the step"
          data={steps.map((step) => ({ value: step.key, label: step.title }))}
          value={stepKey}
          onChange={(event) => onChange({ stepKey: event.currentTarget.value })}
        />
        <TextInput label="Question" value={text} onChange={(event) => onChange({ text: event.currentTarget.value })} />
        <Radio.Group
          label="Answers; mark the right one"
          value={right}
          onChange={(chosen) => onChange({ right: chosen })}
          name={`right-${key}`}
        >
          {options.map((one, at) => (
            <Group key={one.key} gap="xs" mt="xs">
              <Radio value={one.key} aria-label={`Answer ${at + 1} is right`} />
              <TextInput
                aria-label={`Answer ${at + 1} of question ${number}`}
                style={{ flex: 1 }}
                value={one.label}
                onChange={(event) => label(at, event.currentTarget.value)}
              />
            </Group>
          ))}
        </Radio.Group>
        <Group gap="xs">
          {options.length < 4 ? (
            <Button variant="default" size="compact-sm" onClick={() => onChange({ options: [...options, { key: fresh(), label: '' }] })}>
              Add an answer
            </Button>
          ) : null}
          <Button variant="default" size="compact-sm" onClick={onRemove}>
            Remove question {number}
          </Button>
        </Group>
      </Stack>
    </Fieldset>
  );
}
