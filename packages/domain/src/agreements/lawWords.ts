// What the law of the state, the desk rules and the limits of the text say, in the words of an agreement.
import { CLOCK_STARTS, rowsWith, type RuleRow } from '../shared/rulePack.ts';
import type { DeskRules } from '../jobs/deskRules.ts';
import type { ClaimReading } from '../liability/claimWindow.ts';
import { formatUsd } from '../shared/money.ts';
import type { Placeholder } from './render.ts';
import { capCents, type TextLimits } from './text.ts';

const reading = ({ years, from, source }: ClaimReading): string => `${years} years from ${CLOCK_STARTS[from]} (${source})`;

/** One reading, or every one that is argued; the longer one counts. */
export function claimWords(readings: readonly ClaimReading[], state: string): string {
  if (readings.length === 0) return `How long a claim may be brought is set by the law of ${state}. Ask an attorney.`;
  const said = readings.toSorted((a, b) => a.years - b.years).map(reading);
  if (said.length === 1) return `A claim over this inspection is understood to be limited to ${said[0]}.`;
  return `More than one time to bring a claim over this inspection is argued: ${said.slice(0, -1).join(', ')} and ${said.at(-1)}. The longer one counts until an attorney says otherwise.`;
}

/** What it costs to cancel or to move late: nothing, a part, the whole fee. */
export function cancelWords({ late }: DeskRules): string {
  const { hours, fullHours = 0 } = late;
  const part = (what: string, percent: number, cents: number | undefined): string => {
    const share = cents === undefined ? `${percent}% of the fee` : formatUsd(cents);
    const free = percent === 0 && !cents;
    if (free && fullHours === 0) return `${what} the appointment costs nothing.`;
    if (free)
      return `${what} the appointment costs nothing until ${fullHours} hours before it begins; after that the whole fee is charged.`;
    const whole = fullHours > 0 ? `, and from ${fullHours} hours before on the whole fee` : '';
    return `${what} the appointment costs nothing until ${hours} hours before it begins; after that ${share} is charged${whole}.`;
  };
  return `${part('Cancelling', late.cancelPercent, late.cancelCents)} ${part('Moving', late.movePercent, late.moveCents)}`;
}

/** What is charged when the pair cannot get in. */
export function accessWords({ endings }: DeskRules): string {
  const { refused_at_the_door: refused, nobody_came: nobody } = endings;
  if (refused === 0 && nobody === 0) return 'Nothing is charged when the pair cannot get in.';
  return refused === nobody
    ? `When nobody lets the pair in, ${nobody}% of the fee is charged.`
    : `When nobody comes to let the pair in, ${nobody}% of the fee is charged; when the pair is refused at the door, ${refused}%.`;
}

const capWords = (limits: TextLimits, feeCents: number): string => {
  const cents = capCents(limits.cap, feeCents);
  if (cents === null) return '';
  return limits.cap.kind === 'factor' ? `${formatUsd(cents)} (${limits.cap.tenths / 10} times the fee)` : formatUsd(cents);
};

export type LawFacts = {
  state: string;
  rows: readonly RuleRow[];
  readings: readonly ClaimReading[];
  desk: DeskRules;
  limits: TextLimits;
  feeCents: number;
  items: readonly string[];
  firstJob: number | null;
};

export const LAW_FIELDS = [
  'state',
  'standard',
  'claim_window',
  'liability_cap',
  'claim_limit',
  'cancellation',
  'no_access',
  'items',
  'first_job',
] as const satisfies readonly Placeholder[];

/** Values of the fields that come from rules and limits; what is not known is empty. */
export const lawFacts = (f: LawFacts): Record<(typeof LAW_FIELDS)[number], string> => ({
  state: f.state,
  standard: rowsWith(f.rows, 'standard')[0]?.effect.name ?? '',
  claim_window: claimWords(f.readings, f.state),
  liability_cap: capWords(f.limits, f.feeCents),
  claim_limit: f.limits.claimMonths === null ? '' : `${f.limits.claimMonths} months`,
  cancellation: cancelWords(f.desk),
  no_access: accessWords(f.desk),
  items: f.items.map((item) => `- ${item}`).join('\n'),
  first_job: f.firstJob === null ? '' : String(f.firstJob),
});
