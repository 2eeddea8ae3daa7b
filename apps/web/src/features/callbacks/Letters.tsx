// The letters of a callback: what left, to whom and how far it got; and the desk where the next one is written.
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { Callback } from '@backsight/contract/callbacks';
import { LETTERS, mayWriteLetter, type KeptLetter } from '@backsight/contract/callbacks/after';
import { afterQuery, lettersQuery, type LetterName } from '../../api/callbacksAfter.ts';
import { Empty } from '../../ui/Empty.tsx';
import { Section } from '../../ui/Section.tsx';
import { When } from '../../ui/When.tsx';
import { LetterDesk } from './LetterDesk.tsx';
import { useOneOpen } from './oneOpen.tsx';

/** How far a mail got, in words. */
const SENDING: Record<string, string> = {
  waiting: 'waits to be sent',
  sent: 'sent',
  kept: 'kept here: no mail server is set',
  given_up: 'not sent: given up',
  refused: 'refused for good',
  bounced: 'came back',
};

export function Letters({ callback }: { callback: Callback }): ReactNode {
  const { id, kind, ownerOnly } = callback;
  const [open, setOpen] = useOneOpen('letter');
  const letters = useQuery(lettersQuery(id)).data ?? [];
  const appeals = useQuery(afterQuery(id)).data?.appeals ?? [];
  if (ownerOnly || kind === 'near_miss') return null;
  const on = {
    ...callback,
    visitBooked: callback.remedies.some(({ visit }) => visit?.state === 'booked'),
    appealDecided: appeals.some(({ result }) => result !== null),
  };
  const possible = (Object.keys(LETTERS) as LetterName[]).filter((letter) => mayWriteLetter(on, letter).ok);
  return (
    <Section
      title="Letters"
      actions={
        open ? null : (
          <Button variant="default" onClick={() => setOpen(true)}>
            Write a letter
          </Button>
        )
      }
    >
      {letters.length === 0 ? <Empty>No letter was written yet.</Empty> : null}
      <ul style={{ listStyle: 'none', padding: 0, margin: 0 }}>
        {letters.map((one) => (
          <Kept key={one.id} callbackId={id} letter={one} />
        ))}
      </ul>
      {open ? (
        <LetterDesk callback={callback} possible={possible} suggested={suggestedLetter(callback, letters)} onDone={() => setOpen(false)} />
      ) : null}
    </Section>
  );
}

function Kept({ callbackId, letter: l }: { callbackId: string; letter: KeptLetter }): ReactNode {
  const trouble = l.mailState !== null && ['given_up', 'refused', 'bounced'].includes(l.mailState);
  return (
    <li style={{ padding: 'var(--bs-space-3) 0' }}>
      <strong>{LETTERS[l.letter as LetterName] ?? l.letter}</strong> to {l.to}, {l.way === 'paper' ? 'for paper' : 'by mail'},{' '}
      <When at={l.at} />
      {`, ${l.by ?? 'by the service'}`}
      {l.mailState ? (
        <>
          {'. '}
          {trouble ? <strong>{SENDING[l.mailState]}</strong> : SENDING[l.mailState]}
          {trouble && l.mailError ? ` (${l.mailError})` : ''}
        </>
      ) : null}
      <details>
        <summary>{l.subject}</summary>
        <p style={{ whiteSpace: 'pre-wrap', overflowWrap: 'anywhere' }}>{l.body ?? '(erased)'}</p>
        <a href={`/api/callbacks/${callbackId}/letters/${l.id}/paper`}>As a PDF</a>
      </details>
    </li>
  );
}

/** The letter that comes next as a rule: the decision once there is one, the closing once it is closed. */
export function suggestedLetter(callback: Callback, letters: readonly { letter: string }[]): LetterName {
  const has = (letter: LetterName) => letters.some((one) => one.letter === letter);
  if (callback.remedies.some(({ visit }) => visit?.state === 'booked') && !has('visit') && callback.state !== 'closed') return 'visit';
  if (callback.state === 'closed' && callback.kind !== 'question') return has('decision') ? 'closing' : 'decision';
  if (callback.state === 'concluded' || callback.state === 'remedy_agreed') return 'decision';
  return has('acknowledgement') && callback.kind !== 'question' ? 'access' : 'acknowledgement';
}
