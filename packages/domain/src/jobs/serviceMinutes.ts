// The minutes of a visit, rule by rule, as the owner sets them; and those of a service that no rule counts yet.
import { inWords } from '../shared/english.ts';
import { factName, measured } from '../shared/phrases.ts';
import type { DurationRule } from './duration.ts';

/** `each` is what the minutes are for, where they are not for the whole visit: 'each 500 sq ft of living area'. */
export type MinutesRow = {
  key: string;
  label: string;
  when: string;
  minutes: number;
  each: string | null;
  of: 'visit' | 'report' | 'walk_through';
};
type Service = { key: string; name: string };

/** Key of the rule that counts a service for which there was none. */
const keyOf = (service: string): string => `service-${service}`;
const counts = (rule: DurationRule, service: string): boolean => 'service' in rule.applies && rule.applies.service === service;
const uncounted = (rules: readonly DurationRule[], services: readonly Service[]): Service[] =>
  services.filter(({ key }) => !rules.some((rule) => counts(rule, key)));

function rowOf(rule: DurationRule, names: Readonly<Record<string, string>>): MinutesRow {
  const { key, label, minutes, applies } = rule;
  const head = {
    key,
    label,
    when: inWords(applies, names),
    of: rule.report ? 'report' : rule.walkThrough ? 'walk_through' : 'visit',
  } as const;
  return typeof minutes === 'number'
    ? { ...head, minutes, each: null }
    : { ...head, minutes: minutes.minutes, each: `each ${measured(minutes.fact, minutes.per)} of ${factName(minutes.fact)}` };
}

/** A row for each rule, then one of 0 minutes for each of `services` that no rule counts by itself. */
export function minutesRows(
  rules: readonly DurationRule[],
  services: readonly Service[],
  names: Readonly<Record<string, string>>,
): MinutesRow[] {
  const free = uncounted(rules, services).map(({ key, name }): MinutesRow => ({
    key: keyOf(key),
    label: name,
    when: inWords({ service: key }, names),
    minutes: 0,
    each: null,
    of: 'visit',
  }));
  return [...rules.map((rule) => rowOf(rule, names)), ...free];
}

/** The rules with other minutes by key; a service that no rule counted gets one once it takes time. Keys that nothing has are left out. */
export function setMinutes(
  rules: readonly DurationRule[],
  services: readonly Service[],
  minutes: Readonly<Record<string, number>>,
): DurationRule[] {
  const changed = rules.map((rule): DurationRule => {
    const to = minutes[rule.key];
    if (to === undefined) return rule;
    return { ...rule, minutes: typeof rule.minutes === 'number' ? to : { ...rule.minutes, minutes: to } };
  });
  const added = uncounted(rules, services).flatMap(({ key, name }): DurationRule[] => {
    const to = minutes[keyOf(key)] ?? 0;
    return to > 0 ? [{ key: keyOf(key), label: name, applies: { service: key }, minutes: to }] : [];
  });
  return [...changed, ...added];
}
