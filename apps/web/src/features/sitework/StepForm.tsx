// One step by itself: its words, its answer, who looked, and one large button that records it.
import { useState, type ReactNode } from 'react';
import { Button, Textarea } from '@mantine/core';
import type { MemberRecord, NewEntry, SiteStep } from '@backsight/contract/sitework';
import { CORRECTIONS, type CorrectionReason } from '@backsight/domain/sitework/value';
import { Answer } from './Answer.tsx';
import { Choices } from './Choices.tsx';
import { BLANK, entryOf, missingIn, type Draft } from './drafts.ts';
import { Outcome } from './Exception.tsx';
import { partnerOf } from './recordModel.ts';
import classes from './sitework.module.css';

const WHY = (Object.keys(CORRECTIONS) as CorrectionReason[]).map((key) => ({ key, label: CORRECTIONS[key] }));

type Props = { record: MemberRecord; step: SiteStep; /** Entry that this one takes the place of. */ corrects?: string; onRecord: (entries: NewEntry[]) => void };

export function StepForm({ record, step, corrects, onRecord }: Props): ReactNode {
  const [draft, setDraft] = useState<Draft>(BLANK);
  const [why, setWhy] = useState<CorrectionReason | null>(null);
  const [by, setBy] = useState(record.me);
  const [missing, setMissing] = useState<string | null>(null);
  const change = (part: Partial<Draft>) => setDraft((before) => ({ ...before, ...part }));
  const partner = partnerOf(record);
  const submit = () => {
    const lacks = missingIn(step, draft) ?? (corrects && why === null ? 'Choose why it is corrected.' : null);
    setMissing(lacks);
    if (lacks === null) onRecord([entryOf(step, { ...draft, corrects: corrects && why ? { entryId: corrects, why } : null }, by)]);
  };
  const name = `${step.stepKey}-${step.itemId ?? 'property'}`;
  return (
    <form noValidate onSubmit={(event) => { event.preventDefault(); submit(); }}>
      {draft.outcome === 'done' ? <Answer step={step} draft={draft} onChange={change} /> : null}
      <Outcome step={step} draft={draft} onChange={change} />
      {draft.outcome === 'could_not' || step.evidence.kind === 'note' ? null : (
        <Textarea label="Note (not needed)" size="lg" mt="sm" autosize minRows={1} value={draft.note} onChange={(event) => change({ note: event.currentTarget.value })} />
      )}
      {partner && !step.partnerCheck && !corrects ? (
        <Choices legend="Looked at by" name={`${name}-by`} two options={[{ key: record.me, label: 'Me' }, { key: partner.personId, label: partner.name }]} value={by} onChange={setBy} />
      ) : null}
      {corrects ? <Choices legend="Why it is corrected" name={`${name}-correct`} options={WHY} value={why} onChange={setWhy} /> : null}
      {missing ? <p role="alert" className={classes.caution}>{missing}</p> : null}
      <div className={classes.acts}>
        <Button type="submit" size="xl" fullWidth>{corrects ? 'Record the correction' : 'Record'}</Button>
      </div>
    </form>
  );
}
