// A firm may have stayed with any earlier version: from the schema of each of them, with rows in every table that it had, to this one in one go.
import { expect, it } from 'vitest';
import { readMigrations } from '@backsight/store/migrate';
import { bringsUp, doesNotHold } from '../support/broughtUp.ts';
import { testService } from '../support/database.ts';
import { ALL, firmOfToday, walkReleases } from '../support/releases.ts';

const NOW = new Date('2026-05-13T16:30:00Z');
const today = testService();

it('every earlier schema, with data, comes to this one', { timeout: 1_800_000 }, async () => {
  const { rows, left } = await firmOfToday(today, NOW, 16);
  expect(left, 'every table holds a row').toEqual([]);
  const known = await doesNotHold(today.database);
  const all = [...rows.values()].reduce((sum, { length }) => sum + length, 0);
  const shares: string[] = [];
  const begun = performance.now();
  await walkReleases(rows, async (change, held, bringUp) => {
    shares.push(`${change.slice(0, 4)} (${((performance.now() - begun) / 1000).toFixed(0)} s) ${((100 * held) / all).toFixed(1)} %`);
    expect(held / all, `share of the rows that fit at ${change}`).toBeGreaterThan(0.9);
    await bringUp((url) => bringsUp(url, change, NOW, known));
  });
  console.log(`rows held at each schema, of ${all}: ${shares.join(', ')}`);
  expect(shares).toHaveLength(readMigrations(ALL).length - 1);
});
