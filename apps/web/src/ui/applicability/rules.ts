// What the editor of applies-when rules may offer: kinds of conditions, comparisons by fact, and a fresh condition of each kind.
import type { Applicability, Comparison } from '@backsight/domain/shared/applicability';
import { FACTS, type FactDefinition, type FactKey } from '@backsight/domain/shared/facts';

export const KINDS = {
  always: 'at every property',
  fact: 'a fact of the property',
  service: 'a service that was ordered',
  season: 'a time of the year',
  fromDay: 'from a day on',
  all: 'all of several conditions',
  any: 'any of several conditions',
  not: 'the opposite of a condition',
} as const;
export type Kind = keyof typeof KINDS;

export type CompareRule = Extract<Applicability, { fact: FactKey }>;

export const COMPARISONS: Record<FactDefinition['type'], Partial<Record<Comparison, string>>> = {
  number: { is: 'is', atLeast: 'at least', atMost: 'at most', below: 'below', above: 'above' },
  choice: { is: 'is', isOneOf: 'is one of' },
  set: { includes: 'includes' },
  yesNo: { is: 'is' },
};

export const definitionOf = (fact: FactKey): FactDefinition => FACTS[fact];

export const kindOf = (rule: Applicability): Kind => {
  if ('seasonFrom' in rule) return 'season';
  return (['always', 'all', 'any', 'not', 'fact', 'service', 'fromDay'] as const).find((kind) => kind in rule) ?? 'always';
};

/** A value that suits a fact and a comparison. */
export function freshValue(fact: FactKey, compare: Comparison): CompareRule['value'] {
  const definition = definitionOf(fact);
  if (definition.type === 'number') return fact === 'yearBuilt' ? 1978 : Math.max(definition.min, 1);
  if (definition.type === 'yesNo') return true;
  const [first] = Object.keys(definition.options);
  return compare === 'isOneOf' ? [first!] : first!;
}

export const freshCompare = (fact: FactKey): CompareRule => {
  const [compare] = Object.keys(COMPARISONS[definitionOf(fact).type]) as [Comparison];
  return { fact, compare, value: freshValue(fact, compare) };
};

/** A condition of another kind that keeps as much of the old one as fits. */
export function turnedInto(kind: Kind, rule: Applicability, services: readonly string[]): Applicability {
  const inner = 'always' in rule ? freshCompare('yearBuilt') : rule;
  const parts = 'all' in rule ? rule.all : 'any' in rule ? rule.any : [inner];
  switch (kind) {
    case 'always':
      return { always: true };
    case 'all':
      return { all: parts };
    case 'any':
      return { any: parts };
    case 'not':
      return { not: inner };
    case 'fact':
      return freshCompare('yearBuilt');
    case 'service':
      return { service: services[0] ?? '' };
    case 'season':
      return { seasonFrom: '11-01', seasonTo: '04-15' };
    case 'fromDay':
      return { fromDay: '2026-01-01' };
  }
}
