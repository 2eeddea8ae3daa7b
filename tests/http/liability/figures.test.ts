// The sums that the liability pages read: as of any day they are what was known on that day, and the same however they were made.
import { randomUUID } from 'node:crypto';
import { expect, it } from 'vitest';
import { figures, GROUPINGS, stepFigures, type Figure, type StepFigure } from '@backsight/store/liability/figures';
import { rebuildFigures, rebuildFiguresAtNight } from '@backsight/usecases/liability/figures';
import { testApi } from '../../support/http.ts';
import { withStarter } from '../../support/starter.ts';
import { concluded, on, received, visited, type Visited } from '../callbacks/support.ts';

const api = testApi();
withStarter(api);
const ALL = ['jobs', 'fees', 'callbacks', 'failures', 'paid', 'reserved', 'recovered'] as const;
const at = (iso: string): Date => (api.clock.now = new Date(iso));
const sums = (asOf?: Date): Promise<Figure[]> => figures(api.database.read, { grouping: 'all', measures: ALL, ...(asOf ? { asOf } : {}) });
const total = (rows: readonly Figure[], measure: string): number =>
  rows.filter((row) => row.measure === measure).reduce((sum, { amount }) => sum + amount, 0);
const everything = async (): Promise<{ all: Figure[]; groups: Map<string, Figure[]>; steps: StepFigure[] }> => {
  const groups = new Map<string, Figure[]>();
  for (const grouping of GROUPINGS) groups.set(grouping, await figures(api.database.read, { grouping, measures: ALL }));
  return { all: groups.get('all')!, groups, steps: await stepFigures(api.database.read) };
};
const night = () => ({ database: api.database, clock: () => api.clock.now });
const seen = new Map<string, Figure[]>();
const remember = async (iso: string) => void seen.set(iso, await sums());
let first: Visited;

it('count jobs, callbacks, failures and cents as they become known', async () => {
  at('2026-04-28T15:00:00Z');
  first = await visited(api);
  await remember('2026-04-30T12:00:00Z');
  at('2026-05-12T15:00:00Z');
  const id = await concluded(api, first);
  await received(api, first, { kind: 'near_miss', partyId: undefined });
  await received(api, first, { kind: 'question' });
  await on(api, 'lead', id, 'reserve', { cents: 40_000, words: 'Food' });
  const rows = await sums();
  expect(['jobs', 'callbacks', 'failures', 'reserved', 'paid'].map((one) => total(rows, one))).toEqual([1, 1, 1, 40_000, 0]);
  expect(rows.find(({ measure }) => measure === 'callbacks')).toMatchObject({ origin: '2026-04', known: '2026-05' });
  await remember('2026-05-13T12:00:00Z');

  at('2026-05-20T15:00:00Z');
  const twin = await received(api, first);
  const link = await on(api, 'office', twin, 'link', { link: { kind: 'duplicate', to: id }, words: 'The same freezer' });
  expect(link.status, JSON.stringify(link.body)).toBeLessThan(300);
  await on(api, 'lead', id, 'conclusion', { conclusionId: randomUUID(), cause: 'arose_later', words: 'The outage was the utility.' });
  expect(['callbacks', 'failures'].map((one) => total(seen.get('2026-05-13T12:00:00Z')!, one))).toEqual([1, 1]);
  const after = await sums();
  expect(['callbacks', 'failures'].map((one) => total(after, one))).toEqual([1, 0]);
  await remember('2026-05-21T12:00:00Z');
  at('2026-06-02T15:00:00Z');
  await on(api, 'lead', id, 'reserve', { cents: 15_000, words: 'Less than feared' });
  await remember('2026-06-03T12:00:00Z');
  expect(total(await sums(), 'reserved')).toBe(15_000);
});
it.each(['before', 'after'])('say as of a past day what was known on it, %s they are made anew', async (when) => {
  at('2026-06-04T12:00:00Z');
  if (when === 'after') await rebuildFigures(night());
  for (const [iso, rows] of seen) expect(await sums(new Date(iso)), iso).toEqual(rows);
});
it('are the same made live, made at night, and made at night with a day on top', async () => {
  await api.database.transaction((tx) => tx.rows("UPDATE figure_state SET until = '-infinity', steps_until = '-infinity' RETURNING id"));
  await api.database.transaction((tx) => tx.rows('DELETE FROM figure RETURNING 1'));
  await api.database.transaction((tx) => tx.rows('DELETE FROM step_figure RETURNING 1'));
  const live = await everything();
  expect(live.groups.get('step')!.length + live.groups.get('pair_mix')!.length + live.steps.length).toBeGreaterThan(20);
  await rebuildFigures(night(), true);
  expect(await everything()).toEqual(live);
  await received(api, first, { kind: 'missed', words: 'Another one.' });
  const topped = await everything();
  expect(total(topped.all, 'callbacks')).toBe(total(live.all, 'callbacks') + 1);
  at('2026-06-05T07:00:00Z'); // two in the morning in Wisconsin: not yet
  await rebuildFiguresAtNight(night());
  expect(await api.database.read.rows('SELECT until FROM figure_state')).toEqual([{ until: new Date('2026-06-04T05:00:00Z') }]);
  at('2026-06-05T08:00:00Z');
  await rebuildFiguresAtNight(night());
  expect(await api.database.read.rows('SELECT until FROM figure_state')).toEqual([{ until: new Date('2026-06-05T05:00:00Z') }]);
  expect(await everything()).toEqual(topped);
});
