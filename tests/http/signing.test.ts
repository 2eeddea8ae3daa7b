// Signing over HTTP at its edges: the PDF's word, declining, paper, links taken back, offline devices, copies, what changed, limits.
import { createHash, randomUUID } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { pathOf, readStrokes } from '@backsight/domain/shared/strokes';
import { faultsShown, postForm } from '../support/clientLink.ts';
import { testApi, type Answer } from '../support/http.ts';
import { needOf, paidJob } from '../support/paidJob.ts';
import { flat, readPdf } from '../support/pdf.ts';
import { withStarter } from '../support/starter.ts';

const api = testApi();
withStarter(api);
const DRAWN = '[[40,100,90,60,140,120,200,80],[50,150,220,140]]';
const PNG = Buffer.from('89504e470d0a1a0a0000000d49484452', 'hex').toString('base64');

const issue = (jobId: string): Promise<Answer> => api.send('office', 'POST', `/api/jobs/${jobId}/agreement`, { body: {} });
const agreementOf = async (jobId: string) => (await api.send('office', 'GET', `/api/jobs/${jobId}/agreement`)).body.agreement;
const mails = (jobId: string, subject: string) =>
  api.database.read.rows<{ body: string; to: string; files: number }>(
    `SELECT m.body, m.to_address AS to, (SELECT count(*)::int FROM mail_attachment a WHERE a.mail_id = m.id) AS files FROM outgoing_mail m WHERE m.about_id = $1::uuid AND m.subject LIKE $2 ORDER BY m.id DESC`,
    [jobId, subject],
  );
const linkOf = async (jobId: string, to = '%'): Promise<string> => {
  const rows = (await mails(jobId, 'Agreement for%')).filter((one) => to === '%' || one.to === to);
  return /\/client\/[\w-]{43}/.exec(rows[0]!.body)![0];
};
type Shown = { statusCode: number; body: string; rawPayload: Buffer; headers: Record<string, unknown> };
const open = (link: string, remoteAddress = '127.0.0.1'): Promise<Shown> => api.app().inject({ method: 'GET', url: link, remoteAddress });
const post = (link: string, fields: Record<string, string>) => postForm(api, link, fields);
async function fields(jobId: string, who = 0, more: Record<string, string> = {}): Promise<Record<string, string>> {
  const { sha256, signers } = await agreementOf(jobId);
  return { name: signers[who].name, read: 'yes', consent: 'yes', sha256, word: signers[who].word, ...more };
}
async function issued(wish: Parameters<typeof paidJob>[1] = {}) {
  const job = await paidJob(api, wish);
  await issue(job.jobId);
  return { ...job, link: await linkOf(job.jobId) };
}
const addFee = (jobId: string, cents: number) =>
  api.database.transaction(({ db }) =>
    db.jobFeeLine.create({
      data: { id: api.newId(), jobId, position: 9, ruleKey: 'x', label: 'Radon', reason: 'x', cents, recordedAt: api.clock.now },
    }),
  );

const atTheDoor = (sha256: string, word: string, signedAt: string) => ({
  ...{ id: randomUUID(), method: 'on_site_device', name: 'Paula Prior', read: true, consent: true },
  ...{ sha256, word, signedAt },
});

describe('the PDF before signing', () => {
  it("shows the signer's own word, and nobody's token opens another's", async () => {
    const { jobId, link } = await issued();
    const file = await open(`${link}/agreement.pdf`);
    expect([file.statusCode, file.headers['content-type'], file.headers['cache-control']]).toEqual([200, 'application/pdf', 'no-store']);
    const [signer] = (await agreementOf(jobId)).signers;
    expect((await readPdf(new Uint8Array(file.rawPayload))).pages[0]).toContain(signer.word);
    expect((await open(`/client/${'a'.repeat(43)}/agreement.pdf`)).statusCode).toBe(404);
  });
  it('after the last signature is the sealed file, the same bytes each time, and goes to the signers and the firm', async () => {
    const { jobId, link } = await issued();
    expect((await post(link, await fields(jobId))).statusCode).toBe(303);
    const [one, two] = [await open(`${link}/agreement.pdf`), await open(`${link}/agreement.pdf`)];
    const sha = createHash('sha256').update(one.rawPayload).digest('hex');
    expect(one.rawPayload.equals(two.rawPayload)).toBe(true);
    expect((await agreementOf(jobId)).sealed.sha256).toBe(sha);
    const linkSha = createHash('sha256').update(link.split('/')[2]!).digest('hex');
    expect(flat((await readPdf(new Uint8Array(one.rawPayload))).pages.join(' ')).replaceAll(' ', '')).toContain(
      `Privatelink(SHA-256)${linkSha}`,
    );
    expect(await mails(jobId, 'Your signed agreement%')).toMatchObject([{ files: 1, body: expect.not.stringMatching(/\*\*|^#/m) }]);
    expect(await mails(jobId, 'Signed agreement of job%')).toMatchObject([{ files: 1 }]);
  });
});

describe('two signers', () => {
  const both = { clients: [{ name: 'Quentin Prior', email: 'quentin@test.example' }] };
  it('in the same second both count, are told once each, and only after the last', async () => {
    const { jobId, visitId } = await issued(both);
    const { signers } = await agreementOf(jobId);
    const links = await Promise.all(signers.map(({ email }: { email: string }) => linkOf(jobId, email)));
    const [a, b] = [await fields(jobId, 0), await fields(jobId, 1)];
    const answers = await Promise.all([post(links[0], a), post(links[1], b)]);
    expect(answers.map(({ statusCode }) => statusCode)).toEqual([303, 303]);
    expect((await agreementOf(jobId)).signers.map((s: { signature: unknown }) => s.signature !== null)).toEqual([true, true]);
    expect(await mails(jobId, 'Your signed agreement%')).toHaveLength(2);
    expect((await api.send('anna', 'GET', `/api/visits/${visitId}/gate`)).body.missing).not.toContain('agreement-unsigned');
  });
  it('gets no copy before the other has signed', async () => {
    const { jobId } = await issued(both);
    const { signers } = await agreementOf(jobId);
    await post(await linkOf(jobId, signers[0].email), await fields(jobId, 0));
    expect(await mails(jobId, 'Your signed agreement%')).toEqual([]);
    expect(await needOf(api, jobId, 'signature')).toBe('open');
  });
});

describe('the signature', () => {
  it('is kept with drawing, interpreter, word, consent, address and link', async () => {
    const { jobId, link } = await issued();
    expect((await post(link, await fields(jobId, 0, { how: 'drawn', strokes: DRAWN, interpreter: 'Ines Okoye' }))).statusCode).toBe(303);
    const { signers, consentText } = await agreementOf(jobId);
    expect(signers[0].signature).toMatchObject({ strokes: DRAWN, interpreter: 'Ines Okoye', formatWord: signers[0].word });
    const [row] = await api.database.read.rows<Record<string, string>>(
      `SELECT g.consent_text, g.link_hash, k.body AS address FROM signature g JOIN kept_text k ON k.id = g.address_text_id WHERE g.signer_id = $1::uuid`,
      [signers[0].id],
    );
    expect(row).toEqual({
      consent_text: consentText,
      link_hash: createHash('sha256').update(link.split('/')[2]!).digest('hex'),
      address: '127.0.0.1',
    });
    const strokes = readStrokes(DRAWN);
    expect((await open(link)).body).toContain(pathOf(strokes.ok ? strokes.value : []));
    const { rawPayload } = await open(`${link}/agreement.pdf`);
    expect(flat((await readPdf(new Uint8Array(rawPayload))).pages.join(' '))).toMatch(
      /Capacity for themselves Read with the interpreter Ines Okoye How .*by typing the name and drawing/,
    );
    expect(rawPayload.toString('latin1')).toMatch(/\/S \/Figure\s+\/Alt/);
  });
  it('cannot say another consent than its digest, whoever writes it', async () => {
    const { jobId, link } = await issued();
    await post(link, await fields(jobId));
    await expect(
      api.database.transaction(({ db }) =>
        db.signature.updateMany({ where: { signer: { agreement: { jobId } } }, data: { consentText: 'x' } }),
      ),
    ).rejects.toThrow();
  });
  it('with everything wrong loses nothing that was typed', async () => {
    const { jobId, link } = await issued();
    const answer = await post(link, await fields(jobId, 0, { word: 'wrong', how: 'drawn', strokes: DRAWN, interpreter: 'Ines Okoye' }));
    expect(answer).toMatchObject({ statusCode: 422, body: expect.stringContaining(DRAWN) });
    expect(answer.body).toContain('value="Ines Okoye"'); // and names all that is missing: first in the summary, then beside each field
    const none = await post(link, { ...(await fields(jobId)), read: '', consent: '', word: '', name: '', how: 'drawn' });
    expect(faultsShown(none.body)).toBe('read word consent name drawing read read word word consent consent name name strokes strokes');
    expect((await agreementOf(jobId)).signers[0].signature).toBeNull();
  });
});

describe('not signing', () => {
  it('is declined with a reason, told to the office and at the gate, and may be thought over', async () => {
    const { jobId, visitId, link } = await issued();
    expect((await post(link, { act: 'decline', reason: ' ' })).statusCode).toBe(422);
    const twice = await Promise.all([1, 2].map(() => post(link, { act: 'decline', reason: 'The fee is too high' })));
    expect(twice.map(({ statusCode }) => statusCode)).toEqual([303, 303]);
    expect(await needOf(api, jobId, 'signature')).toBe('refused');
    expect(await mails(jobId, '%declined to sign%')).toHaveLength(1);
    const gate = (await api.send('anna', 'GET', `/api/visits/${visitId}/gate`)).body;
    expect(gate.missing).toContain('agreement-unsigned');
    expect(gate.sentences.join(' ')).toContain('declined to sign: The fee is too high');
    expect((await open(link)).body).toContain('You declined to sign');
    expect((await post(link, await fields(jobId))).statusCode).toBe(303);
    expect(await needOf(api, jobId, 'signature')).toBe('settled');
    expect((await post(link, { act: 'decline', reason: 'Too late' })).statusCode).toBe(422);
  });
  it('on paper instead: nobody is mailed a copy then, and later consent can be taken back', async () => {
    const { jobId, link } = await issued();
    expect((await post(link, { act: 'paper' })).statusCode).toBe(303);
    expect((await open(link)).body).toContain('You asked for paper');
    const [signer] = (await agreementOf(jobId)).signers;
    expect(signer).toMatchObject({ wantsPaper: true, answer: { kind: 'wants_paper' } });
    const body = { id: randomUUID(), method: 'paper', name: 'Paula Prior', consent: false };
    expect(await api.send('anna', 'POST', `/api/signers/${signer.id}/signature`, { body })).toMatchObject({
      status: 422,
      body: { code: 'paper-proof-missing', field: 'photo' },
    });
    const bad = { ...body, photo: { name: 'x.png', base64: Buffer.from('hello').toString('base64') } };
    expect((await api.send('anna', 'POST', `/api/signers/${signer.id}/signature`, { body: bad })).body.code).toBe('paper-photo-kind');
    const good = { ...body, photo: { name: 'x.png', base64: PNG } };
    expect((await api.send('anna', 'POST', `/api/signers/${signer.id}/signature`, { body: good })).status).toBe(201);
    expect(await mails(jobId, 'Your signed agreement%')).toEqual([]);
    const photo = await api.send('office', 'GET', `/api/signers/${signer.id}/files/photo`);
    expect(photo.headers['content-type']).toBe('image/png');
  });
});

describe('a link', () => {
  it('that was taken back opens nothing, also not by an older link, until a fresh one is sent', async () => {
    const { jobId, link } = await issued();
    await addFee(jobId, 5000);
    await issue(jobId);
    const newer = await linkOf(jobId);
    const [signer] = (await agreementOf(jobId)).signers;
    const toPassOn = async () => (await api.send('office', 'GET', `/api/jobs/${jobId}/agreement/links`)).body;
    expect(await toPassOn()).toEqual({ mailLeaves: false, links: [{ signerId: signer.id, link: expect.stringContaining(newer) }] });
    expect((await api.send('anna', 'POST', `/api/signers/${signer.id}/link/revocation`, { body: {} })).status).toBe(403);
    expect((await api.send('office', 'POST', `/api/signers/${signer.id}/link/revocation`, { body: {} })).status).toBe(201);
    for (const one of [link, newer]) {
      const page = await open(one);
      expect([page.statusCode, page.body.includes('taken back'), page.body.includes('<a href="tel:')]).toEqual([410, true, true]);
      expect((await post(one, await fields(jobId))).statusCode).toBe(410);
    }
    expect(await api.send('office', 'POST', `/api/signers/${signer.id}/link/revocation`, { body: {} })).toMatchObject({
      status: 409,
      body: { code: 'link-revoked-already' },
    });
    expect((await toPassOn()).links).toEqual([]);
    api.clock.now = new Date(api.clock.now.getTime() + 1000);
    await api.send('office', 'POST', `/api/signers/${signer.id}/link`, { body: { asked: false } });
    expect((await open(await linkOf(jobId))).statusCode).toBe(200);
  });
  it.each([
    ['empty', '/client/'],
    ['10,000 characters', `/client/${'a'.repeat(10_000)}`],
    ['not base64url', `/client/${'*'.repeat(43)}`],
  ])('%s is refused without harm', async (_, link) => expect([400, 404, 414]).toContain((await open(link)).statusCode));
  it('of another job signs nothing here', async () => {
    const [mine, other] = [await issued(), await issued()];
    expect((await post(other.link, await fields(mine.jobId))).statusCode).toBe(409);
    expect((await agreementOf(mine.jobId)).signers[0].signature).toBeNull();
    expect((await agreementOf(other.jobId)).signers[0].signature).toBeNull();
  });
  it('may be opened so often in a minute and no oftener; another link is not slowed', async () => {
    const [one, other] = [await issued(), await issued()];
    const codes: number[] = [];
    for (let n = 0; n < 42; n++) codes.push((await open(one.link)).statusCode);
    expect(codes.filter((code) => code === 429)).toHaveLength(2);
    expect((await open(other.link)).statusCode).toBe(200);
  });
  it('an address that tries many is slowed', async () => {
    let last = 0;
    for (let n = 0; n < 62; n++) last = (await open(`/client/${String(n).padStart(43, 'z')}`, '203.0.113.7')).statusCode;
    expect(last).toBe(429);
  });
  it('keeps whose address it also is', async () => {
    const job = await paidJob(api, { clients: [{ name: 'Cleo Client', email: 'arno@test.example' }] });
    await issue(job.jobId);
    const signer = (await agreementOf(job.jobId)).signers.find((s: { name: string }) => s.name === 'Cleo Client');
    expect(signer.sharedWith).toContain('Arno Agent');
  });
});

describe('a new agreement after signing', () => {
  it('is shown to the office before it goes, and to the client on the page', async () => {
    const { jobId, visitId, link } = await issued();
    await post(link, await fields(jobId));
    const preview = () => api.send('office', 'GET', `/api/jobs/${jobId}/agreement/preview`);
    expect((await preview()).body).toMatchObject({ same: true, changes: [], signAgain: [] });
    await addFee(jobId, 15_000);
    const shown = (await preview()).body;
    expect(shown).toMatchObject({ same: false, first: false, signAgain: ['Paula Prior'] });
    expect(JSON.stringify(shown.changes)).toMatch(/575\.00.*725\.00/);
    expect((await api.send('anna', 'GET', `/api/jobs/${jobId}/agreement/preview`)).status).toBe(403);
    await issue(jobId);
    const page = (await open(link)).body;
    expect(page).toContain('What changed since you signed');
    expect(page).toMatch(/<del>[^<]*575\.00[^<]*<\/del>/);
    expect((await api.send('anna', 'GET', `/api/visits/${visitId}/gate`)).body.missing).toContain('agreement-unsigned');
    const { earlier } = await agreementOf(jobId);
    expect(earlier).toMatchObject([{ signed: [{ name: 'Paula Prior', late: false }] }]);
  });
  it('meets a signature that was given without signal: it is kept, told as late, and opens nothing', async () => {
    const { jobId, visitId } = await issued();
    const { signers, sha256 } = await agreementOf(jobId);
    const signedAt = new Date(api.clock.now.getTime() + 60_000).toISOString();
    await addFee(jobId, 5000);
    api.clock.now = new Date(api.clock.now.getTime() + 120_000);
    await issue(jobId);
    api.clock.now = new Date(api.clock.now.getTime() + 120_000);
    const body = { ...atTheDoor(sha256, signers[0].word, signedAt), strokes: DRAWN };
    expect(await api.send('anna', 'POST', `/api/signers/${signers[0].id}/signature`, { body })).toMatchObject({
      status: 201,
      body: { late: true },
    });
    const agreement = await agreementOf(jobId);
    expect(agreement.earlier[0].signed).toMatchObject([{ name: 'Paula Prior', at: signedAt, late: true }]);
    expect(agreement.signers[0].signature).toBeNull();
    expect((await api.send('anna', 'GET', `/api/visits/${visitId}/gate`)).body.missing).toContain('agreement-unsigned');
    expect(await needOf(api, jobId, 'signature')).toBe('open');
  });
  it('takes a signature of the device with its own time, and refuses other words', async () => {
    const { jobId, visitId } = await issued();
    const { signers, sha256 } = await agreementOf(jobId);
    const signedAt = new Date(api.clock.now.getTime() + 60_000).toISOString();
    api.clock.now = new Date(api.clock.now.getTime() + 7_200_000);
    const body = atTheDoor(sha256, signers[0].word, signedAt);
    const at = `/api/signers/${signers[0].id}/signature`;
    expect((await api.send('anna', 'POST', at, { body: { ...body, sha256: 'f'.repeat(64) } })).body.code).toBe('agreement-changed');
    expect(await api.send('anna', 'POST', at, { body })).toMatchObject({ status: 201, body: { late: false } });
    const { signature } = (await agreementOf(jobId)).signers[0];
    expect([signature.happenedAt, signature.recordedAt]).toEqual([signedAt, api.clock.now.toISOString()]);
    expect((await api.send('anna', 'GET', `/api/visits/${visitId}/gate`)).body.missing).not.toContain('agreement-unsigned');
  });
});

describe('authority on file', () => {
  it('stands in the place of a reason, and must be a picture or a PDF', async () => {
    const { jobId } = await issued();
    const [signer] = (await agreementOf(jobId)).signers;
    const file = (bytes: string) => ({ body: { file: { name: 'poa.pdf', base64: Buffer.from(bytes).toString('base64') } } });
    expect((await api.send('office', 'POST', `/api/signers/${signer.id}/authority`, file('words'))).body.code).toBe('paper-photo-kind');
    expect((await api.send('office', 'POST', `/api/signers/${signer.id}/authority`, file('%PDF-1.7 power of attorney'))).status).toBe(201);
    const body = { capacity: 'attorney_in_fact', authority: '' };
    expect(await api.send('office', 'PUT', `/api/signers/${signer.id}`, { body })).toMatchObject({ status: 200 });
    expect((await agreementOf(jobId)).signers[0]).toMatchObject({ authorityFile: 'poa.pdf', capacity: 'attorney_in_fact' });
    expect((await api.send('lead', 'GET', `/api/signers/${signer.id}/files/authority`)).headers['content-type']).toBe('application/pdf');
    expect((await api.send('anna', 'GET', `/api/signers/${signer.id}/files/authority`)).status).toBe(403);
  });
});
