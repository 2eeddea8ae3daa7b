// How a visit ended, in words. By itself, since pages of the office say it that know nothing else of a record.
export const ENDINGS = {
  complete: 'complete',
  refused_at_the_door: 'refused at the door',
  nobody_came: 'nobody came',
  stopped_for_safety: 'stopped by the pair for safety',
  stopped_by_client: 'stopped by the client',
} as const;
export type EndedAs = keyof typeof ENDINGS;

/** Ended otherwise than complete, which is for good: the steps that were not reached are asked of nobody any more. */
export const endedEarly = (endedAs: EndedAs | null): boolean => endedAs !== null && endedAs !== 'complete';
