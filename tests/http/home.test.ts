// The home of each role: which lists, in which order, and that each finds what it is for.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { readHome } from '@backsight/usecases/firm/readHome';
import { CAST, OFFICE } from '../support/cast.ts';
import { testApi } from '../support/http.ts';
import { siteJob } from '../support/siteJob.ts';
import { withStarter } from '../support/starter.ts';
import { bookedVisit } from '../support/visits.ts';

const api = testApi();
withStarter(api);
type List = { key: string; count: number; items: { title: string; detail: string; thing: { kind: string; id: string } }[] };
const home = async (who: 'owner' | 'office' | 'lead' | 'anna' | 'cora'): Promise<List[]> =>
  (await api.send(who, 'GET', '/api/home')).body.lists;
const list = async (who: Parameters<typeof home>[0], key: string): Promise<List | undefined> =>
  (await home(who)).find((l) => l.key === key);
let visits: { jobId: string; visitId: string }[];

beforeAll(async () => {
  visits = [
    await bookedVisit(api, { startsAt: '2026-05-12T18:00:00Z', endsAt: '2026-05-12T21:00:00Z', first: CAST.anna.id, second: CAST.ben.id }),
    await bookedVisit(api, { startsAt: '2026-05-13T14:00:00Z', endsAt: '2026-05-13T17:00:00Z', first: CAST.anna.id, second: CAST.ben.id }),
    await bookedVisit(api, {
      startsAt: '2026-05-07T14:00:00Z',
      endsAt: '2026-05-07T17:00:00Z',
      first: CAST.cora.id,
      second: CAST.dan.id,
      state: 'done',
    }),
  ];
});

describe('the home', () => {
  it.each([
    [
      'owner',
      [
        'dangerUnanswered',
        'legalOverdue',
        'injuriesToReport',
        'sameDayMissing',
        'callbacksOverdue',
        'callbacksDueToday',
        'legalPapers',
        'appealsToDecide',
        'remediesToApprove',
        'clearancesNeeded',
        'afterChecks',
        'myActions',
        'myReviews',
        'handedOverUnpaid',
        'mailFailed',
        'absencesAsked',
        'lapsing',
        'textsToApprove',
        'overridesUsed',
        'rulesSetAside',
      ],
    ],
    [
      'lead',
      [
        'dangerUnanswered',
        'callbacksOverdue',
        'callbacksDueToday',
        'callbacksToLookInto',
        'recordsUnsealed',
        'reportsDue',
        'waitingLong',
        'myActions',
        'myReviews',
        'draftsToApprove',
        'absencesAsked',
        'notAcknowledged',
        'myAccounts',
        'afterChecks',
        'myVisits',
        'myRecords',
        'myAcknowledgements',
        'myLapsing',
      ],
    ],
    ['anna', ['dangerUnanswered', 'myVisits', 'myRecords', 'myActions', 'myAccounts', 'myAcknowledgements', 'myLapsing']],
    [
      'office',
      [
        'dangerUnanswered',
        'callbacksOverdue',
        'callbacksDueToday',
        'holdsEnding',
        'clientsToCall',
        'jobsWithoutTime',
        'visitsOfAbsent',
        'tomorrowMissing',
        'mailPaused',
        'mailFailed',
        'kitShort',
        'toDecide',
        'unsigned',
        'paymentsBack',
        'waitingLong',
        'afterChecks',
        'myActions',
        'laterVisits',
        'resultsAwaited',
        'inquiriesDue',
        'laterLooks',
        'absencesAsked',
        'addressesToAsk',
        'unpaidDue',
        'textsToApprove',
        'lapsing',
      ],
    ],
  ] as const)('of %s has its lists in order', async (who, keys) => {
    expect((await home(who)).map(({ key }) => key)).toEqual(keys);
  });
  it("shows an inspector today's visits and nobody else's", async () => {
    expect(await list('anna', 'myVisits')).toMatchObject({
      count: 1,
      items: [{ detail: 'Inspection with Ben Inspector', thing: { kind: 'visit', id: visits[0]!.visitId } }],
    });
    expect(await list('cora', 'myVisits')).toMatchObject({ count: 0, items: [] });
  });
  it("shows the office tomorrow's visits that miss something, not today's", async () => {
    expect(await list('office', 'tomorrowMissing')).toMatchObject({
      count: 1,
      items: [{ detail: 'Still to get: access', thing: { kind: 'job', id: visits[1]!.jobId } }],
    });
    // On Sunday the office is closed: on Saturday it is told what Monday and Sunday lack, and nothing of Tuesday.
    const saturday = { personId: CAST.office.id, roles: ['office_manager'] as const, only: 'tomorrowMissing' };
    const told = async (now: string): Promise<number> =>
      (await readHome(api.database.read, { ...saturday, now: new Date(now) })).lists[0]!.count;
    expect(await Promise.all(['2026-05-09T15:00:00Z', '2026-05-10T15:00:00Z', '2026-05-11T15:00:00Z'].map(told))).toEqual([0, 0, 1]);
    await bookedVisit(api, { startsAt: '2026-05-18T14:00:00Z', endsAt: '2026-05-18T17:00:00Z', first: CAST.cora.id, second: CAST.dan.id });
    expect(await Promise.all(['2026-05-14T15:00:00Z', '2026-05-15T15:00:00Z', '2026-05-18T15:00:00Z'].map(told))).toEqual([0, 1, 0]);
  });
  it('shows one list whole when it is asked for, and only a list of the roles', async () => {
    const one = (await api.send('office', 'GET', '/api/home?list=tomorrowMissing')).body.lists;
    expect(one).toEqual([await list('office', 'tomorrowMissing')]);
    expect((await api.send('anna', 'GET', '/api/home?list=tomorrowMissing')).body).toEqual({ lists: [] });
    expect((await api.send('anna', 'GET', '/api/home?list=everything')).status).toBe(422);
  });
  it('shows owner and office what a new firm lacks, by the records, until it is there or an owner leaves it', async () => {
    const steps = async (who: 'owner' | 'office' | 'anna') => (await api.send(who, 'GET', '/api/home')).body.firstSteps;
    const open = async () => (await steps('owner')).filter(({ done }: { done: boolean }) => !done).map(({ key }: { key: string }) => key);
    expect(await steps('anna')).toBeUndefined();
    expect(await open()).toEqual(['text', 'onCall', 'secondFactor', 'mail', 'sign']);
    // Each of a pair wears one in his size: with one left, no start would be found.
    const worn = async (more: string) => api.database.read.rows(`UPDATE kit_item SET ended_on = ${more} WHERE kind = 'respirator'`);
    await worn("CASE WHEN id = (SELECT min(id::text)::uuid FROM kit_item WHERE kind = 'respirator') THEN NULL ELSE date '2020-01-01' END");
    expect((await steps('owner')).find(({ key }: { key: string }) => key === 'kit')).toEqual({
      key: 'kit',
      done: false,
      missing: ['Respirator for two people, in their sizes'],
    });
    await worn('NULL');
    const id = randomUUID();
    await api.send('owner', 'POST', '/api/people', {
      body: {
        id,
        officeId: OFFICE,
        name: 'Nils New',
        email: 'nils@test.example',
        phone: '920-555-0109',
        trainee: false,
        mayLead: true,
        homeAddress: 'x',
        homeLat: 44,
        homeLon: -88,
        startedOn: '2026-05-01',
        roles: ['inspector'],
      },
    });
    expect((await steps('office')).filter(({ missing }: { missing: string[] }) => missing.length > 0)).toEqual([
      ...['licenses', 'hours', 'sizes'].map((key) => ({ key, done: false, missing: ['Nils New'] })),
      { key: 'secondFactor', done: false, missing: ['Olive Owner', 'Sam Secondowner'] },
    ]);
    await siteJob(api);
    // The first agreement is signed: what the firm still lacks stays, until it is there or an owner leaves it.
    expect(await open()).toEqual(['text', 'onCall', 'secondFactor', 'mail']);
    const leave = (who: 'owner' | 'office', left: string[]) => api.send(who, 'PUT', '/api/first-steps/left', { body: { steps: left } });
    expect((await leave('office', ['text'])).status).toBe(403);
    expect((await leave('owner', ['lunch'])).status).toBe(422);
    expect((await leave('owner', ['text', 'mail'])).body).toEqual({ steps: ['text', 'mail'] });
    expect(await open()).toEqual(['onCall', 'secondFactor']);
    expect((await api.send('office', 'GET', '/api/home')).body.stepsLeft).toEqual(['mail', 'text']);
    await leave('owner', ['text', 'onCall', 'secondFactor', 'mail']);
    expect(await steps('owner')).toBeUndefined();
    await leave('owner', ['text', 'onCall', 'mail']); // taken up again
    expect(await steps('office')).toContainEqual({ key: 'secondFactor', done: false, missing: ['Olive Owner', 'Sam Secondowner'] });
  });
  it('shows the lead the report that is due', async () => {
    expect(await list('lead', 'reportsDue')).toMatchObject({ count: 1, items: [{ thing: { id: visits[2]!.jobId } }] });
  });
  it('shows the owner and the office kit that lapses within 30 days, not later', async () => {
    const piece = (serial: string, calibratedUntil: string) =>
      api.send('office', 'POST', '/api/kit', {
        body: { id: randomUUID(), officeId: OFFICE, kind: 'gas_detector', serial, calibratedUntil, note: '' },
      });
    await piece('GD-later', '2026-06-15');
    expect(await list('owner', 'lapsing')).toMatchObject({ count: 0 });
    await piece('GD-soon', '2026-06-05');
    expect(await list('owner', 'lapsing')).toMatchObject({ count: 1, items: [{ detail: 'calibration of GD-soon' }] });
    expect(await list('office', 'lapsing')).toMatchObject({ count: 1 });
  });
  it('shows everybody what is his own to renew half a year ahead', async () => {
    const { lists } = await readHome(api.database.read, {
      personId: CAST.cora.id,
      roles: ['inspector'],
      now: new Date('2026-06-20T15:00:00Z'),
    });
    expect(lists.find(({ key }) => key === 'myLapsing')).toMatchObject({
      count: 1,
      items: [{ title: 'Cora Inspector', detail: '40 h of 40 h education missing', thing: { kind: 'person', id: CAST.cora.id } }],
    });
  });
});
