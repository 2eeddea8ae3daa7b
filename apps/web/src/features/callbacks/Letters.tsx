// The letters of a callback: which went out by mail, which were written for paper, each as a PDF.
import type { ReactNode } from 'react';
import { Button, Group } from '@mantine/core';
import type { Callback } from '@backsight/contract/callbacks';
import { writeLetter } from '../../api/callbacks.ts';
import { Empty } from '../../ui/Empty.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useSend } from '../../ui/useSend.ts';
import { When } from '../../ui/When.tsx';
import { WordsAct } from './WordsAct.tsx';

type Letter = Callback['letters'][number]['letter'];
const NAMES: Record<Letter, string> = { acknowledgement: 'Acknowledgement', decision: 'Decision' };
const WAYS = { mail: 'by mail', paper: 'for paper' } as const;

export function Letters({ callback: { id, letters, state, kind, ownerOnly } }: { callback: Callback }): ReactNode {
  if (ownerOnly || kind === 'near_miss') return null;
  const decided = ['concluded', 'remedy_agreed', 'closed'].includes(state);
  return (
    <Section title="Letters">
      {letters.length === 0 ? <Empty>No letter was written yet.</Empty> : null}
      <ul style={{ listStyle: 'none', padding: 0 }}>
        {letters.map(({ letter, way, to, at }, n) => (
          <li key={`${letter} ${at}`} style={{ padding: '0.35rem 0' }}>
            <strong>{NAMES[letter]}</strong> to {to}, {WAYS[way]}, <When at={at} />
            {letters.findIndex((one) => one.letter === letter) === n ? (
              <>
                {'. '}
                <a href={`/api/callbacks/${id}/letters/${letter}`}>{NAMES[letter]} as a PDF</a>
              </>
            ) : null}
          </li>
        ))}
      </ul>
      <Group align="start">
        <Heard id={id} />
        {decided ? (
          <WordsAct
            act="Write the decision for paper"
            label="What was decided, as it stands in the letter"
            said="The letter is written: open it as a PDF."
            needed
            send={(words) => writeLetter({ id, letter: 'decision', ...(words ? { words } : {}) })}
          />
        ) : null}
      </Group>
    </Section>
  );
}

/** That it was received needs no words of one's own. */
function Heard({ id }: { id: string }): ReactNode {
  const send = useSend(writeLetter, { refresh: ['callbacks'], said: 'The letter is written: open it as a PDF.' });
  return (
    <div>
      <ProblemNote of={send.error} />
      <Button variant="default" loading={send.isPending} onClick={() => send.mutate({ id, letter: 'acknowledgement' })}>
        Write for paper that it was received
      </Button>
    </div>
  );
}
