// Tag: time.
// Who is on call and who is alerted next, as tables.
import { describe, expect, it } from 'vitest';
import { chainAt, checkDuty, nextToAlert, onCallAt, uncovered, type Duty, type OnCallFacts } from '@backsight/domain/callbacks/onCall';

const WEEK = [1, 2, 3, 4, 5];
const duty = (personId: string, more: Partial<Duty> = {}): Duty => ({
  ...{ personId, on: true, position: 1, weekdays: WEEK, startMinute: 1020, endMinute: 480, fromDay: '2026-01-01', untilDay: null },
  ...more,
});
const facts = (more: Partial<OnCallFacts> = {}): OnCallFacts => ({
  people: [
    { id: 'olive', roles: ['owner'] },
    { id: 'lena', roles: ['lead_inspector', 'inspector'] },
    { id: 'anna', roles: ['inspector'] },
    { id: 'ben', roles: ['inspector'] },
  ],
  duties: [duty('anna'), duty('ben', { position: 2, weekdays: [1, 2, 3, 4, 5, 6, 7], startMinute: 0, endMinute: 1440 })],
  absent: new Set(),
  zone: 'America/Chicago',
  ...more,
});
const off = duty('anna', { on: false, fromDay: '2026-05-13', untilDay: '2026-05-13' });

describe('on call', () => {
  // Tuesday May 12, 2026; Chicago is five hours behind UTC.
  it.each<[string, string, Partial<OnCallFacts>, string[]]>([
    ['in the evening', '2026-05-12T23:00:00Z', {}, ['anna', 'ben']],
    ['after midnight', '2026-05-13T07:00:00Z', {}, ['anna', 'ben']],
    ['at eight the night is over', '2026-05-13T13:00:00Z', {}, ['ben']],
    ['Friday night reaches into Saturday', '2026-05-16T07:00:00Z', {}, ['anna', 'ben']],
    ['Saturday evening is not theirs', '2026-05-16T23:30:00Z', {}, ['ben']],
    ['early on Monday belongs to Sunday', '2026-05-18T07:00:00Z', {}, ['ben']],
    ['somebody away', '2026-05-12T23:00:00Z', { absent: new Set(['anna']) }, ['ben']],
    ['somebody who left', '2026-05-12T23:00:00Z', { people: [{ id: 'ben', roles: [] }] }, ['ben']],
    ['an exception, the evening before', '2026-05-12T23:00:00Z', { duties: [duty('anna'), off] }, ['anna']],
    ['an exception, that evening', '2026-05-13T23:00:00Z', { duties: [duty('anna'), off] }, []],
    ['an exception, after that midnight', '2026-05-14T07:00:00Z', { duties: [duty('anna'), off] }, []],
    ['before it begins', '2026-05-12T23:00:00Z', { duties: [duty('anna', { fromDay: '2026-05-13' })] }, []],
    ['on its last night', '2026-05-13T07:00:00Z', { duties: [duty('anna', { untilDay: '2026-05-12' })] }, ['anna']],
    ['after its last night', '2026-05-13T23:00:00Z', { duties: [duty('anna', { untilDay: '2026-05-12' })] }, []],
    ['in the hour that comes twice', '2026-11-01T06:30:00Z', { duties: [duty('anna', { weekdays: [6] })] }, ['anna']],
  ])('%s', (_name, at, more, ids) => expect(onCallAt(facts(more), at)).toEqual(ids));

  const evening = '2026-05-12T23:00:00Z';
  it.each<[string, Partial<OnCallFacts>, boolean, string[]]>([
    ['on call, then owners', {}, false, ['anna', 'ben', 'olive']],
    ['nobody on call: owners, then leads', { duties: [] }, false, ['olive', 'lena']],
    ['for the owner alone', {}, true, ['olive']],
    ['an owner on call comes once', { duties: [duty('olive'), duty('anna', { position: 2 })] }, false, ['olive', 'anna']],
  ])('chain: %s', (_name, more, ownerOnly, ids) => expect(chainAt(facts(more), evening, ownerOnly)).toEqual(ids));

  it.each<[string[], string[], string | null]>([
    [['a', 'b', 'o'], [], 'a'],
    [['a', 'b', 'o'], ['a'], 'b'],
    [['a', 'b', 'o'], ['a', 'b'], 'o'],
    [['a', 'b', 'o'], ['a', 'b', 'o'], 'a'],
    [['a', 'b', 'o'], ['a', 'b', 'o', 'a'], 'b'],
    [['c', 'o'], ['a', 'b'], 'c'],
    [[], ['a'], null],
  ])('of %j after %j: %j', (chain, alerted, next) => expect(nextToAlert(chain, alerted)).toBe(next));

  it('finds the hours of the coming day in which nobody is on call, and none where somebody always is', () => {
    expect(uncovered(facts({ duties: [duty('anna')] }), '2026-05-12T15:07:00Z')).toEqual([
      { from: '2026-05-12T15:00:00.000Z', to: '2026-05-12T22:00:00.000Z' },
      { from: '2026-05-13T13:00:00.000Z', to: '2026-05-13T15:00:00.000Z' },
    ]);
    expect(uncovered(facts(), '2026-05-12T15:07:00Z')).toEqual([]);
  });
  it.each<[string, Duty, { endedOn: string | null } | null, string]>([
    ['a line', duty('anna'), { endedOn: null }, 'yes'],
    ['nobody', duty('x'), null, 'not-found'],
    ['somebody who left', duty('anna'), { endedOn: '2026-01-01' }, 'not-found'],
    ['no day', duty('anna', { weekdays: [] }), { endedOn: null }, 'on-call-no-day'],
    ['days backwards', duty('anna', { untilDay: '2025-12-31' }), { endedOn: null }, 'days-backwards'],
  ])('%s: %s', (_name, line, person, answer) => {
    const may = checkDuty(line, person);
    expect(may.ok ? 'yes' : may.code).toBe(answer);
  });
});
