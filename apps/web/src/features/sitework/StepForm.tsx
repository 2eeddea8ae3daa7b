// One step by itself: its answer, who looked, and three large buttons of which one press records.
import { useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import type { MemberRecord, SiteStep } from '@backsight/contract/sitework';
import { CORRECTIONS, placeOf, type CorrectionReason } from '@backsight/domain/sitework/value';
import { useDrafts } from '../../api/phone/drafts.ts';
import type { UncountedEntry } from '../../api/phone/outbox.ts';
import { withVoice } from './voice.ts';
import { Answer } from './Answer.tsx';
import { Choices } from './Choices.tsx';
import { BLANK, entryOf, isLimited, missingIn, wantsNote, type Draft } from './drafts.ts';
import { NoteInput, PhotoTaker, Reason, SpokenTaker } from './later.tsx';
import { useFilesOf, useSpoken, useTaken } from './photoModel.ts';
import { partnerOf } from './recordModel.ts';
import classes from './sitework.module.css';

const WHY = (Object.keys(CORRECTIONS) as CorrectionReason[]).map((key) => ({ key, label: CORRECTIONS[key] }));

type Props = {
  record: MemberRecord;
  step: SiteStep;
  /** Entry that this one takes the place of. */ corrects?: string;
  onRecord: (entries: UncountedEntry[]) => void;
};

type Typed = { draft: Draft; why: CorrectionReason | null; by: string };

/** Where a correction is half typed. */
export const correctionPlace = (step: SiteStep, entryId = ''): string => placeOf(step) + (entryId && `/${entryId}`);

export function StepForm({ record, step, corrects, onRecord }: Props): ReactNode {
  const drafts = useDrafts<Typed>(record.id, { draft: BLANK, why: null, by: record.me });
  const place = correctionPlace(step, corrects);
  const { draft: typed, why, by } = drafts.of(place);
  const shots = placeOf(step);
  const taken = useTaken(record.id).get(shots) ?? [];
  const said = useSpoken(record.id).get(shots) ?? [];
  const before = useFilesOf(record, corrects);
  const draft: Draft = {
    ...typed,
    photos: [...before.photos, ...taken.map(({ id }) => id)],
    spoken: [...before.spoken, ...said.map(({ id }) => id)],
  };
  const [missing, setMissing] = useState<string | null>(null);
  const change = (part: Partial<Draft>) => drafts.change(place, { draft: { ...drafts.of(place).draft, ...part } });
  const partner = partnerOf(record);
  const put = (outcome: Draft['outcome']) => withVoice((now) => putWith(outcome, now?.place === shots ? [now.id] : []));
  /** `now`: what was being spoken when it was pressed. */
  const putWith = (outcome: Draft['outcome'], now: readonly string[]) => {
    const whole = { ...draft, spoken: [...draft.spoken, ...now], outcome };
    change({ outcome });
    const lacks = (corrects && why === null ? 'Choose why it is corrected.' : null) ?? missingIn(step, whole);
    const askingFirst = outcome === 'could_not' && !isLimited(draft);
    setMissing(askingFirst ? null : lacks);
    if (lacks === null) onRecord([entryOf(step, { ...whole, corrects: corrects && why ? { entryId: corrects, why } : null }, by)]);
  };
  const name = `${step.stepKey}-${step.itemId ?? 'property'}`;
  const notInspected = isLimited(draft);
  return (
    <form
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        put(notInspected ? draft.outcome : 'done');
      }}
    >
      {notInspected ? (
        <Reason step={step} draft={draft} onChange={change} />
      ) : (
        <Answer record={record} step={step} draft={draft} onChange={change} />
      )}
      {notInspected || step.evidence.kind === 'note' || wantsNote(step, draft) ? null : <AddNote draft={draft} onChange={change} />}
      {step.evidence.kind === 'photo' && !notInspected ? null : <AddPhoto record={record} place={shots} some={taken.length > 0} />}
      <SpokenTaker recordId={record.id} place={shots} />
      {partner && !step.partnerCheck && !corrects ? (
        <Choices
          legend="Looked at by"
          name={`${name}-by`}
          two
          options={[
            { key: record.me, label: 'Me' },
            { key: partner.personId, label: partner.name },
          ]}
          value={by}
          onChange={(one) => drafts.change(place, { by: one })}
        />
      ) : null}
      {corrects ? (
        <Choices
          legend="Why it is corrected"
          name={`${name}-correct`}
          options={WHY}
          value={why}
          onChange={(one) => drafts.change(place, { why: one })}
        />
      ) : null}
      {missing ? (
        <p role="alert" className={classes.caution}>
          {missing}
        </p>
      ) : null}
      <div className={classes.acts}>
        {notInspected ? (
          <Button type="submit" size="xl" fullWidth>
            Record: could not be inspected
          </Button>
        ) : (
          <Button type="submit" size="xl" fullWidth>
            {corrects ? 'Record the correction' : 'Done'}
          </Button>
        )}
        {notInspected ? (
          <Button size="xl" fullWidth variant="default" onClick={() => change({ outcome: 'done', reason: null })}>
            Back to the answer
          </Button>
        ) : (
          <>
            <Button size="xl" fullWidth variant="default" onClick={() => put('none_at_property')}>
              None at this property
            </Button>
            <Button size="xl" fullWidth variant="default" onClick={() => put('could_not')}>
              Could not be inspected
            </Button>
          </>
        )}
      </div>
    </form>
  );
}

/** Open where something was taken already, for example before the camera closed the browser. */
export const AddPhoto = ({ record, place, some }: { record: MemberRecord; place: string; some: boolean }): ReactNode => (
  <details className={classes.more} open={some}>
    <summary>Add a photo</summary>
    <PhotoTaker recordId={record.id} place={place} legend="Photos (not needed)" />
  </details>
);

const AddNote = ({ draft, onChange }: { draft: Draft; onChange: (part: Partial<Draft>) => void }): ReactNode => (
  <details className={classes.more} open={draft.note !== '' || undefined}>
    <summary>Add a note</summary>
    <NoteInput label="Note (not needed)" value={draft.note} onChange={(note) => onChange({ note })} />
  </details>
);
