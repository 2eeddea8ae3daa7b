// How callbacks come in, over HTTP: mails by their reference, the client's private link and its photos, links, advice in danger, answers.
import { randomUUID } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { rebuildCallback } from '@backsight/domain/callbacks/rebuild';
import { eventsOf, findCallback } from '@backsight/store/callbacks';
import { postFiles, postForm } from '../../support/clientLink.ts';
import { testApi, type Answer } from '../../support/http.ts';
import { picture, picturedAt } from '../../support/pictures.ts';
import { siteJob } from '../../support/siteJob.ts';
import { withStarter } from '../../support/starter.ts';
import { intake, on, ownReport, received, reportLink, visited, type Visited } from './support.ts';

const api = testApi();
withStarter(api);
let job: Visited;
let other: Visited;
let token = '';
beforeAll(async () => {
  job = await visited(api);
  other = { ...(await siteJob(api, { startsAt: new Date(api.clock.now.getTime() - 86_400_000) })), recordId: '' };
  await api.database.read.rows(`UPDATE visit SET state = 'done' WHERE id = $1::uuid`, [other.visitId]);
  token = await freshLink(job);
});

const freshLink = (of: Visited): Promise<string> => reportLink(api, of);
const own = (more: Record<string, unknown> = {}) => ownReport(token, more);
const report = (body: Record<string, unknown>): Promise<Answer> => api.send('nobody', 'POST', '/api/client/reports', { body });
const came = async (id: string) => (await api.send('office', 'GET', `/api/callbacks/${id}/intake`)).body;
const page = async (link: string): Promise<{ status: number; text: string }> => {
  const got = await api.app().inject({ method: 'GET', url: link });
  return { status: got.statusCode, text: got.body.replace(/\s+/g, ' ') };
};
const take = (more: Record<string, unknown>) => api.send('office', 'POST', '/api/callbacks', { body: intake(job, more) });
const code = ({ status, body }: Answer): string => `${status} ${body.code ?? 'taken'} ${body.field ?? ''}`.trim();

describe('a mail that the office logs', () => {
  const mail = { sender: 'paula@test.example', cameAt: '2026-05-12T11:00:00-05:00', reference: '<one@mail.test.example>' };
  it('was received when it came, and is known again by its reference, also when two log it at once', async () => {
    api.clock.now = new Date('2026-05-13T20:00:00Z');
    const id = await received(api, job, { mail });
    const one = (await api.send('office', 'GET', `/api/callbacks/${id}`)).body;
    expect(one.receivedAt).toBe('2026-05-12T16:00:00.000Z');
    expect(one.clock).toMatchObject({ clock: 'acknowledge', dueAt: '2026-05-13T22:00:00.000Z' });
    expect(await came(id)).toMatchObject({ way: 'mail', mail: { sender: mail.sender, reference: mail.reference } });
    const again = await take({ mail: { ...mail, sender: 'other@test.example', reference: 'one@mail.test.example' } });
    expect(again).toMatchObject({ status: 409, body: { code: 'mail-logged-already', field: 'mail.reference' } });
    expect(again.body.title).toContain(`number ${one.number}`);
    const two = { ...mail, reference: '<two@mail.test.example>' };
    const both = await Promise.all(
      [1, 2].map(() => api.send('office', 'POST', '/api/callbacks', { body: intake(job, { mail: two }), once: true })),
    );
    expect(both.map(({ status }) => status).sort()).toEqual([201, 409]);
  });
  it.each([
    ['a mail of later today', { mail: { ...mail, cameAt: '2026-05-13T15:30:00-05:00' } }, '422 mail-not-come-yet mail.cameAt'],
    [
      'a mail from before the inspection',
      { mail: { ...mail, cameAt: '2026-05-01T11:00:00-05:00' } },
      '422 before-the-inspection mail.cameAt',
    ],
    ['no address', { mail: { ...mail, sender: 'Paula' } }, '422 not-valid mail.sender'],
    ['noticed in the future', { discoveredOn: '2026-06-01' }, '422 in-the-future discoveredOn'],
    ['words that are too long', { words: 'x'.repeat(4001) }, '422 not-valid words'],
    ['a step of no near-miss', { stepKey: 'ground-fault-trip-reset' }, '422 step-only-of-near-miss stepKey'],
    ['a danger without its mark', { dangers: ['gas'] }, '422 danger-without-mark safety'],
  ])('refuses %s', async (_, more, answer) => expect(code(await take(more))).toBe(answer));
});

describe('a near-miss', () => {
  it('is recorded by the partner with its step, at no cost and with no clock', async () => {
    const steps = (await api.send('anna', 'GET', `/api/callbacks/jobs/${job.jobId}/steps`)).body;
    expect(steps.map(({ stepKey }: { stepKey: string }) => stepKey)).toContain('ground-fault-trip-reset');
    const body = intake(job, {
      kind: 'near_miss',
      partyId: undefined,
      speaker: 'pair',
      stepKey: 'ground-fault-trip-reset',
      caughtBy: 'partner',
    });
    expect((await api.send('anna', 'POST', '/api/callbacks', { body })).status).toBe(201);
    expect(await came(body.id)).toMatchObject({ caughtBy: 'partner', step: expect.stringMatching(/\w/) });
    expect((await api.send('lead', 'GET', `/api/callbacks/${body.id}`)).body).toMatchObject({ clock: null, money: { paidCents: 0 } });
  });
});

describe('the private link', () => {
  it('reports, shows the number and by when, tells the client and the office, and shows no more than the state', async () => {
    const body = own({ dangers: ['electric'], since: '2026-05-13' });
    const made = await report(body);
    expect(made.status, JSON.stringify(made.body)).toBe(201);
    const one = (await api.send('lead', 'GET', `/api/callbacks/${body.id}`)).body;
    expect(one).toMatchObject({
      number: made.body.number,
      speaker: 'client',
      kind: 'missed',
      safety: true,
      binding: true,
      discoveredOn: '2026-05-13',
    });
    expect(await came(body.id)).toMatchObject({ way: 'link', dangers: ['electric'] });
    const mails = await api.database.read.rows<{ to: string; body: string }>(
      `SELECT to_address AS to, body FROM outgoing_mail WHERE about_id = $1::uuid AND (kind = 'callback_acknowledgement' OR message_key LIKE 'callback-reported-%')`,
      [body.id],
    );
    expect(mails).toHaveLength(2);
    expect(mails.find(({ to }) => to !== one.party.email)!.body).not.toContain('freezer');
    const list = (await api.send('office', 'GET', '/api/callbacks')).body.items;
    expect(list[0]).toMatchObject({ id: body.id, safety: true });
    await on(api, 'lead', body.id, 'notes', { words: 'They always complain.' });
    const sent = await page(`/client/${token}/report?sent=${made.body.number}`);
    expect(sent.text).toMatch(new RegExp(`Its number is ${made.body.number}\\..*gets in touch with you by Thursday, May 14, 5:00 PM`));
    expect(sent.text).toContain('does not mean that we accept responsibility');
    expect(sent.text).toMatch(/We are no emergency service.*Our office hours: Monday to Friday/);
    expect(sent.text).toContain(`<strong>Number ${made.body.number}</strong>: <strong>received</strong>`);
    expect(sent.text).not.toContain('always');
  });
  it('works without script, says beside a field what is missing and loses nothing, and asks a question', async () => {
    const typed = { matter: 'question', system: 'roof', place: '', since: '2027-01-01', hope: '', words: 'Is the roof old?' };
    const fields = { id: randomUUID(), ...typed };
    const send = (more: Record<string, string> = {}) => postForm(api, `/client/${token}/report`, { ...fields, ...more });
    const refused = await send();
    expect([refused.statusCode, refused.body.includes('Is the roof old?')]).toEqual([422, true]);
    expect(refused.body).toMatch(/Not sent yet\..*href="#place"/s);
    const besides = (answer: { body: string }) =>
      [...answer.body.matchAll(/id="(\w+)-wrong">([^<]+)</g)].map(([, field, says]) => `${field}: ${says}`);
    expect(besides(refused)).toEqual(['place: Please say where. One word may do, such as: garage.']);
    expect(besides(await send({ place: 'main roof' }))).toEqual(['since: 2027-01-01 has not come yet.']);
    expect(besides(await send({ place: 'x'.repeat(201), words: ' ' })).join()).toMatch(/place: .*at most 200 letters.*words: Please tell/);
    const [sent, again] = await Promise.all([1, 2].map(() => send({ place: 'main roof', since: '' })));
    expect([sent!.statusCode, again!.headers.location]).toEqual([303, sent!.headers.location]);
    expect((await api.send('office', 'GET', `/api/callbacks/${fields.id}`)).body.kind).toBe('question');
    expect((await on(api, 'office', fields.id, 'answer', { words: 'About twenty years.' })).body.state).toBe('closed');
    const [mail] = await api.database.read.rows<{ body: string }>(
      `SELECT body FROM outgoing_mail WHERE about_id = $1::uuid AND kind = 'question_answer'`,
      [fields.id],
    );
    expect(mail!.body).toContain('About twenty years.');
    expect((await page(`/client/${token}/report`)).text).toMatch(/\(question\): <strong>answered<\/strong>/);
    expect(code(await on(api, 'office', fields.id, 'answer', { words: 'Once more.' }))).toBe('409 question-only');
  });
  it('takes photos without script too, once however often it is pressed, says which it did not take, and reads none by a link that opens nothing', async () => {
    const form = new FormData();
    const fields = { id: randomUUID(), matter: 'damaged', system: 'interior', place: 'hall', words: 'The wall is scratched.' };
    for (const [name, value] of Object.entries({ ...fields, since: '', hope: '' })) form.append(name, value);
    const file = (name: string, bytes: Buffer) => form.append('photos', new File([new Uint8Array(bytes)], name));
    file('wall.jpg', await picture('jpeg', 4));
    file('hall.jpg', await picture('jpeg', 5));
    const at = `/client/${token}/report`;
    expect([(await postFiles(api, at, form)).statusCode, (await postFiles(api, at, form)).statusCode]).toEqual([303, 303]);
    file('notes.jpg', Buffer.from('these are words and no picture at all'));
    const partly = await postFiles(api, at, form);
    expect(partly.statusCode).toBe(422);
    expect(partly.body).toMatch(/We have it\..*Not every photo was taken.*notes\.jpg: This file is no photo/s);
    expect((await came(fields.id)).photos.map(({ name }: { name: string }) => name).toSorted()).toEqual(['hall.jpg', 'wall.jpg']);
    expect((await postFiles(api, `/client/${'a'.repeat(43)}/report`, form)).statusCode).toBe(404);
  });
  it('keeps who was hurt for the owner alone', async () => {
    const body = own({ matter: 'hurt', words: 'I fell over a cable.' });
    expect((await report(body)).status).toBe(201);
    expect((await api.send('lead', 'GET', `/api/callbacks/${body.id}`)).status).toBe(404);
    expect((await api.send('owner', 'GET', `/api/callbacks/${body.id}`)).body.ownerOnly).toBe(true);
  });
  it('takes photos as site photos are taken: original kept, copy without its place; and refuses what is none', async () => {
    const body = own({ words: 'See the photo.' });
    await report(body);
    const file = await picturedAt({ lat: 44.1, lon: -88.9 }, 7);
    const photo = (more: Record<string, unknown> = {}) => ({
      ...{ token, reportId: body.id, id: randomUUID(), name: 'freezer.jpg', original: file.toString('base64') },
      ...more,
    });
    const send = (more: Record<string, unknown> = {}) =>
      api.send('nobody', 'POST', '/api/client/reports/photos', { body: photo(more), once: more.original !== undefined });
    expect((await send()).status).toBe(201);
    expect(code(await send({ original: Buffer.from('no picture at all, only words').toString('base64') }))).toBe(
      '422 site-photo-not-an-image original',
    );
    const [shown] = (await came(body.id)).photos;
    expect(shown).toMatchObject({ name: 'freezer.jpg', by: null });
    const at = `/api/callbacks/${body.id}/photos/${shown.id}`;
    const copy = await api.send('office', 'GET', at);
    expect([copy.status, copy.bytes.includes(Buffer.from('Exif'))]).toEqual([200, false]);
    expect((await api.send('lead', 'GET', `${at}/original`)).bytes.equals(file)).toBe(true);
    expect((await api.send('office', 'GET', `${at}/original`)).status).toBe(403);
    const [row] = await api.database.read.rows<{ sha: string }>(`SELECT original_sha256 AS sha FROM callback_photo WHERE id = $1::uuid`, [
      shown.id,
    ]);
    const { dataDir } = await import('../../support/services.ts').then((services) => services.servicesOf(api).config);
    expect(fs.existsSync(path.join(dataDir, 'files', row!.sha))).toBe(true);
    for (let n = 1; n < 12; n++) expect((await send({ original: (await picture('png', 20 + n)).toString('base64') })).status).toBe(201);
    expect(code(await send({ original: (await picture('png', 99)).toString('base64') }))).toBe('409 callback-photos-full');
    const mailed = { id: randomUUID(), name: 'mailed.png', original: (await picture('png', 50)).toString('base64') };
    expect((await on(api, 'office', body.id, 'photos', mailed)).status).toBe(201);
    const foreign = await received(api, other);
    expect(code(await send({ reportId: foreign, id: randomUUID() }))).toBe('404 not-found reportId');
  });
  it('opens nothing once it ended, was taken back or never was', async () => {
    const ended = await freshLink(other);
    const newer = await freshLink(other);
    expect(code(await report(own({ token: ended })))).toBe('403 link-opens-nothing');
    expect(code(await report(own({ token: 'x'.repeat(43) })))).toBe('403 link-opens-nothing');
    const [signer] = await api.database.read.rows<{ id: string }>(
      `SELECT s.id::text AS id FROM signer s JOIN agreement a ON a.id = s.agreement_id WHERE a.job_id = $1::uuid`,
      [other.jobId],
    );
    expect((await page(`/client/${newer}/report`)).status).toBe(200);
    await api.database.read.rows(`UPDATE signer SET revoked_at = now() WHERE id = $1::uuid`, [signer!.id]);
    expect(await page(`/client/${newer}/report`)).toMatchObject({ status: 410, text: expect.stringContaining('taken back by the office') });
    expect(code(await report(own({ token: newer })))).toBe('403 link-opens-nothing');
    expect(code(await api.send('office', 'POST', `/api/callbacks/jobs/${job.jobId}/link`, { body: { partyId: job.otherId } }))).toBe(
      '409 no-link-without-agreement partyId',
    );
  });
});

describe('links between callbacks of a property', () => {
  it('closes what is the same, counts it nowhere, carries danger over, and takes a wrong link back with the reason', async () => {
    const first = await received(api, other);
    const [{ number }] = (await api.send('office', 'GET', `/api/callbacks/jobs/${other.jobId}/earlier`)).body;
    const counted = async (): Promise<number> =>
      (await api.send('owner', 'GET', '/api/liability')).body.months.reduce(
        (sum: number, month: { callbacks: number }) => sum + month.callbacks,
        0,
      );
    const before = await counted();
    const again = intake(other, { safety: true, dangers: ['gas'], words: 'It smells of gas now.', link: { to: first, kind: 'duplicate' } });
    const taken = await api.send('office', 'POST', '/api/callbacks', { body: again });
    expect(taken.body.warnings.map((one: { code: string }) => one.code)).toContain('duplicate');
    expect(await counted()).toBe(before);
    const [one, same] = [await came(first), (await api.send('office', 'GET', `/api/callbacks/${again.id}`)).body];
    expect(same).toMatchObject({ state: 'closed', clock: null });
    expect(one.duplicates).toMatchObject([{ words: 'It smells of gas now.' }]);
    expect((await came(again.id)).sameAs).toMatchObject({ id: first, number });
    expect((await api.send('office', 'GET', `/api/callbacks/${first}`)).body.safety).toBe(true);
    expect(code(await on(api, 'office', again.id, 'reopen', { words: 'x' }))).toBe('409 duplicate-stays-closed');
    const third = await received(api, other);
    expect(code(await on(api, 'office', third, 'link', { link: { to: again.id, kind: 'duplicate' } }))).toBe(
      '409 duplicate-of-a-duplicate link.to',
    );
    expect(code(await on(api, 'office', third, 'link', { link: { to: await received(api, job), kind: 'repeat' } }))).toBe(
      '422 link-of-another-property link.to',
    );
    expect((await on(api, 'office', third, 'link', { link: { to: first, kind: 'repeat' } })).status).toBe(201);
    expect([(await came(third)).cameBackAfter.id, (await came(first)).cameBackAs[0].id]).toEqual([first, third]);
    expect((await on(api, 'office', again.id, 'link/undo', { words: 'Another leak, another room.' })).body.state).toBe('received');
    expect(await counted()).toBe(before + 3);
    for (const id of [first, again.id, third]) {
      const { id: _, ...row } = (await findCallback(api.database.read, id))!;
      expect(rebuildCallback(await eventsOf(api.database.read, id))).toEqual(JSON.parse(JSON.stringify(row)));
    }
  });
});

describe('the wrong job', () => {
  it('goes to the right one with the reason, and what follows from a job follows it; not once something was decided', async () => {
    const id = await received(api, job);
    const [right, wrong] = [other.jobId, job.jobId];
    const [from, to] = [job, other].map(({ jobId }) => api.send('office', 'GET', `/api/jobs/${jobId}`));
    const move = (jobId: string, words = 'The caller read the wrong number.') => on(api, 'office', id, 'job', { jobId, words });
    expect((await move(right, ' ')).status).toBe(422);
    expect(await move(right)).toMatchObject({ status: 201, body: { warnings: [{ code: 'speaker-not-on-job' }] } });
    const one = (await api.send('office', 'GET', `/api/callbacks/${id}`)).body;
    expect(one).toMatchObject({ binding: false, job: { id: right } });
    expect(one.events.at(-1).words).toBe(
      `From job ${(await from!).body.number} to job ${(await to!).body.number}. The caller read the wrong number.`,
    );
    const events = await eventsOf(api.database.read, id);
    expect(events[1]).toMatchObject({ kind: 'job_changed', details: { fromJobId: wrong, jobId: right } });
    const { id: _, ...row } = (await findCallback(api.database.read, id))!;
    expect(rebuildCallback(events)).toEqual(JSON.parse(JSON.stringify(row)));
    const repeat = await received(api, other, { partyId: undefined });
    expect((await on(api, 'office', repeat, 'link', { link: { to: id, kind: 'repeat' } })).status).toBe(201);
    expect(code(await move(wrong))).toBe('409 job-move-linked jobId');
    await on(api, 'office', repeat, 'link/undo', { words: 'Another matter.' });
    expect((await move(wrong, 'It was right after all.')).status).toBe(201);
    await on(api, 'office', id, 'acknowledge');
    await on(api, 'lead', id, 'conclusion', { conclusionId: randomUUID(), cause: 'arose_later', words: 'It began in June.' });
    expect(await move(right)).toMatchObject({ status: 409, body: { title: expect.stringContaining('already: a conclusion.') } });
    const byHand = api.database.read.rows('UPDATE callback SET job_id = $2::uuid WHERE id = $1::uuid', [id, right]);
    await expect(byHand).rejects.toThrow(/decided_under_its_job/);
  });
});

describe('the advice in danger', () => {
  it('says that nobody approved it, until an owner does', async () => {
    const gas = async () =>
      (await api.send('anna', 'GET', '/api/safety-advice')).body.advice.find(({ danger }: { danger: string }) => danger === 'gas');
    expect(await gas()).toMatchObject({ approved: null, words: expect.stringContaining('any switch') });
    const words = 'Leave the house now. Touch no switch. Call from outside.';
    const approve = (who: 'lead' | 'owner', said: string) =>
      api.send(who, 'POST', '/api/safety-advice/gas', { body: { id: randomUUID(), words: said } });
    expect((await approve('lead', words)).status).toBe(403);
    expect(code(await approve('owner', 'Out.'))).toBe('422 advice-length words');
    expect((await approve('owner', words)).status).toBe(201);
    expect(await gas()).toMatchObject({ words, approved: { by: 'Olive Owner' } });
    expect((await page(`/client/${token}/report`)).text).toContain(words);
    expect((await take({ safety: true, dangers: ['gas'] })).body.warnings[0].text).toContain(words);
  });
});
