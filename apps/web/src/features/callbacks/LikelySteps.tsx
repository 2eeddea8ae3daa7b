// Steps that may fit, with the reasons, worked out while somebody looks and kept nowhere; any other step by a search.
import { useState, type ReactNode } from 'react';
import { Button, TextInput } from '@mantine/core';
import { useDebouncedValue } from '@mantine/hooks';
import { useQuery } from '@tanstack/react-query';
import type { LikelyStep } from '@backsight/contract/callbacks/likely';
import { likelyQuery } from '../../api/callbackLists.ts';
import { Loading } from '../../ui/Loading.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';

type Props = { id: string; onPick: (stepKey: string) => void };

export function LikelySteps({ id, onPick }: Props): ReactNode {
  const [typed, setTyped] = useState('');
  const [text] = useDebouncedValue(typed.trim(), 250);
  const { data, error, isPending } = useQuery(likelyQuery(id, text));
  return (
    <div>
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data?.handedOut === 0 ? <p>No step was handed out on this job, so none can be named.</p> : null}
      {data && data.handedOut > 0 ? (
        <>
          <p>{headOf(text, data.likely.length)}</p>
          <Steps of={data.likely} onPick={onPick} />
          <TextInput
            label="Another step, by its words"
            description="In your words or the trade's; spelling need not be right"
            value={typed}
            maxLength={200}
            mb="sm"
            onChange={(e) => setTyped(e.currentTarget.value)}
          />
          {data.notThen.length > 0 ? (
            <>
              <p>The procedures ask these today and did not ask them then, so they cannot be the traced step:</p>
              <Steps of={data.notThen} />
            </>
          ) : null}
        </>
      ) : null}
    </div>
  );
}

function headOf(text: string, found: number): string {
  if (text === '')
    return found === 0
      ? 'No step of this job shares words with the complaint: look for one below.'
      : 'Steps that may fit, worked out now and kept nowhere. You decide:';
  return found === 0 ? 'No step of this job has these words: say it otherwise, or choose from the list below.' : 'Steps with these words:';
}

function Steps({ of, onPick }: { of: readonly LikelyStep[]; onPick?: Props['onPick'] }): ReactNode {
  if (of.length === 0) return null;
  return (
    <ol style={{ paddingInlineStart: 'var(--bs-space-8)' }}>
      {of.map(({ stepKey, title, procedureTitle, reasons }) => (
        <li key={stepKey} style={{ marginBottom: 'var(--bs-space-3)' }}>
          {onPick ? (
            <Button
              variant="default"
              size="compact-sm"
              onClick={() => onPick(stepKey)}
              h="auto"
              mih={28}
              py={4}
              styles={{ label: { whiteSpace: 'normal', textAlign: 'start', lineHeight: 1.3 } }}
            >
              {title}
            </Button>
          ) : (
            title
          )}
          <br />
          <small>{`${procedureTitle}; ${reasons.join('; ')}`}</small>
        </li>
      ))}
    </ol>
  );
}
