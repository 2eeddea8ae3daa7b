// Callbacks over HTTP: taken in, concluded, put right within limits, closed; who sees what.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { rebuildCallback } from '@backsight/domain/callbacks/rebuild';
import { eventsOf, findCallback } from '@backsight/store/callbacks';
import { CAST } from '../../support/cast.ts';
import { testApi } from '../../support/http.ts';
import { withStarter } from '../../support/starter.ts';
import { concluded, intake, on, proposed, received, remedy, visited, type Visited } from './support.ts';

const api = testApi();
withStarter(api);
let job: Visited;
beforeAll(async () => {
  job = await visited(api);
});

describe('taking in', () => {
  it('numbers it, sets the clocks in business time, binds who signed, and tells the client without admitting anything', async () => {
    const body = intake(job, { safety: true });
    const answer = await api.send('office', 'POST', '/api/callbacks', { body });
    expect(answer.status).toBe(201);
    expect(answer.body.warnings.map((w: { code: string }) => w.code)).toContain('safety');
    const one = await api.send('lead', 'GET', `/api/callbacks/${body.id}`);
    // Tuesday May 12, 2026, 10:00 in Wisconsin; the office closes at 5 PM. Memorial Day, May 25, is a federal holiday.
    expect(one.body).toMatchObject({
      state: 'received',
      binding: true,
      clock: { clock: 'acknowledge', dueAt: '2026-05-13T22:00:00.000Z' },
    });
    expect((await api.send('lead', 'GET', `/api/callbacks/${body.id}/clocks`)).body.clocks).toMatchObject([
      { clock: 'acknowledge', dueAt: '2026-05-13T22:00:00.000Z' },
      { clock: 'triage', dueAt: '2026-05-14T22:00:00.000Z' },
      { clock: 'decision', dueAt: '2026-06-03T22:00:00.000Z' },
    ]);
    const mails = await api.database.read.rows<{ body: string; toName: string }>(
      `SELECT body, to_name AS "toName" FROM outgoing_mail WHERE about_id = $1::uuid ORDER BY to_name`,
      [body.id],
    );
    expect(mails.find(({ toName }) => toName === 'Paula Prior')?.body).toMatch(
      /does not mean that we accept responsibility; please do not repair before we or your insurer have seen it[^]*and who decides: http:\/\/\S+\/complaints\n/,
    );
    expect(mails.map(({ toName }) => toName)).toEqual(['Olive Owner', 'Paula Prior']); // nobody is on call: an owner is the first
  });
  it('does not bind a tenant, and takes a legal paper only whole, for the owner alone', async () => {
    const tenant = await received(api, job, { partyId: undefined, speaker: 'tenant' });
    expect((await api.send('office', 'GET', `/api/callbacks/${tenant}`)).body.binding).toBe(false);
    const bare = await api.send('office', 'POST', '/api/callbacks', {
      body: intake(job, { kind: 'demand_or_suit', servedOn: '2026-05-12' }),
    });
    expect(bare).toMatchObject({ status: 422, body: { code: 'legal-paper-needs', field: 'serviceWay' } });
    const paper = await received(api, job, {
      kind: 'demand_or_suit',
      speaker: 'attorney',
      servedOn: '2026-05-12',
      serviceWay: 'by certified mail',
      deadlineOn: '2026-06-01',
    });
    expect((await api.send('office', 'GET', `/api/callbacks/${paper}`)).status).toBe(404);
    expect((await on(api, 'lead', paper, 'notes', { words: 'x' })).status).toBe(404);
    expect((await api.send('owner', 'GET', `/api/callbacks/${paper}`)).body.deadlineOn).toBe('2026-06-01');
    expect((await api.send('lead', 'GET', '/api/callbacks')).body.items.map((c: { id: string }) => c.id)).not.toContain(paper);
  });
  it('files somebody who is not on the job, who is bound by nothing and is told that it was heard', async () => {
    const newParty = { id: randomUUID(), name: 'Lars Laterbuyer', email: 'lars@test.example', phone: '920-555-0188' };
    const both = await api.send('office', 'POST', '/api/callbacks', { body: intake(job, { newParty }) });
    expect(both).toMatchObject({ status: 422, body: { code: 'two-who-speak', field: 'newParty' } });
    const id = await received(api, job, { partyId: undefined, speaker: 'later_buyer', newParty });
    const one = (await api.send('office', 'GET', `/api/callbacks/${id}`)).body;
    expect(one).toMatchObject({ binding: false, party: { ...newParty, role: 'later_buyer' } });
    const mails = await api.database.read.rows<{ toAddress: string; body: string }>(
      `SELECT to_address AS "toAddress", body FROM outgoing_mail WHERE about_id = $1::uuid`,
      [id],
    );
    expect(mails).toMatchObject([
      {
        toAddress: 'lars@test.example',
        body: expect.stringMatching(/^Dear Lars Laterbuyer,[^]*does not mean that we accept responsibility/),
      },
    ]);
    const noAddress = await received(api, job, {
      partyId: undefined,
      speaker: 'later_buyer',
      newParty: { ...newParty, id: randomUUID(), email: null },
    });
    expect(await api.database.read.rows('SELECT FROM outgoing_mail WHERE about_id = $1::uuid', [noAddress])).toEqual([]);
  });
  it('shows a legal paper to the lead too when the owner only box is cleared, and still writes to nobody for the owner alone', async () => {
    const paper = { kind: 'records_request', speaker: 'attorney', servedOn: '2026-05-12', serviceWay: 'by hand', deadlineOn: '2026-06-01' };
    const open = await received(api, job, { ...paper, ownerOnly: false });
    expect((await api.send('lead', 'GET', `/api/callbacks/${open}`)).status).toBe(200);
    const closed = await received(api, job, { ...paper, ownerOnly: true });
    expect(await api.database.read.rows('SELECT FROM outgoing_mail WHERE about_id = $1::uuid', [closed])).toEqual([]);
  });
  it('lets an inspector record a near-miss, nothing else, and refuses a day before the inspection', async () => {
    expect(
      (await api.send('anna', 'POST', '/api/callbacks', { body: intake(job, { kind: 'near_miss', partyId: undefined }) })).status,
    ).toBe(201);
    expect(await api.send('anna', 'POST', '/api/callbacks', { body: intake(job) })).toMatchObject({
      status: 403,
      body: { code: 'kind-not-for-role' },
    });
    expect(await api.send('office', 'POST', '/api/callbacks', { body: intake(job, { discoveredOn: '2026-05-01' }) })).toMatchObject({
      status: 422,
      body: { code: 'before-the-inspection' },
    });
    expect(await api.send('office', 'POST', '/api/callbacks', { body: intake(job, { partyId: randomUUID() }) })).toMatchObject({
      status: 422,
      body: { code: 'party-of-another-job' },
    });
    expect((await api.send('nobody', 'POST', '/api/callbacks', { body: intake(job) })).status).toBe(401);
  });
  it('keeps a question a question until somebody says more', async () => {
    const id = await received(api, job, { kind: 'question' });
    await on(api, 'office', id, 'acknowledge');
    expect(await on(api, 'lead', id, 'conclusion', { conclusionId: randomUUID(), cause: 'nothing_shown' })).toMatchObject({
      status: 409,
      body: { code: 'question-is-no-callback' },
    });
    expect((await on(api, 'office', id, 'kind', { kind: 'missed', words: 'It was missed, she says.' })).status).toBe(201);
    expect((await api.send('office', 'GET', `/api/callbacks/${id}`)).body.kind).toBe('missed');
  });
});

/** Somebody who was not there before collects the radon monitor, three days later. */
async function collected({ jobId }: Visited): Promise<void> {
  const visitId = randomUUID();
  const startsAt = new Date(api.clock.now.getTime() + 3 * 86_400_000);
  const times = { startsAt, endsAt: new Date(startsAt.getTime() + 900_000), live: true };
  await api.database.transaction(async ({ db }) => {
    const visit = { id: visitId, jobId, kind: 'radon_pickup', crewSize: 1, state: 'done', because: {}, recordedAt: api.clock.now };
    await db.visit.create({ data: { ...visit, ...times } });
    await db.assignment.create({ data: { visitId, place: 'first', personId: CAST.cora.id, ...times } });
  });
}

describe('the evidence', () => {
  it('shows steps, revision, agreement and windows to lead and owner alone', async () => {
    const id = await received(api, job);
    const { status, body } = await api.send('lead', 'GET', `/api/callbacks/${id}/evidence`);
    expect(status).toBe(200);
    // Whoever comes on another visit is named with what that was, not as one of the pair.
    await collected(job);
    const there = (await api.send('lead', 'GET', `/api/callbacks/${id}`)).body.job.pair as { visit: string | null }[];
    expect(there.map(({ visit }) => visit)).toEqual([null, null, 'radon pick-up']);
    expect(body.pair[0].licenses[0].kind).toBe('home_inspector');
    expect(body.steps.find((s: { stepKey: string }) => s.stepKey === 'ground-fault-trip-reset')).toMatchObject({
      revisionNumber: 1,
      packageNumber: 1,
    });
    expect(body.agreements[0]).toMatchObject({ binds: true, reviewedByAttorney: false });
    // Wis. Stat. 440.977(1): two years from completion (secondary copy); 893.43: six years may apply.
    expect(body.windows.window).toMatchObject({ from: '2026-05-12', shortUntil: '2028-05-12', longUntil: '2032-05-12' });
    for (const who of ['office', 'anna'] as const) expect((await api.send(who, 'GET', `/api/callbacks/${id}/evidence`)).status).toBe(403);
  });
});

describe('concluding', () => {
  it('names the step with the revision that was frozen, and refuses a step that did not apply', async () => {
    const id = await concluded(api, job, { cause: 'done_wrongly' });
    const [conclusion] = (await api.send('owner', 'GET', `/api/callbacks/${id}`)).body.conclusions;
    expect(conclusion).toMatchObject({
      cause: 'done_wrongly',
      stepKey: 'ground-fault-trip-reset',
      revisionNumber: 1,
      procedureTitle: expect.stringMatching(/electric/i),
    });
    const say = (body: object) => on(api, 'lead', id, 'conclusion', { conclusionId: randomUUID(), ...body });
    expect(await say({ cause: 'skipped' })).toMatchObject({ status: 422, body: { code: 'cause-needs-step' } });
    expect(await say({ cause: 'skipped', stepKey: 'no-such-step' })).toMatchObject({ status: 422, body: { code: 'step-not-on-this-job' } });
    expect(await say({ cause: 'arose_later', stepKey: 'ground-fault-trip-reset' })).toMatchObject({
      status: 422,
      body: { code: 'cause-takes-no-step' },
    });
    expect((await on(api, 'office', id, 'conclusion', { conclusionId: randomUUID(), cause: 'nothing_shown' })).status).toBe(403);
  });
});

describe('what others must not see', () => {
  it('has no key of opinion, reserve or clearance in the JSON for the office', async () => {
    const id = await concluded(api, job);
    await on(api, 'lead', id, 'reserve', { cents: 20_000, words: 'Food and a visit' });
    await on(api, 'owner', id, 'clearance', { kind: 'owner_reason', words: 'Far below the deductible' });
    await proposed(api, 'lead', id, 5_000);
    const office = JSON.stringify((await api.send('office', 'GET', `/api/callbacks/${id}`)).body);
    for (const key of ['conclusions', 'clearances', 'money', 'moneyEntries', 'policy', 'actions', 'cause', 'reservedCents'])
      expect(office).not.toContain(`"${key}"`);
    for (const words of ['No power check', 'Food and a visit', 'deductible', 'Food from the freezer']) expect(office).not.toContain(words);
    const lead = (await api.send('lead', 'GET', `/api/callbacks/${id}`)).body;
    expect(lead).toMatchObject({ money: { reservedCents: 20_000, paidCents: 0, incurredCents: 20_000 } });
    for (const who of ['office', 'anna'] as const)
      for (const path of ['/api/liability', '/api/liability/steps', '/api/corrective-actions'])
        expect((await api.send(who, 'GET', path)).status).toBe(403);
    expect((await api.send('anna', 'GET', `/api/callbacks/${id}`)).status).toBe(403);
  });
});

describe('remedies and money', () => {
  it('goes from proposal to payment: limit, second person, clearance, ledger, close; and is told again from its events', async () => {
    const id = await concluded(api, job);
    await on(api, 'lead', id, 'reserve', { cents: 40_000, words: 'Food' });
    const big = await proposed(api, 'lead', id, 60_000);
    expect(await remedy(api, 'lead', big, 'payment', { paidOn: '2026-05-12' })).toMatchObject({
      status: 409,
      body: { code: 'remedy-not-approved' },
    });
    expect(await remedy(api, 'lead', big, 'decision', { decision: 'approved' })).toMatchObject({
      status: 403,
      body: { code: 'second-person-needed' },
    });
    expect(await remedy(api, 'lead2', big, 'decision', { decision: 'approved' })).toMatchObject({
      status: 403,
      body: { code: 'above-approval-limit' },
    });
    expect((await remedy(api, 'owner', big, 'decision', { decision: 'approved' })).body.state).toBe('remedy_agreed');
    expect(await remedy(api, 'lead', big, 'payment', { paidOn: '2026-05-12' })).toMatchObject({
      status: 409,
      body: { code: 'payment-needs-clearance' },
    });
    expect(await on(api, 'lead', id, 'clearance', { kind: 'owner_reason', words: 'x' })).toMatchObject({
      status: 403,
      body: { code: 'reason-is-the-owners' },
    });
    await on(api, 'lead', id, 'clearance', { kind: 'insurer_consent', words: 'By telephone, claim desk, today' });
    expect((await on(api, 'office', id, 'close')).body.code).toBe('remedy-open');
    expect((await remedy(api, 'lead', big, 'payment', { paidOn: '2026-05-12' })).status).toBe(201);
    expect((await remedy(api, 'lead', big, 'payment', { paidOn: '2026-05-12' })).body.code).toBe('remedy-state');
    const paid = (await api.send('owner', 'GET', `/api/callbacks/${id}`)).body;
    expect(paid.money).toEqual({ paidCents: 60_000, reservedCents: 0, recoveredCents: 0, incurredCents: 60_000 });
    expect(paid.moneyEntries.find(({ kind }: { kind: string }) => kind === 'callback_payment').lines).toEqual([
      { account: 'callback-reserve', name: 'Set aside for callbacks', cents: 40_000 },
      { account: 'callback-cost', name: 'Cost of callbacks', cents: 20_000 },
      { account: 'bank', name: 'Bank and cash', cents: -60_000 },
    ]);
    expect((await on(api, 'owner', id, 'recoveries', { cents: 70_000, receivedOn: '2026-05-12', words: 'x' })).body.code).toBe(
      'recovery-too-large',
    );
    await on(api, 'owner', id, 'recoveries', { cents: 10_000, receivedOn: '2026-05-12', words: 'Insurer' });
    await on(api, 'lead', id, 'reserve', { cents: 500, words: 'Postage' });
    expect((await on(api, 'office', id, 'close')).body.code).toBe('reserve-open');
    await on(api, 'lead', id, 'reserve', { cents: 0, words: 'Nothing more comes' });
    expect((await on(api, 'office', id, 'close')).body.state).toBe('closed');
    expect((await on(api, 'office', id, 'close')).body.code).toBe('callback-state');
    expect((await on(api, 'office', id, 'reopen', { words: 'She called again' })).body.state).toBe('looking_into');
    const { id: _, ...row } = (await findCallback(api.database.read, id))!;
    const told = rebuildCallback(
      (await eventsOf(api.database.read, id)).map(({ seq, kind, state, details, words }) => ({ seq, kind, state, details, words })),
    );
    expect(told).toEqual(JSON.parse(JSON.stringify(row)));
  });
  it('takes no firm for its own contractor, and no money where none belongs', async () => {
    const id = await concluded(api, job);
    const ask = (body: object) => on(api, 'owner', id, 'remedies', { remedyId: randomUUID(), payee: '', cents: 0, ...body });
    expect(await ask({ kind: 'independent_contractor', payee: 'TEST inspections', cents: 100 })).toMatchObject({
      status: 422,
      body: { code: 'own-repair-payee' },
    });
    expect(await ask({ kind: 'supplement', cents: 100 })).toMatchObject({ status: 422, body: { code: 'remedy-pays-nothing' } });
    expect(await ask({ kind: 'declined' })).toMatchObject({ status: 422, body: { code: 'remedy-needs-reason' } });
    expect(
      (
        await on(api, 'lead', await received(api, job), 'remedies', {
          remedyId: randomUUID(),
          kind: 'declined',
          cents: 0,
          payee: '',
          words: 'x',
        })
      ).status,
    ).toBe(409);
  });
});

describe("the owner's page", () => {
  it('agrees with the ledger to the cent', async () => {
    const page = (await api.send('owner', 'GET', '/api/liability')).body;
    const [ledger] = await api.database.read.rows<{ reserve: number; cost: number; recovered: number }>(
      `SELECT -coalesce(sum(cents) FILTER (WHERE account = 'callback-reserve'), 0)::int AS reserve, sum(cents) FILTER (WHERE account IN ('callback-cost', 'fee-refunds'))::int AS cost,
         -coalesce(sum(cents) FILTER (WHERE account = 'recoveries'), 0)::int AS recovered FROM ledger_line WHERE callback_id IS NOT NULL`,
    );
    const { ever } = page.money;
    expect(ever).toMatchObject({
      reservedCents: ledger!.reserve,
      recoveredCents: ledger!.recovered,
      incurredCents: ledger!.cost - ledger!.recovered,
    });
    expect(ever.incurredCents).toBe(ever.paidCents + ever.reservedCents - ever.recoveredCents);
    expect(ever.incurredCents).toBeGreaterThan(0);
    expect(page.months.reduce((sum: number, m: { incurredCents: number }) => sum + m.incurredCents, 0)).toBe(ever.incurredCents);
    expect(page.windows).toMatchObject({ shortJobs: 1, jobs: 1 });
  });
});
