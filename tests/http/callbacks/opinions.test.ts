// Opinions over HTTP: a conclusion by somebody of the pair waits for another, accounts are given blind, counsel's mark, error kinds; and the hold on evidence.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { CAST } from '../../support/cast.ts';
import { testApi, type Answer } from '../../support/http.ts';
import { siteJob } from '../../support/siteJob.ts';
import { withStarter } from '../../support/starter.ts';
import { start } from '../sitework/support.ts';
import { on, received, type Visited } from './support.ts';

const api = testApi();
withStarter(api);
/** A job of which Lena, a lead inspector, and Anna were the pair. */
let job: Visited;
let id: string;
beforeAll(async () => {
  const booked = await siteJob(api, { startsAt: api.clock.now, pair: ['lead', 'anna'] });
  job = { ...booked, recordId: await start(api, booked.visitId, 'anna') };
  id = await received(api, job);
  await on(api, 'office', id, 'acknowledge');
});
const code = ({ status, body }: Answer): string => `${status} ${body.code ?? 'ok'}`;
const later = (): void => void (api.clock.now = new Date(api.clock.now.getTime() + 60_000));
const conclude = async (who: 'lead' | 'lead2' | 'owner', more: object = {}) => {
  later();
  const conclusionId = randomUUID();
  const answer = await on(api, who, id, 'conclusion', { conclusionId, cause: 'arose_later', words: 'It was new.', ...more });
  return { answer, conclusionId };
};
const confirm = (who: 'lead' | 'lead2' | 'owner', conclusionId: string, more: object = {}) =>
  on(api, who, id, 'confirmation', { confirmationId: randomUUID(), conclusionId, way: 'person', ...more });
const opinions = async (who: 'lead' | 'lead2' | 'owner') => (await api.send(who, 'GET', `/api/callbacks/${id}/opinions`)).body;

describe('a conclusion', () => {
  it('by somebody of the pair waits for another, before anything is decided on it', async () => {
    const { answer, conclusionId } = await conclude('lead', { circumstances: ['weather', 'light'] });
    expect(answer.body.warnings[0].code).toBe('concluder-on-the-job');
    expect(code(await on(api, 'owner', id, 'close'))).toBe('409 conclusion-unconfirmed');
    expect(
      code(await on(api, 'office', id, 'letters/decision', { way: 'paper', subject: 'What we decided', body: 'Nothing is owed.' })),
    ).toBe('409 conclusion-unconfirmed');
    expect((await opinions('lead')).confirm).toEqual({ waits: true, here: false, outside: false });
    expect(code(await confirm('lead', conclusionId))).toBe('403 own-conclusion');
    expect(code(await confirm('owner', conclusionId, { way: 'outside', words: 'Looked at by a colleague' }))).toBe(
      '409 somebody-else-confirms',
    );
    expect((await opinions('lead2')).confirm).toEqual({ waits: true, here: true, outside: false });
    expect(code(await confirm('lead2', conclusionId, { words: 'I read the record.' }))).toBe('201 ok');
    expect(code(await confirm('owner', conclusionId))).toBe('409 confirmed-already');
    const [newest] = (await api.send('owner', 'GET', `/api/callbacks/${id}`)).body.conclusions;
    expect(newest).toMatchObject({
      needsConfirmation: true,
      confirmedBy: 'Luis Lead',
      confirmedWords: 'I read the record.',
      circumstances: ['weather', 'light'],
    });
  });
  it('by somebody else needs nobody, and is only ever added to', async () => {
    const { conclusionId } = await conclude('lead2');
    expect(code(await confirm('owner', conclusionId))).toBe('409 confirmation-not-needed');
    expect((await api.send('owner', 'GET', `/api/callbacks/${id}`)).body.conclusions).toHaveLength(2);
    await expect(api.database.transaction((tx) => tx.db.conclusion.deleteMany({}))).rejects.toThrow(/history_is_kept|permission denied/);
  });
  it('takes a kind of error only where an owner who asked the attorney turned them on, and only of a step', async () => {
    const kind = { cause: 'skipped', stepKey: 'ground-fault-trip-reset', errorKind: 'lapse' };
    expect(code((await conclude('lead2', kind)).answer)).toBe('409 error-kinds-off');
    const allow = (body: object) => api.send('owner', 'POST', '/api/error-kinds', { body });
    expect(code(await allow({ allowed: true, attorney: 'Ida Quill' }))).toBe('422 attorney-was-not-asked');
    expect(code(await allow({ allowed: true, attorney: 'Ida Quill', askedOn: '2027-01-01' }))).toBe('422 in-the-future');
    expect(code(await api.send('lead', 'POST', '/api/error-kinds', { body: { allowed: false } }))).toMatch(/^403/);
    later();
    expect(code(await allow({ allowed: true, attorney: 'Ida Quill', askedOn: '2026-05-04' }))).toBe('201 ok');
    expect((await api.send('lead', 'GET', '/api/error-kinds')).body).toMatchObject({ allowed: true, attorney: 'Ida Quill' });
    expect(code((await conclude('lead2', { errorKind: 'slip' })).answer)).toBe('422 error-kind-of-a-step');
    expect(code((await conclude('lead2', kind)).answer)).toBe('201 ok');
    later();
    expect(code(await allow({ allowed: false }))).toBe('201 ok');
    expect(code((await conclude('lead2', kind)).answer)).toBe('409 error-kinds-off');
    expect(code((await conclude('lead2', { circumstances: ['other'], words: undefined })).answer)).toBe('422 circumstance-needs-words');
  });
});

describe('accounts of the pair', () => {
  const ask = (person: 'lead' | 'anna' | 'ben') =>
    on(api, 'owner', id, 'account-requests', { requestId: randomUUID(), personId: CAST[person].id });
  const give = (who: 'lead' | 'anna' | 'ben', words: string, further = false) =>
    api.send(who, 'POST', `/api/accounts/${id}`, {
      body: { accountId: randomUUID(), seen: `seen ${words}`, did: `did ${words}`, further },
    });
  it('are asked of the two by mail, given without seeing the other, added to and never edited', async () => {
    expect(code(await ask('ben'))).toBe('422 account-not-on-the-job');
    expect(code(await give('anna', 'early'))).toBe('403 account-not-asked');
    expect(code(await ask('anna'))).toBe('201 ok');
    expect(code(await ask('anna'))).toBe('409 account-asked-already');
    expect(code(await ask('lead'))).toBe('201 ok');
    const [mail] = await api.database.read.rows<{ body: string }>(
      `SELECT body FROM outgoing_mail WHERE about_kind = 'account' AND to_name = 'Anna Inspector'`,
    );
    expect(mail!.body).toMatch(new RegExp(`/accounts/${id}[^]*Nobody asks whose fault`));
    const home = await api.send('anna', 'GET', '/api/home?list=myAccounts');
    expect(home.body.lists[0].items).toMatchObject([{ thing: { kind: 'account', id } }]);
    expect(code(await give('anna', 'nothing yet', true))).toBe('409 account-none-yet');
    expect(code(await give('anna', 'ANNAS'))).toBe('201 ok');
    expect(code(await give('anna', 'edited'))).toBe('409 account-given-already');
    later();
    expect(code(await give('anna', 'MORE', true))).toBe('201 ok');
    expect((await api.send('anna', 'GET', '/api/home?list=myAccounts')).body.lists[0].count).toBe(0);
  });
  it('are blind: who was there and owes one sees nothing of the other, the owner sees each when it is given', async () => {
    const owed = (await opinions('lead')).accounts;
    expect(owed).toMatchObject({
      mayRead: false,
      people: [
        { given: true, accounts: [] },
        { given: false, accounts: [] },
      ],
    });
    expect((await opinions('owner')).accounts).toMatchObject({
      mayRead: true,
      people: [
        {
          name: 'Anna Inspector',
          given: true,
          accounts: [
            { seq: 1, seen: 'seen ANNAS' },
            { seq: 2, did: 'did MORE' },
          ],
        },
        { name: 'Lena Lead', given: false },
      ],
    });
    const mine = await api.send('lead', 'GET', `/api/accounts/${id}`);
    expect(mine.body).toMatchObject({ accounts: [], place: 'garage' });
    expect(code(await give('lead', 'LENAS'))).toBe('201 ok');
    const annas = await api.send('anna', 'GET', `/api/accounts/${id}`);
    expect(annas.body.accounts).toHaveLength(2);
    expect(JSON.stringify(annas.body)).not.toMatch(/LENAS|It was new|arose/);
    expect(code(await api.send('ben', 'GET', `/api/accounts/${id}`))).toBe('403 account-not-asked');
    for (const who of ['anna', 'ben', 'office'] as const)
      expect((await api.send(who, 'GET', `/api/callbacks/${id}/opinions`)).status).toBe(403);
    expect((await opinions('lead')).accounts.people[0].accounts).toHaveLength(2);
  });
});

describe("counsel's mark", () => {
  it('names counsel and the day of the request, which lies not ahead', async () => {
    const mark = (requestedOn: string) =>
      on(api, 'lead2', id, 'counsel-marks', { markId: randomUUID(), counsel: 'Ida Quill', requestedOn });
    expect(code(await mark('2027-01-01'))).toBe('422 in-the-future');
    expect(code(await mark('2026-05-12'))).toBe('201 ok');
    expect((await opinions('owner')).marks).toMatchObject([{ counsel: 'Ida Quill', requestedOn: '2026-05-12', by: 'Luis Lead' }]);
  });
});

describe('the hold on evidence', () => {
  const hold = (who: 'office' | 'lead' | 'owner') => api.send(who, 'GET', `/api/jobs/${job.jobId}/hold`);
  const erase = () =>
    api.database.transaction((tx) =>
      tx.rows('SELECT erase_text(text_id, now())::text FROM callback_event WHERE callback_id = $1::uuid AND text_id IS NOT NULL LIMIT 1', [
        id,
      ]),
    );
  it('stands while a callback is open: words are not erased, and nobody leaves the job', async () => {
    expect((await hold('office')).body).toMatchObject({ held: true, callbacks: [expect.any(Number)], holds: [] });
    await expect(erase()).rejects.toThrow(/evidence_held/);
    const parties = await api.database.read.rows<{ id: string }>(
      `SELECT id::text FROM job_party WHERE job_id = $1::uuid AND role <> 'client'`,
      [job.jobId],
    );
    for (const party of parties)
      expect(code(await api.send('office', 'DELETE', `/api/jobs/${job.jobId}/parties/${party.id}`))).toBe('409 evidence-held');
  });
  it('is set by hand with a reason, outlives the callback, and is lifted by an owner alone', async () => {
    const words = 'A letter of an attorney was announced.';
    const holdId = randomUUID();
    const set = (who: 'office' | 'lead') => api.send(who, 'POST', `/api/jobs/${job.jobId}/holds`, { body: { holdId, words } });
    expect((await set('office')).status).toBe(403);
    expect(code(await set('lead'))).toBe('201 ok');
    expect(JSON.stringify((await hold('office')).body)).not.toContain('attorney');
    expect((await hold('owner')).body.holds).toMatchObject([{ reason: words, by: 'Lena Lead' }]);
    await conclude('lead2');
    expect(code(await on(api, 'owner', id, 'close'))).toBe('201 ok');
    expect((await hold('office')).body).toMatchObject({ held: true, callbacks: [] });
    await expect(erase()).rejects.toThrow(/evidence_held/);
    const lift = (who: 'lead' | 'owner') => api.send(who, 'POST', `/api/holds/${holdId}/lift`, { body: { words: 'It never came.' } });
    expect((await lift('lead')).status).toBe(403);
    expect(code(await lift('owner'))).toBe('201 ok');
    expect(code(await lift('owner'))).toBe('409 hold-lifted');
    expect((await hold('owner')).body).toMatchObject({ held: false, holds: [{ liftReason: 'It never came.' }] });
    await expect(erase()).resolves.toBeDefined();
  });
  it('covers every table that keeps words: each leads to its job along its columns', async () => {
    const keys = await api.database.read.rows<{ from: string; to: string }>(
      `SELECT conrelid::regclass::text AS "from", confrelid::regclass::text AS "to" FROM pg_constraint WHERE contype = 'f' AND cardinality(conkey) = 1`,
    );
    const nobodys = 'kept_text person party property office stored_file procedure procedure_revision step_key insurance_policy'.split(' ');
    const leads = (table: string, far = 4): boolean =>
      table === 'job' ||
      (far >= 0 && keys.some(({ from, to }) => from === table && to !== from && !nobodys.includes(to) && leads(to, far - 1)));
    // Words of the firm itself: no job's evidence.
    const ofTheFirm = ['procedure_revision', 'error_kind_permission'];
    const open = new Set(
      keys
        .filter(({ to }) => to === 'kept_text')
        .map(({ from }) => from)
        .filter((t) => !ofTheFirm.includes(t) && !leads(t)),
    );
    expect([...open]).toEqual([]);
  });
});
