// What if: last year's weeks planned with the firm as it is and as it would be.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { CAST } from '../support/cast.ts';
import { testApi } from '../support/http.ts';
import { hourAt as at, planEnded } from '../support/plans.ts';
import { withStarter } from '../support/starter.ts';
import { bookedVisit } from '../support/visits.ts';

const api = testApi();
withStarter(api);
const { anna, ben } = CAST;
const answered = (id: string) => planEnded(api, `/api/what-ifs/${id}`);

describe('what if', () => {
  const askWhatIf = async (
    change: Record<string, unknown>,
    who: 'owner' | 'lead' = 'owner',
    from = '2026-05-14',
    more: Record<string, unknown> = {},
  ) => {
    const id = randomUUID();
    return { id, ...(await api.send(who, 'POST', '/api/what-ifs', { body: { id, from, weeks: 1, change, ...more } })) };
  };
  beforeAll(async () => {
    for (const [n, hour] of [9, 13].entries())
      await bookedVisit(api, {
        startsAt: at('2025-05-13', hour),
        endsAt: at('2025-05-13', hour + 3),
        first: anna.id,
        second: ben.id,
        street: `${n} Last Year Lane`,
        state: 'done',
      });
    const away = { lat: 44.3, lon: -88.3 };
    await api.database.transaction((tx) => tx.db.property.updateMany({ where: { address: { endsWith: 'Last Year Lane' } }, data: away }));
  });

  it('plans the same week of last year with one more, week by week', async () => {
    const asked = await askWhatIf({ kind: 'one_more', likeId: anna.id, town: null });
    expect(asked.status, JSON.stringify(asked.body)).toBe(201);
    const plan = await answered(asked.id);
    expect(plan, plan.note).toMatchObject({ state: 'finished', inWords: 'One more like Anna Inspector' });
    expect(plan.answer.of).toBe('last_year');
    expect(plan.answer.weeks).toMatchObject([
      { monday: '2025-05-12', visits: 2, now: { placed: 2, fit: 4, unproven: 0 }, then: { placed: 2, fit: 4, unproven: 0 } },
    ]);
  });
  it('drives twice as long at half the speed', async () => {
    const [week] = (await answered((await askWhatIf({ kind: 'speed', percent: 50 })).id)).answer.weeks;
    expect(week.then.driving).toBeGreaterThan(week.now.driving * 1.5);
    expect(week.then.driving).toBeLessThan(week.now.driving * 2.1);
  });
  it('shows a tenth less speed in minutes, and as much driving at the same speed', async () => {
    const of = async (percent: number) => (await answered((await askWhatIf({ kind: 'speed', percent })).id)).answer.weeks[0];
    const [slower, same] = [await of(90), await of(100)];
    expect(slower.then.driving).toBeGreaterThan(slower.now.driving);
    expect(slower.then.driving).toBeLessThan(slower.now.driving * 1.12);
    expect(same.then.driving).toBe(same.now.driving);
  });
  it('plans the booked weeks themselves when last year had nothing, or when that is asked', async () => {
    await bookedVisit(api, {
      startsAt: at('2026-06-09', 9),
      endsAt: at('2026-06-09', 12),
      first: anna.id,
      second: ben.id,
      street: '7 June Lane',
    });
    for (const more of [{}, { visits: 'these_weeks' }]) {
      const { answer } = await answered((await askWhatIf({ kind: 'speed', percent: 50 }, 'owner', '2026-06-10', more)).id);
      expect(answer).toMatchObject({ of: 'these_weeks', weeks: [{ monday: '2026-06-08', visits: 1, now: { placed: 1 } }] });
    }
    const plan = await answered((await askWhatIf({ kind: 'speed', percent: 50 }, 'owner', '2026-06-10', { visits: 'last_year' })).id);
    expect(plan).toMatchObject({ state: 'failed', note: expect.stringContaining('of last year: there is nothing to plan anew') });
  });
  it('says so when neither has a visit', async () => {
    const plan = await answered((await askWhatIf({ kind: 'speed', percent: 120 }, 'owner', '2026-08-10')).id);
    expect(plan).toMatchObject({ state: 'failed', answer: null, note: expect.stringContaining('nor in the same weeks of last year') });
  });
  it('is refused for people and towns that there are not, and to a lead', async () => {
    expect((await askWhatIf({ kind: 'base', personId: randomUUID(), town: 'Birchmere' })).body.code).toBe('not-found');
    expect((await askWhatIf({ kind: 'base', personId: anna.id, town: 'Atlantis' })).body.code).toBe('town-not-known');
    expect((await askWhatIf({ kind: 'speed', percent: 0 })).status).toBe(422);
    expect((await askWhatIf({ kind: 'speed', percent: 120 }, 'lead')).status).toBe(403);
  });
});
