// Steps, items and entries for the tests of the site record.
import type { Step } from '@backsight/domain/procedures/step';
import type { FrozenRevision } from '@backsight/domain/sitework/package';
import type { ActWords, KnownAct, SiteAct } from '@backsight/domain/sitework/act';
import type { KnownEntry } from '@backsight/domain/sitework/value';

export const aStep = (key: string, more: Partial<Step> = {}): Step => ({
  key,
  title: key,
  instruction: 'Look.',
  why: 'Because.',
  evidence: { kind: 'confirm' },
  applies: { always: true },
  per: 'property',
  basis: { kind: 'own_extra' },
  who: 'either',
  style: 'do_then_confirm',
  minutes: 1,
  kit: [],
  after: [],
  references: [],
  ...more,
});
export const revision = (key: string, steps: Step[]): FrozenRevision => ({
  procedureKey: key,
  title: key,
  system: key,
  revisionId: `${key}-1`,
  number: 1,
  steps,
});

let made = 0;
export const anEntry = (stepKey: string, observedBy: string, more: Partial<KnownEntry> = {}): KnownEntry => {
  made += 1;
  return {
    id: `e${made}`,
    stepKey,
    itemId: null,
    outcome: 'done',
    evidence: { kind: 'confirm' },
    observedBy,
    supersedesId: null,
    order: String(made).padStart(6, '0'),
    ...more,
  };
};

export const NOON = '2026-05-12T17:00:00Z';
export const anAct = (act: SiteAct, by = 'ann', words: ActWords = {}): KnownAct => {
  made += 1;
  return { id: `a${made}`, act, words, by, writtenBy: by, at: NOON, order: String(made).padStart(6, '0') };
};
