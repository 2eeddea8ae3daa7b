// What else can be said of a step: that there is none here, or that it could not be inspected and why.
import type { ReactNode } from 'react';
import { Textarea } from '@mantine/core';
import type { SiteStep } from '@backsight/contract/sitework';
import { REASONS, type CouldNotReason } from '@backsight/domain/sitework/value';
import { Choices } from './Choices.tsx';
import type { Draft } from './drafts.ts';

const OUTCOMES = [
  { key: 'done', label: 'Done' },
  { key: 'none_at_property', label: 'None at this property' },
  { key: 'could_not', label: 'Could not be inspected' },
] as const;

const WHY = (Object.keys(REASONS) as CouldNotReason[]).map((key) => ({ key, label: REASONS[key] }));

type Props = { step: SiteStep; draft: Draft; onChange: (change: Partial<Draft>) => void };
const nameOf = (step: SiteStep): string => `${step.stepKey}-${step.itemId ?? 'property'}`;

/** The reason picker; "could not be inspected safely" comes first and needs no further word. */
export const Reason = ({ step, draft, onChange }: Props): ReactNode => (
  <>
    <Choices
      legend="Why it could not be inspected"
      name={`${nameOf(step)}-why`}
      options={WHY}
      value={draft.reason}
      onChange={(reason) => onChange({ reason })}
    />
    <Textarea
      label={draft.reason === 'other' ? 'Note' : 'Note (not needed)'}
      size="lg"
      mt="sm"
      autosize
      minRows={2}
      value={draft.note}
      onChange={(event) => onChange({ note: event.currentTarget.value })}
    />
  </>
);

/** The outcome of one step within a group. */
export const Outcome = ({ step, draft, onChange }: Props): ReactNode => (
  <>
    <Choices
      legend="Outcome"
      name={`${nameOf(step)}-outcome`}
      options={OUTCOMES}
      value={draft.outcome}
      onChange={(outcome) => onChange({ outcome })}
    />
    {draft.outcome === 'could_not' ? <Reason step={step} draft={draft} onChange={onChange} /> : null}
  </>
);
