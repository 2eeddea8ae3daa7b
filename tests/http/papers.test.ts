// Tag: time.
// Papers over HTTP: the agreement before and after it is sealed, fingerprints, invoice, receipt, statement, day sheet, and who may have them.
import { createHash, randomUUID } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { CAST } from '../support/cast.ts';
import { testApi } from '../support/http.ts';
import { paidJob } from '../support/paidJob.ts';
import { flat, readPdf } from '../support/pdf.ts';
import { withStarter } from '../support/starter.ts';

const api = testApi();
withStarter(api);

const sha256 = (bytes: Uint8Array | string): string => createHash('sha256').update(bytes).digest('hex');
/** The file at a path, asked for with the cookie of somebody. */
async function file(who: Parameters<typeof api.send>[0], path: string) {
  const { status, headers, bytes } = await api.send(who, 'GET', path);
  return { status, type: headers['content-type'], name: /filename="(.+)"/.exec(String(headers['content-disposition']))?.[1], bytes };
}

describe('the agreement as a paper', () => {
  it('is readable before it is signed, and sealed once with its signing record: the same bytes for ever', async () => {
    const { jobId } = await paidJob(api);
    const { agreementId } = (await api.send('office', 'POST', `/api/jobs/${jobId}/agreement`, { body: {} })).body;
    const agreement = (await api.send('office', 'GET', `/api/jobs/${jobId}/agreement`)).body.agreement;
    const before = await file('office', `/api/agreements/${agreementId}/paper`);
    expect(before).toMatchObject({ status: 200, type: 'application/pdf', name: `agreement-job-${agreement.jobNumber}.pdf` });
    const open = await readPdf(before.bytes);
    expect(open.language).toBe('en-US');
    expect(flat(open.pages.join(' '))).toContain('EXAMPLE THAT NO ATTORNEY HAS REVIEWED');
    expect(flat(open.pages.join(' '))).not.toContain('Signing record');

    await signEverywhere(agreement);
    const first = await file('office', `/api/agreements/${agreementId}/paper`);
    const sealed = await readPdf(first.bytes);
    const last = flat(sealed.pages.at(-1)!);
    const all = flat(sealed.pages.join(' '));
    for (const words of [
      'Signing record',
      agreement.sha256,
      'Paula Prior',
      'On paper',
      'Paper kept at Folder of the job',
      'Photo of the paper (SHA-256) none was taken',
      '(2026-',
    ])
      expect(all).toContain(words);
    expect(last).toContain(`Page ${sealed.pages.length} of ${sealed.pages.length}`);
    expect(sha256(sealed.attachments['agreement.txt']!)).toBe(agreement.sha256);
    api.clock.now = new Date(api.clock.now.getTime() + 3_600_000);
    expect(Buffer.compare((await file('lead', `/api/agreements/${agreementId}/paper`)).bytes, first.bytes)).toBe(0);

    expect((await api.send('nobody', 'GET', `/api/fingerprints/${sha256(first.bytes)}`)).body).toMatchObject({
      known: true,
      kind: 'signed_agreement',
      superseded: false,
    });
    expect((await api.send('nobody', 'GET', `/api/fingerprints/${agreement.sha256}`)).body).toMatchObject({
      known: true,
      kind: 'agreement_words',
    });
    expect((await api.send('nobody', 'GET', `/api/fingerprints/${'0'.repeat(64)}`)).body).toEqual({
      known: false,
      kind: null,
      day: null,
      superseded: false,
    });
    expect((await api.send('nobody', 'GET', '/api/fingerprints/abc')).status).toBe(422);
    const page = await api.app().inject({ method: 'GET', url: `/verify?sha256=${sha256(first.bytes).toUpperCase()}` });
    expect(page.statusCode).toBe(200);
    expect(page.body).toContain('a signed agreement');
    expect(page.body).not.toContain('Prior');
    expect((await api.app().inject({ method: 'GET', url: '/verify?sha256=%3Cb%3E' })).statusCode).toBe(422);
  });
  it('is for the office, and for the pair of the job alone', async () => {
    const { jobId } = await paidJob(api);
    const { agreementId } = (await api.send('office', 'POST', `/api/jobs/${jobId}/agreement`, { body: {} })).body;
    expect((await file('anna', `/api/agreements/${agreementId}/paper`)).status).toBe(200);
    expect((await file('cora', `/api/agreements/${agreementId}/paper`)).status).toBe(403);
    expect((await file('nobody', `/api/agreements/${agreementId}/paper`)).status).toBe(401);
    expect((await file('office', `/api/agreements/${randomUUID()}/paper`)).status).toBe(404);
  });
  it('cannot be changed once sealed, and fits its fingerprint', async () => {
    await expect(api.database.transaction(({ db }) => db.$executeRawUnsafe('UPDATE sealed_paper SET name = name'))).rejects.toThrow();
    await expect(
      api.database.transaction(({ db }) =>
        db.$executeRawUnsafe(
          `INSERT INTO sealed_paper (id, kind, agreement_id, signatures, name, sha256, content, recorded_at) SELECT gen_random_uuid(), 'agreement', id, 9, 'x', repeat('0', 64), 'x', now() FROM agreement LIMIT 1`,
        ),
      ),
    ).rejects.toThrow(/sealed_paper_fits_fingerprint/);
  });
});

describe('papers about money', () => {
  it('tell invoice, receipt and statement with the firm and its licenses', async () => {
    const { jobId, clientId } = await paidJob(api);
    const { invoiceId, number } = (await api.send('office', 'POST', `/api/jobs/${jobId}/invoices`, { body: {} })).body;
    const invoice = await file('office', `/api/invoices/${invoiceId}/paper`);
    expect(invoice).toMatchObject({ status: 200, name: `invoice-${number}.pdf` });
    const words = flat((await readPdf(invoice.bytes)).pages.join(' '));
    for (const part of [`Invoice ${number}`, 'Issued May 12, 2026', 'Line 1', '$450.00', '$575.00', 'WI-20', 'WI-21'])
      expect(words).toContain(part);
    expect(Buffer.compare((await file('office', `/api/invoices/${invoiceId}/paper`)).bytes, invoice.bytes)).toBe(0);
    const paid = await api.send('office', 'POST', `/api/invoices/${invoiceId}/payments`, {
      body: { id: randomUUID(), method: 'check', reference: '1042', cents: 57_500, receivedOn: '2026-05-12' },
    });
    expect(paid.status).toBe(201);
    const receipt = await readPdf((await file('office', `/api/payments/${paid.body.id}/receipt`)).bytes);
    expect(flat(receipt.pages[0]!)).toContain('$575.00');
    const statement = await readPdf((await file('office', `/api/parties/${clientId}/statement/paper?from=2026-01-01&to=2026-12-31`)).bytes);
    expect(statement.title).toMatch(/^Statement for /);
    const evidence = await file('office', `/api/payments/${paid.body.id}/evidence`);
    expect(evidence).toMatchObject({ status: 200, type: 'application/pdf' });
    expect((await file('anna', `/api/invoices/${invoiceId}/paper`)).status).toBe(403);
  });
});

describe('the day sheet', () => {
  it('tells a person his visits of a day, and others nothing of it', async () => {
    const { jobId } = await paidJob(api);
    const [visit] = await api.database.read.rows<{ day: string }>(
      `SELECT (starts_at AT TIME ZONE 'America/Chicago')::date::text AS day FROM visit WHERE job_id = $1::uuid`,
      [jobId],
    );
    const path = `/api/people/${CAST.anna.id}/day-sheet/${visit!.day}`;
    const own = await readPdf((await file('anna', path)).bytes);
    const words = flat(own.pages.join(' '));
    for (const part of ['Anna Inspector', 'Ben Inspector', 'Getting in', 'report by']) expect(words).toContain(part);
    expect((await file('office', path)).status).toBe(200);
    expect((await file('cora', path)).status).toBe(403);
    expect((await file('anna', `/api/people/${CAST.anna.id}/day-sheet/2026-02-30`)).status).toBe(422);
    const empty = await readPdf((await file('anna', `/api/people/${CAST.anna.id}/day-sheet/2020-01-01`)).bytes);
    expect(flat(empty.pages[0]!)).toContain('No visit on this day.');
  });
});

/** Everybody signs on paper at the property. */
async function signEverywhere(agreement: { signers: { id: string }[] }): Promise<void> {
  for (const { id } of agreement.signers) {
    const signed = await api.send('office', 'POST', `/api/signers/${id}/signature`, {
      body: { id: randomUUID(), method: 'paper', name: 'Paula Prior', consent: false, keptWhere: 'Folder of the job' },
    });
    expect(signed.status).toBe(201);
  }
}
