// After the seal: nothing in the record changes. What comes later is a supplement; the work paper leaves only by an owner's act.
import { accept, refuse, type Outcome } from '../shared/outcome.ts';

export const GIVEN_TO = {
  attorney: "the firm's attorney",
  insurer: 'the insurer',
  board: 'the license board',
  court: 'a court',
  client: 'the client',
  other: 'somebody else',
} as const;
export type GivenTo = keyof typeof GIVEN_TO;

type Facts = { state: string; openedAt: Date };

const MINUTE = 60_000;

/** A supplement belongs to a sealed record, and was seen neither before the visit (to the minute, as people say it) nor in the future. */
export function mayAddSupplement({ state, openedAt }: Facts, happenedAt: Date, now: Date): Outcome<null> {
  if (state !== 'sealed') return refuse('supplement-of-open-record');
  if (happenedAt > now) return refuse('supplement-ahead', {}, 'happenedAt');
  return happenedAt.getTime() < Math.floor(openedAt.getTime() / MINUTE) * MINUTE
    ? refuse('supplement-before-visit', {}, 'happenedAt')
    : accept(null);
}
