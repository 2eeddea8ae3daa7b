// Guards the texts that go to every phone against clients' particulars: what can be recognized by its form alone.
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import type { Step } from './step.ts';

const FORMS: readonly (readonly [what: string, form: RegExp])[] = [
  ['an amount of money', /[$€£]\s?\d|\b\d[\d,]{0,20}(?:\.\d\d)?\s?(?:dollars|USD)\b/i],
  ['an e-mail address', /(?<![\w.+-])[\w.+-]+@[\w-]+\.\w+/],
  ['a phone number', /\(?\b\d{3}\)?[ .-]\d{3}[ .-]\d{4}\b/],
  [
    'a street address',
    /\b\d{1,5}\s+(?:[NSEW]\.?\s+)?(?:[A-Z][a-z]+\s+){1,3}(?:Street|St|Avenue|Ave|Road|Rd|Lane|Ln|Drive|Dr|Court|Ct|Way|Boulevard|Blvd|Circle|Trail)\b/,
  ],
];

/** Refuses a text with an amount, an address or a number to call in it. Names cannot be recognized: the author is asked to leave them out. */
export function nothingPersonal(text: string, field: string): Outcome<null> {
  const found = FORMS.find(([, form]) => form.test(text));
  return found ? refuse('revision-looks-personal', { what: found[0] }, field) : accept(null);
}

/** The same for every text of the steps; `field` tells which step and which text. */
export function nothingPersonalInSteps(steps: readonly Step[]): Outcome<null> {
  for (const [at, step] of steps.entries()) {
    for (const part of ['title', 'instruction', 'why', 'caution'] as const) {
      const clean = nothingPersonal(step[part] ?? '', `steps.${at}.${part}`);
      if (!clean.ok) return clean;
    }
  }
  return accept(null);
}
