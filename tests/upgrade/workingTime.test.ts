// A firm that was set up before working time was kept: what it has stays, what is new finds its place.
import { randomUUID } from 'node:crypto';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import pg from 'pg';
import { afterAll, beforeAll, expect, inject, it } from 'vitest';
import { migrate } from '@backsight/store/migrate';
import { root } from '../../apps/api/scripts/schemaEngine.ts';

const ALL = path.join(root, 'prisma/migrations');
const before = fs.mkdtempSync(path.join(os.tmpdir(), 'backsight-migrations-'));
const name = `t_${randomUUID().slice(0, 8)}`;
const at = (database: string): string => inject('server').replace('TEMPLATE_NAME', database);
let client: pg.Client;

beforeAll(async () => {
  for (const folder of fs.readdirSync(ALL))
    if (folder < '0006') fs.cpSync(path.join(ALL, folder), path.join(before, folder), { recursive: true });
  const admin = new pg.Client(at('postgres'));
  await admin.connect();
  await admin.query(`CREATE DATABASE ${name}`);
  await admin.end();
  await migrate(at(name), before);
  client = new pg.Client(at(name));
  await client.connect();
});
afterAll(async () => {
  await client.end();
  const admin = new pg.Client(at('postgres'));
  await admin.connect();
  await admin.query(`DROP DATABASE ${name}`);
  await admin.end();
  fs.rmSync(before, { recursive: true, force: true });
});

it('keeps absences as approved, gives kit its checks and a kind for vehicles, and the rule pack its education', async () => {
  const [office, person] = [randomUUID(), randomUUID()];
  await client.query(
    `INSERT INTO kit_kind (key, name, calibrated, carried_by_all) VALUES ('ladder', 'Extension ladder', false, false), ('camera', 'Camera', false, true)`,
  );
  await client.query(
    `INSERT INTO rule_pack (id, jurisdiction, version_day, body) VALUES ($1, 'US-WI', '2026-01-01', '{"name": "Wisconsin"}'), ($2, 'US-IL', '2026-01-01', '{}')`,
    [randomUUID(), randomUUID()],
  );
  await client.query(
    `INSERT INTO office (id, name, zone, jurisdiction, address, lat, lon, hours) VALUES ($1, 'Birchmere', 'America/Chicago', 'US-WI', 'x', 44, -88, '{}')`,
    [office],
  );
  await client.query(
    `INSERT INTO person (id, office_id, name, email, phone, home_address, home_lat, home_lon, started_on, recorded_at) VALUES ($1, $2, 'Ida', 'ida@test.example', 'x', 'x', 44, -88, '2024-01-01', '2026-01-01')`,
    [person, office],
  );
  await client.query(
    `INSERT INTO absence (id, person_id, starts_at, ends_at, reason, recorded_at) VALUES ($1, $2, '2026-05-01T05:00Z', '2026-05-02T05:00Z', 'leave', '2026-01-01')`,
    [randomUUID(), person],
  );
  expect(await migrate(at(name), ALL)).toContain('0006_working_time');
  const rows = async (sql: string): Promise<unknown[]> => (await client.query({ text: sql, rowMode: 'array' })).rows;
  expect(await rows('SELECT state FROM absence')).toEqual([['approved']]);
  expect(await rows(`SELECT key FROM kit_kind ORDER BY key`)).toEqual([['camera'], ['ladder'], ['vehicle']]);
  expect(await rows('SELECT kind, check_kind, every_days FROM kit_check_need')).toEqual([['ladder', 'ladder', 90]]);
  expect(await rows(`SELECT jurisdiction, body->'education'->>'hours', body->>'name' FROM rule_pack ORDER BY 1`)).toEqual([
    ['US-IL', null, null],
    ['US-WI', '40', 'Wisconsin'],
  ]);
});
