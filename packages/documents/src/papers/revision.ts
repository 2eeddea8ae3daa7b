// A revision of a procedure on paper: caution before instruction, then why, how it is recorded, when it applies and what it rests on.
import type { Step } from '@backsight/domain/procedures/step';
import type { Block } from '../pdf/content.ts';

export type PaperStep = {
  step: Step;
  applies: string;
  evidence: string;
  per: string;
  place: string;
  who: string;
  basis: string;
  style: string;
  order: string;
  references: readonly string[];
};

export type RevisionPaper = { facts: readonly (readonly [string, string])[]; steps: readonly PaperStep[] };

export const revisionBlocks = ({ facts, steps }: RevisionPaper): Block[] => [
  { kind: 'facts', pairs: facts },
  ...(steps.length === 0 ? [{ kind: 'text', words: 'This revision retires the procedure: it holds no steps.' } as const] : []),
  ...steps.flatMap(stepBlocks),
];

const stepBlocks = (of: PaperStep, at: number): Block[] => {
  const { step } = of;
  const about = [
    of.basis,
    of.style,
    `${step.minutes} min planned`,
    ...(step.kit.length > 0 ? [`kit: ${step.kit.join(', ').replaceAll('_', ' ')}`] : []),
    ...(step.qualification === undefined ? [] : [`qualification: ${step.qualification.replaceAll('_', ' ')}`]),
    ...(of.place === '' ? [] : [`done ${of.place}`]),
    ...(of.order === '' ? [] : [of.order]),
  ];
  return [
    { kind: 'heading', level: 3, words: `${at + 1}. ${step.title}` },
    ...(step.caution === undefined ? [] : [{ kind: 'notice', words: `Caution, read before you begin: ${step.caution}` } as const]),
    { kind: 'text', words: step.instruction },
    { kind: 'text', words: `Why: ${step.why}` },
    { kind: 'text', words: `Recorded as ${of.evidence}, ${of.per}, by ${of.who}. Applies ${of.applies}.` },
    { kind: 'text', small: true, words: `${about.join('; ')}.` },
    ...(of.references.length > 0 ? [{ kind: 'text', small: true, words: `Sources: ${of.references.join('; ')}.` } as const] : []),
  ];
};
