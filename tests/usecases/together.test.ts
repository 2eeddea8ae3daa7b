// Statements of a transaction leave together as far as their order allows: what answers nothing with the next one that answers something.
import { beforeEach, describe, expect, it } from 'vitest';
import { brokenRule } from '@backsight/store/constraint';
import { execute, openDatabase, touched, type SlowStatement, type Tx } from '@backsight/store/database';
import { testService } from '../support/database.ts';
import { statementsOf } from '../support/statements.ts';

const service = testService();
const row = (kind: string, next = 1) => ({ data: { kind, next } });
const KINDS = 'SELECT kind, next FROM number_counter WHERE kind LIKE $1 ORDER BY kind';
const kinds = (tx: Pick<Tx, 'rows'>) => tx.rows<{ kind: string; next: number }>(KINDS, ['t%']);
const kept = () => kinds(service.database.read);
const inside = <T>(work: (tx: Tx) => Promise<T>) => service.database.transaction(work);

/** The statements between BEGIN and COMMIT or ROLLBACK, those that left together in one list. */
async function trips(work: (tx: Tx) => Promise<unknown>): Promise<string[][]> {
  const act = () => inside(work).catch(() => null);
  const { statements } = await statementsOf(new URL(service.url).pathname.slice(1), act);
  const all = [...new Set(statements.map(({ trip }) => trip))].map((trip) => statements.filter((one) => one.trip === trip));
  return all.map((some) => some.map(({ text }) => text.split(' ').slice(0, 2).join(' ').toUpperCase())).slice(1, -1);
}

beforeEach(() => inside((tx) => execute(tx, `DELETE FROM number_counter WHERE kind LIKE 't%'`)));

describe('what a transaction sends', () => {
  it('leaves with the next statement whose answer is waited for, in its order', async () => {
    const sent = await trips(async (tx) => {
      await tx.db.numberCounter.create(row('t1'));
      await execute(tx, `UPDATE number_counter SET next = next + 1 WHERE kind = 't1'`);
      expect(await kinds(tx)).toEqual([{ kind: 't1', next: 2 }]);
      await tx.db.numberCounter.create(row('t2'));
    });
    expect(sent).toEqual([['INSERT INTO', 'UPDATE NUMBER_COUNTER', 'SELECT KIND,'], ['INSERT INTO']]);
    expect(await kept()).toHaveLength(2);
  });

  it('leaves in one go where it was asked for in one go', async () => {
    const sent = await trips((tx) =>
      Promise.all([kinds(tx), touched(tx, `UPDATE number_counter SET next = 1 WHERE kind = 't'`), kinds(tx)]),
    );
    expect(sent).toEqual([['SELECT KIND,', 'UPDATE NUMBER_COUNTER', 'SELECT KIND,']]);
    const later = async (tx: Tx) => {
      await Promise.resolve();
      return kinds(tx);
    };
    expect(await trips((tx) => Promise.all([kinds(tx), later(tx)]))).toEqual([['SELECT KIND,', 'SELECT KIND,']]);
  });

  it('is before what Prisma sends itself', async () => {
    const { count } = await inside(async ({ db }) => {
      await db.numberCounter.create(row('t1'));
      return db.numberCounter.deleteMany({ where: { kind: { startsWith: 't' } } });
    });
    expect(count).toBe(1);
  });

  it('is not kept back for long', async () => {
    const sent = await trips(async ({ db }) => {
      for (let n = 0; n < 120; n += 1) await db.numberCounter.create(row(`t${n}`));
    });
    expect(sent.map((some) => some.length)).toEqual([50, 50, 20]);
    expect(await kept()).toHaveLength(120);
  });

  it('never leaves where the transaction is given up', async () => {
    const sent = await trips(async (tx) => {
      await kinds(tx);
      await tx.db.numberCounter.create(row('t1'));
      throw new Error('given up');
    });
    expect([sent, await kept()]).toEqual([[['SELECT KIND,']], []]);
  });
});

it('that takes long is told by its own name and time, not that of what waited behind it', async () => {
  const told: SlowStatement[] = [];
  const database = await openDatabase(service.url, { size: 1, slow: (one) => void told.push(one) });
  const sleep = 'SELECT pg_sleep(1.1)';
  await database.transaction(async (tx) => {
    await execute(tx, sleep);
    await kinds(tx);
  });
  await database.read.rows(sleep);
  await database.close();
  expect(told.map(({ sql }) => sql)).toEqual([sleep, sleep]);
  for (const { ms } of told) expect(ms).toBeGreaterThanOrEqual(1_000);
});

describe('a write that nobody waited for', () => {
  const twice = async ({ db }: Tx) => {
    await db.numberCounter.create(row('t1'));
    await db.numberCounter.create(row('t1'));
  };
  const RULE = 'number_counter_pkey';

  it('fails the next statement with its own error', async () => {
    let heard: unknown;
    const act = inside(async (tx) => {
      await twice(tx);
      await kinds(tx).catch((why: unknown) => (heard = why));
    });
    await expect(act).rejects.toThrow();
    expect([brokenRule(heard), await kept()]).toEqual([RULE, []]);
  });

  it('fails the transaction where it was its last', async () => {
    const why: unknown = await inside(twice).catch((error: unknown) => error);
    expect([brokenRule(why), await kept()]).toEqual([RULE, []]);
  });

  it('fails the transaction where it found no row to change, whatever came behind it', async () => {
    const heard: unknown[] = [];
    const act = inside(async (tx) => {
      await tx.db.numberCounter.update({ where: { kind: 't1' }, data: { next: 2 } });
      await tx.db.numberCounter.create(row('t1'));
      await kinds(tx).catch((why: unknown) => heard.push(why));
    });
    await expect(act).rejects.toMatchObject({ code: 'P2025' });
    expect(heard).toMatchObject([{ code: 'P2025' }]);
    expect(await kept()).toEqual([]);
  });
});
