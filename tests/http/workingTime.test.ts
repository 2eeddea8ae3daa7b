// Tag: time.
// Days with other hours, and absences that are asked for, decided and withdrawn: what the search for starts makes of them.
import { randomUUID } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { holdBody, startsOf } from '../support/booking.ts';
import { CAST } from '../support/cast.ts';
import { testApi } from '../support/http.ts';
import { withStarter } from '../support/starter.ts';
import { bookedVisit } from '../support/visits.ts';

const api = testApi();
withStarter(api);
const ben = `/api/people/${CAST.ben.id}`;
const goesOn = async (day: string): Promise<string[]> => {
  const { options } = await startsOf(api, { fromDay: day, days: 1, limit: 200, wishes: { personId: CAST.ben.id } });
  return options.filter(({ first, second }) => first === CAST.ben.id || second === CAST.ben.id).map(({ startsAt }) => startsAt);
};
const ask = (who: 'ben' | 'office', day: string, id: string = randomUUID()) =>
  api.send(who, 'POST', `${ben}/absences`, {
    body: { id, startsAt: `${day}T05:00:00Z`, endsAt: `${day}T23:00:00Z`, reason: 'family' },
  });
const decide = (id: string, body: object, who: 'office' | 'lead' | 'anna' = 'lead') =>
  api.send(who, 'PUT', `/api/absences/${id}/decision`, { body: { approve: true, reason: '', ...body } });
const mails = async (about: string) =>
  api.database.read.rows<{ to: string; subject: string }>(
    `SELECT to_address AS "to", subject FROM outgoing_mail WHERE message_key LIKE $1 ORDER BY message_key`,
    [`absence:${about}:%`],
  );
const homeOf = async (who: 'office' | 'owner' | 'lead', key: string): Promise<{ title: string; detail: string; thing: object }[]> =>
  (await api.send(who, 'GET', '/api/home')).body.lists.find((l: { key: string }) => l.key === key).items;

describe('a day with other hours', () => {
  const add = (day: string, startMinute: number | null, endMinute: number | null, who: 'office' | 'anna' = 'office', id = randomUUID()) =>
    api.send(who, 'POST', `${ben}/exceptions`, { body: { id, day, startMinute, endMinute, note: 'market day' } });
  it('is an extra day for the search: Saturday offered only then', async () => {
    expect(await goesOn('2026-05-16')).toEqual([]);
    for (const who of [CAST.ben, CAST.anna, CAST.lead])
      await api.send('office', 'POST', `/api/people/${who.id}/exceptions`, {
        body: { id: randomUUID(), day: '2026-05-16', startMinute: 540, endMinute: 840, note: '' },
      });
    const starts = await goesOn('2026-05-16');
    expect(starts.length).toBeGreaterThan(0);
    expect(starts.every((at) => at >= '2026-05-16T14:00' && at <= '2026-05-16T19:00')).toBe(true);
  });
  it('takes the place of the usual hours, warns of visits outside, and gives them back when withdrawn', async () => {
    await bookedVisit(api, { startsAt: '2026-05-18T14:00:00Z', endsAt: '2026-05-18T16:00:00Z', first: CAST.cora.id, second: CAST.ben.id });
    const before = await goesOn('2026-05-18');
    const id = randomUUID();
    const off = await add('2026-05-18', null, null, 'office', id);
    expect(off).toMatchObject({ status: 201, body: { warnings: [{ code: 'visit-hit' }] } });
    expect(await goesOn('2026-05-18')).toEqual([]);
    expect((await api.send('office', 'GET', `${ben}/file`)).body.exceptions).toContainEqual({
      id,
      day: '2026-05-18',
      startMinute: null,
      endMinute: null,
      note: 'market day',
    });
    expect((await add('2026-05-18', 600, 700)).body.code).toBe('work-exception-once-a-day');
    expect((await api.send('office', 'DELETE', `/api/exceptions/${id}`)).status).toBe(200);
    expect(await goesOn('2026-05-18')).toEqual(before);
    expect((await api.send('office', 'DELETE', `/api/exceptions/${id}`)).body.code).toBe('work-exception-withdrawn');
  });
  it.each([
    ['only a beginning', 480, null, 'work-exception-hours'],
    ['an end before the beginning', 600, 540, 'work-hours-backwards'],
  ])('is refused with %s', async (_, from, until, code) => expect((await add('2026-05-25', from, until)).body.code).toBe(code));
  it('is not for inspectors to enter', async () => expect((await add('2026-05-25', 480, 600, 'anna')).status).toBe(403));
});

describe('an absence', () => {
  it('that an inspector asks for blocks nothing until it is approved, and then it does', async () => {
    const id = randomUUID();
    expect(await ask('ben', '2026-05-20', id)).toMatchObject({ status: 201, body: { state: 'asked' } });
    expect((await goesOn('2026-05-20')).length).toBeGreaterThan(0);
    expect(await mails(id)).toEqual([{ to: 'otto@test.example', subject: 'Ben Inspector asks to be away' }]);
    expect(await homeOf('lead', 'absencesAsked')).toMatchObject([{ title: 'Ben Inspector', thing: { kind: 'person', id: CAST.ben.id } }]);
    expect(await decide(id, {})).toMatchObject({ status: 200, body: { state: 'approved', warnings: [] } });
    expect(await goesOn('2026-05-20')).toEqual([]);
    expect(await mails(id)).toContainEqual({ to: 'ben@test.example', subject: 'Your absence was approved' });
    expect((await decide(id, {})).body.code).toBe('absence-decided');
    const seen = (await api.send('anna', 'GET', `${ben}/file`)).body.absences.find((a: { id: string }) => a.id === id);
    expect(seen).toMatchObject({ reason: null, decision: null, hits: [] });
  });
  it('is refused only with a reason, and then blocks nothing', async () => {
    const id = randomUUID();
    await ask('ben', '2026-05-21', id);
    expect(await decide(id, { approve: false })).toMatchObject({ status: 422, body: { code: 'absence-refusal-reason', field: 'reason' } });
    expect((await decide(id, { approve: false, reason: 'Nobody else holds the license' })).body.state).toBe('refused');
    expect((await goesOn('2026-05-21')).length).toBeGreaterThan(0);
    expect((await api.send('ben', 'DELETE', `/api/absences/${id}`)).body.code).toBe('absence-decided');
  });
  it('over booked visits is approved only when they are kept on purpose; the office then finds them on its home', async () => {
    const { jobId } = await bookedVisit(api, {
      startsAt: '2026-05-22T14:00:00Z',
      endsAt: '2026-05-22T17:00:00Z',
      first: CAST.ben.id,
      second: CAST.cora.id,
    });
    const id = randomUUID();
    await ask('ben', '2026-05-22', id);
    const file = (await api.send('lead', 'GET', `${ben}/file`)).body.absences.find((a: { id: string }) => a.id === id);
    expect(file.hits).toHaveLength(1);
    expect(await decide(id, {})).toMatchObject({ status: 409, body: { code: 'absence-hits-visits', about: { count: 1 } } });
    expect(await homeOf('office', 'visitsOfAbsent')).toEqual([]);
    expect((await decide(id, { keepVisits: true })).body.warnings).toHaveLength(1);
    expect(await homeOf('office', 'visitsOfAbsent')).toMatchObject([{ thing: { kind: 'job', id: jobId } }]);
    expect((await api.send('ben', 'DELETE', `/api/absences/${id}`)).status).toBe(200);
    expect(await homeOf('office', 'visitsOfAbsent')).toEqual([]);
    expect((await mails(id)).map(({ subject }) => subject)).toContain('Ben Inspector takes back an absence');
  });
  it('that the office enters counts at once; inspectors decide about nobody', async () => {
    const id = randomUUID();
    expect((await ask('office', '2026-05-26', id)).body.state).toBe('approved');
    expect(await goesOn('2026-05-26')).toEqual([]);
    expect((await decide(id, {}, 'anna')).status).toBe(403);
  });
  it('and a booking of the same day come one after the other: never both', async () => {
    const asked = randomUUID();
    await ask('ben', '2026-05-28', asked);
    const [start] = await goesOn('2026-05-28');
    const { options } = await startsOf(api, { fromDay: '2026-05-28', days: 1, limit: 200, wishes: { personId: CAST.ben.id } });
    const chosen = options.find(({ startsAt, first, second }) => startsAt === start && [first, second].includes(CAST.ben.id))!;
    const [approved, held] = await Promise.all([
      decide(asked, {}),
      api.send('office', 'POST', '/api/jobs', { body: holdBody(chosen), once: true }),
    ]);
    expect([approved.status, held.status].toSorted()).toSatisfy(
      ([a, b]: number[]) => (a === 200 && b === 409) || (a === 201 && b === 409) || (a === 200 && b === 422),
    );
  });
});

describe('the week', () => {
  type Day = {
    day: string;
    exception: object | null;
    visits: { id: string; writingMinutes: number }[];
    legs: object[];
    absent: { state: string }[];
    hours: object[];
  };
  const weekOf = async (who: 'cora' | 'lead', personId: string, from: string): Promise<Day[]> =>
    (await api.send(who, 'GET', `/api/week?from=${from}`)).body.people.find(({ id }: { id: string }) => id === personId).days;
  it('shows drives and writing between visits, days with other hours, and absences that are asked for only to those who may see them', async () => {
    const first = await bookedVisit(api, {
      startsAt: '2026-06-08T14:00:00Z',
      endsAt: '2026-06-08T16:00:00Z',
      first: CAST.cora.id,
      second: CAST.dan.id,
    });
    const second = await bookedVisit(api, {
      startsAt: '2026-06-08T18:00:00Z',
      endsAt: '2026-06-08T20:00:00Z',
      first: CAST.dan.id,
      second: CAST.cora.id,
    });
    await api.send('office', 'POST', `/api/people/${CAST.cora.id}/exceptions`, {
      body: { id: randomUUID(), day: '2026-06-13', startMinute: 540, endMinute: 720, note: '' },
    });
    await api.send('cora', 'POST', `/api/people/${CAST.cora.id}/absences`, {
      body: { id: randomUUID(), startsAt: '2026-06-10T05:00:00Z', endsAt: '2026-06-11T05:00:00Z', reason: 'family' },
    });
    const [monday, , wednesday, , , saturday] = await weekOf('lead', CAST.cora.id, '2026-06-08');
    expect(monday!.visits.map(({ id, writingMinutes }) => [id, writingMinutes > 0])).toEqual([
      [first.visitId, true],
      [second.visitId, false],
    ]);
    // Cora lives 18.9 km from the houses, which stand at one place: 3 + 7.9 + 8.5 + 10.9 + 13.7 minutes by the bands of the estimate.
    expect(monday!.legs).toEqual([
      { from: null, to: first.visitId, minutes: 44, source: 'estimate' },
      { from: first.visitId, to: second.visitId, minutes: 0, source: 'estimate' },
      { from: second.visitId, to: null, minutes: 44, source: 'estimate' },
    ]);
    expect(wednesday!.absent).toMatchObject([{ state: 'asked' }]);
    expect([saturday!.exception, saturday!.hours]).toEqual([{ start: 540, end: 720 }, [{ start: 540, end: 720 }]]);
    expect((await weekOf('cora', CAST.cora.id, '2026-06-08'))[2]!.absent).toMatchObject([{ state: 'asked' }]);
    const { people } = (await api.send('anna', 'GET', '/api/week?from=2026-06-08')).body;
    expect(JSON.stringify(people)).not.toContain('asked');
  });
});
