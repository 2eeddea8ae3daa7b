// A firm with something of everything, and in it words that only some may ever see: where one comes back to anybody else, its name says what leaked.
import { randomUUID } from 'node:crypto';
import { expect } from 'vitest';
import { CAST, type CastName } from '../cast.ts';
import { deskOf } from '../desk.ts';
import type { TestApi } from '../http.ts';
import { openCallback } from '../openCallback.ts';
import { siteJob } from '../siteJob.ts';
import type { Ids } from './values.ts';

export type Asker = CastName | 'nobody';
/** `may`: whoever may see it. */
export type Canary = { name: string; words: string; may: readonly Asker[] };

const STAFF: readonly Asker[] = ['owner', 'second', 'office', 'lead', 'lead2'];
const GATE = 'KX-4417-GATE';
const WORDS = {
  counsel: 'quillwort of counsel',
  conclusion: 'quillwort of conclusion',
  reserve: 'quillwort of reserve',
  account: 'quillwort of account',
};
const OTHER_CLIENT = 'Zanthe Quillwort';

/** `seen` also holds the other client's job, which is only ever read, so that who may see it stays as it is. */
export async function world(api: TestApi): Promise<{ canaries: Canary[]; ids: Ids; seen: Ids }> {
  const done = async (who: CastName, method: 'POST' | 'PUT', path: string, body: object, version?: number) => {
    const answer = await api.send(who, method, path, { body, ...(version === undefined ? {} : { version }) });
    expect(answer.status, `${path} ${JSON.stringify(answer.body)}`).toBeLessThan(300);
    return answer.body;
  };
  const { callbackId } = await openCallback(api, ['anna', 'ben']);
  const booked = await deskOf(api).booked();
  const other = await siteJob(api, { startsAt: new Date(api.clock.now.getTime() + 20 * 3_600_000), pair: ['cora', 'dan'] });
  await api.database.transaction(async ({ db }) => {
    await db.party.update({ where: { id: other.clientId }, data: { name: OTHER_CLIENT, email: 'zanthe@quillwort.example' } });
  });
  const { version } = (await api.send('office', 'GET', `/api/jobs/${other.jobId}`)).body;
  await done('office', 'PUT', `/api/jobs/${other.jobId}/access`, { state: 'settled', keyBox: GATE, alarm: `${GATE}-9` }, version);
  const act = (who: CastName, name: string, body: object) => done(who, 'POST', `/api/callbacks/${callbackId}/${name}`, body);
  await act('lead2', 'conclusion', {
    conclusionId: randomUUID(),
    cause: 'not_in_procedure',
    stepKey: 'ground-fault-trip-reset',
    words: WORDS.conclusion,
  });
  await act('owner', 'counsel-marks', { markId: randomUUID(), counsel: WORDS.counsel, requestedOn: '2026-05-12' });
  await act('owner', 'reserve', { cents: 50_000, words: WORDS.reserve });
  await act('owner', 'account-requests', { requestId: randomUUID(), personId: CAST.ben.id });
  await done('ben', 'POST', `/api/accounts/${callbackId}`, {
    accountId: randomUUID(),
    seen: WORDS.account,
    did: 'Tripped it.',
    further: false,
  });
  const seen = await idsOf(api);
  const ids = Object.fromEntries(Object.entries(seen).map(([name, all]) => [name, all.filter((id) => !Object.values(other).includes(id))]));
  return { canaries: [...(await secrets(api)), ...opinions()], ids: { ...ids, jobs: [...ids['jobs']!, booked.id] }, seen };
}

const opinions = (): Canary[] => [
  { name: 'gate code of a house', words: GATE, may: ['cora', 'dan'] },
  { name: 'words about counsel', words: WORDS.counsel, may: ['owner', 'second', 'lead', 'lead2'] },
  { name: 'conclusion', words: WORDS.conclusion, may: ['owner', 'second', 'lead', 'lead2'] },
  { name: 'money set aside', words: WORDS.reserve, may: ['owner', 'second', 'lead', 'lead2'] },
  { name: 'account of somebody of the pair', words: WORDS.account, may: ['owner', 'second', 'lead', 'lead2', 'ben'] },
  { name: "another client's name", words: OTHER_CLIENT, may: [...STAFF, 'cora', 'dan'] },
  { name: "another client's address", words: 'zanthe@quillwort.example', may: [...STAFF, 'cora', 'dan'] },
];

/** What nobody ever gets: hashes of passwords and of every link and session, as they lie in the database. */
async function secrets(api: TestApi): Promise<Canary[]> {
  const hashes = await api.database.read.rows<{ words: string; name: string }>(
    `SELECT password_hash AS words, 'hash of a password' AS name FROM person WHERE password_hash IS NOT NULL
     UNION ALL SELECT token_hash, 'digest of a session' FROM session UNION ALL SELECT token_hash, 'digest of a link' FROM signer`,
  );
  return [{ name: 'hash of a password', words: '$argon2', may: [] }, ...hashes.map((one) => ({ ...one, may: [] }))];
}

async function idsOf(api: TestApi): Promise<Ids> {
  const of = async (table: string): Promise<string[]> =>
    (await api.database.read.rows<{ id: string }>(`SELECT id::text AS id FROM ${table} ORDER BY id LIMIT 6`)).map(({ id }) => id);
  const jobs = await api.database.read.rows<{ id: string }>('SELECT id::text AS id FROM job ORDER BY id');
  const token = await api.database.read.rows<{ token: string }>(
    `SELECT DISTINCT (regexp_match(body, '/client/([A-Za-z0-9_-]{20,})'))[1] AS token FROM outgoing_mail WHERE body ~ '/client/[A-Za-z0-9_-]{20,}'`,
  );
  const tables: Record<string, string> = {
    visits: 'visit',
    callbacks: 'callback',
    records: 'site_record',
    parties: 'party',
    properties: 'property',
    agreements: 'agreement',
    invoices: 'invoice',
    mail: 'outgoing_mail',
    procedures: 'procedure',
    revisions: 'procedure_revision',
    kit: 'kit_item',
    remedies: 'remedy',
    signers: 'signer',
  };
  const rest = await Promise.all(Object.entries(tables).map(async ([name, table]) => [name, await of(table)] as const));
  const people = [CAST.anna.id, CAST.ben.id, CAST.tess.id];
  const steps = { stepKey: ['ground-fault-trip-reset'], day: ['2026-05-12', '2026-05-13'], token: token.map((row) => row.token) };
  return { ...Object.fromEntries(rest), jobs: jobs.map(({ id }) => id), people, person: people, first: people, second: people, ...steps };
}
