// The input for what a step asks: a reading, two readings, a count, a choice, a note or a photo; and at once how it compares.
import type { ReactNode } from 'react';
import type { MemberRecord, SiteStep } from '@backsight/contract/sitework';
import { sayRange } from '@backsight/domain/sitework/say';
import { placeOf, WITHOUT_PHOTO, type WithoutPhoto } from '@backsight/domain/sitework/value';
import { Choices } from './Choices.tsx';
import { NoteInput, PhotoTaker } from './later.tsx';
import { ReadingInput } from './ReadingInput.tsx';
import { hintOf, wantsNote, type Draft } from './drafts.ts';
import classes from './sitework.module.css';

type Props = { record: MemberRecord; step: SiteStep; draft: Draft; onChange: (change: Partial<Draft>) => void };

export function Answer(props: Props): ReactNode {
  const hint = hintOf(props.record, props.step, props.draft);
  return (
    <>
      <Input {...props} />
      <div aria-live="polite">{hint ? <p className={classes.notice}>{hint}</p> : null}</div>
      {wantsNote(props.step, props.draft) ? (
        <NoteInput label="Note: what you make of it" value={props.draft.note} onChange={(note) => props.onChange({ note })} />
      ) : null}
    </>
  );
}

const WITHOUT = (Object.keys(WITHOUT_PHOTO) as WithoutPhoto[]).map((key) => ({ key, label: WITHOUT_PHOTO[key] }));

function Input({ record, step, draft, onChange }: Props): ReactNode {
  const asked = step.evidence;
  const typed = (key: 'value' | 'first' | 'second', label: string, description?: string | null): ReactNode => (
    <ReadingInput
      label={label}
      description={description || undefined}
      value={draft[key]}
      onChange={(value) => onChange({ [key]: value })}
    />
  );
  switch (asked.kind) {
    case 'confirm':
      return null;
    case 'reading':
      return typed('value', `Reading in ${asked.unit}`, [asked.hint, sayRange(asked)].filter(Boolean).join('; '));
    case 'count':
      return typed('value', `Count: ${asked.of}`);
    case 'choice':
      return (
        <Choices
          legend="What was found"
          name={`${step.stepKey}-${step.itemId ?? 'property'}`}
          options={asked.options}
          value={draft.option}
          onChange={(option) => onChange({ option })}
        />
      );
    case 'note':
      return <NoteInput label="Note" description={asked.prompt} value={draft.note} onChange={(note) => onChange({ note })} />;
    case 'photo':
      return (
        <>
          <PhotoTaker recordId={record.id} place={placeOf(step)} legend={`Photo of ${asked.of}`} />
          {draft.photos.length === 0 ? (
            <details className={classes.more} open={draft.without !== null}>
              <summary>No photo possible</summary>
              <Choices
                legend="Why there is none"
                name={`${step.stepKey}-${step.itemId ?? 'property'}-without`}
                options={WITHOUT}
                value={draft.without}
                onChange={(without) => onChange({ without })}
              />
            </details>
          ) : null}
        </>
      );
    case 'difference':
      return (
        <>
          {typed('first', `${asked.firstLabel} in ${asked.unit}`)}
          {typed(
            'second',
            `${asked.secondLabel} in ${asked.unit}`,
            [asked.hint, sayRange(asked) && `difference ${sayRange(asked)}`].filter(Boolean).join('; '),
          )}
        </>
      );
  }
}
