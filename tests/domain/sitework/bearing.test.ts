// Which systems an act of the pair bears on.
import { expect, it } from 'vitest';
import type { ActWords, KnownAct, SiteAct } from '@backsight/domain/sitework/act';
import { bearings } from '@backsight/domain/sitework/bearing';
import { anAct } from './parts.ts';

const step = (stepKey: string, system: string, more = {}) => ({ stepKey, system, per: 'property', itemId: null, ...more });
const STEPS = [
  step('roof-covering', 'roof', { place: 'roof' }),
  step('crawl-space-inside', 'structure', { place: 'crawl_space' }),
  step('insects-below', 'wood_insects', { place: 'crawl_space' }),
  step('ground-fault-trip-reset', 'electrical', { itemId: 'bath' }),
  step('floors-walked', 'structure'),
];
const changed = anAct({ do: 'changed', thing: 'thermostat' });
const light = anAct({ do: 'changed', thing: 'light' });
const outlet = anAct({ do: 'outlet', device: 'bath', outlet: 'o1', reached: true, runs: null });
const inside = anAct({ do: 'went_in', place: 'crawl_space', backBy: '2026-05-12T18:00:00Z' });
const before: KnownAct[] = [changed, light, outlet, inside];

it.each<[string, SiteAct, readonly string[] | null]>([
  ['arrival on all', { do: 'arrival', there: 'adult', animals: 'none', recording: 'none', inView: [] }, null],
  ['danger on all', { do: 'danger', what: 'gas', house: 'told', called: true }, null],
  ['damage on all', { do: 'damage', what: 'damage', safety: false }, null],
  [
    'a stop list on the systems with steps at its place',
    { do: 'hazard_look', place: 'crawl_space', item: null, stops: [] },
    ['structure', 'wood_insects'],
  ],
  ['one at a place without steps on none', { do: 'hazard_look', place: 'attic', item: null, stops: [] }, []],
  ['coming out on where one had gone in', { do: 'came_out', of: inside.id }, ['structure', 'wood_insects']],
  ['a test on the system of its device', { do: 'reset', device: 'bath', resets: true }, ['electrical']],
  ['putting back on what was changed', { do: 'put_back', of: changed.id }, ['heating', 'cooling']],
  ['putting back what may be anywhere on all', { do: 'put_back', of: light.id }, null],
  ['telling on what it was told of', { do: 'told', of: ['o1', changed.id, 'bath'] }, ['electrical', 'heating', 'cooling']],
  ['telling of something that may be anywhere on all', { do: 'told', of: ['o1', light.id] }, null],
  ['settling on the system of the step', { do: 'settled', stepKey: 'floors-walked', item: null }, ['structure']],
  ['putting back what nobody knows of on all', { do: 'put_back', of: 'gone' }, null],
])('bears: %s', (_, act, systems) => {
  const known = anAct(act, 'ann', {} as ActWords);
  expect(bearings([...before, known], STEPS).find((one) => one.known === known)?.systems).toEqual(systems);
});

it('keeps the order of the record', () => {
  const [first, second] = [anAct({ do: 'changed', thing: 'light' }), anAct({ do: 'changed', thing: 'hatch' })];
  expect(bearings([second, first], STEPS).map(({ known }) => known)).toEqual([first, second]);
});
