// Judged from the raw data with none of the engine's code: outside providers, and people in training without a license.
import type { PersonInput, StartQuery } from '@backsight/scheduling/world';

/** In training, and the rule pack lets him be the second without the license. */
export const unlicensed = (p: PersonInput): boolean => p.trainee && p.unlicensedSecond !== undefined;

/** Each outside service has somebody with valid papers who is nowhere else at any minute of his part of the visit. */
export function outsideComes(q: StartQuery, day: string, start: number): boolean {
  return (q.outside ?? []).every(({ providers }) =>
    providers.some((one) => {
      if ([one.licensedUntil, one.insuredUntil].some((until) => until !== null && until < day)) return false;
      for (let minute = start + one.offset; minute < start + one.offset + one.minutes; minute += 1)
        if (one.busy.some((busy) => busy.day === day && busy.start <= minute && minute < busy.end)) return false;
      return true;
    }),
  );
}
