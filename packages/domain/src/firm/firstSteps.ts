// What a new firm does until its first agreement is signed: acts, each ticked by what the records say, never by hand.

export const FIRST_STEPS = [
  'inspectors',
  'licenses',
  'hours',
  'sizes',
  'kit',
  'lead',
  'text',
  'policy',
  'onCall',
  'mail',
  'book',
  'sign',
] as const;
export type FirstStep = (typeof FIRST_STEPS)[number];

type Facts = {
  inspectors: number;
  unlicensed: readonly string[];
  withoutHours: readonly string[];
  withoutSize: readonly string[];
  kitMissing: readonly string[];
  leads: number;
  policies: number;
  reviewed: boolean;
  onCall: boolean;
  /** A mail server took one. */
  mailSent: boolean;
  booked: boolean;
};
/** `missing`: who or what is still without it. */
export type StepState = { key: FirstStep; done: boolean; missing: string[] };

/** A pair is two. */
const PAIR = 2;

/** The steps in the order in which one needs the other; the last is done when the list is no longer shown. */
export function firstSteps(facts: Facts): StepState[] {
  const people = facts.inspectors > 0;
  const each = (key: FirstStep, missing: readonly string[], of: boolean): StepState => ({
    key,
    done: of && missing.length === 0,
    missing: [...missing],
  });
  const one = (key: FirstStep, done: boolean): StepState => ({ key, done, missing: [] });
  return [
    one('inspectors', facts.inspectors >= PAIR),
    each('licenses', facts.unlicensed, people),
    each('hours', facts.withoutHours, people),
    each('sizes', facts.withoutSize, people),
    each('kit', facts.kitMissing, true),
    one('lead', facts.leads > 0),
    one('text', facts.reviewed),
    one('policy', facts.policies > 0),
    one('onCall', facts.onCall),
    one('mail', facts.mailSent),
    one('book', facts.booked),
    one('sign', false),
  ];
}
