// The book over HTTP: a new procedure, its questions, reminders, its table and paper, and its end.
import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { approveDrafts } from '@backsight/store/procedures/save';
import { missingAcknowledgements } from '@backsight/store/procedures';
import { remindOfRevisions } from '@backsight/usecases/procedures/remindToAcknowledge';
import { CAST } from '../support/cast.ts';
import { testApi } from '../support/http.ts';
import { readPdf } from '../support/pdf.ts';
import { withStarter } from '../support/starter.ts';

const api = testApi();
withStarter(api);

const START = api.clock.now;
const id = '00000000-0000-7000-8000-0000000b0001';
const first = '00000000-0000-7000-8000-0000000b0002';
const STEP = {
  key: 'sauna-stove-clear',
  title: 'Sauna stove: clear of wood',
  instruction: 'Cold only: measure from stove and stones to the nearest wood.',
  why: 'Saunas burn from the bench above the stove.',
  caution: 'Do not touch a stove that may be warm.',
  evidence: {
    kind: 'choice',
    options: [
      { key: 'clear', label: 'clear' },
      { key: 'close', label: 'too close' },
    ],
  },
  applies: { always: true },
  per: 'property',
  basis: { kind: 'own_extra' },
  who: 'either',
  style: 'read_then_do',
  minutes: 2,
  kit: [],
  after: [],
  references: [{ title: 'Common practice of the trade', section: 'sauna stoves', edition: 'none', status: 'common practice' }],
};
const QUESTION = {
  key: 'warm',
  stepKey: STEP.key,
  text: 'The stove is warm. What now?',
  options: [
    { key: 'measure', label: 'measure quickly' },
    { key: 'leave', label: 'leave it and record why' },
  ],
  right: 'leave',
};
const begin = (who: 'lead' | 'anna', body: object = {}) =>
  api.send(who, 'POST', '/api/procedures', {
    body: { id, key: 'sauna', title: 'Sauna', system: 'sauna', beforeId: null, revisionId: first, reason: 'Clients ask for it.', ...body },
  });
const page = async (who: 'lead' | 'anna', revision = first) => (await api.send(who, 'GET', `/api/revisions/${revision}`)).body;
const put = async (body: object, revision = first) => {
  const { reason, basedOnId, version } = await page('lead', revision);
  return api.send('lead', 'PUT', `/api/revisions/${revision}`, { version, body: { reason, basedOnId, ...body } });
};
const approve = async (who: 'lead2' | 'owner', revision: string, body: object = {}) =>
  api.send(who, 'POST', `/api/revisions/${revision}/approval`, {
    body: { version: (await page('lead', revision)).version, inForceFrom: null, acknowledgeBy: null, graceReason: null, ...body },
  });
const order = async () => (await api.send('anna', 'GET', '/api/procedures')).body.map((one: any) => one.key);

describe('a new procedure', () => {
  it('is begun by a lead, with a name of its own, in its place', async () => {
    const book = (await api.send('anna', 'GET', '/api/procedures')).body;
    const leaving = book.find((one: any) => one.key === 'leaving');
    expect((await begin('anna')).status).toBe(403);
    expect(await begin('lead', { title: 'Sauna\n' + 'x'.repeat(90) })).toMatchObject({ status: 422, body: { field: 'title' } });
    expect(await begin('lead', { key: 'roof' })).toMatchObject({ status: 409, body: { code: 'procedure-key-taken' } });
    expect(await begin('lead', { beforeId: randomUUID() })).toMatchObject({ status: 404 });
    expect(await begin('lead', { beforeId: leaving.id })).toMatchObject({ status: 201, body: { id, revisionId: first } });
    expect((await order()).slice(-2)).toEqual(['sauna', 'leaving']);
  });
  it('goes again when its first draft is discarded', async () => {
    const [other, draft] = [randomUUID(), randomUUID()];
    await begin('lead', { id: other, revisionId: draft, key: 'dock', title: 'Dock' });
    expect(await order()).toContain('dock');
    expect((await api.send('lead', 'DELETE', `/api/revisions/${draft}`, { version: 1 })).status).toBe(200);
    expect(await order()).not.toContain('dock');
  });
  it('is not approved without steps, nor with a question that has no answer', async () => {
    expect((await page('lead')).problems).toEqual(['It has no steps.']);
    expect(await put({ steps: [STEP], questions: [{ ...QUESTION, text: 'Why did it cost $900?' }] })).toMatchObject({
      status: 422,
      body: { code: 'revision-looks-personal', field: 'questions.0.text' },
    });
    expect((await put({ steps: [STEP], questions: [{ ...QUESTION, right: 'run' }] })).status).toBe(200);
    expect((await page('lead')).problems.join()).toContain('which answer is right');
    expect((await put({ steps: [STEP], questions: [QUESTION] })).status).toBe(200);
    expect((await page('lead')).problems).toEqual([]);
    expect((await put({ steps: [STEP] })).status).toBe(200);
    expect((await page('lead')).questions).toEqual([QUESTION]);
  });
  it('shows right answers to nobody who is asked', async () => {
    expect((await page('anna')).questions).toBeNull();
    const { body } = await api.send('anna', 'GET', `/api/revisions/${first}/comparison`);
    expect(body.questions).toEqual([{ key: 'warm', stepKey: STEP.key, text: QUESTION.text, options: QUESTION.options }]);
    expect(JSON.stringify(body)).not.toContain('"right"');
  });
});

describe('a table of steps', () => {
  const check = (text: string, who: 'lead' | 'anna' = 'lead') =>
    api.send(who, 'POST', `/api/revisions/${first}/table-check`, { body: { text } });
  const stored = async () => (await page('lead')).steps.map((one: any) => one.step);
  it('is looked at without a change, every problem by its line', async () => {
    const before = await page('lead');
    const text =
      '\uFEFFTitle,Instruction,Why,Minutes\r\nBench,"Look at ""the"" bench.\r\nTwice.",It burns.,1\r\nDoor,Opens outward.,,x\r\nroof,a,b,1,2';
    const { status, body } = await check(text);
    expect(status).toBe(200);
    expect(body.lines).toBe(3);
    expect(body.problems.map((one: any) => [one.line, one.column, one.stops])).toEqual([
      [4, 'Why', true],
      [4, 'Minutes', true],
      [5, null, true],
    ]);
    expect(body.steps).toEqual([{ line: 2, key: 'bench', title: 'Bench', does: 'adds' }]);
    expect(await page('lead')).toEqual(before);
    expect((await check(text, 'anna')).status).toBe(403);
    const taken = await api.send('lead', 'PUT', `/api/revisions/${first}/table`, { version: before.version, body: { text } });
    expect(taken).toMatchObject({ status: 422, body: { code: 'table-problems' } });
    expect(JSON.stringify(taken.body)).toContain('line 4');
    expect(await page('lead')).toEqual(before);
  });
  it.each([
    ['ten megabytes', 'a,b\r\n'.repeat(2_000_000), 422, 'table-too-large'],
    ['twenty megabytes', 'a'.repeat(20_000_000), 413, undefined],
    ['nothing', '', 422, undefined],
  ])('of %s is refused with its reason', async (_name, text, status, code) => {
    const reply = await check(text);
    expect(reply.status).toBe(status);
    if (code) expect(reply.body.code).toBe(code);
  });
  it('is taken in as a whole, goes out and comes in the same', async () => {
    const { version } = await page('lead');
    const text = `Key,Title,Instruction,Why,Hint,Caution\nsauna-bench,=Bench,'-look,@why,,Hot: do not sit.`;
    const send = (v: number, body: string) =>
      api.send('lead', 'PUT', `/api/revisions/${first}/table`, { version: v, body: { text: body } });
    expect(await send(version + 5, text)).toMatchObject({ status: 412 });
    expect(await send(version, text)).toMatchObject({ status: 200, body: { version: version + 1, steps: 1 } });
    const steps = await stored();
    expect(steps[0]).toEqual(STEP);
    expect(steps[1]).toMatchObject({ key: 'sauna-bench', title: '=Bench', instruction: '-look', why: '@why', style: 'read_then_do' });
    const { headers, bytes } = await api.send('anna', 'GET', `/api/revisions/${first}/table.csv`);
    expect(headers['content-disposition']).toBe('attachment; filename="sauna-revision-1.csv"');
    const out = bytes.toString('utf8');
    expect(out).toContain(`,'=Bench,'-look,'@why,`);
    expect((await check(out)).body).toMatchObject({ problems: [], steps: [{ does: 'same' }, { does: 'same' }] });
    expect((await put({ steps: [steps[0], { ...steps[1], title: 'Bench', instruction: 'Look at it.', why: 'It burns.' }] })).status).toBe(
      200,
    );
  });
});

describe('approval, questions and reminders', () => {
  const answer = (who: 'anna' | 'ben' | 'office', answers: object[]) =>
    api.send(who, 'POST', `/api/revisions/${first}/answers`, { body: { answers } });
  const acknowledge = (who: 'anna' | 'ben') =>
    api.send(who, 'POST', `/api/revisions/${first}/acknowledgements`, { body: { where: 'ahead', happenedAt: null } });
  const given = async (who: 'anna' | 'lead') => (await api.send(who, 'GET', `/api/revisions/${first}/acknowledgements`)).body;
  const remind = () =>
    remindOfRevisions({ database: api.database, runner: api.runner, clock: () => api.clock.now, publicUrl: 'https://firm.example' });
  const mails = (like: string) =>
    api.database.read.rows<{ name: string; body: string }>(
      'SELECT to_name AS name, body FROM outgoing_mail WHERE message_key LIKE $1 ORDER BY to_name',
      [like],
    );

  it('prints what is approved', async () => {
    expect((await approve('lead2', first)).status).toBe(201);
    const paper = await api.send('anna', 'GET', `/api/revisions/${first}/paper.pdf`);
    const { pages, title } = await readPdf(paper.bytes);
    expect(title).toContain('Sauna, revision 1');
    const words = pages.join(' ').replaceAll(/\s+/g, ' ');
    for (const said of [STEP.instruction, STEP.caution, 'sauna stoves', 'in force', 'our own extra']) expect(words).toContain(said);
  });
  it('asks everybody of a procedure that is new in the book, and takes no answer that is none', async () => {
    expect((await missingAcknowledgements(api.database.read, api.clock.now)).filter((one) => one.revisionId === first)).toHaveLength(7);
    expect((await answer('office', [])).status).toBe(403);
    expect(await answer('anna', [])).toMatchObject({ status: 422, body: { code: 'question-unanswered' } });
    expect(await answer('anna', [{ question: 'warm', option: 'run' }])).toMatchObject({
      status: 422,
      body: { code: 'question-other-answer' },
    });
    expect(await acknowledge('anna')).toMatchObject({ status: 409, body: { code: 'questions-first' } });
  });
  it('keeps wrong answers, and lets acknowledge once all are right', async () => {
    expect(await answer('anna', [{ question: 'warm', option: 'measure' }])).toMatchObject({
      status: 201,
      body: { answers: [{ correct: false }] },
    });
    expect((await given('anna')).open).toEqual(['warm']);
    expect((await acknowledge('anna')).status).toBe(409);
    api.clock.now = new Date(START.getTime() + 60_000);
    expect(await answer('anna', [{ question: 'warm', option: 'leave' }])).toMatchObject({
      status: 201,
      body: { answers: [{ correct: true }] },
    });
    expect((await given('anna')).open).toEqual([]);
    expect((await acknowledge('anna')).status).toBe(201);
    const rows = await api.database.read.rows('SELECT correct FROM revision_answer WHERE revision_id = $1::uuid ORDER BY recorded_at, id', [
      first,
    ]);
    expect(rows).toEqual([{ correct: false }, { correct: true }]);
    await expect(api.database.transaction((tx) => tx.db.$executeRawUnsafe('UPDATE revision_answer SET correct = true'))).rejects.toThrow();
    const anna = { personId: CAST.anna.id, wrong: 1, rounds: 2 };
    expect((await given('lead')).people).toEqual(expect.arrayContaining([expect.objectContaining(anna)]));
    expect(
      (await api.send('ben', 'GET', `/api/revisions/${first}/acknowledgements`)).body.people.find(
        (one: any) => one.personId === anna.personId,
      ),
    ).toMatchObject({ wrong: null });
  });
  afterAll(() => void (api.clock.now = new Date(START.getTime() + 3_600_000))); // sessions have ended by then
  it('reminds on the working day before, once, then tells whoever was too late and the leads', async () => {
    expect(await remind()).toBe(0);
    api.clock.now = new Date('2026-05-13T14:00:00Z');
    expect(await remind()).toBe(6);
    expect(await remind()).toBe(0);
    const [one, ...others] = await mails(`acknowledge:${first}:%:before`);
    expect(others).toHaveLength(5);
    expect(one!.body).toContain(`https://firm.example/procedures/acknowledge/${first}`);
    expect(one!.body).not.toContain('Clients ask');
    api.clock.now = new Date('2026-05-15T04:00:00Z');
    expect(await remind()).toBe(0);
    api.clock.now = new Date('2026-05-15T14:00:00Z');
    expect(await remind()).toBe(6);
    expect(await mails(`acknowledge:${first}:%:over`)).toHaveLength(6);
    expect((await mails(`acknowledge:${first}:lead:%`)).map(({ name }) => name)).toEqual(expect.arrayContaining([CAST.lead2.name]));
    expect(await remind()).toBe(0);
  });
});

describe('less than two working days', () => {
  it("are an owner's, with the reason kept; the database refuses them to others", async () => {
    const [draft, roof] = [randomUUID(), (await api.send('anna', 'GET', '/api/procedures')).body.find((one: any) => one.key === 'roof')];
    await api.send('lead', 'POST', `/api/procedures/${roof.id}/drafts`, { body: { id: draft, reason: 'Somebody slipped.' } });
    const { steps } = await page('lead', draft);
    const list = steps.map((one: any) => one.step);
    await put({ steps: [{ ...list[0], why: 'It is slippery.' }, ...list.slice(1)] }, draft);
    const soon = { acknowledgeBy: api.clock.now.toISOString(), graceReason: 'People could be hurt on roofs this week.' };
    expect(await approve('lead2', draft, soon)).toMatchObject({ status: 422, body: { code: 'grace-too-short' } });
    const times = { approvedAt: api.clock.now, inForceFrom: api.clock.now, acknowledgeBy: api.clock.now };
    for (const approverId of [CAST.owner.id, CAST.lead2.id])
      await expect(api.database.transaction((tx) => approveDrafts(tx, [draft], { approverId, ...times }))).rejects.toThrow(
        /grace_needs_owner/,
      );
    expect((await approve('owner', draft, soon)).status).toBe(201);
    expect((await page('anna', draft)).graceReason).toBe(soon.graceReason);
  });
});

describe('retiring', () => {
  let draft: string;
  beforeAll(() => void (draft = randomUUID()));
  const retire = (who: 'lead' | 'anna', of = id) =>
    api.send(who, 'POST', `/api/procedures/${of}/drafts`, { body: { id: draft, reason: 'Nobody orders it.', retires: true } });
  it('is drafted without steps and holds none', async () => {
    expect((await retire('anna')).status).toBe(403);
    expect((await retire('lead')).status).toBe(201);
    expect(await page('lead', draft)).toMatchObject({ retires: true, steps: [], problems: [] });
    expect(await put({ steps: [{ ...STEP, key: 'sauna-other' }] }, draft)).toMatchObject({
      status: 409,
      body: { code: 'retirement-without-steps' },
    });
    const { body } = await api.send('anna', 'GET', `/api/revisions/${draft}/comparison`);
    expect(body.summary).toBe('Steps: 2 removed.');
  });
  it('is approved by somebody else and ends the steps; a new draft takes them up again', async () => {
    expect((await approve('owner', draft)).status).toBe(201);
    const { body } = await api.send('anna', 'GET', '/api/procedures');
    expect(body.find((one: any) => one.id === id).inForce).toMatchObject({ retires: true, stepCount: 0 });
    draft = randomUUID();
    expect(await retire('lead')).toMatchObject({ status: 409, body: { code: 'nothing-to-retire' } });
    await api.send('lead', 'POST', `/api/procedures/${id}/drafts`, { body: { id: draft, reason: 'It is ordered again.' } });
    expect((await page('lead', draft)).steps.map((one: any) => one.step.key)).toEqual([STEP.key, 'sauna-bench']);
  });
  it('names the steps of other procedures that would wait for ever, and the duties that nothing would carry out', async () => {
    const heating = (await api.send('anna', 'GET', '/api/procedures')).body.find((one: any) => one.key === 'heating');
    draft = randomUUID();
    expect((await retire('lead', heating.id)).status).toBe(201);
    expect((await page('lead', draft)).problems.join()).toContain('of another procedure waits for "thermostat-as-found"');
    expect(await approve('owner', draft)).toMatchObject({ status: 409, body: { code: 'revision-problems' } });
    const { body } = await api.send('owner', 'GET', `/api/revisions/${draft}/impact`);
    expect(body.uncovered.join()).toContain('SOP-171');
    expect(body.inputsPerJob).toBeNull();
  });
});
