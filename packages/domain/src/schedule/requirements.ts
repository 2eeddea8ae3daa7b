// What a visit demands of its pair and its kit, each demand with its reason.
import type { Applicability } from '../shared/applicability.ts';
import { inWords } from '../shared/english.ts';
import { evaluate, factsAsked } from '../shared/evaluate.ts';
import type { NamedContext } from '../shared/evaluate.ts';
import type { FactKey } from '../shared/facts.ts';
import { factName, listed } from '../shared/phrases.ts';

export type Need =
  /** Both members hold it on the day. */
  | { kind: 'license'; license: string }
  | { kind: 'qualification'; key: string; who: 'each' | 'any' }
  | { kind: 'kit'; kit: string }
  /** Roof work ends this many minutes before sunset. */
  | { kind: 'daylight'; offsetMinutes: number };

export type RequirementRule = { key: string; label: string; applies: Applicability; need: Need };

/** Why something is demanded; `need` is the key of a license, qualification or kit, or 'daylight'. */
export type RequirementReason = {
  rule: string;
  kind: Need['kind'];
  need: string;
  reason: string;
  /** Facts that could still take it away. */ asks: FactKey[];
};

/** `needEach`: each member has them; `needAny`: one of the two is enough. Licenses are in `needEach`. Keys are sorted. */
export type Requirements = {
  needEach: string[];
  needAny: string[];
  kit: string[];
  roofWork?: { offsetMinutes: number };
  reasons: RequirementReason[];
};

const nameOf = (need: Need): string => {
  switch (need.kind) {
    case 'license':
      return need.license;
    case 'qualification':
      return need.key;
    case 'kit':
      return need.kit;
    case 'daylight':
      return 'daylight';
  }
};

const reasonOf = (rule: RequirementRule, context: NamedContext): RequirementReason => {
  const asks = factsAsked(rule.applies, context);
  const unknown = asks.map(factName);
  const open = unknown.length > 0 ? ` (demanded because it is not known yet: ${listed(unknown, 'and')})` : '';
  const reason = `${rule.label}: ${inWords(rule.applies, context.serviceNames)}${open}`;
  return { rule: rule.key, kind: rule.need.kind, need: nameOf(rule.need), reason, asks };
};

const sorted = (keys: readonly string[]): string[] => [...new Set(keys)].sort();

const offsetsOf = (needs: readonly Need[]): number[] => needs.flatMap((need) => (need.kind === 'daylight' ? [need.offsetMinutes] : []));

/** Everything that a visit demands. What is not known yet is demanded, and the reason says so. */
export function requirements(rules: readonly RequirementRule[], context: NamedContext): Requirements {
  const demanded = rules.filter((rule) => evaluate(rule.applies, context) !== 'no');
  const needs = demanded.map(({ need }) => need);
  const namesOf = (wanted: (need: Need) => boolean): string[] => sorted(needs.filter(wanted).map(nameOf));
  const needEach = namesOf((need) => need.kind === 'license' || (need.kind === 'qualification' && need.who === 'each'));
  const offsets = offsetsOf(needs);
  return {
    needEach,
    needAny: namesOf((need) => need.kind === 'qualification' && need.who === 'any').filter((key) => !needEach.includes(key)),
    kit: namesOf((need) => need.kind === 'kit'),
    ...(offsets.length > 0 ? { roofWork: { offsetMinutes: Math.max(...offsets) } } : {}),
    reasons: demanded.map((rule) => reasonOf(rule, context)),
  };
}
