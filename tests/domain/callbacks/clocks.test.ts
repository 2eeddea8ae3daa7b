// Tag: time.
// Clocks of callbacks as tables: which run, what moves them, how long they are, and pauses counted minute by minute.
// Days of holidays: 5 U.S.C. 6103; the clock changes on 2026-03-08 and 2026-11-01 (15 U.S.C. 260a); customary times: common practice.
import fc from 'fast-check';
import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import {
  clocksAtReception,
  CLOCKS_OF,
  dueOf,
  mayKeepTerm,
  movesOf,
  termAt,
  type Clock,
  type ClockEvent,
  type DatedTerm,
  type Unit,
} from '@backsight/domain/callbacks/clocks';
import { checkPaper, mayTick, reminderDue } from '@backsight/domain/callbacks/legal';
import { dueAfterPause, mayPause } from '@backsight/domain/callbacks/pause';
import { checkInjury, reportDue, type Injury } from '@backsight/domain/callbacks/workInjury';
import type { Kind } from '@backsight/domain/callbacks/words';
import { federalHolidays, type BusinessCalendar } from '@backsight/domain/shared/calendar';

const said = (outcome: { ok: true } | { ok: false; code: string }) => (outcome.ok ? 'yes' : outcome.code);
const eight = { start: 480, end: 1020 };
const office: BusinessCalendar = {
  zone: 'America/Chicago',
  hours: { 1: eight, 2: eight, 3: eight, 4: eight, 5: { start: 480, end: 930 }, 6: null, 7: null },
  closedDays: [...federalHolidays(2026).map(({ day }) => day), '2026-08-14'],
};

describe('which clocks run', () => {
  it.each<[Kind, string, Clock[]]>([
    ['missed', 'somebody who looks', ['acknowledge', 'triage', 'decision']],
    ['missed', 'we want $9,400 back', ['acknowledge', 'triage', 'decision', 'insurer']],
    ['missed', 'about 900 dollars', ['acknowledge', 'triage', 'decision', 'insurer']],
    ['damage_or_injury', '', ['acknowledge', 'triage', 'decision', 'insurer']],
    ['conduct', 'an apology', ['acknowledge', 'triage', 'decision']],
    ['fee', '$ 87.50 back', ['acknowledge', 'triage', 'decision']],
    ['question', '', ['acknowledge', 'answer']],
    ['near_miss', '', []],
    ['board_complaint', '', ['insurer']],
    ['demand_or_suit', '', ['insurer']],
    ['records_request', '', ['insurer']],
  ])('a %s asking for "%s": %j', (kind, asked, clocks) => expect(clocksAtReception(kind, asked)).toEqual(clocks));

  const open = (kind: string, details?: Record<string, unknown>): ClockEvent => ({
    kind,
    from: 'looking_into',
    to: 'looking_into',
    ...(details ? { details } : {}),
  });
  it.each<[string, Kind, ClockEvent, string]>([
    ['acknowledged', 'missed', open('acknowledged'), 'meets acknowledge'],
    ['sorted at once', 'missed', open('looking_into'), 'meets acknowledge, triage'],
    ['a note', 'missed', open('note'), ''],
    ['the decision by mail', 'missed', open('note', { letter: 'decision' }), 'meets decision, answer'],
    ['a re-visit agreed', 'missed', open('remedy_agreed', { remedy: 'revisit' }), 'starts visit'],
    ['a re-visit agreed about conduct', 'conduct', open('remedy_agreed', { remedy: 'revisit' }), ''],
    ['a re-visit refused', 'missed', open('remedy_refused', { remedy: 'revisit' }), 'drops visit'],
    ['a re-visit done', 'missed', open('remedy_done', { remedy: 'revisit' }), 'meets visit'],
    ['money proposed', 'missed', open('remedy_proposed', { remedy: 'goodwill_payment' }), 'starts insurer'],
    ['money set aside', 'conduct', open('reserve_changed'), 'starts insurer'],
    ['money set aside about a fee', 'fee', open('reserve_changed'), ''],
    ['a supplement proposed', 'missed', open('remedy_proposed', { remedy: 'supplement' }), ''],
    ['the insurer told', 'missed', open('insurer_told'), 'meets insurer'],
    ["the insurer's consent", 'missed', open('cleared', { clearance: 'insurer_consent' }), 'meets insurer'],
    ["the owner's reason", 'missed', open('cleared', { clearance: 'owner_reason' }), ''],
    ['a question that is more', 'question', open('became_callback', { kind: 'missed' }), 'drops answer; starts triage, decision'],
    ['an answered question', 'question', { kind: 'answered', from: 'received', to: 'closed' }, 'meets acknowledge, answer; drops all'],
    ['closed', 'missed', { kind: 'closed', from: 'concluded', to: 'closed' }, 'meets acknowledge, triage, answer, decision; drops all'],
    ['a duplicate', 'missed', { kind: 'linked', from: 'received', to: 'closed' }, 'drops all'],
    ['a wrong link taken back', 'missed', { kind: 'unlinked', from: 'closed', to: 'received' }, 'starts acknowledge, triage, decision'],
    ['opened again', 'missed', { kind: 'reopened', from: 'closed', to: 'looking_into' }, 'starts decision'],
  ])('%s', (_name, kind, event, words) => {
    const { meets, drops, starts } = movesOf(kind, event, '');
    const say = (verb: string, clocks: readonly Clock[]): string[] =>
      clocks.length === 0 ? [] : [`${verb} ${clocks.length === 6 ? 'all' : clocks.join(', ')}`];
    expect([...say('meets', meets), ...say('drops', drops), ...say('starts', starts)].join('; ')).toBe(words);
  });
});

describe('how long they are', () => {
  const set = (amount: number, fromAt: string): DatedTerm => ({
    ...{ kind: 'missed', clock: 'decision', amount, unit: 'businessDays', source: 'our handbook', fromAt },
  });
  const terms = [set(12, '2026-03-01T06:00:00Z'), set(9, '2026-05-01T05:00:00Z')];
  it.each([
    ['2026-02-01T12:00:00Z', 15],
    ['2026-03-01T06:00:00Z', 12],
    ['2026-04-30T12:00:00Z', 12],
    ['2026-05-01T05:00:00Z', 9],
  ])('received at %s the decision has %i business days', (at, amount) =>
    expect(termAt(terms, 'missed', 'decision', at).amount).toBe(amount),
  );
  it('keeps other kinds as they are, and gives a legal paper less time until the insurer is told', () => {
    const at = '2026-06-01T12:00:00Z';
    expect(termAt(terms, 'conduct', 'decision', at).amount).toBe(15);
    expect(termAt([], 'missed', 'insurer', at)).toMatchObject({
      amount: 5,
      unit: 'days',
      source: expect.stringMatching(/as soon as practicable/),
    });
    expect(termAt([], 'demand_or_suit', 'insurer', at)).toMatchObject({ amount: 1, unit: 'businessDays' });
  });
  it.each<[Kind | '', string, number, Unit, string]>([
    ['missed', 'decision', 15, 'businessDays', 'yes'],
    ['missed', 'acknowledge', 240, 'businessMinutes', 'yes'],
    ['missed', 'decision', 0, 'businessDays', 'clock-amount'],
    ['missed', 'decision', -2, 'businessDays', 'clock-amount'],
    ['missed', 'decision', 1.5, 'businessDays', 'clock-amount'],
    ['missed', 'decision', 251, 'businessDays', 'clock-amount'],
    ['missed', 'decision', 15, 'days', 'clock-unit'],
    ['missed', 'insurer', 5, 'days', 'yes'],
    ['fee', 'visit', 5, 'businessDays', 'clock-not-of-kind'],
    ['near_miss', 'acknowledge', 1, 'businessDays', 'clock-not-of-kind'],
    ['demand_or_suit', 'decision', 15, 'businessDays', 'clock-not-of-kind'],
    ['', 'on_call', 10, 'minutes', 'yes'],
    ['', 'on_call', 10, 'businessMinutes', 'clock-unit'],
    ['', 'decision', 10, 'businessDays', 'clock-not-of-kind'],
    ['missed', 'on_call', 10, 'minutes', 'clock-not-of-kind'],
  ])('%s, %s of %d %s: %s', (kind, clock, amount, unit, answer) =>
    expect(said(mayKeepTerm(kind, clock as Clock, { amount, unit }))).toBe(answer),
  );
  it('counts from the reception, over a weekend and Memorial Day', () => {
    const due = (clock: Clock) => dueOf(termAt([], 'missed', clock, '2026-05-21T20:00:00Z'), '2026-05-21T20:00:00Z', office);
    expect(CLOCKS_OF.missed.map((clock) => `${clock} ${due(clock)}`)).toEqual([
      'acknowledge 2026-05-22T20:30:00.000Z', // Friday, closing time 3:30 PM
      'triage 2026-05-26T22:00:00.000Z', // Tuesday: Monday, May 25, is Memorial Day
      'visit 2026-06-05T20:30:00.000Z',
      'decision 2026-06-12T20:30:00.000Z',
      'insurer 2026-05-27T04:59:59.999Z',
    ]);
  });
});

describe('pauses', () => {
  const now = '2026-06-02T15:00:00Z';
  const runs = (clock: Clock, dueAt = '2026-06-10T22:00:00Z') => ({ clock, startedAt: '2026-05-20T15:00:00Z', dueAt });
  it.each<[string, Parameters<typeof mayPause>[0], string]>([
    ['decision runs', { state: 'looking_into', paused: false, clocks: [runs('decision')] }, 'yes'],
    ['visit runs', { state: 'concluded', paused: false, clocks: [runs('visit')] }, 'yes'],
    ['it stands still already', { state: 'looking_into', paused: true, clocks: [runs('decision')] }, 'pause-open-already'],
    ['it is closed', { state: 'closed', paused: false, clocks: [runs('decision')] }, 'callback-state'],
    [
      'only what never waits runs',
      { state: 'received', paused: false, clocks: [runs('acknowledge'), runs('triage'), runs('answer'), runs('insurer')] },
      'nothing-stands-still',
    ],
    ['it is overdue', { state: 'looking_into', paused: false, clocks: [runs('decision', now)] }, 'nothing-stands-still'],
  ])('%s', (_name, facts, answer) => expect(said(mayPause(facts, now))).toBe(answer));

  it('moves the clocks that stood still by the office time that passed, and no other', () => {
    const clocks = [runs('triage'), runs('decision'), { ...runs('visit'), startedAt: '2026-06-03T20:00:00Z' }, runs('insurer')];
    const pause = { from: '2026-06-03T15:00:00Z', to: '2026-06-04T15:00:00Z' };
    expect(dueAfterPause(clocks, pause, office).map(({ clock, dueAt }) => `${clock} ${dueAt}`)).toEqual([
      'decision 2026-06-11T22:00:00.000Z', // a whole office day of nine hours
      'visit 2026-06-11T17:00:00.000Z', // four hours: two until it closes, two after it opens
    ]);
  });

  // Every minute of the year on the wall clock of the office, counted on its own: 1 while it is open.
  const [FIRST, LAST] = [Date.parse('2026-02-20T00:00:00Z'), Date.parse('2027-01-31T00:00:00Z')];
  const openBefore = [0];
  for (let hour = FIRST; hour < LAST; hour += 3_600_000) {
    const offset = DateTime.fromMillis(hour, { zone: office.zone }).offset * 60_000;
    for (let at = hour; at < hour + 3_600_000; at += 60_000) {
      const wall = new Date(at + offset); // read as UTC, this is the wall clock
      const span = office.hours[(wall.getUTCDay() || 7) as 1];
      const minute = wall.getUTCHours() * 60 + wall.getUTCMinutes();
      const closed = !span || minute < span.start || minute >= span.end || office.closedDays.includes(wall.toISOString().slice(0, 10));
      openBefore.push(openBefore.at(-1)! + (closed ? 0 : 1));
    }
  }
  const at = (iso: string): number => (Date.parse(iso) - FIRST) / 60_000;
  const openMinutes = (from: string, to: string): number => openBefore[at(to)]! - openBefore[at(from)]!;

  it('never lose or gain an office minute, over both changes of the clock and holidays', () => {
    const minutes = (most: number) => fc.integer({ min: 0, max: most });
    const later = (iso: string, by: number): string => new Date(Date.parse(iso) + by * 60_000).toISOString();
    const start = fc.integer({ min: 0, max: 260 * 1440 }).map((minute) => new Date(FIRST + minute * 60_000).toISOString());
    fc.assert(
      fc.property(
        start,
        fc.integer({ min: 1, max: 15 }),
        fc.array(fc.tuple(minutes(4000), minutes(9000)), { maxLength: 4 }),
        (from, days, waits) => {
          const first = dueOf({ amount: days, unit: 'businessDays', source: '' }, from, office);
          let [dueAt, clock, stood] = [first, from, 0];
          for (const [wait, length] of waits) {
            const pause = { from: later(clock, wait), to: later(clock, wait + length) };
            const [moved] = dueAfterPause([{ clock: 'decision', startedAt: from, dueAt }], pause, office);
            if (moved) [dueAt, stood] = [moved.dueAt, stood + openMinutes(pause.from, pause.to)];
            clock = pause.to;
          }
          expect(openMinutes(from, dueAt) - stood).toBe(openMinutes(from, first));
          expect(dueAt >= first).toBe(true);
        },
      ),
      { numRuns: 40 },
    );
  });
});

describe('legal papers', () => {
  it.each([
    ['2026-06-01', '2026-05-17', null],
    ['2026-06-01', '2026-05-18', 14],
    ['2026-06-01', '2026-05-24', 14],
    ['2026-06-01', '2026-05-25', 7],
    ['2026-06-01', '2026-05-30', 3],
    ['2026-06-01', '2026-05-31', 1],
    ['2026-06-01', '2026-06-01', 0],
    ['2026-06-01', '2026-06-09', -1],
  ])('due %s, looked at on %s: %j', (deadline, today, days) => expect(reminderDue(deadline, today)).toBe(days));
  it.each([
    ['demand_or_suit', '2026-05-12', '2026-06-01', 'yes'],
    ['demand_or_suit', '2026-05-12', '2026-05-11', 'deadline-before-service'],
    ['demand_or_suit', '2026-05-13', '2026-06-01', 'in-the-future'],
    ['missed', '2026-05-12', '2026-06-01', 'no-legal-paper'],
  ] as const)('%s served %s, due %s: %s', (kind, servedOn, deadlineOn, answer) =>
    expect(said(checkPaper(kind, { servedOn, deadlineOn }, '2026-05-12'))).toBe(answer),
  );
  it.each([
    ['records_request', 'hold', '2026-05-12', [], 'yes'],
    ['records_request', 'hold', '2026-05-12', ['hold'], 'ticked-already'],
    ['records_request', 'hold', '2026-05-09', [], 'before-service'],
    ['records_request', 'hold', '2026-05-13', [], 'in-the-future'],
    ['fee', 'hold', '2026-05-12', [], 'no-legal-paper'],
  ] as const)('%s, %s on %s with %j ticked: %s', (kind, item, day, ticked, answer) =>
    expect(said(mayTick({ kind, servedOn: '2026-05-10', today: '2026-05-12', ticked }, { item, day }))).toBe(answer),
  );
});

describe('injuries of own people, by 29 CFR 1904.39 from memory: real hours', () => {
  // Saturday evening to Sunday morning: no office is open, and the clock runs.
  it.each<[Injury, string, string, string | null]>([
    ['death', '2026-05-16T23:00:00Z', '2026-05-17T02:00:00Z', '2026-05-17T11:00:00.000Z'],
    ['in_patient', '2026-05-16T23:00:00Z', '2026-05-17T02:00:00Z', '2026-05-18T03:00:00.000Z'],
    ['amputation', '2026-05-16T23:00:00Z', '2026-05-16T23:00:00Z', '2026-05-18T03:00:00.000Z'],
    ['eye_loss', '2026-05-15T01:00:00Z', '2026-05-17T02:00:00Z', null],
    ['in_patient', '2026-05-16T02:00:00Z', '2026-05-17T02:00:00Z', '2026-05-18T03:00:00.000Z'],
    ['death', '2026-04-16T02:00:00Z', '2026-05-17T02:00:00Z', null],
  ])('%s of an accident at %s, come about at %s: %j', (what, happenedAt, outcomeAt, due) =>
    expect(reportDue({ what, happenedAt, outcomeAt, learnedAt: '2026-05-17T03:00:00Z' })).toBe(due),
  );
  it.each([
    ['damage_or_injury', ['01', '02', '03'], 'yes'],
    ['damage_or_injury', ['02', '01', '03'], 'injury-times-backwards'],
    ['damage_or_injury', ['01', '03', '02'], 'injury-times-backwards'],
    ['damage_or_injury', ['01', '02', '05'], 'injury-times-backwards'],
    ['missed', ['01', '02', '03'], 'no-injury-of-ours'],
  ] as const)('%s with hours %j: %s', (kind, hours, answer) => {
    const [happenedAt, outcomeAt, learnedAt] = hours.map((hour) => `2026-05-17T${hour}:00:00Z`) as [string, string, string];
    expect(said(checkInjury(kind, { what: 'death', happenedAt, outcomeAt, learnedAt }, '2026-05-17T04:00:00Z'))).toBe(answer);
  });
});
