// A firm that filed its properties before it was kept where their places come from.
import { randomUUID } from 'node:crypto';
import { expect, it } from 'vitest';
import { oldDatabase } from '../support/oldDatabase.ts';

const old = oldDatabase('0004');

it('takes a place for exact unless it is the middle of a town', async () => {
  await old.run(
    `INSERT INTO town (name, zip, lat, lon) VALUES ('Birchmere', '', 44.0312, -88.5407), ('Stony Ferry', '', 44.1101, -88.7002)`,
  );
  const places = [
    ['middle of its town', 'Birchmere', 44.0312, -88.5407],
    ['middle of another town', 'Birchmere', 44.1101, -88.7002],
    ['set by hand', 'Birchmere', 44.0313, -88.5407],
    ['on the line of two towns', 'Stony Ferry', 44.0312, -88.7002],
    ['town not on the list', 'Far Shore', 44.5, -88.1],
  ] as const;
  for (const [address, town, lat, lon] of places)
    await old.run(
      `INSERT INTO property (id, address, town, zip, address_key, lat, lon, recorded_at) VALUES ($1, $2, $3, '', $2, $4, $5, '2026-01-01')`,
      [randomUUID(), address, town, lat, lon],
    );
  expect(await old.bringUp()).toContain('0004_travel');
  expect(await old.rows('SELECT address, place_by, version FROM property ORDER BY address')).toEqual([
    ['middle of another town', 'town', 1],
    ['middle of its town', 'town', 1],
    ['on the line of two towns', 'exact', 1],
    ['set by hand', 'exact', 1],
    ['town not on the list', 'exact', 1],
  ]);
});
