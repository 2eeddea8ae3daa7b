// Why a day is not offered: the reasons, and the nearest thing that would make it possible.
import { describe, expect, it } from 'vitest';
import { explainDay } from '@backsight/scheduling/explainDay';
import { MON, person, PORT_ANSEL, query, TUE, visit, world } from './cast.ts';

describe('explainDay', () => {
  it('tells how many people fall away where when no single limit explains the day', () => {
    const people = [
      person('ann', { off: [{ day: TUE, start: 0, end: 1440, why: 'vacation' }] }),
      person('ben', { shifts: [] }),
      person('cal', { licensedUntil: null, off: [{ day: TUE, start: 0, end: 1440, why: 'vacation' }] }),
      person('dot'),
    ];
    const busy = [visit('v1', ['dot', 'eve'], 570, 930)];
    expect(explainDay(world({ people, busy }), query(), TUE).reasons).toEqual([
      'Of 4 people 1 does not work, 1 may not be sent, 1 is away or booked all day, 1 has no gap long enough for the visit and its driving; two are needed.',
    ]);
    const off = world({ people: ['ann', 'ben'].map((name) => person(name, { shifts: [] })) });
    expect(explainDay(off, query(), TUE).reasons).toEqual(['Nobody works on that day.']);
  });

  it('offers the nearest thing possible with its start', () => {
    const busy = [visit('v1', ['ann', 'ben'], 480, 870)];
    const why = explainDay(world({ busy }), query(), TUE);
    expect(why.reasons).toEqual(['The free time is less than 30 min too short for the visit.']);
    expect(why.nearest).toMatchObject({ relaxed: 'Possible if the visit is 30 min shorter', option: { start: 870, end: 1020 } });
  });

  it('of several changes the cheapest is offered', () => {
    const people = [
      person('ann'),
      person('ben', { base: PORT_ANSEL, missingAcknowledgements: [{ revision: 'revision 7', afterDay: MON }] }),
      person('cal', { qualifications: [] }),
    ];
    const given = world({ people, pairRules: [{ kind: 'never_together', a: 'ann', b: 'cal' }] });
    const why = explainDay(given, query({ days: [TUE] }), TUE);
    expect(why.reasons).toEqual([
      'Ben Cole has not acknowledged revision 7.',
      'The people who are free may not go together under the pairing rules.',
    ]);
    expect(why.nearest).toMatchObject({ relaxed: 'Possible if a pairing rule is lifted', option: { first: 'ann', second: 'cal' } });
  });

  it('names only people whom the one rule keeps away', () => {
    const late = { missingAcknowledgements: [{ revision: 'revision 7', afterDay: MON }] };
    const people = [
      person('ann'),
      person('ben', late),
      person('cal', { ...late, shifts: [] }),
      person('dot', { ...late, licensedUntil: null }),
    ];
    expect(explainDay(world({ people }), query(), TUE).reasons).toEqual(['Ben Cole has not acknowledged revision 7.']);
  });

  it('names hours that were asked too narrow', () => {
    const why = explainDay(world({ busy: [visit('v1', ['ann', 'ben'], 480, 700)] }), query({ latestEnd: 720 }), TUE);
    expect(why.reasons).toEqual(['Nobody is free between 8:00 AM and 12:00 PM; at other hours there is a start.']);
    expect(why.nearest?.option.start).toBeGreaterThanOrEqual(700);
  });

  it('never proposes to go without a license', () => {
    expect(explainDay(world({ people: [person('ann'), person('ben', { licensedUntil: null })] }), query(), TUE).nearest).toBeUndefined();
  });
});
