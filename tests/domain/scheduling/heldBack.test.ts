// Who is left out until a changed procedure is read: said once for each, quiet for everybody else.
import { describe, expect, it } from 'vitest';
import { heldBack } from '@backsight/scheduling/heldBack';
import { MON, person, TUE, WED } from './cast.ts';

const waiting = (afterDay: string, more = {}) =>
  person('ben', { missingAcknowledgements: [{ revision: 'Electrical, revision 2', afterDay }], ...more });
const SENTENCE = 'Ben Cole has not acknowledged Electrical, revision 2: not offered after';

describe('heldBack', () => {
  it.each([
    ['says it when the time has run out', [waiting(MON)], [TUE, WED], [`${SENTENCE} Mon, Jul 13.`]],
    ['says it when the time runs out among the days', [waiting(TUE)], [TUE, WED], [`${SENTENCE} Tue, Jul 14.`]],
    ['stays quiet while the last of the days is still within the time', [waiting(WED)], [TUE, WED], []],
    ['stays quiet about everybody who has acknowledged', [person('ann'), person('ben')], [TUE, WED], []],
    ['stays quiet about people in training, who are not offered anyway', [waiting(MON, { trainee: true })], [TUE, WED], []],
    ['stays quiet about no days', [waiting(MON)], [], []],
  ])('%s', (_, people, days, sentences) => {
    expect(heldBack(people, days)).toEqual(sentences);
  });
});
