// Settling a callback over HTTP: offers and releases that wait for consent, what the insurer is told and bears, and the court.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { rebuildCallback } from '@backsight/domain/callbacks/rebuild';
import { brokenRule } from '@backsight/store/constraint';
import { eventsOf, findCallback } from '@backsight/store/callbacks';
import { postForm, wordOf } from '../../support/clientLink.ts';
import { testApi } from '../../support/http.ts';
import { withStarter } from '../../support/starter.ts';
import { concluded, on, proposed, remedy, visited, type Visited } from './support.ts';
import { puttingRight } from './puttingRight.ts';

const api = testApi();
withStarter(api);
const TODAY = '2026-05-12';
let job: Visited;
beforeAll(async () => {
  job = await visited(api);
});

const { propose, right, cleared, money, warned } = puttingRight(api, () => job);

/** Reads the release on its private link and signs it. */
async function sign(link: string): Promise<void> {
  const shown = (await api.app().inject({ url: link })).body;
  expect(shown).toMatch(/EXAMPLE THAT NO ATTORNEY HAS REVIEWED[^]*\$120\.00[^]*need not sign/);
  expect(shown).not.toContain('<dt>Appointment</dt>');
  const sha256 = /name="sha256" value="([0-9a-f]{64})"/.exec(shown)![1]!;
  const word = await wordOf(api.database, job.jobId);
  const signing = { name: 'Paula Prior', read: 'yes', consent: 'yes', sha256, word, how: 'typed' };
  expect((await postForm(api, link, signing)).statusCode).toBe(303);
}

describe('settling', () => {
  it('offers and releases leave only with consent; the payment waits for the signed release, which is sealed', async () => {
    const id = await concluded(api, job);
    const settled = await proposed(api, 'lead', id, 12_000);
    const offer = (validUntil: string, offerId = randomUUID()) =>
      remedy(api, 'lead', settled, 'offers', { offerId, validUntil, words: 'For the food.' });
    expect((await offer('2026-05-20')).body.code).toBe('payment-needs-clearance');
    expect((await remedy(api, 'lead', settled, 'release', {})).body.code).toBe('payment-needs-clearance');
    const rule = await api.database
      .transaction(({ db }) =>
        db.settlementOffer.create({
          data: {
            id: randomUUID(),
            remedyId: settled,
            cents: 1,
            validUntil: new Date(TODAY),
            recordedBy: job.clientId,
            recordedAt: api.clock.now,
          },
        }),
      )
      .then(() => null, brokenRule);
    expect(rule).toBe('payment_needs_clearance');
    await on(api, 'owner', id, 'clearance', { kind: 'owner_reason', words: 'Far below the deductible' });
    expect((await offer('2026-05-11')).body.code).toBe('offer-day-past');
    const offerId = randomUUID();
    expect((await offer('2026-05-20', offerId)).status).toBe(201);
    expect((await offer('2026-05-21')).body.code).toBe('offer-stands');
    expect((await remedy(api, 'lead', settled, 'amount', { cents: 13_000, payee: 'Paula Prior', words: 'x' })).body.code).toBe(
      'offer-open',
    );
    const issued = await remedy(api, 'lead', settled, 'release', {});
    expect([issued.status, warned(issued)]).toEqual([201, ['release-not-reviewed']]);
    expect((await remedy(api, 'lead', settled, 'payment', { paidOn: TODAY })).body.code).toBe('payment-waits-for-release');
    const mails = await api.database.read.rows<{ kind: string; body: string }>(
      `SELECT kind, body FROM outgoing_mail WHERE about_id = $1::uuid AND kind LIKE 'settlement%' ORDER BY kind`,
      [id],
    );
    expect(mails.map(({ kind }) => kind)).toEqual(['settlement_offer', 'settlement_release']);
    expect(mails[0]!.body).toMatch(/without admission of responsibility[^]*\$120\.00[^]*made to settle/);
    const link = /\/client\/[\w-]{43}/.exec(mails[1]!.body)![0];
    await sign(link);
    const other = await proposed(api, 'lead', id, 1_000);
    await remedy(api, 'lead', other, 'release', {});
    expect((await remedy(api, 'owner', other, 'decision', { decision: 'refused' })).status).toBe(201);
    const all = (await right(id)).releases as { remedyId: string; signers: { linkOpen: boolean }[] }[];
    expect(all.find(({ remedyId }) => remedyId === other)!.signers[0]!.linkOpen).toBe(false);
    const release = all.find(({ remedyId }) => remedyId === settled);
    expect(release).toMatchObject({ state: 'signed', sha256: expect.stringMatching(/^[0-9a-f]{64}$/), signers: [{ name: 'Paula Prior' }] });
    const pdf = await api.app().inject({ url: `${link}/agreement.pdf` });
    expect(pdf.headers['content-disposition']).toMatch(/settlement-release-job-\d+-signed\.pdf/);
    expect((await api.send('office', 'GET', `/api/jobs/${job.jobId}/agreement`)).body.agreement?.title ?? '').not.toContain('Settlement');
    expect((await remedy(api, 'owner', settled, 'decision', { decision: 'refused' })).body.code).toBe('offer-open');
    await api.send('lead', 'POST', `/api/offers/${offerId}/end`, { body: { end: 'accepted' } });
    expect((await remedy(api, 'owner', settled, 'decision', { decision: 'refused' })).body.code).toBe('release-signed');
    expect((await api.send('lead', 'POST', `/api/offers/${offerId}/end`, { body: { end: 'withdrawn' } })).body.code).toBe('offer-ended');
    expect((await remedy(api, 'lead', settled, 'payment', { paidOn: TODAY })).status).toBe(201);
    expect((await api.send('office', 'GET', `/api/callbacks/${id}`)).body.events.map(({ kind }: { kind: string }) => kind)).toContain(
      'release_signed',
    );
  });
});

describe('a release on paper', () => {
  it('is signed with the paper in the drawer, and the payment may go', async () => {
    const id = await cleared();
    const paper = await proposed(api, 'lead', id, 2_000);
    await remedy(api, 'lead', paper, 'release', {});
    const signers = async () =>
      (await right(id)).releases.find((one: { remedyId: string }) => one.remedyId === paper).signers as { id: string }[];
    const [signer] = await signers();
    const given = { id: randomUUID(), method: 'paper', name: 'Paula Prior', consent: false };
    const record = (more: object) => api.send('lead', 'POST', `/api/signers/${signer!.id}/signature`, { body: { ...given, ...more } });
    expect((await record({})).body.code).toBe('paper-proof-missing');
    expect((await remedy(api, 'lead', paper, 'payment', { paidOn: TODAY })).body.code).toBe('payment-waits-for-release');
    expect((await record({ keptWhere: 'Drawer 2' })).status).toBe(201);
    expect(await signers()).toMatchObject([{ signedAt: expect.any(String) }]);
    expect((await remedy(api, 'lead', paper, 'payment', { paidOn: TODAY })).status).toBe(201);
  });
});

describe('insurer and court', () => {
  it('keeps what the insurer was told, the policy with a reason, the deductible used, and what it paid itself', async () => {
    const id = await cleared();
    const tell = (notifiedOn: string) =>
      on(api, 'lead', id, 'insurer-notices', {
        noticeId: randomUUID(),
        notifiedOn,
        way: 'e-mail',
        reference: 'CL-7',
        words: 'What was said, and the photos.',
      });
    expect((await tell('2026-05-13')).body.code).toBe('in-the-future');
    const notice = await proposed(api, 'lead', id, 0, 'insurer_notice');
    expect((await remedy(api, 'lead', notice, 'done', {})).body.code).toBe('notice-needs-details');
    expect((await tell(TODAY)).status).toBe(201);
    expect((await right(id)).notices).toMatchObject([{ way: 'e-mail', reference: 'CL-7', policy: 'Test Mutual P-1' }]);
    expect((await api.send('owner', 'GET', `/api/callbacks/${id}`)).body.remedies[0].state).toBe('done');
    const { policies, cover } = await right(id);
    const general = policies.find(({ name }: { name: string }) => name.includes('G-1'));
    expect((await on(api, 'lead', id, 'policy', { policyId: general.id, words: 'x' })).status).toBe(403);
    expect((await on(api, 'owner', id, 'policy', { policyId: cover.policyId, words: 'x' })).body.code).toBe('policy-same');
    expect((await on(api, 'owner', id, 'policy', { policyId: general.id, words: 'It was our ladder.' })).status).toBe(201);
    await remedy(api, 'owner', (await propose('owner', id, { cents: 400_000 })).remedyId, 'payment', {
      paidOn: TODAY,
    });
    expect(
      (await on(api, 'owner', id, 'recoveries', { cents: 1, receivedOn: TODAY, words: 'x', source: 'other', direct: true })).body.code,
    ).toBe('direct-is-the-insurers');
    await on(api, 'owner', id, 'recoveries', {
      cents: 90_000,
      receivedOn: TODAY,
      words: 'Straight to her',
      source: 'insurer',
      direct: true,
    });
    await on(api, 'owner', id, 'recoveries', { cents: 50_000, receivedOn: TODAY, words: 'First part', source: 'insurer' });
    expect((await right(id)).cover).toMatchObject({ usedCents: 250_000, beyondCents: 150_000, toComeCents: 100_000, directCents: 90_000 });
    expect(await money(id)).toMatchObject({ paidCents: 400_000, recoveredCents: 50_000, incurredCents: 350_000 });
    expect(Object.keys(await right(id, 'office'))).toEqual(['estimates']);
    const { id: _, ...row } = (await findCallback(api.database.read, id))!;
    const events = (await eventsOf(api.database.read, id)).map(({ seq, kind, state, details, words }) => ({
      seq,
      kind,
      state,
      details,
      words,
    }));
    expect(rebuildCallback(events)).toEqual(JSON.parse(JSON.stringify(row)));
  });
  it('keeps a case with its outcome, and pays of it never more than was decided', async () => {
    const id = await concluded(api, job);
    const caseId = randomUUID();
    const filed = {
      caseId,
      court: 'Circuit court of Tamarack County, small claims',
      reference: '26SC101',
      filedOn: TODAY,
      answerDueOn: '2026-06-01',
      claimedCents: 90_000,
    };
    expect((await on(api, 'lead', id, 'cases', { ...filed, answerDueOn: '2026-05-01' })).body.code).toBe('deadline-before-service');
    expect((await on(api, 'lead', id, 'cases', filed)).status).toBe(201);
    const pay = (what: 'owed' | 'costs', cents: number) =>
      api.send('owner', 'POST', `/api/cases/${caseId}/payments`, { body: { what, cents, paidOn: TODAY } });
    expect((await pay('owed', 1)).body.code).toBe('payment-needs-clearance');
    await on(api, 'owner', id, 'clearance', { kind: 'insurer_consent', words: 'The claim desk, today' });
    expect((await pay('owed', 1)).body.code).toBe('court-above-owed');
    const end = (body: object) =>
      api.send('owner', 'POST', `/api/cases/${caseId}/outcome`, {
        body: { outcomeId: randomUUID(), kind: 'judgment', decidedOn: TODAY, owedCents: 40_000, costsCents: 9_450, ...body },
      });
    expect((await end({ kind: 'dismissed' })).body.code).toBe('court-dismissed-owes-nothing');
    expect((await end({})).status).toBe(201);
    expect(await on(api, 'owner', id, 'close')).toMatchObject({ status: 409, body: { code: 'court-open', about: { leftCents: 49_450 } } });
    expect((await pay('owed', 40_000)).status).toBe(201);
    expect((await pay('costs', 9_451)).body.code).toBe('court-above-owed');
    expect((await pay('costs', 9_450)).status).toBe(201);
    expect((await end({ owedCents: 39_999 })).body.code).toBe('court-paid-already');
    expect((await right(id)).cases).toMatchObject([
      { court: filed.court, paidOwedCents: 40_000, paidCostsCents: 9_450, outcome: { kind: 'judgment' } },
    ]);
    expect(await money(id)).toMatchObject({ paidCents: 49_450, incurredCents: 49_450 });
    expect((await on(api, 'owner', id, 'close')).body.state).toBe('closed');
  });
});
