// The procedure book over HTTP: from a draft to a revision that everybody has acknowledged, and each no on the way.
import { beforeAll, describe, expect, it } from 'vitest';
import { missingAcknowledgements } from '@backsight/store/procedures';
import { CAST } from '../support/cast.ts';
import { testApi } from '../support/http.ts';
import { withStarter } from '../support/starter.ts';

const api = testApi();
withStarter(api);

let procedure: { id: string; inForce: { id: string; number: number } };
let other: { id: string };
const draftId = '00000000-0000-7000-8000-0000000a0001';
const NEW_STEP = {
  key: 'attic-fan-duct-again',
  derivedFrom: 'attic-bath-fan-duct',
  title: 'Bath fan duct, both ends',
  instruction: 'Look at both ends.',
  why: 'One end proves nothing.',
  evidence: { kind: 'confirm' },
  applies: { fact: 'features', compare: 'includes', value: 'attic' },
  per: 'bathroom',
  place: 'elsewhere',
  basis: { kind: 'own_extra' },
  who: 'either',
  style: 'do_then_confirm',
  minutes: 2,
  kit: [],
  after: [],
  references: [],
};
const page = async (id = draftId) => (await api.send('lead', 'GET', `/api/revisions/${id}`)).body;
const put = (who: 'lead' | 'anna', body: unknown, version: number) => api.send(who, 'PUT', `/api/revisions/${draftId}`, { body, version });
const approval = (body: object = {}) => ({ version: 2, inForceFrom: null, acknowledgeBy: null, graceReason: null, ...body });

beforeAll(async () => {
  const { body } = await api.send('anna', 'GET', '/api/procedures');
  procedure = body.find((one: { key: string }) => one.key === 'attic');
  other = body.find((one: { key: string }) => one.key === 'roof');
});

describe('the book', () => {
  it('is open to everybody who is signed in, and to nobody else', async () => {
    const { body } = await api.send('anna', 'GET', '/api/procedures');
    expect(body.length).toBeGreaterThanOrEqual(10);
    expect(body.every((one: any) => one.inForce.number === 1 && one.draft === null && one.missing === 0)).toBe(true);
    expect((await api.send('nobody', 'GET', '/api/procedures')).status).toBe(401);
  });
  it('shows the steps in force in words', async () => {
    const { steps, inForce, problems } = await page(procedure.inForce.id);
    expect(inForce).toBe(true);
    expect(problems).toEqual([]);
    expect(steps[0]).toMatchObject({ applies: 'when there is an attic', per: 'once at the property', style: 'read, then do' });
  });
  it('covers every duty of the Wisconsin rule (Wis. Admin. Code SPS 131.32)', async () => {
    const { body } = await api.send('anna', 'GET', '/api/procedures/coverage');
    expect(body).toMatchObject({ jurisdiction: 'US-WI', own: true, uncovered: 0 });
    expect(body.rows.every((row: any) => row.steps.length > 0 || row.elsewhere !== null)).toBe(true);
  });
  it('holds the book against other states too, names the gaps, and prints', async () => {
    const { body } = await api.send('anna', 'GET', '/api/procedures/coverage?jurisdiction=US-TX');
    expect(body).toMatchObject({ state: 'Texas', own: false });
    expect(body.rows.filter((row: any) => !row.covered)).toHaveLength(body.uncovered);
    expect(body.standards.map((one: any) => one.jurisdiction)).toEqual(
      expect.arrayContaining(['US-WI', 'US-TX', 'US-NC', 'US-NY', 'US-FL', 'US-WA', 'US-MA', 'US-IL']),
    );
    expect((await api.send('anna', 'GET', '/api/procedures/coverage?jurisdiction=US-ZZ')).status).toBe(404);
    const paper = await api.send('anna', 'GET', '/api/procedures/coverage.pdf?jurisdiction=US-TX');
    expect(paper).toMatchObject({ status: 200, headers: { 'content-type': 'application/pdf' } });
    expect((await api.send('nobody', 'GET', '/api/procedures/duties')).status).toBe(401);
    expect((await api.send('anna', 'GET', '/api/procedures/duties')).body.length).toBeGreaterThan(200);
  });
  it.each(['/api/procedures/', '/api/revisions/'])('knows no other: %s', async (path) =>
    expect((await api.send('anna', 'GET', `${path}00000000-0000-7000-8000-00000000ffff`)).status).toBe(404),
  );
});

describe('a draft', () => {
  const begin = (who: 'lead' | 'anna' | 'office', body: object) =>
    api.send(who, 'POST', `/api/procedures/${procedure.id}/drafts`, { body });
  it('is not begun by an inspector or the office', async () => {
    expect((await begin('anna', { id: draftId, reason: 'x' })).status).toBe(403);
    expect((await begin('office', { id: draftId, reason: 'x' })).status).toBe(403);
  });
  it('has a reason without a client in it', async () => {
    expect(await begin('lead', { id: draftId, reason: 'It cost us $900.' })).toMatchObject({
      status: 422,
      body: { code: 'revision-looks-personal', field: 'reason' },
    });
    expect(await begin('lead', { id: draftId, reason: ' ' })).toMatchObject({ status: 422, body: { field: 'reason' } });
  });
  it('begins with the steps in force, once', async () => {
    expect(await begin('lead', { id: draftId, reason: 'Ducts that end in the attic were missed.' })).toMatchObject({
      status: 201,
      body: { id: draftId, number: 2 },
    });
    expect((await page()).steps.map((one: any) => one.step.key)).toEqual(
      (await page(procedure.inForce.id)).steps.map((one: any) => one.step.key),
    );
    expect(await begin('lead', { id: '00000000-0000-7000-8000-0000000a0002', reason: 'Another' })).toMatchObject({
      status: 409,
      body: { code: 'draft-exists' },
    });
  });
  it('cannot be approved while it changes nothing', async () => {
    expect(await api.send('owner', 'POST', `/api/revisions/${draftId}/approval`, { body: approval({ version: 1 }) })).toMatchObject({
      status: 409,
      body: { code: 'revision-changes-nothing' },
    });
  });
  it('refuses changes that break the life of a key, and names the step', async () => {
    const { steps, basedOnId, reason } = await page();
    const all = steps.map((one: any) => one.step);
    const body = (change: (list: any[]) => any[]) => ({ reason, basedOnId, steps: change(structuredClone(all)) });
    const refusals = [
      [{ key: 'roof-covering' }, { code: 'step-key-elsewhere', field: 'steps.0.key' }],
      [{ evidence: { kind: 'confirm' } }, { code: 'step-new-meaning' }],
      [{ minutes: 'many' }, { field: 'steps.0.minutes' }],
      [{ place: 'moon' }, { field: 'steps.0.place' }],
      [{ why: 'Call Paula at 920-555-0123.' }, { code: 'revision-looks-personal' }],
    ];
    for (const [wrong, said] of refusals) {
      const steps = body((list) => [{ ...list[0], ...wrong }, ...list.slice(1)]);
      expect(await put('lead', steps, 1)).toMatchObject({ status: 422, body: said });
    }
    expect(
      await put(
        'anna',
        body((list) => list),
        1,
      ),
    ).toMatchObject({ status: 403 });
    expect(
      await put(
        'lead',
        body((list) => list),
        7,
      ),
    ).toMatchObject({ status: 412, body: { code: 'changed-meanwhile' } });
  });
  it('is changed as a whole, and says what still stands in the way', async () => {
    const { steps, basedOnId, reason } = await page();
    const list = steps.map((one: any) => one.step).filter((one: any) => one.key !== 'attic-bath-fan-duct');
    expect(await put('lead', { reason, basedOnId, steps: [...list, { ...NEW_STEP, kit: ['ladder'] }] }, 1)).toMatchObject({
      status: 200,
      body: { version: 2 },
    });
    expect((await page()).problems.join()).toContain('carries no caution');
    expect(await api.send('owner', 'POST', `/api/revisions/${draftId}/approval`, { body: approval() })).toMatchObject({
      status: 409,
      body: { code: 'revision-problems' },
    });
    expect(await put('lead', { reason, basedOnId, steps: [...list, NEW_STEP] }, 2)).toMatchObject({ status: 200, body: { version: 3 } });
    const kept = await page();
    expect(kept.problems).toEqual([]);
    expect(kept.steps.at(-1)).toMatchObject({ step: { key: NEW_STEP.key, place: 'elsewhere' }, place: 'elsewhere' });
    expect(kept.steps[0]).toMatchObject({ step: { place: 'attic' }, place: 'at the attic' });
  });
  it('is compared with the one in force in words', async () => {
    const { body } = await api.send('anna', 'GET', `/api/revisions/${draftId}/comparison`);
    expect(body.summary).toBe('Steps: 1 added and 1 removed.');
    expect(body.before).toEqual({ id: procedure.inForce.id, number: 1 });
    expect(body.differences.map((one: any) => one.sentences[0])).toEqual(
      expect.arrayContaining([
        expect.stringContaining('It takes over from "Bath fan duct in the attic"'),
        expect.stringContaining('takes its place'),
      ]),
    );
  });
  it('shows its impact to those who approve', async () => {
    const { status, body } = await api.send('owner', 'GET', `/api/revisions/${draftId}/impact`);
    expect(status).toBe(200);
    expect(body).toMatchObject({
      jobs: 0,
      jobsTouched: 0,
      minutesPerJob: null,
      inspectors: 7,
      acknowledgeByIfNow: '2026-05-14T22:00:00.000Z',
    });
    expect((await api.send('anna', 'GET', `/api/revisions/${draftId}/impact`)).status).toBe(403);
  });
});

describe('approval', () => {
  const approve = (who: 'lead' | 'lead2' | 'owner' | 'anna', body: object) =>
    api.send(who, 'POST', `/api/revisions/${draftId}/approval`, { body: approval({ version: 3, ...body }) });
  it.each([
    ['the author', 'lead', {}, 403, 'approver-is-author'],
    ['an inspector', 'anna', {}, 403, 'not-allowed'],
    ['a lead who gives no grace', 'lead2', { acknowledgeBy: '2026-05-13T15:00:00Z', graceReason: 'hurry' }, 422, 'grace-too-short'],
    ['an owner without a reason', 'owner', { acknowledgeBy: '2026-05-13T15:00:00Z' }, 422, 'grace-reason-missing'],
    ['the past', 'lead2', { inForceFrom: '2026-05-01T00:00:00Z' }, 422, 'in-force-past'],
    ['another version', 'lead2', { version: 1 }, 412, 'changed-meanwhile'],
  ] as const)('is refused: %s', async (_name, who, body, status, code) =>
    expect(await approve(who, body)).toMatchObject({ status, body: { code } }),
  );
  it('puts the revision in force, ends the old one, and tells every inspector by a mail without particulars', async () => {
    expect(await approve('lead2', {})).toMatchObject({
      status: 201,
      body: { inForceFrom: '2026-05-12T15:00:00.000Z', acknowledgeBy: '2026-05-14T22:00:00.000Z' },
    });
    const { body } = await api.send('anna', 'GET', `/api/procedures/${procedure.id}`);
    expect(body.inForceId).toBe(draftId);
    expect(body.revisions.find((one: any) => one.number === 1)).toMatchObject({ inForceUntil: '2026-05-12T15:00:00.000Z' });
    const mails = await api.database.read.rows<{ body: string }>('SELECT body FROM outgoing_mail WHERE about_id = $1::uuid', [draftId]);
    expect(mails).toHaveLength(7);
    expect(mails.every((mail) => mail.body.includes(`/procedures/acknowledge/${draftId}`) && !mail.body.includes('Ducts'))).toBe(true);
    const audit = await api.database.read.rows<{ details: unknown }>('SELECT details FROM audit_row WHERE thing_id = $1::uuid', [draftId]);
    expect(JSON.stringify(audit)).not.toContain('Ducts');
  });
  it('is never changed, discarded or approved again', async () => {
    const { steps, basedOnId, reason } = await page();
    expect(await put('lead', { reason, basedOnId, steps: steps.map((one: any) => one.step) }, 4)).toMatchObject({
      status: 409,
      body: { code: 'revision-not-a-draft' },
    });
    expect(await api.send('lead', 'DELETE', `/api/revisions/${draftId}`, { version: 4 })).toMatchObject({
      status: 409,
      body: { code: 'revision-not-a-draft' },
    });
    expect(await api.send('owner', 'POST', `/api/revisions/${draftId}/withdrawal`, { body: {} })).toMatchObject({
      status: 409,
      body: { code: 'revision-in-force' },
    });
  });
});

describe('acknowledgement', () => {
  const acknowledge = (who: 'anna' | 'ben' | 'office', body: object = {}) =>
    api.send(who, 'POST', `/api/revisions/${draftId}/acknowledgements`, { body: { where: 'ahead', happenedAt: null, ...body } });
  it('is asked of every inspector, and nobody else', async () => {
    const missing = await missingAcknowledgements(api.database.read, api.clock.now);
    expect(missing.map(({ personId }) => personId).toSorted()).toEqual(
      [CAST.lead, CAST.lead2, CAST.anna, CAST.ben, CAST.cora, CAST.dan, CAST.tess].map(({ id }) => id).toSorted(),
    );
    expect((await api.send('anna', 'GET', '/api/procedures/mine')).body).toMatchObject([{ revisionId: draftId, number: 2 }]);
    expect((await api.send('office', 'GET', '/api/procedures/mine')).body).toEqual([]);
    expect((await acknowledge('office')).status).toBe(403);
  });
  it('is given once, for oneself', async () => {
    expect(await acknowledge('anna')).toMatchObject({ status: 201, body: { happenedAt: '2026-05-12T15:00:00.000Z' } });
    expect(await acknowledge('anna')).toMatchObject({ status: 409, body: { code: 'already-acknowledged' } });
    expect(await acknowledge('ben', { happenedAt: '2027-01-01T00:00:00Z' })).toMatchObject({
      status: 422,
      body: { code: 'acknowledged-in-future' },
    });
    expect((await api.send('anna', 'GET', '/api/procedures/mine')).body).toEqual([]);
    const { body } = await api.send('lead', 'GET', `/api/revisions/${draftId}/acknowledgements`);
    expect(body.people.filter((one: any) => one.happenedAt !== null).map((one: any) => one.name)).toEqual(['Anna Inspector']);
  });
});

describe('a revision to come', () => {
  const id = '00000000-0000-7000-8000-0000000a0003';
  it('can be withdrawn, and the one before goes on without an end', async () => {
    expect((await api.send('lead', 'POST', `/api/procedures/${other.id}/drafts`, { body: { id, reason: 'Clearer words.' } })).status).toBe(
      201,
    );
    const { steps, basedOnId, reason } = await page(id);
    const list = steps.map((one: any) => one.step);
    expect(
      (
        await api.send('lead', 'PUT', `/api/revisions/${id}`, {
          version: 1,
          body: { reason, basedOnId, steps: [{ ...list[0], why: 'Because it leaks here first.' }, ...list.slice(1)] },
        })
      ).status,
    ).toBe(200);
    expect(
      (await api.send('owner', 'POST', `/api/revisions/${id}/approval`, { body: approval({ inForceFrom: '2026-06-01T05:00:00Z' }) }))
        .status,
    ).toBe(201);
    expect((await api.send('anna', 'GET', `/api/procedures/${other.id}`)).body).toMatchObject({ inForceId: basedOnId });
    expect((await api.send('owner', 'POST', `/api/revisions/${id}/withdrawal`, { body: {} })).status).toBe(201);
    const { body } = await api.send('anna', 'GET', `/api/procedures/${other.id}`);
    expect(body.revisions.map((one: any) => [one.number, one.state, one.inForceUntil])).toEqual([
      [2, 'withdrawn', null],
      [1, 'approved', null],
    ]);
  });
  it('a draft can be discarded by its version', async () => {
    const again = '00000000-0000-7000-8000-0000000a0004';
    expect(
      (await api.send('lead', 'POST', `/api/procedures/${other.id}/drafts`, { body: { id: again, reason: 'Once more.' } })).body,
    ).toMatchObject({ number: 3 });
    expect(await api.send('lead', 'DELETE', `/api/revisions/${again}`, { version: 9 })).toMatchObject({ status: 412 });
    expect((await page(again)).steps.length).toBeGreaterThan(0);
    expect((await api.send('lead', 'DELETE', `/api/revisions/${again}`, { version: 1 })).status).toBe(200);
    expect((await api.send('lead', 'GET', `/api/revisions/${again}`)).status).toBe(404);
  });
});
