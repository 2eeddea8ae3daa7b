// Who was alerted of a danger and when, and "I have it" while nobody does.
import type { ReactNode } from 'react';
import { Alert, Button } from '@mantine/core';
import type { Danger } from '@backsight/contract/callbacks/onCall';
import { answerDanger } from '../../api/callbackClocks.ts';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useSend } from '../../ui/useSend.ts';
import { When } from '../../ui/When.tsx';

export function Alerts({ danger: { id, chains, next } }: { danger: Danger }): ReactNode {
  const answer = useSend(answerDanger, { refresh: ['callbacks'], said: 'You have it. Nobody else is alerted.' });
  const [newest] = chains;
  if (!newest) return null;
  const unanswered = newest.answeredAt === null && newest.endedAt === null;
  return (
    <Section title="Alerts of danger">
      <ProblemNote of={answer.error} />
      {unanswered ? (
        <Alert color="red" title="Nobody has answered yet" mb="sm">
          {next ? (
            <p>
              Next: {next.name}, <When at={next.at} />.
            </p>
          ) : null}
          <Button size="lg" loading={answer.isPending} onClick={() => answer.mutate(id)}>
            I have it
          </Button>
        </Alert>
      ) : null}
      {chains.map((chain) => (
        <div key={chain.id}>
          <ol>
            {chain.alerts.map(({ n, name, at }) => (
              <li key={n}>
                {name}, <When at={at} />
              </li>
            ))}
          </ol>
          {chain.answeredAt ? (
            <p>
              <strong>{chain.answeredBy} has it</strong>, since <When at={chain.answeredAt} />.
            </p>
          ) : null}
          {chain.endedAt ? (
            <p>
              The mark was lifted before anybody answered, <When at={chain.endedAt} />.
            </p>
          ) : null}
        </div>
      ))}
    </Section>
  );
}
