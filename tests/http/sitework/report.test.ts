// The client's report over HTTP: drafted, taken in, handed over; and the record's own frozen revision and exposure.
import { createHash, randomUUID } from 'node:crypto';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { timesApplied } from '@backsight/store/sitework/exposure';
import { readStoredFile } from '@backsight/store/sitework/files';
import { draftReportOfJob, takeInReport } from '@backsight/usecases/sitework/addReport';
import { as, CAST } from '../../support/cast.ts';
import { testApi } from '../../support/http.ts';
import { flat, readPdf } from '../../support/pdf.ts';
import { siteJob, type SiteJob } from '../../support/siteJob.ts';
import { withStarter } from '../../support/starter.ts';
import { answer, enter, recordAll, recordOf, signOff, start, stepOf } from './support.ts';

const api = testApi();
withStarter(api);
const hours = (n: number): Date => new Date(new Date('2026-05-12T15:00:00Z').getTime() + n * 3_600_000);
const directory = fs.mkdtempSync(path.join(os.tmpdir(), 'backsight-files-'));
afterAll(() => fs.rmSync(directory, { recursive: true, force: true }));

/** A job whose record is sealed, with one panel that could not be opened. */
async function sealedJob(wish: Parameters<typeof siteJob>[1]): Promise<SiteJob & { recordId: string }> {
  const job = await siteJob(api, wish);
  const recordId = await start(api, job.visitId);
  const panel = stepOf(await recordOf(api, 'anna', recordId), 'panel-interior');
  await enter(api, 'anna', recordId, [
    answer(panel, 'anna', { outcome: 'could_not', evidence: null, reason: 'locked', note: 'Padlock on the cover' }),
  ]);
  await recordAll(api, recordId);
  await api.send('anna', 'POST', `/api/records/${recordId}/end`, { body: { endedAs: 'complete' } });
  await api.send('ben', 'POST', `/api/records/${recordId}/seal`, { body: {} });
  return { ...job, recordId };
}

const draft = (more: object = {}) => ({ id: randomUUID(), completedOn: '2026-05-14', reportOn: '2026-05-14', defects: [], ...more });

let job: Awaited<ReturnType<typeof sealedJob>>;
beforeAll(async () => {
  job = await sealedJob({ startsAt: hours(1), terms: 'billed_to_closing' });
});

describe('the report', () => {
  it('is drafted with the defects first and what was not inspected last', async () => {
    const before = await api.send('anna', 'GET', `/api/jobs/${job.jobId}/reports`);
    expect(before.body).toMatchObject({ sealed: true, inspectedOn: '2026-05-12', dueAt: '2026-05-14T22:00:00.000Z', reports: [] });
    const defects = [{ stepKey: 'service-rating', itemId: null, text: 'The service is smaller than the house needs.' }];
    const made = await api.send('anna', 'POST', `/api/jobs/${job.jobId}/reports`, { body: draft({ defects }) });
    expect(made).toMatchObject({ status: 201, body: { version: 1 } });
    const [report] = (await api.send('anna', 'GET', `/api/jobs/${job.jobId}/reports`)).body.reports;
    expect(report).toMatchObject({
      inspectedOn: '2026-05-12',
      completedOn: '2026-05-14',
      reportOn: '2026-05-14',
      revisedOn: null,
      preparedByName: 'Anna Inspector',
      inspectedBy: ['Anna Inspector', 'Ben Inspector'],
    });
    expect(report.body.summary).toEqual([{ system: 'Electrical', text: defects[0]!.text }]);
    expect(report.body.systems.map((s: { system: string }) => s.system)).not.toContain('Leaving');
  });
  it('gets another version with its own date; the first date stays', async () => {
    api.clock.now = hours(72);
    const made = await api.runner.run(
      draftReportOfJob,
      { jobId: job.jobId, ...draft({ completedOn: '2026-05-15', reportOn: '2026-05-15' }) },
      { actor: as('anna') },
    );
    api.clock.now = hours(0);
    expect(made).toMatchObject({ ok: true, value: { version: 2 } });
    const [second] = (await api.send('office', 'GET', `/api/jobs/${job.jobId}/reports`)).body.reports;
    expect(second).toMatchObject({ version: 2, reportOn: '2026-05-14', revisedOn: '2026-05-15' });
  });
  it('is handed to the client, and only with consent to the agent', async () => {
    const [report] = (await api.send('anna', 'GET', `/api/jobs/${job.jobId}/reports`)).body.reports;
    const paper = () => api.send('anna', 'GET', `/api/reports/${report.id}/paper`);
    const drafted = await paper();
    expect(report.sealed).toBeNull();
    const to = (partyId: string, method = 'mail') =>
      api.send('anna', 'POST', `/api/reports/${report.id}/deliveries`, { body: { id: randomUUID(), partyId, method } });
    expect(await to(job.otherId)).toMatchObject({ status: 403, body: { code: 'report-recipient' } });
    expect(await to(job.clientId)).toMatchObject({ status: 201 });
    const [mail] = await api.database.read.rows<{ body: string }>(`SELECT body FROM outgoing_mail WHERE about_id = $1::uuid`, [report.id]);
    expect(mail?.body).toMatch(/SUMMARY OF DEFECTS[\s\S]+NOT INSPECTED, AND WHY/);
    const sha256 = createHash('sha256').update(drafted.bytes).digest('hex');
    expect(mail?.body).toContain(sha256);
    await api.send('owner', 'PATCH', '/api/firm', { version: 1, body: { paperSize: 'a4', phone: '(920) 555-0199' } });
    const sealed = await paper();
    expect(Buffer.compare(sealed.bytes, drafted.bytes)).toBe(0);
    expect((await api.send('anna', 'GET', `/api/jobs/${job.jobId}/reports`)).body.reports[0].sealed.sha256).toBe(sha256);
    expect((await api.send('nobody', 'GET', `/api/fingerprints/${sha256}`)).body).toMatchObject({
      known: true,
      kind: 'report',
      superseded: false,
    });
    const read = await readPdf(sealed.bytes);
    const words = flat(read.pages.join(' '));
    for (const part of ['Test Inspections', 'WI-20', 'WI-21', 'Summary of defects', 'Padlock on the cover', 'version 2', ', WI '])
      expect(words).toContain(part);
    expect(read.size).toEqual([612, 792]);
    const sheet = await readPdf((await api.send('anna', 'GET', `/api/people/${CAST.anna.id}/day-sheet/2026-05-12`)).bytes);
    expect(sheet.size.map(Math.round)).toEqual([595, 842]);
    const [row] = await api.database.read.rows('SELECT state FROM job WHERE id = $1::uuid', [job.jobId]);
    expect(row).toEqual({ state: 'reported' });
    await api.database.transaction((tx) =>
      tx.db.jobParty.updateMany({
        where: { jobId: job.jobId, partyId: job.otherId },
        data: { mayReceiveReport: true, consentAt: hours(2) },
      }),
    );
    expect((await to(job.otherId, 'paper')).status).toBe(201);
  });
  it('is not for an inspector who was not there, nor completed before the inspection', async () => {
    expect((await api.send('cora', 'GET', `/api/jobs/${job.jobId}/reports`)).status).toBe(403);
    expect((await api.send('cora', 'POST', `/api/jobs/${job.jobId}/reports`, { body: draft() })).status).toBe(403);
    expect(await api.send('anna', 'POST', `/api/jobs/${job.jobId}/reports`, { body: draft({ completedOn: '2026-05-11' }) })).toMatchObject({
      status: 422,
      body: { code: 'report-before-visit', field: 'completedOn' },
    });
    expect((await api.send('anna', 'POST', `/api/jobs/${job.jobId}/reports`, { body: draft({ reportOn: 'soon' }) })).status).toBe(422);
  });
});

describe('the file of the job', () => {
  it('holds everything in order with pages and fingerprints, says what is held back, and stays as it was made', async () => {
    const { jobId } = job;
    await api.send('office', 'POST', '/api/callbacks', {
      body: {
        ...{ id: randomUUID(), jobId, partyId: job.clientId, speaker: 'client', kind: 'missed', safety: false, system: 'roof' },
        ...{ place: 'north slope', remedySought: '', words: 'Water came in at the chimney.' },
      },
    });
    const make = (who: 'owner' | 'office' | 'lead', more: object = {}) =>
      api.send(who, 'POST', `/api/jobs/${jobId}/files`, {
        body: { id: randomUUID(), forWhom: 'A. Counsel', reason: 'Subpoena of May 12, everything of the job', ...more },
      });
    expect((await make('lead')).status).toBe(403);
    expect((await make('office', { opinions: true })).body).toMatchObject({ code: 'file-opinions-owner', field: 'opinions' });
    expect((await make('owner', { reason: 'short' })).body).toMatchObject({ code: 'reason-too-short', field: 'reason' });
    const [byOffice, byOwner] = [await make('office'), await make('owner', { opinions: true })];
    expect([byOffice.status, byOwner.status]).toEqual([201, 201]);
    const listed: { id: string }[] = (await api.send('office', 'GET', `/api/jobs/${jobId}/files`)).body;
    const files: any[] = [byOwner, byOffice].map(({ body }) => listed.find(({ id }) => id === body.id));
    const whats = files.map(({ heldBack }: { heldBack: { what: string }[] }) => heldBack.map(({ what }) => what).join(';'));
    expect(whats[1]).toMatch(/^Conclusions, .*;The site record and its photos;Matters for the owner alone, if there are any;/);
    expect(whats[0]).not.toMatch(/Conclusions|site record/);
    expect((await api.send('office', 'GET', `/api/job-files/${byOwner.body.id}`)).status).toBe(403);
    const review = { reviewer: 'A. Counsel', reviewedOn: '2026-05-14' };
    expect((await api.send('owner', 'POST', `/api/job-files/${byOwner.body.id}/review`, { body: review })).status).toBe(201);
    const file = await api.send('owner', 'GET', `/api/job-files/${byOwner.body.id}`);
    expect(createHash('sha256').update(file.bytes).digest('hex')).toBe(byOwner.body.sha256);
    expect((await api.send('nobody', 'GET', `/api/fingerprints/${byOwner.body.sha256}`)).body.kind).toBe('job_file');
    const read = await readPdf(file.bytes);
    expect([read.pages.length, Object.keys(read.attachments)]).toEqual([
      byOwner.body.pages,
      [expect.stringMatching(/^part-\d+-report-job-/)],
    ]);
    for (const { title, page } of files[0].parts) expect(flat(read.pages[page - 1]!)).toContain(title);
    const all = flat(read.pages.join(' '));
    for (const part of ['Water came in at the chimney.', 'Padlock on the cover', 'SUMMARY OF DEFECTS', 'WI-20', 'Set aside', 'A. Counsel'])
      expect(all).toContain(part);
    expect(all).toContain(`Page ${read.pages.length} of ${read.pages.length}`);
    const bare = flat((await readPdf((await api.send('office', 'GET', `/api/job-files/${byOffice.body.id}`)).bytes)).pages.join(' '));
    expect(bare).not.toMatch(/Site record, a work paper|Set aside/);
  }, 90_000);
});

describe('handing over', () => {
  it('waits for the seal', async () => {
    const { jobId } = await siteJob(api, { startsAt: hours(48) });
    expect(await api.send('anna', 'POST', `/api/jobs/${jobId}/reports`, { body: draft() })).toMatchObject({
      status: 409,
      body: { code: 'record-not-sealed' },
    });
  });
  it('waits for the signature, whatever was let pass at the start, and for the fee', async () => {
    const job = await siteJob(api, { startsAt: hours(72), signed: false });
    const at = {
      id: randomUUID(),
      visitId: job.visitId,
      reason: 'signs later',
      actorId: CAST.lead.id,
      happenedAt: hours(0),
      recordedAt: hours(0),
    };
    await api.database.transaction(async (tx) => {
      await tx.db.gateOverride.create({ data: { ...at, missing: ['agreement-unsigned'] } });
      await tx.db.jobFeeLine.create({
        data: {
          id: randomUUID(),
          jobId: job.jobId,
          position: 0,
          ruleKey: 'base',
          label: 'Inspection',
          reason: 'x',
          cents: 48_000,
          recordedAt: hours(0),
        },
      });
    });
    const recordId = await start(api, job.visitId);
    await recordAll(api, recordId);
    await api.send('anna', 'POST', `/api/records/${recordId}/end`, { body: { endedAs: 'complete' } });
    await api.send('anna', 'POST', `/api/records/${recordId}/seal`, { body: {} });
    const report = draft({ completedOn: '2026-05-15' });
    expect((await api.send('anna', 'POST', `/api/jobs/${job.jobId}/reports`, { body: report })).status).toBe(201);
    const refused = await api.send('anna', 'POST', `/api/reports/${report.id}/deliveries`, {
      body: { id: randomUUID(), partyId: job.clientId, method: 'paper' },
    });
    expect(refused).toMatchObject({
      status: 409,
      body: { code: 'report-not-ready', about: { missing: ['the agreement is signed', 'the fee is paid'] } },
    });
  });
});

describe('a report made elsewhere', () => {
  const take = (jobId: string, base64: string) =>
    api.runner.run(
      takeInReport,
      { id: randomUUID(), jobId, completedOn: '2026-05-14', reportOn: '2026-05-14', directory, file: { name: 'report.pdf', base64 } },
      { actor: as('anna') },
    );
  const encoded = (text: string): string => Buffer.from(text).toString('base64');

  it('is kept under its fingerprint and refused when it is no PDF', async () => {
    const { jobId, clientId } = await sealedJob({ startsAt: hours(25) });
    expect(await take(jobId, encoded('<html>not a PDF</html>'))).toMatchObject({ ok: false, code: 'file-not-pdf' });
    const made = await take(jobId, encoded('%PDF-1.7 the report'));
    expect(made.ok).toBe(true);
    const [report] = (await api.send('anna', 'GET', `/api/jobs/${jobId}/reports`)).body.reports;
    expect(report).toMatchObject({ source: 'taken_in', fileName: 'report.pdf', body: null });
    expect((await readStoredFile(directory, report.fileSha256)).toString()).toBe('%PDF-1.7 the report');
    expect(fs.readdirSync(path.join(directory, 'files'))).toEqual([report.fileSha256]);
    expect(
      await api.send('anna', 'POST', `/api/reports/${report.id}/deliveries`, {
        body: { id: randomUUID(), partyId: clientId, method: 'mail' },
      }),
    ).toMatchObject({ status: 201 });
    const sent = await api.database.read.rows<{ sha256: string }>(
      'SELECT a.sha256 FROM mail_attachment a JOIN outgoing_mail m ON m.id = a.mail_id WHERE m.about_id = $1::uuid',
      [report.id],
    );
    expect(sent).toEqual([{ sha256: report.fileSha256 }]);
    expect((await api.send('cora', 'GET', `/api/reports/${report.id}/file`)).status).toBe(403);
  });
  it('notices a stored file that was changed', async () => {
    const { jobId } = await sealedJob({ startsAt: hours(29) });
    const made = await take(jobId, encoded('%PDF-1.7 another'));
    const [row] = await api.database.read.rows<{ sha: string }>('SELECT file_sha256 AS sha FROM report WHERE id = $1::uuid', [
      made.ok ? made.value.id : '',
    ]);
    fs.writeFileSync(path.join(directory, 'files', row!.sha), '%PDF-1.7 forged');
    await expect(readStoredFile(directory, row!.sha)).rejects.toThrow(/changed/);
  });
  it('over HTTP needs base64 of a PDF', async () => {
    const { jobId } = await siteJob(api, { startsAt: hours(120) });
    const body = { id: randomUUID(), completedOn: '2026-05-18', reportOn: '2026-05-18', file: { name: 'x.pdf', base64: encoded('no') } };
    expect(await api.send('anna', 'POST', `/api/jobs/${jobId}/report-files`, { body })).toMatchObject({
      status: 422,
      body: { code: 'file-not-pdf' },
    });
    expect(
      (await api.send('anna', 'POST', `/api/jobs/${jobId}/report-files`, { body: { ...body, file: { name: 'x.pdf', base64: '***' } } }))
        .status,
    ).toBe(422);
    expect((await api.send('cora', 'POST', `/api/jobs/${jobId}/report-files`, { body })).status).toBe(403);
  });
});

describe('times the step applied', () => {
  it('counts items and jobs of sealed records, without what was not at the property', async () => {
    const before = (await timesApplied(api.database.read, { stepKey: 'panel-interior', from: '2026-06-01' }))[0];
    expect(before).toBeUndefined();
    const facts = { panels: 2, foundation: ['basement'] as const, bathrooms: 1, features: [] };
    const { visitId } = await siteJob(api, { startsAt: new Date('2026-06-02T15:00:00Z'), facts });
    const id = await start(api, visitId);
    const record = await recordOf(api, 'anna', id);
    const second = record.items.find(({ label }) => label === 'electrical panel 2')!;
    await recordAll(api, id);
    const gone = answer(stepOf(record, 'panel-interior', second.id), 'anna', { outcome: 'none_at_property', evidence: null });
    const old = (await recordOf(api, 'anna', id)).entries.find((e) => e.stepKey === 'panel-interior' && e.itemId === second.id)!;
    const who = old.observedBy === record.visit.pair[0]!.personId ? 'anna' : 'ben';
    await enter(api, who, id, [{ ...gone, observedBy: old.observedBy, corrects: { entryId: old.id, why: 'wrong_item' } }]);
    await signOff(api, id);
    await api.send('anna', 'POST', `/api/records/${id}/end`, { body: { endedAs: 'complete' } });
    expect(await timesApplied(api.database.read, { stepKey: 'panel-interior', from: '2026-06-01' })).toEqual([]);
    await api.send('anna', 'POST', `/api/records/${id}/seal`, { body: {} });
    expect(await timesApplied(api.database.read, { stepKey: 'panel-interior', from: '2026-06-01', to: '2026-06-30' })).toMatchObject([
      { items: 1, jobs: 1, lookedAt: 1, couldNot: 0 },
    ]);
    expect(await timesApplied(api.database.read, { stepKey: 'panel-enclosure-not-live', from: '2026-06-01' })).toMatchObject([
      { items: 2, jobs: 1 },
    ]);
    expect((await timesApplied(api.database.read, { stepKey: 'panel-interior', to: '2026-05-31' }))[0]).toMatchObject({
      couldNot: expect.any(Number),
    });
  });
});
