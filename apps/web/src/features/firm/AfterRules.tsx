// Days that follow a decision and a closing.
import type { ReactNode } from 'react';
import { NumberInput, SimpleGrid } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { afterRulesQuery, setAfterRules } from '../../api/callbacksAfter.ts';
import { Form } from '../../ui/Form.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';

const LABELS = {
  checkDays: 'Days after closing until it is asked whether it held',
  appealDays: 'Days in which a decision can be appealed',
  decideDays: 'Days in which an owner decides an appeal',
};
type Rules = Record<keyof typeof LABELS, number> & { version: number };

export function AfterRules(): ReactNode {
  const { data, error } = useQuery(afterRulesQuery);
  return (
    <Section folds title="After a decision">
      <ProblemNote of={error} />
      <p>
        30 days to ask again is common practice; one certification body takes a month for an appeal.{' '}
        <a href="/complaints" target="_blank" rel="noreferrer">
          What anybody can read of it
        </a>
        .
      </p>
      {data ? <RulesForm key={data.version} rules={data} /> : null}
    </Section>
  );
}

function RulesForm({ rules: { version, ...rules } }: { rules: Rules }): ReactNode {
  const save = useSend(setAfterRules, { refresh: ['after-rules'], said: 'The days count from now on.' });
  const fields = useFields(rules, LABELS, save.error, 'after');
  const days = (name: keyof typeof LABELS) => <NumberInput {...fields.number(name)} min={1} max={365} allowDecimal={false} />;
  return (
    <Form
      error={save.error}
      labels={LABELS}
      scope="after"
      submit="Save these days"
      busy={save.isPending}
      onSubmit={() => save.mutate({ version, ...fields.values })}
    >
      <SimpleGrid cols={{ base: 1, xs: 2 }}>
        {days('checkDays')}
        {days('appealDays')}
        {days('decideDays')}
      </SimpleGrid>
    </Form>
  );
}
