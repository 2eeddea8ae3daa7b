// A visit that ends otherwise than complete: whether it may be recorded so, and what of the fee is charged.
import type { EarlyEnding } from '../jobs/deskRules.ts';
import type { FeeLine } from '../fees/schedule.ts';
import type { Charge } from '../shared/charge.ts';
import { formatUsd } from '../shared/money.ts';
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import { ENDINGS } from './endedAs.ts';

export const REPORT_OWED = { yes: 'yes', no: 'no', later: 'decide later' } as const;
export type ReportOwed = keyof typeof REPORT_OWED;

export type EndingFacts = {
  visitState: string;
  startsAt: Date;
  recordOpen: boolean;
  recordEnded: boolean;
};
export type EndingCommand = {
  kind: EarlyEnding;
  endedAt: Date;
  waitedMinutes: number | null;
  callsMade: number | null;
  reportOwed: ReportOwed;
};

const HOUR = 3_600_000;

/** Nobody can have waited at a visit that is still an hour ahead, and a report rests on a record. */
export function mayEndEarly(facts: EndingFacts, command: EndingCommand, now: Date): Outcome<null> {
  if (facts.recordEnded) return refuse('record-ended');
  if (facts.visitState !== 'booked' && facts.visitState !== 'on_site')
    return refuse('visit-is', { state: facts.visitState.replaceAll('_', ' ') });
  if (command.endedAt > now) return refuse('ended-ahead', {}, 'endedAt');
  if (facts.visitState === 'booked' && command.endedAt.getTime() < facts.startsAt.getTime() - HOUR)
    return refuse('ended-before-start', {}, 'endedAt');
  if (facts.recordOpen && (command.kind === 'nobody_came' || command.kind === 'refused_at_the_door'))
    return refuse('ended-inside', { how: ENDINGS[command.kind] }, 'kind');
  if (command.kind === 'nobody_came' && command.waitedMinutes === null) return refuse('waiting-missing', {}, 'waitedMinutes');
  if (command.kind === 'nobody_came' && command.callsMade === null) return refuse('waiting-missing', {}, 'callsMade');
  return command.reportOwed === 'yes' && !facts.recordOpen ? refuse('report-without-record', {}, 'reportOwed') : accept(null);
}

/** A charge by percent in percent, one by amount as the amount. */
const shareWords = ({ percent, cents }: Charge): string => (percent === 0 && cents > 0 ? formatUsd(cents) : `${percent}%`);

/** The line that takes the fee down to what is charged; none when all of it is. */
export const chargeLine = (charge: Charge, key: string, label: string, reason: string): FeeLine[] =>
  charge.cents === charge.feeCents
    ? []
    : [
        {
          rule: key,
          label,
          reason: `${reason}; ${shareWords(charge)} of ${formatUsd(charge.feeCents)} is charged`,
          cents: charge.cents - charge.feeCents,
        },
      ];

/** What the client reads of the money when the job was booked again; null when nothing was charged for the visit that ended early. */
export const rebookedWords = (chargedCents: number, totalCents: number, again: boolean): string | null => {
  if (chargedCents === 0) return null;
  if (!again) return `The fee of ${formatUsd(totalCents)} is for both visits; nothing more is charged for the one that ended early.`;
  return `${formatUsd(chargedCents)} is charged for the visit that ended early, and ${formatUsd(totalCents - chargedCents)} for the new one: ${formatUsd(totalCents)} together.`;
};

/** What a further visit leaves to pay: the fee again beside what was charged, or the one fee for both. */
export const feeAfterRebooking = (
  lines: readonly FeeLine[],
  ended: { key: string; label: string },
  chargedCents: number,
  again: boolean,
): FeeLine[] => {
  const fee = lines.filter(({ rule }) => rule !== ended.key);
  if (!again || chargedCents === 0) return fee;
  return [...fee, { rule: ended.key, label: ended.label, reason: 'charged for the visit that ended early', cents: chargedCents }];
};
