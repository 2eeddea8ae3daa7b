// A firm that was set up before working time was kept: what it has stays, what is new finds its place.
import { randomUUID } from 'node:crypto';
import { expect, it } from 'vitest';
import { oldDatabase } from '../support/oldDatabase.ts';

const old = oldDatabase('0006');

it('keeps absences as approved, gives kit its checks and a kind for vehicles, and the rule pack its education', async () => {
  const [office, person] = [randomUUID(), randomUUID()];
  await old.run(
    `INSERT INTO kit_kind (key, name, calibrated, carried_by_all) VALUES ('ladder', 'Extension ladder', false, false), ('camera', 'Camera', false, true)`,
  );
  await old.run(
    `INSERT INTO rule_pack (id, jurisdiction, version_day, body) VALUES ($1, 'US-WI', '2026-01-01', '{"name": "Wisconsin"}'), ($2, 'US-IL', '2026-01-01', '{}')`,
    [randomUUID(), randomUUID()],
  );
  await old.run(
    `INSERT INTO office (id, name, zone, jurisdiction, address, lat, lon, hours) VALUES ($1, 'Birchmere', 'America/Chicago', 'US-WI', 'x', 44, -88, '{}')`,
    [office],
  );
  await old.run(
    `INSERT INTO person (id, office_id, name, email, phone, home_address, home_lat, home_lon, started_on, recorded_at) VALUES ($1, $2, 'Ida', 'ida@test.example', 'x', 'x', 44, -88, '2024-01-01', '2026-01-01')`,
    [person, office],
  );
  await old.run(
    `INSERT INTO absence (id, person_id, starts_at, ends_at, reason, recorded_at) VALUES ($1, $2, '2026-05-01T05:00Z', '2026-05-02T05:00Z', 'leave', '2026-01-01')`,
    [randomUUID(), person],
  );
  expect(await old.bringUp()).toContain('0006_working_time');
  expect(await old.rows('SELECT state FROM absence')).toEqual([['approved']]);
  expect(await old.rows(`SELECT key FROM kit_kind WHERE key IN ('camera', 'ladder', 'vehicle') ORDER BY key`)).toEqual([
    ['camera'],
    ['ladder'],
    ['vehicle'],
  ]);
  expect(await old.rows('SELECT kind, check_kind, every_days FROM kit_check_need')).toEqual([['ladder', 'ladder', 90]]);
  expect(await old.rows(`SELECT jurisdiction, body->'education'->>'hours', body->>'name' FROM rule_pack ORDER BY 1`)).toEqual([
    ['US-IL', null, null],
    ['US-WI', '40', 'Wisconsin'],
  ]);
});
