// Under which insurance policy a callback falls, and what its dates warn of.
import { shiftDay } from '../shared/calendar.ts';
import type { Warning } from '../shared/outcome.ts';
import type { Kind } from './words.ts';

/** Days are ISO; the policy covers startsOn up to, not including, endsOn. */
export type Policy = {
  id: string;
  kind: string;
  basis: string;
  insurer: string;
  startsOn: string;
  endsOn: string;
  retroactiveOn: string | null;
};

const WARN_DAYS = 30;

/**
 * The policy of the matching kind: general liability for damage or injury, professional for the rest. A claims-made policy answers by
 * the day of the claim, an occurrence policy by the day of the visit.
 */
export function policyFor(kind: Kind, policies: readonly Policy[], days: { receivedOn: string; inspectedOn: string }): Policy | null {
  const wanted = kind === 'damage_or_injury' ? 'general' : 'professional';
  const covers = (policy: Policy): boolean => {
    const day = policy.basis === 'claims_made' ? days.receivedOn : days.inspectedOn;
    return policy.startsOn <= day && day < policy.endsOn;
  };
  return policies.find((policy) => policy.kind === wanted && covers(policy)) ?? null;
}

/** What the owner should know of the cover today. */
export function policyWarnings(policy: Policy | null, days: { today: string; inspectedOn: string }): Warning[] {
  if (!policy)
    return [
      { code: 'no-policy', text: 'No insurance policy on record covers this: ask the insurer or agent before anything is said or paid.' },
    ];
  const found: Warning[] = [];
  if (policy.endsOn <= shiftDay(days.today, WARN_DAYS)) {
    found.push({
      code: 'policy-ends',
      text: `The policy with ${policy.insurer} ${policy.endsOn <= days.today ? 'ended' : 'ends'} on ${policy.endsOn}: notice must reach the insurer before that.`,
    });
  }
  if (policy.basis === 'claims_made' && policy.retroactiveOn !== null && days.inspectedOn < policy.retroactiveOn) {
    found.push({
      code: 'before-retroactive-date',
      text: `The work was done on ${days.inspectedOn}, before the policy's retroactive date ${policy.retroactiveOn}.`,
    });
  }
  return found;
}
