// What has to be true after any fault: nothing that somebody was told is missing or there twice, and everything still holds.
import fs from 'node:fs';
import path from 'node:path';
import type { ParsedMail } from 'mailparser';
import { expect } from 'vitest';
import { sealAudit } from '@backsight/store/audit';
import { verify } from '@backsight/usecases/backup/verify';
import { messageId } from '../../../apps/api/src/http/mailer.ts';
import type { TestService } from '../database.ts';
import { sleep } from './clients.ts';
import type { Acknowledged } from './load.ts';

/** For each kind of yes: the ids that are there. */
const THERE: Record<keyof Acknowledged, string> = {
  held: `SELECT id::text AS id FROM job`,
  booked: `SELECT job_id::text AS id FROM visit WHERE state = 'booked'`,
  signed: `SELECT a.job_id::text AS id FROM signature s JOIN signer r ON r.id = s.signer_id JOIN agreement a ON a.id = r.agreement_id`,
  paid: `SELECT id::text AS id FROM payment`,
  entry: `SELECT id::text AS id FROM step_entry`,
  photo: `SELECT id::text AS id FROM site_photo`,
  callback: `SELECT id::text AS id FROM callback`,
};

/** Somebody in two places, a visit without its pair, two jobs of one hold, two signatures of one signer, more or less money than was paid. */
const NOBODY_TWICE: Record<string, string> = {
  'a person in two places': `SELECT 1 FROM assignment a JOIN assignment b ON a.person_id = b.person_id AND a.visit_id < b.visit_id AND a.live AND b.live AND a.during && b.during`,
  'a visit without its crew': `SELECT 1 FROM visit v WHERE v.live AND (SELECT count(*) FROM assignment a WHERE a.visit_id = v.id) <> v.crew_size`,
  'two jobs at one new house': `SELECT 1 FROM job GROUP BY property_id HAVING count(*) > 1`,
  'two signatures of one signer': `SELECT 1 FROM signature GROUP BY signer_id HAVING count(*) > 1`,
  'a payment that the ledger does not know': `SELECT 1 FROM payment p LEFT JOIN ledger_line l ON l.entry_id = p.entry_id AND l.cents > 0 GROUP BY p.id HAVING coalesce(sum(l.cents), 0) <> p.cents`,
  'one audit row too few or too many of a payment': `SELECT 1 FROM payment p WHERE (SELECT count(*) FROM audit_row a WHERE a.thing_kind = 'payment' AND a.thing_id = p.id) <> 1`,
  'a photo without its file': `SELECT 1 FROM site_photo p WHERE NOT EXISTS (SELECT FROM stored_file f WHERE f.sha256 = p.original_sha256)`,
};

type Look = { service: TestService; folder: string; told: Acknowledged };

/** Looks at all of it; answers how much there was. */
export async function holdTruths({ service, folder, told }: Look): Promise<{ acknowledged: number; lost: number; unnamed: number }> {
  const { read } = service.database;
  const lost: string[] = [];
  for (const [kind, sql] of Object.entries(THERE)) {
    const there = new Set((await read.rows<{ id: string }>(sql)).map(({ id }) => id));
    lost.push(...told[kind as keyof Acknowledged].filter((id) => !there.has(id)).map((id) => `${kind} ${id}`));
  }
  expect(lost, 'acknowledged and not there').toEqual([]);
  for (const [what, sql] of Object.entries(NOBODY_TWICE)) expect(await read.rows(sql), what).toEqual([]);
  for (const kind of Object.keys(told) as (keyof Acknowledged)[])
    expect(new Set(told[kind]).size, `${kind} acknowledged twice`).toBe(told[kind].length);
  while ((await sealAudit(service.database)) > 0);
  const findings = await verify({ reader: read, dataDir: folder, say: () => {} });
  expect(findings.filter(({ wrong }) => wrong.length > 0)).toEqual([]);
  return { acknowledged: Object.values(told).flat().length, lost: lost.length, unnamed: (await filesWithoutRows(service, folder)).length };
}

/**
 * Whole files that no row names: papers of acts that were rolled back or lost a race after their file was written. They are counted; every
 * file that a row names is there and fits its fingerprint, which `verify` has seen.
 */
async function filesWithoutRows({ database }: TestService, folder: string): Promise<string[]> {
  const at = path.join(folder, 'files');
  const names = fs.existsSync(at) ? fs.readdirSync(at).filter((name) => !name.endsWith('.part')) : [];
  const known = new Set((await database.read.rows<{ sha: string }>('SELECT sha256 AS sha FROM stored_file')).map(({ sha }) => sha));
  return names.filter((name) => !known.has(name));
}

/** Halves of files that killed services left behind; an hourly job removes them. */
export const halvesIn = (folder: string): number => {
  const at = path.join(folder, 'files');
  return fs.existsSync(at) ? fs.readdirSync(at).filter((name) => name.endsWith('.part')).length : 0;
};

type Outbox = { key: string; state: string; maybeTwice: number; error: string | null };

/** Waits until nothing waits in the outbox, then holds what arrived against it. Leases and next tries are brought forward, and no hour is quiet. */
export async function holdMail({ database }: TestService, arrived: readonly ParsedMail[]): Promise<{ mails: number; twice: number }> {
  const { read } = database;
  await read.rows(
    `UPDATE outgoing_mail SET urgent = true, next_try_at = least(next_try_at, now()), lease_until = CASE WHEN lease_until IS NOT NULL THEN least(lease_until, now() + interval '15 seconds') END WHERE state = 'waiting' RETURNING 1`,
  );
  const waiting = () => read.rows<{ id: string }>(`SELECT id::text AS id FROM outgoing_mail WHERE state = 'waiting'`);
  for (let n = 0; (await waiting()).length > 0 && n < 120; n++) await sleep(500);
  const rows = await read.rows<Outbox>(
    `SELECT message_key AS key, state, maybe_twice AS "maybeTwice", last_error AS error FROM outgoing_mail`,
  );
  expect(rows.filter(({ state }) => state !== 'sent')).toEqual([]);
  const count = new Map<string, number>();
  for (const { messageId: id } of arrived) count.set(id!, (count.get(id!) ?? 0) + 1);
  let twice = 0;
  for (const { key, maybeTwice } of rows) {
    const times = count.get(messageId(key, 'test.example')) ?? 0;
    expect(times, `${key} arrived`).toBeGreaterThanOrEqual(1);
    // More than once only where a service was killed between the server's acceptance and the note of it, which the outbox counts.
    expect(times - 1, `${key} arrived again`).toBeLessThanOrEqual(maybeTwice);
    twice += times - 1;
  }
  return { mails: rows.length, twice };
}
