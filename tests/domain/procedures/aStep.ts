// A plain step for tests, sound by itself.
import type { Step } from '@backsight/domain/procedures/step';

export const aStep = (key: string, more: Partial<Step> = {}): Step => ({
  key,
  title: `Step ${key}`,
  instruction: 'Look at it.',
  why: 'It matters.',
  evidence: { kind: 'confirm' },
  applies: { always: true },
  per: 'property',
  basis: { kind: 'own_extra' },
  who: 'either',
  style: 'do_then_confirm',
  minutes: 2,
  kit: [],
  after: [],
  references: [],
  ...more,
});
