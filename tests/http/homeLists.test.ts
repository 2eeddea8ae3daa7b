// Tag: time.
// Each list of the homes with a real row: it is found, and its line names the thing on whose screen it is handled; and the go-to box finds the same by words.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { approveDrafts, closePeriod, openPeriods, saveDrafts, saveSteps } from '@backsight/store/procedures/save';
import { keepText } from '@backsight/store/text';
import { findInForce } from '@backsight/store/procedures';
import { readHome } from '@backsight/usecases/firm/readHome';
import { FACTS, holdBody, PLACE } from '../support/booking.ts';
import { CAST } from '../support/cast.ts';
import { testApi } from '../support/http.ts';
import { paidJob } from '../support/paidJob.ts';
import { withStarter } from '../support/starter.ts';
import { concluded, proposed, received, visited, type Visited } from './callbacks/support.ts';

const api = testApi();
withStarter(api);
type Line = { id: string; title: string; detail: string; thing: { kind: string; id: string } };
type Who = 'owner' | 'office' | 'lead' | 'anna' | 'dan';
const list = async (who: Who, key: string): Promise<Line[]> =>
  (await api.send(who, 'GET', '/api/home')).body.lists.find((l: { key: string }) => l.key === key).items;
const things = async (who: Who, key: string): Promise<string[]> => (await list(who, key)).map(({ thing }) => `${thing.kind} ${thing.id}`);

const revisionId = randomUUID();
const callbacks: Record<'fresh' | 'legal' | 'paid', string> = { fresh: '', legal: '', paid: '' };
let site: Visited;
let heldId: string;

/** The same steps again as a second revision, in force now. */
async function revise(): Promise<void> {
  const at = api.clock.now;
  const old = (await findInForce(api.database.read, at)).find(({ procedureKey }) => procedureKey === 'electrical')!;
  await api.database.transaction(async (tx) => {
    await saveDrafts(tx, [
      {
        id: revisionId,
        procedureId: old.procedureId,
        number: 2,
        reason: 'Clearer words.',
        basedOnId: old.revisionId,
        authorId: CAST.lead.id,
        recordedAt: at,
      },
    ]);
    await saveSteps(tx, [{ revisionId, steps: old.steps }]);
    const graceTextId = await keepText(tx, randomUUID(), 'People could be hurt.', at);
    await approveDrafts(tx, [revisionId], { approverId: CAST.owner.id, approvedAt: at, inForceFrom: at, acknowledgeBy: at, graceTextId });
    await closePeriod(tx, old.procedureId, at);
    await openPeriods(tx, [{ id: randomUUID(), procedureId: old.procedureId, revisionId, fromAt: at }]);
  });
}

async function hold(): Promise<string> {
  const { body } = await api.send('office', 'POST', '/api/starts', {
    body: { place: PLACE, facts: FACTS, services: ['inspection'], fromDay: '2026-05-13', days: 5, limit: 5 },
    once: true,
  });
  const held = await api.send('office', 'POST', '/api/jobs', { body: holdBody(body.options[0]) });
  expect(held.status, JSON.stringify(held.body)).toBe(201);
  return held.body.id;
}

beforeAll(async () => {
  heldId = await hold();
  site = await visited(api);
  callbacks.fresh = await received(api, site);
  callbacks.legal = await received(api, site, {
    kind: 'demand_or_suit',
    servedOn: '2026-05-12',
    serviceWay: 'by mail',
    deadlineOn: '2026-06-01',
  });
  callbacks.paid = await concluded(api, site);
  await proposed(api, 'office', callbacks.paid, 38_640);
  await revise();
});

describe('the money and papers of the office', () => {
  it('has the invoice that is due, by itself, also after its payment came back', async () => {
    const { jobId } = await paidJob(api, { terms: 'due_at_booking' });
    const { invoiceId } = (await api.send('office', 'POST', `/api/jobs/${jobId}/invoices`, { body: {} })).body;
    expect(await things('office', 'unpaidDue')).toEqual([`invoice ${invoiceId}`]);
    const payment = { id: randomUUID(), method: 'check', reference: '7', cents: 57_500, receivedOn: '2026-05-12' };
    await api.send('office', 'POST', `/api/invoices/${invoiceId}/payments`, { body: payment });
    expect(await things('office', 'unpaidDue')).toEqual([]);
    await api.send('office', 'POST', `/api/payments/${payment.id}/reversal`, { body: { reason: 'returned_check' } });
    expect(await list('office', 'unpaidDue')).toMatchObject([{ detail: expect.stringContaining('575.00 open') }]);
  });
  it('has the agreement that nobody signed, and leads to it', async () => {
    const { jobId, visitId } = await paidJob(api);
    await api.send('office', 'POST', `/api/jobs/${jobId}/agreement`, { body: {} });
    expect(await things('office', 'unsigned')).toEqual([`agreement ${jobId}`]);
    await api.send('lead', 'POST', `/api/visits/${visitId}/gate-override`, {
      body: { id: randomUUID(), reason: 'Signs on paper at the door.' },
    });
    expect(await list('owner', 'overridesUsed')).toMatchObject([
      { thing: { kind: 'job', id: jobId }, detail: expect.stringMatching(/^Lena Lead let a visit start: [a-z, ]*agreement unsigned/) },
    ]);
    const ofLead = await readHome(api.database.read, {
      personId: CAST.lead.id,
      roles: ['owner'],
      now: api.clock.now,
      only: 'overridesUsed',
    });
    expect(ofLead.lists[0]!.count).toBe(0); // who let it pass knows of it
  });
  it('has the hold that ends, and the mail that was not sent', async () => {
    expect(await things('office', 'holdsEnding')).toEqual([`job ${heldId}`]);
    const [id, late, soon, no] = [api.newId(), api.newId(), api.newId(), api.newId()];
    const at = api.clock.now;
    const mail = (key: string, state: 'given_up' | 'waiting' | 'refused', minutesAgo: number) => ({
      id: key,
      messageKey: key,
      toAddress: 'c@test.example',
      toName: 'C',
      subject: 'Hello',
      body: 'x',
      state,
      attempts: 2,
      lastError: 'no such address',
      nextTryAt: at,
      aboutKind: 'job',
      aboutId: heldId,
      recordedAt: new Date(at.getTime() - minutesAgo * 60_000),
    });
    // What was tried within the hour is tried again by itself, and needs nobody.
    await api.database.transaction(({ db }) =>
      db.outgoingMail.createMany({
        data: [mail(id, 'given_up', 0), mail(late, 'waiting', 61), mail(soon, 'waiting', 59), mail(no, 'refused', 70)],
      }),
    );
    expect(await things('office', 'mailFailed')).toEqual([`mail ${id}`, `mail ${late}`, `mail_refused ${no}`]);
    // What can be tried again from the home is; the other leads to where it says why.
    expect((await api.send('office', 'POST', `/api/mail/${late}/try`, { body: {} })).status).toBeLessThan(300);
    expect((await api.send('office', 'POST', `/api/mail/${no}/try`, { body: {} })).status).toBe(409);
  });
});

describe('callbacks', () => {
  it("are for the lead to look into until they are concluded; legal papers are the owner's", async () => {
    expect(await things('lead', 'callbacksToLookInto')).toEqual([`callback ${callbacks.fresh}`]);
  });
  it('with a legal paper, a remedy to approve and no clearance are for the owner', async () => {
    expect(await things('owner', 'legalPapers')).toEqual([`callback ${callbacks.legal}`]);
    expect(await list('owner', 'remediesToApprove')).toMatchObject([
      { thing: { kind: 'callback', id: callbacks.paid }, detail: 'goodwill payment, $386.40' },
    ]);
    expect(await things('owner', 'clearancesNeeded')).toEqual([`callback ${callbacks.paid}`]);
  });
});

describe('revisions', () => {
  it('to acknowledge lead the inspector to what is different', async () => {
    expect(await things('dan', 'myAcknowledgements')).toEqual([`acknowledgement ${revisionId}`]);
    expect(await things('lead', 'notAcknowledged')).toContain(`revision ${revisionId}`);
    await api.send('dan', 'POST', `/api/revisions/${revisionId}/acknowledgements`, { body: { where: 'ahead', happenedAt: null } });
    expect(await things('dan', 'myAcknowledgements')).toEqual([]);
  });
  it('to approve lead to the draft, for those who did not write it', async () => {
    const book = (await api.send('lead', 'GET', '/api/procedures')).body;
    const id = randomUUID();
    const begun = await api.send('lead2', 'POST', `/api/procedures/${book.find((one: { key: string }) => one.key === 'attic').id}/drafts`, {
      body: { id, reason: 'Ducts that end in the attic were missed.' },
    });
    expect(begun.status, JSON.stringify(begun.body)).toBe(201);
    expect(await things('lead', 'draftsToApprove')).toEqual([`revision ${id}`]);
  });
});

describe('later', () => {
  it('a callback is overdue for the office, and an open record is named to its pair and to the lead', async () => {
    expect(await things('anna', 'myRecords')).toEqual([]);
    expect(await things('office', 'callbacksOverdue')).toEqual([]);
    const linesLater = async (who: 'office' | 'anna' | 'dan' | 'lead', key: string) => {
      const { lists } = await readHome(api.database.read, {
        personId: CAST[who].id,
        roles: CAST[who].roles,
        now: new Date(api.clock.now.getTime() + 5 * 86_400_000),
      });
      return lists.find((l) => l.key === key)!.items;
    };
    const later = async (...of: Parameters<typeof linesLater>): Promise<string[]> =>
      (await linesLater(...of)).map(({ thing }) => `${thing.kind} ${thing.id}`);
    // A line for a callback, whatever of it is overdue; what is due stands there and not once more among those to look into.
    const ofFresh = (await linesLater('office', 'callbacksOverdue')).filter(({ thing }) => thing.id === callbacks.fresh);
    expect(ofFresh.map(({ detail }) => detail)).toEqual(['Not acknowledged yet; not sorted yet']);
    expect(await things('lead', 'callbacksToLookInto')).toContain(`callback ${callbacks.fresh}`);
    expect(await later('lead', 'callbacksToLookInto')).not.toContain(`callback ${callbacks.fresh}`);
    expect(await later('anna', 'myRecords')).toEqual([`record ${site.jobId}`]);
    expect(await later('dan', 'myRecords')).toEqual([]);
    expect(await later('lead', 'recordsUnsealed')).toEqual([`record ${site.jobId}`]);
  });
});

describe('a count', () => {
  it.each(['owner', 'office', 'lead', 'anna'] as const)(
    'on the home of %s is that of the page it leads to, with the same first lines',
    async (who) => {
      type List = { key: string; count: number; items: Line[] };
      const lists: List[] = (await api.send(who, 'GET', '/api/home')).body.lists;
      const filled = lists.filter(({ count }) => count > 0);
      expect(filled.length).toBeGreaterThan(0);
      for (const { key, count, items } of filled) {
        const [whole]: List[] = (await api.send(who, 'GET', `/api/home?list=${key}`)).body.lists;
        expect([whole!.count, whole!.items.length, whole!.items.slice(0, items.length)], key).toEqual([count, count, items]);
      }
    },
  );
});

describe('the go-to box', () => {
  type Found = { kind: string; title: string; about: string; thing: { kind: string; id: string; of?: string } };
  const find = async (who: Who, q: string): Promise<Found[]> =>
    (await api.send(who, 'GET', `/api/find?q=${encodeURIComponent(q)}`)).body.items;
  const kinds = async (who: Who, q: string): Promise<string[]> => [...new Set((await find(who, q)).map(({ kind }) => kind))];
  const numberOf = async (id: string): Promise<number> => (await api.send('owner', 'GET', `/api/callbacks/${id}`)).body.number;

  it('finds house, client, job, callback and step by words in any order, in part and misspelled', async () => {
    const at = { kind: 'job', thing: { kind: 'job', id: site.jobId }, title: expect.stringContaining('14 Alder Road, Birchmere') };
    expect(await find('office', '14 alder birch')).toEqual(expect.arrayContaining([expect.objectContaining(at)]));
    const house = (await api.send('owner', 'GET', `/api/jobs/${heldId}`)).body.property.address.split(' ')[0];
    expect(await find('office', `alder ${house}`)).toMatchObject([
      { kind: 'job', thing: { id: heldId } },
      { kind: 'property', thing: { kind: 'job', id: heldId }, about: expect.stringContaining('1 job') },
    ]);
    expect(await find('office', 'road prior')).toEqual(expect.arrayContaining([expect.objectContaining(at)]));
    expect((await find('office', `paula-${site.jobId.slice(0, 8)}`)).filter(({ kind }) => kind === 'client')).toMatchObject([
      { title: 'Paula Prior', about: expect.stringMatching(/^1 job, 920-555-0171, paula-/), thing: { kind: 'job', id: site.jobId } },
    ]);
    expect((await find('office', 'freezer thawed')).map(({ thing }) => thing.id)).toContain(callbacks.fresh);
    expect(await find('anna', 'lena')).toMatchObject([{ kind: 'person', about: expect.stringContaining('lead inspector') }]);
    expect((await find('anna', 'gfci')).map(({ thing }) => thing.of)).toContain('ground-fault-trip-reset'); // the trade's own short word for it
    const near = await api.send('office', 'GET', '/api/find?q=Paula%20Prioor');
    expect([near.body.near, near.body.items[0]]).toMatchObject([true, { kind: 'client', title: 'Paula Prior' }]);
  });
  it('puts the number that was typed first, with or without its sign, and takes a short word or a wild sign for nothing', async () => {
    const number = await numberOf(callbacks.fresh);
    const heldNumber = (await api.send('owner', 'GET', `/api/jobs/${heldId}`)).body.number;
    expect((await find('lead', `#${number}`)).filter(({ kind }) => kind === 'callback')).toMatchObject([
      { thing: { id: callbacks.fresh } },
    ]);
    expect((await find('office', `${heldNumber}`))[0]).toMatchObject({ kind: 'job', thing: { id: heldId } });
    for (const q of ['al', '%%%', '___', "');--", '99999999999']) expect(await find('owner', q), q).toEqual([]);
    expect((await api.send('office', 'GET', '/api/find?q=%20')).status).toBe(422);
  });
  it('shows an inspector no callback and no way to reach a client, and the office none of the owner alone', async () => {
    expect(await kinds('office', 'alder')).toEqual(['job', 'property', 'callback']);
    expect(await kinds('anna', 'alder')).toEqual(['job', 'property']);
    expect(await find('anna', '920-555-0171')).toEqual([]);
    expect((await find('anna', 'paula')).find(({ kind }) => kind === 'client')).toMatchObject({ about: '1 job' });
    const alone = await received(api, site, {
      ownerOnly: true,
      place: 'boathouse',
      kind: 'board_complaint',
      servedOn: '2026-05-12',
      serviceWay: 'by mail',
      deadlineOn: '2026-06-01',
    });
    expect((await find('owner', 'boathouse')).map(({ thing }) => thing.id)).toEqual([alone]);
    for (const who of ['office', 'lead', 'anna'] as const) expect(await find(who, 'boathouse'), who).toEqual([]);
  });
});
