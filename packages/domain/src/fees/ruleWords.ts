// A rule of a fee schedule in plain words, as the owner reads it and as two schedules are compared.
import { inWords } from '../shared/english.ts';
import { shortUsd } from '../shared/money.ts';
import { factName, listed, measured } from '../shared/phrases.ts';
import { clockWords } from './outsideHours.ts';
import type { FeeKind, FeeRule } from './schedule.ts';

/** What each kind of rule is called on screens. */
export const FEE_KINDS: Record<FeeKind['kind'], string> = {
  base: 'base by living area',
  perUnitOver: 'per unit over a threshold',
  surcharge: 'surcharge',
  addOn: 'add-on service',
  travelBand: 'travel band',
  outsideHours: 'outside hours',
  discount: 'discount',
  minimum: 'minimum',
};

type Names = Readonly<Record<string, string>>;

/** 'up to 1,500 sq ft $415' for each band; the last is 'above that'. */
const bandWords = (bands: readonly { limit: string | null; cents: number }[]): string =>
  bands
    .map(({ limit, cents }, at) => `${limit === null ? (at === 0 ? 'any' : 'above that') : `up to ${limit}`} ${shortUsd(cents)}`)
    .join(', ');

function amountWords(rule: FeeRule, names: Names): string {
  switch (rule.kind) {
    case 'base': {
      const bands = rule.bands.map(({ upToSqFt, cents }) => ({
        limit: upToSqFt === null ? null : measured('livingArea', upToSqFt),
        cents,
      }));
      return `${bandWords(bands)}; ${measured('livingArea', rule.assume)} is taken while the living area is not known`;
    }
    case 'perUnitOver': {
      const assumed = rule.assume === undefined ? '' : `; ${measured(rule.fact, rule.assume)} is taken while it is not known`;
      return `${shortUsd(rule.cents)} for each started ${measured(rule.fact, rule.step)} of ${factName(rule.fact)} over ${measured(rule.fact, rule.over)}${assumed}`;
    }
    case 'surcharge':
      return `${shortUsd(rule.cents)} besides`;
    case 'addOn':
      return `${shortUsd(rule.cents)} for ${names[rule.service] ?? rule.service}`;
    case 'travelBand':
      return `one way ${bandWords(rule.bands.map(({ upToMinutes, cents }) => ({ limit: upToMinutes === null ? null : `${upToMinutes} minutes`, cents })))}`;
    case 'outsideHours': {
      const days = rule.days.map((day) => (day === 'holiday' ? 'a federal holiday' : `a ${day.charAt(0).toUpperCase()}${day.slice(1)}`));
      const on = days.length > 0 ? `, or on ${listed(days, 'or')}` : '';
      return `${shortUsd(rule.cents)} for a start before ${clockWords(rule.before)} or after ${clockWords(rule.after)}${on}`;
    }
    case 'discount':
      return `${'percent' in rule ? `${rule.percent}%` : shortUsd(rule.cents)} off, ${rule.reason}`;
    case 'minimum':
      return `at least ${shortUsd(rule.cents)}`;
  }
}

/** The whole rule: what it is, how much, and when. `names` are those of the services by key. */
export function ruleInWords(rule: FeeRule, names: Names): string {
  const when = 'always' in rule.applies ? '' : `, if ${inWords(rule.applies, names)}`;
  return `${FEE_KINDS[rule.kind]}: ${amountWords(rule, names)}${when}`;
}
