// Tag: time.
// A bad-weather day: nothing is booked into it, and its visits move together.
import { randomUUID } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { CAST } from '../support/cast.ts';
import { testApi } from '../support/http.ts';
import { hourAt as at, planEnded } from '../support/plans.ts';
import { withStarter } from '../support/starter.ts';
import { bookedVisit } from '../support/visits.ts';

const api = testApi();
withStarter(api);
const { anna, ben, cora, dan } = CAST;
const ended = (id: string) => planEnded(api, `/api/plans/${id}`);

describe('a bad-weather day', () => {
  const SNOW = '2026-05-19';
  const snowAt = (hour: number) => at(SNOW, hour);
  const closure = (change: Record<string, unknown> = {}) => ({
    id: randomUUID(),
    startsAt: snowAt(0),
    endsAt: at('2026-05-20', 0),
    outdoorOnly: false,
    towns: [],
    reason: 'ice storm',
    ...change,
  });
  const close = (body: Record<string, unknown>) => api.send('office', 'POST', '/api/weather-closures', { body });

  it('moves its visits together to the days after, those that must be early first, and books nothing into it', async () => {
    const made = [];
    for (const [n, [first, second]] of [
      [anna, ben],
      [cora, dan],
    ].entries())
      made.push(
        await bookedVisit(api, {
          startsAt: snowAt(9),
          endsAt: snowAt(12),
          first: first!.id,
          second: second!.id,
          street: `${n} Frost Road`,
        }),
      );
    const [one, two] = made as [(typeof made)[0], (typeof made)[0]];
    const body = closure();
    expect((await close(body)).status).toBe(201);
    const shown = await api.send('office', 'GET', '/api/weather-closures');
    expect(shown.status, JSON.stringify(shown.body)).toBe(200);
    expect(shown.body.items[0].visits.map(({ id }: { id: string }) => id).sort()).toEqual([one.visitId, two.visitId].sort());
    expect(shown.body.mail).toContain('Nothing is charged');
    const moved = await api.send('office', 'PUT', `/api/visits/${one.visitId}/start`, {
      version: 1,
      body: { startsAt: snowAt(13), first: anna.id, second: ben.id },
    });
    expect(moved.body).toMatchObject({ code: 'start-not-possible', about: { rules: ['weather'] } });

    const id = randomUUID();
    expect((await api.send('office', 'POST', `/api/weather-closures/${body.id}/plans`, { body: { id } })).status).toBe(201);
    const plan = await ended(id);
    expect(plan, plan.note).toMatchObject({ state: 'finished', kind: 'weather' });
    for (const { days } of plan.answer.variants) {
      const moves = days.flatMap(
        ({ groups }: { groups: { moves: { visitId: string; before: { day: string }; after: { day: string } }[] }[] }) =>
          groups.flatMap((group) => group.moves),
      );
      const of = (visitId: string) => moves.filter((move: { visitId: string }) => move.visitId === visitId);
      for (const { visitId } of made) {
        expect(of(visitId)).toHaveLength(1);
        expect(of(visitId)[0]).toMatchObject({ before: { day: SNOW } });
        expect(of(visitId)[0].after.day > SNOW, JSON.stringify(of(visitId))).toBe(true);
      }
      expect(days.every(({ proven, leftOut }: { proven: boolean; leftOut: unknown[] }) => proven && leftOut.length === 0)).toBe(true);
    }
    const keys = plan.answer.variants[1].days.flatMap(({ groups }: { groups: { key: string }[] }) => groups.map(({ key }) => key));
    const accepted = await api.send('office', 'POST', `/api/plans/${id}/acceptance`, { body: { groups: keys } });
    expect(accepted, JSON.stringify(accepted.body)).toMatchObject({ status: 201, body: { refused: [], calls: 0 } });
    expect((await api.send('office', 'GET', '/api/weather-closures')).body.items[0].visits).toEqual([]);
    const mails = await api.database.read.rows<{ to: string; n: number }>(
      `SELECT to_address AS to, count(*)::int AS n FROM outgoing_mail WHERE about_id = ANY($1::uuid[]) GROUP BY 1 HAVING count(*) > 1`,
      [[id, one.jobId, two.jobId]],
    );
    expect(mails).toEqual([]);
    expect((await api.send('office', 'PUT', `/api/weather-closures/${body.id}/end`)).status).toBe(200);
    expect((await api.send('office', 'PUT', `/api/weather-closures/${body.id}/end`)).status).toBe(404);
  });
  it.each([
    ['an end before the start', { endsAt: at('2026-05-18', 0) }, 'weather-closure-times'],
    ['a time that is over', { startsAt: at('2026-05-01', 0), endsAt: at('2026-05-02', 0) }, 'closure-past'],
    ['a time of two months', { endsAt: at('2026-07-20', 0) }, 'weather-closure-times'],
    ['a town that the firm does not serve', { towns: ['Atlantis'] }, 'town-not-known'],
  ])('refuses %s', async (_what, change, code) => {
    expect((await close(closure(change))).body).toMatchObject({ code });
  });
});
