// What a move or a cancelling costs: free until so many hours before, then a part of the fee, and near the start all of it.
import { chargeOf, isLate, type Charge } from '../shared/charge.ts';
import { formatUsd } from '../shared/money.ts';
import type { DeskRules } from './deskRules.ts';

export type LateCharge = Charge & { hours: number; because: string };

/** Null = free. An amount, where the firm has set one, takes the place of the percent; never more than the fee. `because` names the rule in plain words. */
export function lateCharge(
  late: DeskRules['late'],
  what: 'move' | 'cancel',
  { feeCents, startsAt, now }: { feeCents: number; startsAt: Date; now: Date },
): LateCharge | null {
  const { fullHours = 0, hours } = late;
  if (feeCents <= 0) return null;
  if (fullHours > 0 && isLate(startsAt, now, fullHours))
    return { ...chargeOf(feeCents, 100), hours: fullHours, because: `less than ${fullHours} hours before; the whole fee` };
  if (!isLate(startsAt, now, hours)) return null;
  const amount = (what === 'move' ? late.moveCents : late.cancelCents) ?? 0;
  const percent = what === 'move' ? late.movePercent : late.cancelPercent;
  const part = amount > 0 ? { percent: 0, feeCents, cents: Math.min(amount, feeCents) } : chargeOf(feeCents, percent);
  if (part.cents === 0) return null;
  const words = amount > 0 ? formatUsd(part.cents) : `${percent}% of ${formatUsd(feeCents)}`;
  return { ...part, hours, because: `less than ${hours} hours before; ${words}` };
}
