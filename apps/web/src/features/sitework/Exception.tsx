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

export function Outcome({ step, draft, onChange }: Props): ReactNode {
  const name = `${step.stepKey}-${step.itemId ?? 'property'}`;
  return (
    <>
      <Choices legend="Outcome" name={`${name}-outcome`} options={OUTCOMES} value={draft.outcome} onChange={(outcome) => onChange({ outcome })} />
      {draft.outcome === 'could_not' ? <Choices legend="Why" name={`${name}-why`} options={WHY} value={draft.reason} onChange={(reason) => onChange({ reason })} /> : null}
      {draft.outcome === 'could_not' ? <Textarea label={draft.reason === 'other' ? 'Note' : 'Note (not needed)'} size="lg" mt="sm" autosize minRows={2} value={draft.note} onChange={(event) => onChange({ note: event.currentTarget.value })} /> : null}
    </>
  );
}
