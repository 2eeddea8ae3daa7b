// What moving or cancelling costs, as it is said to a caller.
import type { DeskRulesPage } from '@backsight/contract/jobs/desk';
import { formatUsd } from '@backsight/domain/shared/money';

type Late = DeskRulesPage['rules']['late'];

const part = (cents: number | undefined, percent: number): string =>
  cents ? formatUsd(cents) : percent > 0 ? `${percent}% of the fee` : 'nothing';

/** The rules in force now, free first. The whole fee is never due earlier than the part is. */
export function lateWords(late: Late): string {
  const { hours, fullHours = 0 } = late;
  const [cancel, move] = [part(late.cancelCents, late.cancelPercent), part(late.moveCents, late.movePercent)];
  const parts = cancel !== 'nothing' || move !== 'nothing';
  const until = parts ? hours : fullHours;
  if (until === 0) return 'Cancelling and moving cost nothing.';
  return [
    `Nothing until ${until} hours before the start.`,
    ...(parts && hours > fullHours ? [`Later, cancelling costs ${cancel}, moving ${move}.`] : []),
    ...(fullHours > 0 ? [`Less than ${fullHours} hours before, or after the start, the whole fee is due.`] : []),
  ].join(' ');
}
