// What a client can order, and whether it is offered for this property on this day.
import type { Applicability, Truth } from '../shared/applicability.ts';
import { inWords } from '../shared/english.ts';
import { evaluate, factsAsked } from '../shared/evaluate.ts';
import type { NamedContext } from '../shared/evaluate.ts';
import { factName, listed } from '../shared/phrases.ts';

export type ServiceDefinition = {
  /** Immutable slug, the one that applies-when rules name. */
  key: string;
  name: string;
  /** Words that a caller may use for it. */
  searchWords: readonly string[];
  /** Season, feature of the property, another service. */
  offeredWhen: Applicability;
  /** True when an outside provider does it and the firm only arranges it. */
  providerOnly: boolean;
  /** Key of the kind of visit that it needs besides the inspection (a radon pick-up). */
  extraVisit?: string;
};

const whyOf = (truth: Truth, words: string, unknown: string): string => {
  if (truth === 'yes') return `Offered ${words}.`;
  if (truth === 'no') return `Not offered here on this day, only ${words}.`;
  return `Offered only ${words}; not known yet: ${unknown}.`;
};

/** Whether a service can be ordered here and on that day, and why, in a sentence or two. */
export function offered(service: ServiceDefinition, context: NamedContext): { offered: Truth; why: string } {
  const truth = evaluate(service.offeredWhen, context);
  const said = inWords(service.offeredWhen, context.serviceNames);
  const words = /^(?:at every|at no|from|before) /.test(said) ? said : `when ${said}`;
  const unknown = listed(factsAsked(service.offeredWhen, context).map(factName), 'and');
  const provider = service.providerOnly && truth !== 'no' ? ' Done by an outside provider.' : '';
  return { offered: truth, why: whyOf(truth, words, unknown) + provider };
}
