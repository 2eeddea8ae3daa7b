// What the office says on the phone when a visit changed.
import type { PlanKind } from '@backsight/domain/schedule/plans';

export type Said = {
  kind: PlanKind;
  client: string | null;
  firm: string;
  address: string;
  before: string;
  /** Null: there is no time yet. */
  after: string | null;
  /** The day by which the client must object under the purchase contract. */
  deadline: string | null;
};

const WHY: Record<PlanKind, string> = {
  day_plan: 'We had to change our day.',
  sick_call: 'One of our inspectors cannot work.',
  weather: 'The weather does not let us come.',
  what_if: '',
};

/** To be read out as it is. */
export function callWords({ kind, client, firm, address, before, after, deadline }: Said): string {
  const change =
    after === null
      ? `We cannot come to ${address} on ${before}, and I would like to agree on another time with you now.`
      : `Our visit to ${address} was to begin on ${before}. We would come on ${after} instead. Does that suit you?`;
  const hurry = deadline === null ? '' : ` I know that you have to object by ${deadline}; we will keep to that.`;
  return `${client === null ? 'Good day' : `Good day, ${client}`}, this is ${firm}. ${WHY[kind]} ${change}${hurry} I am sorry for the trouble.`;
}

/** In the mail of a visit that moves because of the weather. */
export const weatherSaid = (reason: string): string =>
  `We cannot come at the old time because of the weather (${reason}). Nothing is charged for this change.`;
