// Marks of a drive: what makes sense, what is refused, what stays quiet.
import { describe, expect, it } from 'vitest';
import { mayMark } from '@backsight/domain/schedule/drive';

const at = (time: string) => new Date(`2026-05-12T${time}:00Z`);
const visit = (more: object = {}) => ({ state: 'booked', startsAt: at('14:00'), times: { setOut: null, arrived: null }, ...more });
const NOW = at('14:30');

describe('mayMark', () => {
  it.each([
    ['setting out', visit(), 'set_out', at('13:30')],
    ['arriving without having set out', visit(), 'arrived', at('13:58')],
    ['a device whose clock is a minute ahead', visit(), 'arrived', new Date(NOW.getTime() + 60_000)],
    [
      'correcting it while on site',
      visit({ state: 'on_site', times: { setOut: at('13:30'), arrived: at('13:58') } }),
      'set_out',
      at('13:20'),
    ],
    ['in the evening of the day', visit({ state: 'done' }), 'set_out', at('13:30')],
  ] as const)('accepts %s', (_, facts, kind, time) => expect(mayMark(facts, { kind, at: time }, NOW).ok).toBe(true));

  it.each([
    ['a time to come', visit(), 'set_out', at('15:00'), 'drive-ahead'],
    ['another day', visit(), 'set_out', new Date('2026-05-11T13:30:00Z'), 'drive-of-another-day'],
    ['arriving before setting out', visit({ times: { setOut: at('13:30'), arrived: null } }), 'arrived', at('13:29'), 'drive-backwards'],
    ['setting out after arriving', visit({ times: { setOut: null, arrived: at('13:58') } }), 'set_out', at('13:59'), 'drive-backwards'],
    ['a visit that is only held', visit({ state: 'held' }), 'set_out', at('13:30'), 'visit-is'],
  ] as const)('refuses %s', (_, facts, kind, time, code) =>
    expect(mayMark(facts, { kind, at: time }, NOW)).toMatchObject({ ok: false, code }),
  );
});
