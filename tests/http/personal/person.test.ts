// One person: everything about them in one file, and erasing them by the list that was shown.
import { unzipSync } from 'fflate';
import { beforeAll, describe, expect, it } from 'vitest';
import { sealAudit } from '@backsight/store/audit';
import { verify } from '@backsight/usecases/backup/verify';
import { demoApi, DEMO_NOW, whereIs } from '../../support/demoApi.ts';

const api = demoApi();
const rows = <T>(sql: string, params: unknown[] = []) => api.database.read.rows<T>(sql, params);
type Line = { act: string; id: string | null; what: string; goes: boolean; why: string; until: string | null };
const plan = async (subject: string, id: string) => (await api.send('harriet', 'GET', `/api/personal-data/people/${subject}/${id}`)).body;
const erase = (subject: string, id: string, fingerprint: string) =>
  api.send('harriet', 'POST', `/api/personal-data/people/${subject}/${id}/erasures`, {
    id: api.newId(),
    askedOn: '2026-05-12',
    askedHow: 'letter',
    fingerprint,
  });
const acts = (lines: Line[], goes: boolean) => lines.filter((line) => line.goes === goes).map(({ act }) => act);
const failing = async () => {
  while ((await sealAudit(api.database, { limit: 5_000 })) > 0);
  return (await verify({ reader: api.database.read, dataDir: api.dataDir, say: () => {} })).filter(({ wrong }) => wrong.length > 0);
};
const unzipped = (bytes: Buffer) =>
  Object.fromEntries(Object.entries(unzipSync(new Uint8Array(bytes))).map(([name, file]) => [name, Buffer.from(file).toString('latin1')]));
const textOf = (bytes: Buffer) => Buffer.from(unzipSync(new Uint8Array(bytes))['data.json']!).toString('utf8');

type Party = { id: string; name: string; email: string; phone: string; jobId: string };
let client: Party;
let agent: Party;
let other: Party;
const party = async (where: string): Promise<Party> =>
  (
    await rows<Party>(
      `SELECT p.id::text AS id, p.name, coalesce(p.email, '') AS email, coalesce(p.phone, '') AS phone, j.id::text AS "jobId" FROM party p JOIN job_party x ON x.party_id = p.id JOIN job j ON j.id = x.job_id WHERE ${where} ORDER BY j.number LIMIT 1`,
    )
  )[0]!;
beforeAll(async () => {
  const quiet = `NOT EXISTS (SELECT FROM callback c WHERE c.job_id = j.id) AND NOT EXISTS (SELECT FROM invoice i WHERE i.job_id = j.id AND i.state = 'issued') AND evidence_held_because(j.id) IS NULL`;
  client =
    await party(`x.role = 'client' AND j.state = 'reported' AND p.email IS NOT NULL AND ${quiet} AND EXISTS (SELECT FROM sealed_paper s JOIN agreement a ON a.id = s.agreement_id WHERE a.job_id = j.id)
    AND (SELECT count(*) FROM job_party y WHERE y.party_id = p.id) = 1`);
  const id = api.newId();
  await api.database.transaction(async ({ db }) => {
    await db.party.create({
      data: { id, name: 'Lisbet Torvald', email: 'lisbet@agents.example', phone: '555-0163', recordedAt: DEMO_NOW },
    });
    await db.jobParty.create({ data: { id: api.newId(), jobId: client.jobId, partyId: id, role: 'listing_agent' } });
  });
  agent = { id, name: 'Lisbet Torvald', email: 'lisbet@agents.example', phone: '555-0163', jobId: client.jobId };
  other = await party(
    `x.role = 'client' AND p.id <> '${client.id}' AND j.id <> '${client.jobId}' AND EXISTS (SELECT FROM job_clock k WHERE k.job_id = j.id AND coalesce(k.held, k.unfinished) IS NOT NULL)`,
  );
});

describe('the export of one person', () => {
  it('finds people by a part of name, address or phone', async () => {
    const found = await api.send('dolores', 'GET', `/api/personal-data/people?q=${encodeURIComponent(client.name.slice(0, -1))}`);
    expect(found.body.map(({ id }: Party) => id)).toContain(client.id);
    expect((await api.send('dolores', 'GET', '/api/personal-data/people?q=%25')).body).toEqual([]);
    expect((await api.send('dolores', 'GET', '/api/personal-data/people?q=')).status).toBe(422);
  });
  it('of a client holds their data, what was agreed and found, mail and papers, and nobody else', async () => {
    const made = await api.send('dolores', 'POST', `/api/personal-data/people/party/${client.id}/export`);
    expect([made.status, made.headers['content-type']]).toEqual([200, 'application/zip']);
    const files = unzipped(made.bytes);
    const data = JSON.parse(textOf(made.bytes));
    expect(Object.keys(data.tables)).toEqual(
      expect.arrayContaining(['party', 'job', 'property', 'job_party', 'signer', 'signature', 'agreement', 'outgoing_mail', 'report']),
    );
    expect(data.tables.party).toEqual([expect.objectContaining({ name: client.name, email: client.email })]);
    expect(files['index.html']).toContain('What is not here, and why');
    const papers = Object.entries(files).filter(([name]) => name.startsWith('papers/'));
    expect(papers.length).toBeGreaterThan(0);
    expect(papers[0]![1]).toMatch(/^%PDF-/);
    const strangers = await rows<{ name: string }>(
      `SELECT DISTINCT p.name FROM party p JOIN job_party x ON x.party_id = p.id WHERE x.role = 'client' AND p.name NOT IN (SELECT q.name FROM party q JOIN job_party y ON y.party_id = q.id WHERE y.job_id IN (SELECT job_id FROM job_party WHERE party_id = $1::uuid))`,
      [client.id],
    );
    expect(strangers.length).toBeGreaterThan(5);
    expect(strangers.filter(({ name }) => textOf(made.bytes).includes(name))).toEqual([]);
    for (const secret of ['token_hash', 'link_hash', 'ip_hash', 'salt', 'password_hash'])
      expect(textOf(made.bytes), secret).not.toContain(secret);
  });
  it('of an agent holds what was said to them, and no report of a client', async () => {
    const made = await api.send('harriet', 'POST', `/api/personal-data/people/party/${agent.id}/export`);
    const { tables } = JSON.parse(textOf(made.bytes));
    expect(Object.keys(tables)).toEqual(expect.arrayContaining(['party', 'job_party']));
    expect(tables.report ?? tables.agreement ?? tables.property).toBeUndefined();
  });
  it('of somebody of the firm holds their own papers, and no client', async () => {
    const [amos] = await rows<{ id: string }>(`SELECT id::text AS id FROM person WHERE email = 'amos@hollingrebe.example'`);
    const made = await api.send('harriet', 'POST', `/api/personal-data/people/person/${amos!.id}/export`);
    const { tables } = JSON.parse(textOf(made.bytes));
    expect(Object.keys(tables)).toEqual(expect.arrayContaining(['person', 'license', 'work_pattern', 'pay_rule']));
    expect(textOf(made.bytes)).not.toContain(client.name);
  });
  it('leaves a line in the audit trail, and is for owner and office alone', async () => {
    expect(
      await rows(`SELECT details FROM audit_row WHERE operation = 'personal.export' AND thing_id = $1::uuid`, [client.id]),
    ).toHaveLength(1);
    for (const who of ['ruth', 'amos'] as const)
      expect((await api.send(who, 'POST', `/api/personal-data/people/party/${client.id}/export`)).status).toBe(403);
    expect((await api.send('harriet', 'POST', `/api/personal-data/people/party/${api.newId()}/export`)).status).toBe(404);
  });
});

describe('erasing one person', () => {
  it('says of a client with an open job that the address is needed, and of one whose papers are kept until when', async () => {
    const open = await plan('party', other.id);
    expect(acts(open.lines, false)).toEqual(expect.arrayContaining(['job', 'contact', 'name']));
    expect(open.lines.find(({ act }: Line) => act === 'contact').why).toMatch(/while job \d+ is open/);
    const { lines, backups } = await plan('party', client.id);
    expect(acts(lines, true)).toContain('contact');
    expect(lines.find(({ act }: Line) => act === 'job')).toMatchObject({ goes: false, until: expect.stringMatching(/^2036-/) });
    expect(lines.find(({ act }: Line) => act === 'name')).toMatchObject({ goes: false, until: expect.stringMatching(/^2036-/) });
    expect(backups).toMatch(/Backups made before/);
  });
  it('does what was shown or nothing', async () => {
    const no = await erase('party', client.id, 'a'.repeat(64));
    expect([no.status, no.body.code]).toEqual([409, 'erasure-changed']);
    expect(await rows('SELECT FROM party WHERE id = $1::uuid AND email IS NOT NULL', [client.id])).toHaveLength(1);
    expect((await api.send('dolores', 'GET', `/api/personal-data/people/party/${client.id}`)).status).toBe(403);
  });
  it('takes phone and address at once, also out of a price that was asked and mail about no job, and keeps the papers', async () => {
    const [schedule] = await rows<{ id: string }>('SELECT id::text AS id FROM fee_schedule LIMIT 1');
    const [by] = await rows<{ id: string }>(`SELECT person_id::text AS id FROM person_role WHERE role = 'owner' LIMIT 1`);
    await api.database.transaction(async ({ db }) => {
      const asked = {
        caller: client.name,
        phone: '',
        email: client.email.toUpperCase(),
        address: '3 Sedge Lane',
        draft: { caller: client.name },
        lines: [],
        totalCents: 0,
        note: 'calls again',
      };
      await db.inquiry.create({ data: { id: api.newId(), ...asked, scheduleId: schedule!.id, recordedAt: DEMO_NOW, recordedBy: by!.id } });
      const mail = {
        toAddress: client.email,
        toName: client.name,
        subject: 'A word',
        body: 'Hello.',
        state: 'waiting',
        nextTryAt: DEMO_NOW,
        aboutKind: 'firm',
        aboutId: api.newId(),
      };
      await db.outgoingMail.create({ data: { id: api.newId(), messageKey: api.newId(), ...mail, recordedAt: DEMO_NOW } });
    });
    const shown = await plan('party', client.id);
    expect(acts(shown.lines, true).toSorted()).toEqual(['contact', 'inquiries', 'mail']);
    const done = await erase('party', client.id, shown.fingerprint);
    expect([done.status, done.body.gone], JSON.stringify(done.body)).toEqual([201, 3]);
    expect(await rows('SELECT email, phone, wishes FROM party WHERE id = $1::uuid', [client.id])).toEqual([
      { email: null, phone: null, wishes: '' },
    ]);
    expect((await whereIs(api.database, ['3 Sedge Lane', 'calls again'])).filter((place) => place.startsWith('inquiry'))).toEqual([]);
    expect(await rows(`SELECT FROM outgoing_mail WHERE subject = 'A word'`)).toEqual([]);
    expect(
      await rows(`SELECT FROM sealed_paper s JOIN agreement a ON a.id = s.agreement_id WHERE a.job_id = $1::uuid AND s.content <> ''`, [
        client.jobId,
      ]),
    ).not.toEqual([]);
    const [erasure] = await rows<{ stays: { act: string }[] }>('SELECT stays FROM erasure WHERE subject_id = $1::uuid', [client.id]);
    expect(erasure!.stays.map(({ act }) => act).toSorted()).toEqual(['job', 'name']);
    const again = await plan('party', client.id);
    expect((await erase('party', client.id, again.fingerprint)).body.code).toBe('erased-already');
    expect(again.asked).toMatchObject([{ askedOn: '2026-05-12', askedHow: 'letter' }]);
    expect(await failing()).toEqual([]);
  });
  it('takes an agent who ordered, signed and received nothing out altogether', async () => {
    const shown = await plan('party', agent.id);
    expect([acts(shown.lines, true).toSorted(), acts(shown.lines, false)]).toEqual([['contact', 'name'], []]);
    expect((await erase('party', agent.id, shown.fingerprint)).status).toBe(201);
    expect(await whereIs(api.database, [agent.name, agent.email])).toEqual([]);
  });
  it('refuses for somebody who works here; of who left, what signs in goes at once and papers later', async () => {
    const [amos] = await rows<{ id: string }>(`SELECT id::text AS id FROM person WHERE email = 'amos@hollingrebe.example'`);
    const no = await api.send('harriet', 'GET', `/api/personal-data/people/person/${amos!.id}`);
    expect([no.status, no.body.code]).toEqual([409, 'still-at-work']);
    await api.database.transaction((tx) =>
      tx.rows(`UPDATE person SET ended_on = '2026-05-01' WHERE id = $1::uuid RETURNING 1`, [amos!.id]),
    );
    const shown = await plan('person', amos!.id);
    expect(acts(shown.lines, true)).toContain('contact');
    expect(shown.lines.find(({ act }: Line) => act === 'papers')).toMatchObject({ goes: false, until: '2033-05-01' });
    expect((await erase('person', amos!.id, shown.fingerprint)).status).toBe(201);
    expect(await rows('SELECT phone, home_address, password_hash FROM person WHERE id = $1::uuid', [amos!.id])).toEqual([
      { phone: '(no longer kept)', home_address: '(no longer kept)', password_hash: null },
    ]);
    expect(await whereIs(api.database, ['amos@hollingrebe.example'])).not.toContain('person.email');
    expect(await rows('SELECT FROM license WHERE person_id = $1::uuid', [amos!.id])).not.toEqual([]);
    expect(await failing()).toEqual([]);
  });
  it('takes the rest once its time is over, on the same request', async () => {
    api.clock.now = new Date('2044-06-01T15:00:00Z');
    const shown = await plan('party', client.id);
    expect(acts(shown.lines, false)).toEqual([]);
    expect(acts(shown.lines, true).toSorted()).toEqual(['job', 'name']);
    expect((await erase('party', client.id, shown.fingerprint)).status).toBe(201);
    expect(await whereIs(api.database, [client.name, client.email])).toEqual([]);
    expect(await failing()).toEqual([]);
  });
});
