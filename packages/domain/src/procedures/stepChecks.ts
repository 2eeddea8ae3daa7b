// What can be wrong with one step by itself, in plain words.
import { checkRule } from '../shared/rule-check.ts';
import type { Evidence, Step } from './step.ts';

const SLUG = /^[a-z][a-z0-9]*(-[a-z0-9]+)*$/;

/** Kit that is only carried for something that can hurt: a step that needs it must say how. */
export const HAZARD_KIT: readonly string[] = [
  'ladder',
  'voltage_tester',
  'receptacle_tester',
  'gas_detector',
  'carbon_monoxide_meter',
  'coveralls_respirator',
];

const isBlank = (text: string): boolean => text.trim() === '';

const checkRange = (evidence: { unit: string; expectedFrom?: number; expectedTo?: number }): string[] => [
  ...(isBlank(evidence.unit) ? ['the reading has no unit'] : []),
  ...(evidence.expectedFrom !== undefined && evidence.expectedTo !== undefined && evidence.expectedFrom >= evidence.expectedTo
    ? ['the expected range ends before it begins']
    : []),
];

const checkOptions = (options: readonly { key: string; label: string }[]): string[] => [
  ...(options.length < 2 ? ['a choice needs at least two options'] : []),
  ...(new Set(options.map((option) => option.key)).size < options.length ? ['two options have the same key'] : []),
  ...(options.some((option) => isBlank(option.key) || isBlank(option.label)) ? ['an option has no key or no label'] : []),
];

const checkEvidence = (evidence: Evidence): string[] => {
  switch (evidence.kind) {
    case 'confirm':
      return [];
    case 'reading':
      return checkRange(evidence);
    case 'difference':
      return [
        ...checkRange(evidence),
        ...(isBlank(evidence.firstLabel) || isBlank(evidence.secondLabel) ? ['both readings need a name'] : []),
      ];
    case 'count':
      return isBlank(evidence.of) ? ['the count does not say what is counted'] : [];
    case 'choice':
      return checkOptions(evidence.options);
    case 'note':
      return isBlank(evidence.prompt) ? ['the note does not say what to write'] : [];
    case 'photo':
      return isBlank(evidence.of) ? ['the photo does not say what it has to show'] : [];
  }
};

const checkTexts = (step: Step): string[] => [
  ...(SLUG.test(step.key) ? [] : ['the key must be lower-case words joined by hyphens']),
  ...(step.derivedFrom === step.key ? ['it cannot be derived from itself'] : []),
  ...(isBlank(step.title) ? ['it has no title'] : []),
  ...(isBlank(step.instruction) ? ['it has no instruction'] : []),
  ...(isBlank(step.why) ? ['it does not say why'] : []),
  ...(step.caution !== undefined && isBlank(step.caution) ? ['its caution is empty'] : []),
];

const checkHazard = (step: Step): string[] => {
  if (step.caution !== undefined) return step.style === 'read_then_do' ? [] : ['a step with a caution must be read before it is done'];
  const dangerous = step.kit.filter((item) => HAZARD_KIT.includes(item));
  return dangerous.length === 0 ? [] : [`it takes ${dangerous.join(', ')} but carries no caution`];
};

/** Problems of one step, each a clause that follows the step's name; empty when it may stand in a revision. */
export const checkStep = (step: Step): string[] => [
  ...checkTexts(step),
  ...checkEvidence(step.evidence),
  ...checkHazard(step),
  ...checkRule(step.applies),
  ...(Number.isFinite(step.minutes) && step.minutes > 0 ? [] : ['its planned minutes must be more than zero']),
  ...(step.who === 'partner_check' && step.onePersonOnly === true
    ? ['only one person can enter, so no partner check is possible: ask for a second photo or a later look instead']
    : []),
  ...(step.basis.kind === 'duty' && step.basis.rows.length === 0 ? ['it is called a duty but names no published row'] : []),
];
