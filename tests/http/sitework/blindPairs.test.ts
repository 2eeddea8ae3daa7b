// Blind pairs of answers, of which agreement is counted: by hand, and by a plain count over the same rows.
import { beforeAll, expect, it } from 'vitest';
import type { Evidence } from '@backsight/domain/procedures/step';
import { blindPairs, type BlindPair } from '@backsight/store/sitework/rules';
import { testApi } from '../../support/http.ts';
import {
  closedByDanger,
  couldNot,
  lookedAt,
  notReached,
  read,
  saw,
  twoRevisions,
  type LookedAt,
  type Said,
} from '../../support/lookedTwice.ts';
import { withStarter } from '../../support/starter.ts';
import { everyRow, plainPairs } from '../callbacks/plainCount.ts';

const api = testApi();
withStarter(api);

const [FLUE, WATER] = ['heater-flue', 'heater-water'] as const;
const flue: Evidence = {
  kind: 'choice',
  options: [
    { key: 'sound', label: 'Sound' },
    { key: 'rust', label: 'Rusted' },
  ],
};
const water: Evidence = { kind: 'reading', unit: '°F' };
/** Revisions have different steps, or there would be nothing to revise. */
const REVISIONS = [
  { [FLUE]: flue, [WATER]: water },
  { [FLUE]: flue, [WATER]: { ...water, expectedTo: 120 } },
];

const flueOf = (day: number, anna: Said[], ben: Said[], more: Partial<LookedAt> = {}): LookedAt => ({
  ...{ day, pair: ['anna', 'ben'], revision: 1, places: [{ step: FLUE, says: { anna, ben } }] },
  ...more,
});
const [sound, rust] = [saw('sound'), saw('rust')];

const RECORDS: LookedAt[] = [
  flueOf(1, [sound], [sound]),
  flueOf(2, [sound], [sound], { revision: 2 }),
  flueOf(3, [sound], [rust, sound]), // settled with the partner afterwards
  flueOf(4, [rust], [sound], { pair: ['ben', 'anna'] }), // ben is the first there
  flueOf(5, [sound], [couldNot, sound]), // looked after all, when the partner's answer was shown
  flueOf(6, [sound], [couldNot]),
  flueOf(7, [sound], [notReached, sound]), // came in after the visit had ended
  flueOf(8, [sound], [notReached]),
  flueOf(9, [closedByDanger, rust], [closedByDanger, rust]),
  flueOf(10, [rust], [closedByDanger, rust]),
  flueOf(11, [rust], [rust], { open: true }),
  flueOf(12, [sound], [rust], { places: [{ step: FLUE, once: true, says: { anna: [sound], ben: [rust] } }] }),
  flueOf(13, [], [], { places: [{ step: WATER, says: { anna: [read(118)], ben: [read(118)] } }] }),
  flueOf(100, [rust], [rust]), // in July
];

beforeAll(async () => {
  const revisions = await twoRevisions(api, REVISIONS);
  for (const record of RECORDS) await lookedAt(api, record, revisions);
});

it('are the first words of both where each was an answer; what came after another word is not blind', async () => {
  const pair = (quarter: string, first: string, second: string, count = 1): BlindPair => ({
    ...{ system: 'plumbing', quarter, stepKey: FLUE, nothing: 'sound' },
    ...{ first, second, count },
  });
  const found = await blindPairs(api.database.read);
  expect(found).toEqual([
    pair('2026 Q2', 'sound', 'rust', 2), // days 3 and 4
    pair('2026 Q2', 'sound', 'sound', 2), // days 1 and 2
    pair('2026 Q3', 'rust', 'rust'),
  ]);
  const plain = plainPairs(await everyRow(api.database.read));
  expect(plain).toEqual(expect.arrayContaining(found));
  expect(plain).toHaveLength(found.length);
});
