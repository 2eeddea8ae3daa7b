// Short forms for writing the procedure book: defaults of a step, applies-when rules and published references.
import { ALWAYS, type Applicability } from '@backsight/domain/shared/applicability';
import type { StepPlace } from '@backsight/domain/shared/places';
import type { Step, StepBasis, StepReference } from '@backsight/domain/procedures/step';
import { WISCONSIN_ROWS } from './wisconsin.ts';

export const EXTRA: StepBasis = { kind: 'own_extra' };
export const duty = (...rows: string[]): StepBasis => ({ kind: 'duty', rows });

/** The published paragraphs behind a duty, each once; found only when every row claimed from it was read. */
const publishedReferences = (basis: StepBasis): StepReference[] => {
  const rows = basis.kind === 'duty' ? WISCONSIN_ROWS.filter((row) => basis.rows.includes(row.id)) : [];
  return [...new Set(rows.map((row) => row.citation))].map((section) => ({
    title: 'Wisconsin Administrative Code',
    section,
    edition: 'online text, edition date not noted',
    status: rows.every((row) => row.citation !== section || row.status === 'found') ? 'found' : 'from memory',
  }));
};

type Needed = 'key' | 'title' | 'instruction' | 'why' | 'evidence' | 'basis' | 'minutes';

/** A step with the usual values filled in; one that carries a caution is read before it is done. */
export const step = (given: Pick<Step, Needed> & Partial<Omit<Step, Needed>>): Step => ({
  applies: ALWAYS,
  per: 'property',
  who: 'either',
  kit: [],
  after: [],
  style: given.caution === undefined ? 'do_then_confirm' : 'read_then_do',
  ...given,
  references: [...publishedReferences(given.basis), ...(given.references ?? [])],
});

/** Steps done at one place, but for those that say another. */
export const at = (place: StepPlace, steps: readonly Step[]): Step[] => steps.map((one) => ({ place, ...one }));

export const CONFIRM = { kind: 'confirm' } as const;
export const note = (prompt: string) => ({ kind: 'note', prompt }) as const;
/** What the photo has to show. */
export const photo = (of: string) => ({ kind: 'photo', of }) as const;
/** Options as key and label, in the order shown. */
export const choice = (options: Record<string, string>) =>
  ({ kind: 'choice', options: Object.entries(options).map(([key, label]) => ({ key, label })) }) as const;

export const has = (value: string): Applicability => ({ fact: 'features', compare: 'includes', value });
/** True when the client ordered the service. */
export const ordered = (service: string): Applicability => ({ service });
export const foundation = (value: string): Applicability => ({ fact: 'foundation', compare: 'includes', value });
export const heats = (value: string): Applicability => ({ fact: 'heatingKind', compare: 'includes', value });
export const burns = (...fuels: string[]): Applicability => ({
  any: fuels.map((value) => ({ fact: 'heatingFuel', compare: 'includes', value })),
});
export const COOLED: Applicability = { fact: 'coolingKind', compare: 'isOneOf', value: ['central', 'heat_pump'] };
export const ANY_GARAGE: Applicability = { any: [has('attached_garage'), has('detached_garage')] };

/** International Residential Code; later editions renumber parts of it. */
export const irc = (section: string, status: StepReference['status'] = 'from memory'): StepReference => ({
  title: 'International Residential Code',
  section,
  edition: 'numbering up to 2021',
  status,
});
export const nec = (section: string, edition: string, status: StepReference['status'] = 'from memory'): StepReference => ({
  title: 'NFPA 70, National Electrical Code',
  section,
  edition,
  status,
});
export const cfr = (section: string, status: StepReference['status'] = 'from memory'): StepReference => ({
  title: 'Code of Federal Regulations',
  section,
  edition: 'edition not noted',
  status,
});
export const trade = (what: string): StepReference => ({
  title: 'Common practice of the trade',
  section: what,
  edition: 'none',
  status: 'common practice',
});
