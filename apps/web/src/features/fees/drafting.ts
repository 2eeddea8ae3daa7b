// Rules as they are edited: a fresh one of each kind, and the words of what the service finds wrong in one.
import type { FeeRule } from '@backsight/contract/fees/schedules';
import { newId } from '../../api/ids.ts';

export type Kind = FeeRule['kind'];
type Of<K extends Kind> = Extract<FeeRule, { kind: K }>;
export type RuleOf<K extends Kind> = Of<K>;

/** A rule of a kind with amounts of nothing; `service` is the first service that may have a price. */
export function freshRule(kind: Kind, service: string): FeeRule {
  const head = { key: `rule-${newId().slice(-12)}`, label: '', applies: { always: true } } as const;
  switch (kind) {
    case 'base':
      return { ...head, kind, bands: [{ upToSqFt: null, cents: 0 }], assume: 1800 };
    case 'perUnitOver':
      return { ...head, kind, fact: 'livingArea', over: 3000, step: 500, cents: 0 };
    case 'addOn':
      return { ...head, kind, service, applies: { service }, cents: 0 };
    case 'travelBand':
      return {
        ...head,
        kind,
        bands: [
          { upToMinutes: 30, cents: 0 },
          { upToMinutes: null, cents: 0 },
        ],
      };
    case 'outsideHours':
      return { ...head, kind, before: 480, after: 1080, days: [], cents: 0 };
    case 'discount':
      return { ...head, kind, percent: 5, reason: '' };
    case 'surcharge':
    case 'minimum':
      return { ...head, kind, cents: 0 };
  }
}

/** Limits typed with a blank for 'no limit'; NaN is sent as it is, so that the service refuses it at its field. */
export const limitOf = (typed: string): number | null => (typed.trim() === '' ? null : Number(typed.replaceAll(',', '')));

/** Problems of one rule: fields are named rules.<at>.<field>. */
export const problemsOf = (problems: readonly { field: string; message: string }[], at: number) =>
  problems
    .filter(({ field }) => field === `rules.${at}` || field.startsWith(`rules.${at}.`))
    .map(({ field, message }) => ({ field: field.split('.').slice(2).join(' '), message }));
