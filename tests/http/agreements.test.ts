// Agreements over HTTP: issuing, the client's private page, signing, addresses in doubt, paper, and the gate.
import { createHash, randomUUID } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { formatWord } from '@backsight/domain/agreements/signing';
import { postForm } from '../support/clientLink.ts';
import { testApi, type Answer } from '../support/http.ts';
import { needOf, paidJob } from '../support/paidJob.ts';
import { withStarter } from '../support/starter.ts';

const api = testApi();
withStarter(api);

const issue = (jobId: string): Promise<Answer> => api.send('office', 'POST', `/api/jobs/${jobId}/agreement`, { body: {} });
const ofAddress = (issued: Answer) => issued.body.warnings.filter(({ code }: { code: string }) => code === 'client-address');
const agreementOf = async (jobId: string) => (await api.send('office', 'GET', `/api/jobs/${jobId}/agreement`)).body.agreement;
const linkOf = async (jobId: string): Promise<string> => {
  const rows = await api.database.read.rows<{ body: string }>(
    `SELECT body FROM outgoing_mail WHERE about_id = $1::uuid AND subject LIKE 'Agreement for%' ORDER BY id DESC`,
    [jobId],
  );
  return /\/client\/[\w-]{43}/.exec(rows[0]!.body)![0];
};
const open = (link: string) => api.app().inject({ method: 'GET', url: link });
const post = (link: string, fields: Record<string, string>) => postForm(api, link, fields);
const sha = (page: string): string => /name="sha256" value="(\w{64})"/.exec(page)![1]!;
/** All that a client fills in; the word is the one that the PDF shows to the link's signer. */
async function whole(link: string, page: string) {
  const hash = createHash('sha256').update(link.split('/')[2]!).digest('hex');
  const rows = await api.database.read.rows<{ id: string }>(
    `SELECT n.id::text AS id FROM signer s JOIN agreement a ON a.id = s.agreement_id JOIN agreement m ON m.job_id = a.job_id AND NOT EXISTS (SELECT FROM agreement x WHERE x.supersedes_id = m.id)
       JOIN signer n ON n.agreement_id = m.id AND n.party_id = s.party_id WHERE s.token_hash = $1`,
    [hash],
  );
  return { name: 'Paula Prior', read: 'yes', consent: 'yes', sha256: sha(page), word: formatWord(sha(page), rows[0]!.id) };
}

describe('issuing', () => {
  it('writes the text for the job, sends one private link, and does it once', async () => {
    const { jobId } = await paidJob(api);
    const first = await issue(jobId);
    expect(first.status).toBe(201);
    expect(ofAddress(first)).toEqual([]);
    expect((await issue(jobId)).body.agreementId).toBe(first.body.agreementId);
    const agreement = await agreementOf(jobId);
    expect(agreement.body).toMatch(/^EXAMPLE THAT NO ATTORNEY HAS REVIEWED/);
    expect(agreement.body).toContain('Anna Inspector (license WI-20) and Ben Inspector (license WI-21)');
    expect(agreement.sha256).toBe(createHash('sha256').update(agreement.body).digest('hex'));
    const token = (await linkOf(jobId)).split('/')[2]!;
    const stored = await api.database.read.rows<{ hash: string }>('SELECT token_hash AS hash FROM signer WHERE agreement_id = $1::uuid', [
      first.body.agreementId,
    ]);
    expect(stored).toEqual([{ hash: createHash('sha256').update(token).digest('hex') }]);
  });
  it('refuses a client who is a minor', async () => {
    const { jobId } = await paidJob(api, { clients: [{ name: 'Kid Prior', email: null, minor: true }] });
    expect(await issue(jobId)).toMatchObject({ status: 409, body: { code: 'client-is-minor' } });
  });
  it.each([
    ['the agent', 'arno@test.example'],
    ['somebody of the firm', 'Otto@test.example'],
  ])('asks the office before it sends to an address that is also that of %s', async (_, email) => {
    const { jobId } = await paidJob(api, { clients: [{ name: 'Cleo Client', email }] });
    const issued = await issue(jobId);
    expect(ofAddress(issued)).toHaveLength(1);
    expect(await needOf(api, jobId, 'client_address')).toBe('open');
    const signer = (await agreementOf(jobId)).signers.find((s: { name: string }) => s.name === 'Cleo Client');
    expect(signer).toMatchObject({ sharedAddress: true, sentAt: null });
    expect(await api.send('office', 'POST', `/api/signers/${signer.id}/link`, { body: { asked: false } })).toMatchObject({
      status: 409,
      body: { code: 'address-in-doubt', field: 'asked' },
    });
    expect((await api.send('office', 'POST', `/api/signers/${signer.id}/link`, { body: { asked: true } })).status).toBe(201);
    expect(await needOf(api, jobId, 'client_address')).toBe('settled');
  });
  it('flags two signers with one address', async () => {
    const { jobId } = await paidJob(api, {
      clients: [
        { name: 'Dee', email: 'both@test.example' },
        { name: 'Eli', email: 'both@test.example' },
      ],
    });
    await issue(jobId);
    expect((await agreementOf(jobId)).signers.map((s: { name: string; sharedAddress: boolean }) => [s.name, s.sharedAddress])).toEqual([
      ['Dee', true],
      ['Eli', true],
      ['Paula Prior', false],
    ]);
  });
  it('is not for inspectors', async () =>
    expect((await api.send('anna', 'POST', `/api/jobs/${randomUUID()}/agreement`, { body: {} })).status).toBe(403));
});

describe("the client's page", () => {
  it('shows all that is signed, and is kept by nobody', async () => {
    const { jobId } = await paidJob(api);
    await issue(jobId);
    const page = await open(await linkOf(jobId));
    expect([page.statusCode, page.headers['cache-control'], page.headers['referrer-policy']]).toEqual([200, 'no-store', 'no-referrer']);
    for (const words of [
      'Test Inspections',
      '$575.00',
      '14 Alder Road',
      'no attorney has reviewed',
      'on paper instead',
      'withdraw it at any time',
      'e-mail address changes',
      'internet browser',
      '2 years',
      '6 years',
    ])
      expect(page.body).toContain(words);
    expect(page.body).not.toMatch(/required by law/i);
  });
  it('takes the signature, settles the need, and taking it twice changes nothing', async () => {
    const { jobId } = await paidJob(api);
    await issue(jobId);
    const link = await linkOf(jobId);
    const fields = await whole(link, (await open(link)).body);
    const [one, two] = await Promise.all([post(link, fields), post(link, { ...fields, name: 'Somebody Else' })]);
    expect([one.statusCode, two.statusCode, (await post(link, fields)).statusCode]).toEqual([303, 303, 303]);
    const agreement = await agreementOf(jobId);
    expect(agreement.signers[0].signature).toMatchObject({
      method: 'link',
      device: 'A phone',
      sha256: agreement.sha256,
      consentSha256: createHash('sha256').update(agreement.consentText).digest('hex'),
    });
    expect((await open(link)).body).toContain('Signed by');
    expect((await open(link)).body).not.toContain('id="signing"');
    expect(await needOf(api, jobId, 'signature')).toBe('settled');
    const [n] = await api.database.read.rows<{ n: number }>(
      'SELECT count(*)::int AS n FROM signature g JOIN signer s ON s.id = g.signer_id WHERE s.agreement_id = $1::uuid',
      [agreement.id],
    );
    expect(n!.n).toBe(1);
  });
  it.each([
    [{ read: '' }, 'have read'],
    [{ consent: '' }, 'electronic records'],
    [{ name: ' ' }, 'full name'],
    [{ word: 'wrong' }, 'not the one in the PDF'],
    [{ how: 'drawn', strokes: '[[1,1]]' }, 'draw your signature'],
    [{ how: 'drawn', strokes: '{' }, 'could not be read'],
  ])('with %o says what is missing and loses nothing that was typed', async (wrong, words) => {
    const { jobId } = await paidJob(api);
    await issue(jobId);
    const link = await linkOf(jobId);
    const answer = await post(link, { ...(await whole(link, (await open(link)).body)), ...wrong });
    expect(answer.statusCode).toBe(422);
    expect(answer.body).toContain(words);
    if (!('name' in wrong)) expect(answer.body).toContain('value="Paula Prior"');
  });
  it('escapes whatever was typed', async () => {
    const { jobId } = await paidJob(api);
    await issue(jobId);
    const link = await linkOf(jobId);
    const answer = await post(link, { ...(await whole(link, (await open(link)).body)), read: '', name: '"><script>alert(1)</script>' });
    expect(answer.body).not.toContain('<script>');
  });
  it.each(['x', 'a'.repeat(43), 'a'.repeat(190), '%00', '..%2f..%2fetc'])('opens nothing for the wrong token %s', async (token) => {
    const page = await open(`/client/${token}`);
    expect([page.statusCode, page.headers['content-type']]).toEqual([404, 'text/html; charset=utf-8']);
    expect(page.body).toMatch(/opens nothing.*<a href="tel:920-555/s);
    expect((await post(`/client/${token}`, { name: 'x' })).statusCode).toBe(404);
  });
  it('of a replaced agreement says so, shows the newest, and takes no signature for the old words', async () => {
    const { jobId } = await paidJob(api);
    await issue(jobId);
    const old = await linkOf(jobId);
    const before = await whole(old, (await open(old)).body);
    await api.database.transaction(({ db }) =>
      db.jobFeeLine.create({
        data: { id: api.newId(), jobId, position: 9, ruleKey: 'x', label: 'Radon', reason: 'x', cents: 15_000, recordedAt: api.clock.now },
      }),
    );
    await issue(jobId);
    const page = await open(old);
    expect(page.body).toContain('was replaced');
    expect(page.body).toContain('$725.00');
    expect((await post(old, before)).statusCode).toBe(409);
    expect((await post(old, await whole(old, page.body))).statusCode).toBe(303);
    expect((await agreementOf(jobId)).signers[0].signature).not.toBeNull();
  });
  it('has ended a month after the visit, and when a newer link was sent', async () => {
    const job = await paidJob(api);
    await issue(job.jobId);
    const first = await linkOf(job.jobId);
    const signer = (await agreementOf(job.jobId)).signers[0];
    api.clock.now = new Date(api.clock.now.getTime() + 1000);
    await api.send('office', 'POST', `/api/signers/${signer.id}/link`, { body: { asked: false } });
    const second = await linkOf(job.jobId);
    expect([(await open(first)).statusCode, (await open(second)).statusCode]).toEqual([404, 200]);
    const now = api.clock.now;
    api.clock.now = new Date(new Date(signer.linkEndsAt).getTime() + 1000);
    expect((await open(second)).statusCode).toBe(410);
    expect((await post(second, { name: 'Paula Prior' })).statusCode).toBe(410);
    api.clock.now = now;
  });
});

describe('a signature at the door', () => {
  const body = () => ({ id: randomUUID(), method: 'paper', name: 'Paula Prior', consent: false, keptWhere: 'Folder of the job' });
  it('is recorded by the pair on paper, once', async () => {
    const { jobId } = await paidJob(api);
    await issue(jobId);
    const signer = (await agreementOf(jobId)).signers[0];
    expect(await api.send('cora', 'POST', `/api/signers/${signer.id}/signature`, { body: body() })).toMatchObject({
      status: 403,
      body: { code: 'not-on-this-visit' },
    });
    expect((await api.send('anna', 'POST', `/api/signers/${signer.id}/signature`, { body: body() })).status).toBe(201);
    expect((await agreementOf(jobId)).signers[0].signature).toMatchObject({ method: 'paper', consentSha256: '', name: 'Paula Prior' });
    expect(await api.send('office', 'POST', `/api/signers/${signer.id}/signature`, { body: body() })).toMatchObject({
      status: 409,
      body: { code: 'signed-already' },
    });
  });
  it('on a device wants consent to electronic records', async () => {
    const { jobId } = await paidJob(api);
    await issue(jobId);
    const { signers, sha256 } = await agreementOf(jobId);
    const signer = signers[0];
    const shown = { read: true, sha256, word: signer.word };
    expect(
      await api.send('anna', 'POST', `/api/signers/${signer.id}/signature`, { body: { ...body(), ...shown, method: 'on_site_device' } }),
    ).toMatchObject({ status: 422, body: { code: 'no-consent' } });
    expect(
      (
        await api.send('anna', 'POST', `/api/signers/${signer.id}/signature`, {
          body: { ...body(), ...shown, method: 'on_site_device', consent: true },
        })
      ).status,
    ).toBe(201);
  });
  it('for somebody else names the authority', async () => {
    const { jobId } = await paidJob(api);
    await issue(jobId);
    const signer = (await agreementOf(jobId)).signers[0];
    expect(await api.send('office', 'PUT', `/api/signers/${signer.id}`, { body: { capacity: 'trustee', authority: '' } })).toMatchObject({
      status: 422,
      body: { code: 'authority-missing' },
    });
    await api.send('office', 'PUT', `/api/signers/${signer.id}`, {
      body: { capacity: 'trustee', authority: 'trust deed of 2019, copy on file' },
    });
    expect((await open(await linkOf(jobId))).body).toContain('as trustee, trust deed of 2019');
  });
});

describe('the gate', () => {
  const gate = async (visitId: string) => (await api.send('anna', 'GET', `/api/visits/${visitId}/gate`)).body;
  it('wants signature and fee, opens by an override with a reason, and keeps both', async () => {
    const { jobId, visitId } = await paidJob(api, { terms: 'due_at_booking' });
    await issue(jobId);
    expect(await gate(visitId)).toMatchObject({ missing: ['agreement-unsigned', 'fee-unpaid'], open: false });
    const override = (who: 'lead' | 'anna' | 'office', reason: string) =>
      api.send(who, 'POST', `/api/visits/${visitId}/gate-override`, { body: { id: randomUUID(), reason } });
    expect((await override('anna', 'Client signs at the door')).status).toBe(403);
    expect((await override('office', 'Client signs at the door')).status).toBe(403);
    expect(await override('lead', 'too short')).toMatchObject({ status: 422, body: { code: 'reason-too-short' } });
    expect((await override('lead', 'Client signs at the door')).status).toBe(201);
    expect(await gate(visitId)).toMatchObject({
      missing: ['agreement-unsigned', 'fee-unpaid'],
      open: true,
      overrides: [{ by: 'Lena Lead', reason: 'Client signs at the door' }],
    });
  });
  it('is open once signed where the fee is due later', async () => {
    const { visitId } = await paidJob(api, { signed: true });
    expect(await gate(visitId)).toMatchObject({ missing: [], open: true });
    expect(
      await api.send('lead', 'POST', `/api/visits/${visitId}/gate-override`, {
        body: { id: randomUUID(), reason: 'Nothing to override here' },
      }),
    ).toMatchObject({ status: 409, body: { code: 'gate-is-open' } });
  });
  it('of no visit is not found', async () => expect((await api.send('anna', 'GET', `/api/visits/${randomUUID()}/gate`)).status).toBe(404));
});

describe("an attorney's approval", () => {
  it('is recorded by an owner, once, and ends the mark on new agreements', async () => {
    const text = (await api.send('owner', 'GET', '/api/agreement-texts')).body.find(({ kind }: { kind: string }) => kind === 'inspection');
    const body = { attorney: 'Alva Attorney, Birchmere', on: '2026-05-11' };
    expect((await api.send('office', 'POST', `/api/agreement-texts/${text.id}/attorney`, { body })).status).toBe(403);
    expect(
      await api.send('owner', 'POST', `/api/agreement-texts/${text.id}/attorney`, { body: { ...body, on: '2026-05-13' } }),
    ).toMatchObject({ status: 422, body: { code: 'approval-ahead' } });
    expect((await api.send('owner', 'POST', `/api/agreement-texts/${text.id}/attorney`, { body })).status).toBe(201);
    expect(await api.send('second', 'POST', `/api/agreement-texts/${text.id}/attorney`, { body })).toMatchObject({
      status: 409,
      body: { code: 'approved-already' },
    });
    const { jobId } = await paidJob(api);
    await issue(jobId);
    expect((await agreementOf(jobId)).body).not.toContain('EXAMPLE');
    expect((await open(await linkOf(jobId))).body).not.toContain('no attorney');
  });
});
