// Many callers want the same few times at once: nobody is ever sent to two houses, and every loser is told what else is possible.
import { randomUUID } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { holdJob, type Held } from '@backsight/usecases/jobs/holdJob';
import type { Outcome } from '@backsight/domain/shared/outcome';
import { rebuild } from '@backsight/domain/jobs/history';
import { findEvents, findJob } from '@backsight/store/jobs/jobs';
import { lockDays } from '@backsight/store/schedule/visits';
import { as, withCast } from '../support/cast.ts';
import { testService } from '../support/database.ts';
import { withStarter } from '../support/starter.ts';
import { holdBody, startsOf } from '../support/booking.ts';
import { brokenBookings } from '../support/checkBookings.ts';

const service = testService();
withCast(service);
withStarter(service);

const CALLERS = 200;
const overlapping = `SELECT count(*)::int AS n FROM assignment a JOIN assignment b ON a.person_id = b.person_id AND a.visit_id < b.visit_id AND a.live AND b.live AND a.during && b.during`;
const crews = `SELECT count(*)::int AS n FROM visit v WHERE v.live AND (SELECT count(*) FROM assignment a WHERE a.visit_id = v.id) <> v.crew_size`;
const count = async (sql: string): Promise<number> => (await service.database.read.rows<{ n: number }>(sql))[0]!.n;

describe('two hundred holds on the same few starts', () => {
  it('gives each person one house at a time, and each loser the next best choices', { timeout: 120_000 }, async () => {
    const { options } = await startsOf(service, { days: 1 });
    const wanted = options.slice(0, 4);
    expect(wanted).toHaveLength(4);
    const began = performance.now();
    const answers: Outcome<Held>[] = await Promise.all(
      Array.from({ length: CALLERS }, (_, n) => service.runner.run(holdJob, holdBody(wanted[n % wanted.length]!), { actor: as('office') })),
    );
    const took = performance.now() - began;
    const won = answers.filter((answer) => answer.ok);
    const lost = answers.filter((answer) => !answer.ok);
    expect(won.length).toBeGreaterThanOrEqual(1);
    expect(won.length).toBeLessThanOrEqual(wanted.length);
    expect(await count(overlapping)).toBe(0);
    expect(await count(crews)).toBe(0);
    expect(await count('SELECT count(*)::int AS n FROM visit WHERE live')).toBe(won.length);
    expect(await count('SELECT count(*)::int AS n FROM job')).toBe(won.length);
    for (const answer of lost) {
      expect(['person-taken', 'start-not-possible']).toContain(answer.code);
      const { nextStartsAt, nextFirst, nextSecond, nextSentences } = answer.about as Record<string, string[]>;
      expect(nextStartsAt!.length).toBeGreaterThan(0);
      expect([nextFirst!.length, nextSecond!.length, nextSentences!.length]).toEqual([
        nextStartsAt!.length,
        nextStartsAt!.length,
        nextStartsAt!.length,
      ]);
    }
    expect(took).toBeLessThan(60_000);
    console.log(`${CALLERS} holds: ${won.length} won, ${Math.round(took)} ms`);
  });
  it(
    'for houses in two towns and few pieces of kit keeps the ways and the kit too, and refuses the rest',
    { timeout: 120_000 },
    async () => {
      await service.database.transaction(({ db }) =>
        db.kitItem.updateMany({ where: { kind: 'ladder' }, data: { endedOn: new Date('2026-01-01') } }),
      );
      const [spare] = await service.database.read.rows<{ id: string }>(
        `SELECT id::text AS id FROM kit_item WHERE kind = 'ladder' ORDER BY id LIMIT 1`,
      );
      await service.database.transaction(({ db }) => db.kitItem.update({ where: { id: spare!.id }, data: { endedOn: null } }));
      const { options } = await startsOf(service, { fromDay: '2026-05-14', days: 1, limit: 100 });
      expect(options.length).toBeGreaterThan(3);
      const towns = ['Birchmere', 'Port Ansel', 'Stony Ferry'];
      const house = (n: number) => ({ property: { id: randomUUID(), address: `${n} Race Street`, town: towns[n % towns.length]! } });
      const answers = await Promise.all(
        Array.from({ length: CALLERS }, (_, n) =>
          service.runner.run(holdJob, holdBody(options[n % options.length]!, house(n)), { actor: as('office') }),
        ),
      );
      const codes = [...new Set(answers.filter((one) => !one.ok).map((one) => one.code))].sort();
      expect(codes.every((code) => ['person-taken', 'start-not-possible'].includes(code))).toBe(true);
      expect(answers.filter(({ ok }) => ok).length).toBeGreaterThan(0);
      expect(await count(overlapping)).toBe(0);
      expect(await brokenBookings(service, 'America/Chicago')).toEqual([]);
    },
  );
  it('locks the day of all ladders where only a long one is asked for: it is a ladder too', async () => {
    const day = '2027-03-02';
    await service.database.transaction((tx) => lockDays(tx, { people: [], kit: [{ kind: 'ladder_28', day }] }));
    expect(await service.database.read.rows(`SELECT kind FROM kit_day WHERE day = $1::date ORDER BY kind`, [day])).toEqual([
      { kind: 'ladder' },
      { kind: 'ladder_28' },
    ]);
  });
  it('a next best choice can be held', async () => {
    const { options } = await startsOf(service, { days: 1 });
    const taken = options[0]!;
    const first = await service.runner.run(holdJob, holdBody(taken), { actor: as('office') });
    const second = await service.runner.run(holdJob, holdBody(taken), { actor: as('office') });
    expect(first.ok).toBe(true);
    if (second.ok) throw new Error('one time was held twice');
    const about = second.about as Record<string, string[]>;
    const next = { startsAt: about.nextStartsAt![0]!, first: about.nextFirst![0]!, second: about.nextSecond![0]! };
    expect(await service.runner.run(holdJob, holdBody(next), { actor: as('office') })).toMatchObject({ ok: true });
  });
  it('numbers the jobs without gaps, and each row is what its events tell', async () => {
    const jobs = await service.database.read.rows<{ id: string; number: number }>('SELECT id::text AS id, number FROM job ORDER BY number');
    expect(jobs.map(({ number }) => number)).toEqual(jobs.map((_, n) => jobs[0]!.number + n));
    for (const { id } of jobs) {
      const { id: _id, ...row } = (await findJob(service.database.read, id))!;
      expect(rebuild(await findEvents(service.database.read, id))).toEqual(row);
    }
  });
});
