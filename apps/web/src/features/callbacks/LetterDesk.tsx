// Writes one letter: drafted from the file, edited, looked over, then sent or printed.
import { useEffect, useRef, useState, type ReactNode } from 'react';
import { Checkbox, Group, NativeSelect } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { Callback } from '@backsight/contract/callbacks';
import { LETTERS, LINK_PLACE, type LetterDraft } from '@backsight/contract/callbacks/after';
import { draftQuery, type LetterName } from '../../api/callbacksAfter.ts';
import { Loading } from '../../ui/Loading.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { LetterEditor } from './LetterEditor.tsx';

type Props = { callback: Callback; possible: readonly LetterName[]; suggested: LetterName; onDone: () => void };
type Way = 'mail' | 'paper';

export function LetterDesk({ callback, possible, suggested, onDone }: Props): ReactNode {
  const [letter, setLetter] = useState<LetterName>(possible.includes(suggested) ? suggested : (possible[0] ?? 'acknowledgement'));
  const [way, setWay] = useState<Way>();
  const [names, setNames] = useState(false);
  const found = useQuery(draftQuery(callback.id, letter, way, names));
  const draft: LetterDraft | undefined = found.data;
  const desk = useRef<HTMLDivElement>(null);
  useEffect(() => desk.current?.scrollIntoView({ block: 'start' }), []);
  return (
    <div ref={desk} style={{ maxWidth: '46rem', marginTop: 'var(--bs-space-6)' }}>
      <Group align="end" mb="sm">
        <NativeSelect
          label="Which letter"
          value={letter}
          data={possible.map((value) => ({ value, label: LETTERS[value] }))}
          onChange={(event) => setLetter(event.currentTarget.value as LetterName)}
        />
        <NativeSelect
          label="How it leaves"
          value={way ?? draft?.way ?? 'mail'}
          data={[
            { value: 'mail', label: 'by mail' },
            { value: 'paper', label: 'on paper (PDF)' },
          ]}
          onChange={(event) => setWay(event.currentTarget.value as Way)}
        />
        {letter === 'visit' ? (
          <Checkbox label="Name who comes" checked={names} onChange={(event) => setNames(event.currentTarget.checked)} mb="xs" />
        ) : null}
      </Group>
      <ProblemNote of={found.error} />
      {found.isPending ? <Loading /> : null}
      {draft ? (
        <>
          <p>
            {`To ${draft.to}`}
            {draft.way === 'mail' ? `, ${draft.email ?? 'who has no e-mail address'}` : ', on paper'}
            {draft.calendar ? '. The time goes along as a calendar entry' : ''}
            {draft.body.includes(LINK_PLACE) ? `. ${LINK_PLACE} becomes a private link when it leaves` : ''}.
          </p>
          {draft.review ? (
            <p>{`${draft.review.attorney} reviewed this wording on ${draft.review.on}: what stands between its fields stays as it is.`}</p>
          ) : null}
          <LetterEditor key={`${letter} ${draft.way} ${names}`} callbackId={callback.id} letter={letter} draft={draft} onDone={onDone} />
        </>
      ) : null}
    </div>
  );
}
