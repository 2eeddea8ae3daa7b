// After the decision: whether it held, appeals to an owner, and, for the owner, what the client says of how it was handled.
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { Callback } from '@backsight/contract/callbacks';
import { ANSWERS, CHECK_OUTCOMES, type AfterCallback } from '@backsight/contract/callbacks/after';
import { afterQuery, appealForThem } from '../../api/callbacksAfter.ts';
import { useMe } from '../../api/people.ts';
import { CheckForm } from '../../ui/acts/CheckForm.tsx';
import { Section } from '../../ui/Section.tsx';
import { Day, When } from '../../ui/When.tsx';
import { DecideAppeal } from './DecideAppeal.tsx';
import { useOneOpen } from './oneOpen.tsx';
import { WordsAct } from './WordsAct.tsx';

export function AfterClosing({ callback }: { callback: Callback }): ReactNode {
  const after = useQuery(afterQuery(callback.id)).data;
  if (!after) return null;
  const { checks, appeals, appealUntil, answer } = after;
  if (checks.length === 0 && appeals.length === 0 && appealUntil === null && answer === undefined) return null;
  const answered = answer !== undefined && callback.state === 'closed';
  if (checks.length === 0 && appeals.length === 0 && appealUntil === null && !answered) return null;
  return (
    <Section title="Afterwards">
      {checks.map((check) => (
        <Check key={check.id} check={check} />
      ))}
      {checks[0]?.outcome === null ? <AskNow id={callback.id} /> : null}
      {appeals.map((appeal) => (
        <Appealed key={appeal.id} callback={callback} appeal={appeal} freeOwners={after.freeOwners} />
      ))}
      {appealUntil ? (
        <div style={{ marginTop: 'var(--bs-space-4)' }}>
          <p>
            The decision can be appealed until <Day day={appealUntil} />.
          </p>
          <WordsAct
            act="Take an appeal in"
            label="What they ask an owner to look at again, in their words"
            said="The appeal is with the owners."
            needed
            send={(words) => appealForThem({ id: callback.id, words: words ?? '' })}
          />
        </div>
      ) : null}
      {answered ? <Answered answer={answer} /> : null}
    </Section>
  );
}

function AskNow({ id }: { id: string }): ReactNode {
  const [open, setOpen] = useOneOpen('check');
  if (open) return <CheckForm id={id} done={() => setOpen(false)} />;
  return (
    <Button variant="default" onClick={() => setOpen(true)}>
      Ask whether it held
    </Button>
  );
}

function Check({ check: k }: { check: AfterCallback['checks'][number] }): ReactNode {
  if (k.outcome === null)
    return (
      <p>
        Ask whether it held: on <Day day={k.dueOn} />, by {k.person}.
      </p>
    );
  return (
    <p>
      {k.outcome === 'reopened'
        ? 'Opened again before it was asked whether it held'
        : `Asked whether it held: ${CHECK_OUTCOMES[k.outcome]}`}
      {k.repeatNumber ? `, see callback ${k.repeatNumber}` : ''}
      {k.words ? `. ${k.words}` : ''} <small>{k.doneAt ? <When at={k.doneAt} /> : null}</small>
    </p>
  );
}

type AppealProps = { callback: Callback; appeal: AfterCallback['appeals'][number]; freeOwners: string[] };

function Appealed({ callback, appeal: a, freeOwners }: AppealProps): ReactNode {
  const { roles } = useMe();
  return (
    <div style={{ borderInlineStart: '3px solid var(--bs-line)', paddingInlineStart: 'var(--bs-space-5)', margin: 'var(--bs-space-5) 0' }}>
      <p>
        <strong>Appeal</strong> of <When at={a.receivedAt} />, {a.way === 'link' ? 'by the private link' : 'taken in by the office'}
        {a.result === null ? (
          <>
            : an owner decides by <strong>{<Day day={a.dueOn} />}</strong>
          </>
        ) : null}
      </p>
      <p style={{ whiteSpace: 'pre-wrap' }}>{a.words ?? '(erased)'}</p>
      {a.result ? (
        <p>
          <strong>{a.result === 'upheld' ? 'The decision stands' : 'The decision was changed'}</strong>
          {`: ${a.resultWords ?? '(erased)'} (${a.decidedBy}${a.involved ? `, who had to do with it before; from outside: ${a.reviewer}` : ''})`}
        </p>
      ) : roles.includes('owner') ? (
        <DecideAppeal id={callback.id} freeOwners={freeOwners} />
      ) : null}
    </div>
  );
}

const Answered = ({ answer }: { answer: AfterCallback['answer'] }): ReactNode => (
  <p>
    {'How well it was handled, says the client: '}
    <strong>{answer ? ANSWERS[answer.answer] : 'no answer'}</strong>
    {answer?.words ? `. ${answer.words}` : ''}
  </p>
);
