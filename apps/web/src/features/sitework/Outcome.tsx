// What else can be said of a step: that there is none here, or that it could not be inspected and why.
import type { ReactNode } from 'react';
import type { SiteStep } from '@backsight/contract/sitework';
import { limitsMet } from '@backsight/domain/sitework/accessLimits';
import { hazardPlaceOf } from '@backsight/domain/sitework/hazards';
import { REASONS, type CouldNotReason } from '@backsight/domain/sitework/value';
import { Choices } from './Choices.tsx';
import { NoteInput } from './NoteInput.tsx';
import { ReadingInput } from './ReadingInput.tsx';
import { isLimited, measuresOf, type Draft } from './drafts.ts';
import classes from './sitework.module.css';

const OUTCOMES = [
  { key: 'done', label: 'Done' },
  { key: 'none_at_property', label: 'None at this property' },
  { key: 'could_not', label: 'Could not be inspected' },
] as const;

const WHY = (Object.keys(REASONS) as CouldNotReason[]).map((key) => ({ key, label: REASONS[key] }));

type Props = { step: SiteStep; draft: Draft; onChange: (change: Partial<Draft>) => void };
const nameOf = (step: SiteStep): string => `${step.stepKey}-${step.itemId ?? 'property'}`;

const HOW_FAR = [
  { key: 'could_not', label: 'Not inspected' },
  { key: 'from_opening', label: 'From the opening only' },
] as const;

/** The reason picker; "could not be inspected safely" comes first and needs no further word. */
export const Reason = ({ step, draft, onChange }: Props): ReactNode => (
  <>
    {isEntered(step) ? (
      <Choices
        legend="How far you came"
        name={`${nameOf(step)}-far`}
        two
        options={HOW_FAR}
        value={draft.outcome === 'from_opening' ? 'from_opening' : 'could_not'}
        onChange={(outcome) => onChange({ outcome })}
      />
    ) : null}
    <Choices
      legend="Why it could not be inspected"
      name={`${nameOf(step)}-why`}
      options={WHY}
      value={draft.reason}
      onChange={(reason) => onChange({ reason })}
    />
    {draft.reason === 'no_way_in' && hazardPlaceOf(step) ? <Access step={step} draft={draft} onChange={onChange} /> : null}
    <NoteInput label={draft.reason === 'other' ? 'Note' : 'Note (not needed)'} value={draft.note} onChange={(note) => onChange({ note })} />
  </>
);

/** The outcome of one step within a group. */
export const Outcome = ({ step, draft, onChange }: Props): ReactNode => (
  <>
    <Choices
      legend="Outcome"
      name={`${nameOf(step)}-outcome`}
      options={OUTCOMES}
      value={draft.outcome === 'from_opening' ? 'could_not' : draft.outcome}
      onChange={(outcome) => onChange({ outcome })}
    />
    {isLimited(draft) ? <Reason step={step} draft={draft} onChange={onChange} /> : null}
  </>
);

/** A crawl space or an attic is entered bodily, or looked at from its opening. */
const isEntered = (step: SiteStep): boolean => ['crawl_space', 'attic'].includes(hazardPlaceOf(step) ?? '');

/** What was measured, and the published limits that it falls under. */
function Access({ step, draft, onChange }: Props): ReactNode {
  const met = limitsMet(hazardPlaceOf(step)!, measuresOf(draft));
  const inches = (key: 'headroom' | 'width' | 'height', label: string) => (
    <ReadingInput label={label} value={draft[key]} onChange={(value) => onChange({ [key]: value })} />
  );
  return (
    <>
      {inches('headroom', 'Headroom in inches (not needed)')}
      {inches('width', 'Opening, width in inches')}
      {inches('height', 'Opening, height in inches')}
      <div aria-live="polite">
        {met.map(({ where, words, source, status }) => (
          <p key={where} className={classes.soft}>
            Under the limit of {where}: {words} ({source}, {status}).
          </p>
        ))}
      </div>
    </>
  );
}
