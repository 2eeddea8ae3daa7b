// A step of a written procedure: what to do, how to record it, and to which houses it applies.
import type { Applicability } from '../shared/applicability.ts';
import type { ItemKind } from '../shared/facts.ts';
import type { StepPlace } from '../shared/places.ts';

/** How a step is recorded. Readings are in the unit named; ranges are hints for the pair, never verdicts. */
export type Evidence =
  | { kind: 'confirm' }
  | { kind: 'reading'; unit: string; expectedFrom?: number; expectedTo?: number; hint?: string }
  /** second minus first, e.g. return air minus supply air. */
  | { kind: 'difference'; unit: string; firstLabel: string; secondLabel: string; expectedFrom?: number; expectedTo?: number; hint?: string }
  /** A count; with `mustMatch` it must equal the count recorded under that step for the same item. */
  | { kind: 'count'; of: string; mustMatch?: string }
  | { kind: 'choice'; options: readonly { key: string; label: string }[] }
  | { kind: 'note'; prompt: string }
  /** A photo of what is named; without one it takes a reason. */
  | { kind: 'photo'; of: string };

/** Why the firm does it: a row of a published standard of practice, or our own extra. */
export type StepBasis = { kind: 'duty'; rows: readonly string[] } | { kind: 'own_extra' };

export type StepReference = { title: string; section: string; edition: string; status: 'found' | 'from memory' | 'common practice' };

/** Who records it: either member, the first, or both independently (the second look never sees the first). */
export type StepWho = 'either' | 'first' | 'partner_check';

export type Step = {
  /** Immutable slug; keeps its meaning for life. A new meaning is a new key with `derivedFrom`. */
  key: string;
  derivedFrom?: string;
  title: string;
  instruction: string;
  why: string;
  caution?: string;
  evidence: Evidence;
  applies: Applicability;
  per: 'property' | ItemKind;
  /** Where it is done; a place with a stop list is looked at for danger first. Not said: told by its system (see `hazardPlaceOf`). */
  place?: StepPlace;
  basis: StepBasis;
  who: StepWho;
  /** Only one person can enter (crawl space corner, hatch): then no partner check is possible. */
  onePersonOnly?: boolean;
  /** read_then_do for hazardous or order-bound steps, do_then_confirm for the rest. */
  style: 'read_then_do' | 'do_then_confirm';
  /** Expected minutes on site, planned. */
  minutes: number;
  kit: readonly string[];
  qualification?: string;
  /** Keys of steps that must have been recorded before this one. */
  after: readonly string[];
  /** Steps that share a group must be done in their order without others between. */
  sequence?: string;
  references: readonly StepReference[];
  /** Published rows of other states that it meets besides; they are no duties of the firm and stand only in the table of coverage. */
  alsoMeets?: readonly string[];
};

/** A procedure: the steps for one system of the house. */
export type Procedure = { key: string; title: string; system: string; steps: readonly Step[] };
