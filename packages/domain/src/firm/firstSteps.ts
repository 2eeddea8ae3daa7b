// What a new firm does until its first agreement is signed, and what stays open after it: acts, each ticked by what the records say, never by hand.

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
  'secondFactor',
  'mail',
  'book',
  'sign',
] as const;
export type FirstStep = (typeof FIRST_STEPS)[number];

/** What a firm needs however many agreements were signed: shown until it is done, or an owner leaves it. */
const LASTING: readonly FirstStep[] = ['text', 'policy', 'onCall', 'secondFactor', 'mail'];

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
  /** Names of the owners who sign in without a second factor. */
  withoutFactor: readonly string[];
  /** A mail server took one. */
  mailSent: boolean;
  booked: boolean;
};
/** `missing`: who or what is still without it. */
export type StepState = { key: FirstStep; done: boolean; missing: string[] };

/** A pair is two. */
const PAIR = 2;

/** The steps in the order in which one needs the other; the last is done when it is no longer shown. */
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
    each('secondFactor', facts.withoutFactor, true),
    one('mail', facts.mailSent),
    one('book', facts.booked),
    one('sign', false),
  ];
}

/**
 * What is shown of them: all but what was `left`, and once an agreement was `signed` what lasts alone.
 * Nothing when nothing of it is open.
 */
export function stepsShown(steps: readonly StepState[], { signed, left }: { signed: boolean; left: readonly string[] }): StepState[] {
  const shown = steps.filter(({ key }) => !left.includes(key) && (!signed || LASTING.includes(key)));
  return shown.some(({ done }) => !done) ? shown : [];
}
