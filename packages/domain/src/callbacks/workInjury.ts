// Somebody of the firm was hurt at work: by when the employer reports it to the federal office. Real hours, at any hour; never business time.
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import type { Kind } from './words.ts';

export const INJURIES = {
  death: 'death',
  in_patient: 'in-patient hospital stay for care',
  amputation: 'amputation',
  eye_loss: 'loss of an eye',
} as const;
export type Injury = keyof typeof INJURIES;

/** 29 CFR 1904.39 (a), from memory: 8 hours after a death, 24 after the others. */
const HOURS: Record<Injury, number> = { death: 8, in_patient: 24, amputation: 24, eye_loss: 24 };
/** 29 CFR 1904.39 (b)(6), from memory: a death within 30 days of the incident, the others within 24 hours. */
const COUNTS_WITHIN_HOURS: Record<Injury, number> = { death: 30 * 24, in_patient: 24, amputation: 24, eye_loss: 24 };

export const INJURY_SOURCE =
  '29 CFR 1904.39, from memory: read the rule or call the office before you rely on it; a state plan may ask for more.';

const HOUR = 3_600_000;

/** Instants are ISO. `happenedAt` is the incident, `outcomeAt` death, admission or loss, `learnedAt` when the firm heard of it. */
export type InjuryTimes = { what: Injury; happenedAt: string; outcomeAt: string; learnedAt: string };

/** When the report is due (UTC), counted from when the firm learned of it; null when it came too long after the incident to be reported. */
export function reportDue({ what, happenedAt, outcomeAt, learnedAt }: InjuryTimes): string | null {
  if (Date.parse(outcomeAt) - Date.parse(happenedAt) > COUNTS_WITHIN_HOURS[what] * HOUR) return null;
  return new Date(Date.parse(learnedAt) + HOURS[what] * HOUR).toISOString();
}

export function checkInjury(kind: Kind, times: InjuryTimes, now: string): Outcome<null> {
  if (kind !== 'damage_or_injury') return refuse('no-injury-of-ours');
  const order = [times.happenedAt, times.outcomeAt, times.learnedAt, now].map((at) => Date.parse(at));
  const wrong = order.findIndex((at, n) => n > 0 && at < order[n - 1]!);
  if (wrong === -1) return accept(null);
  return refuse('injury-times-backwards', {}, ['', 'outcomeAt', 'learnedAt', 'learnedAt'][wrong]!);
}
