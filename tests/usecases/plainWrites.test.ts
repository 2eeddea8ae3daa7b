// What a transaction writes to one table goes to its connection as one plain statement, and leaves what Prisma would have left.
import { PrismaPg } from '@prisma/adapter-pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Writer } from '@backsight/store/plainWrites';
import { PrismaClient } from '@backsight/store/generated/client';
import { testService } from '../support/database.ts';
import { statementsOf, type Statement } from '../support/statements.ts';

const service = testService();
let prisma: PrismaClient;
beforeAll(() => {
  prisma = new PrismaClient({ adapter: new PrismaPg({ connectionString: service.url }) });
});
afterAll(() => prisma.$disconnect());

const uuid = (n: number): string => `00000000-0000-7000-8000-00000000000${n}`;
const [MAY, JUNE] = [new Date('2026-05-25'), new Date('2026-06-19')];
const AT = new Date('2026-05-12T15:00:00.123Z');
const pack = (id: string, body: object) => ({ id, jurisdiction: 'US-XX', versionDay: MAY, body });
const file = { sha256: 'a'.repeat(64), mediaType: 'image/jpeg', bytes: 3, name: 'Crawl space', recordedAt: AT };

/** Each begins where the one before it ended. */
const WRITES: Record<string, (db: Writer) => Promise<unknown>> = {
  'a row with a day': (db) => db.closedDay.create({ data: { day: MAY, name: 'Memorial Day' } }),
  'rows, of which one is there': (db) =>
    db.closedDay.createMany({
      data: [
        { day: MAY, name: 'Other' },
        { day: JUNE, name: 'Juneteenth' },
      ],
      skipDuplicates: true,
    }),
  'three rows': (db) => db.numberCounter.createMany({ data: [1, 2, 3].map((next) => ({ kind: `k${next}`, next })) }),
  'no rows': (db) => db.numberCounter.createMany({ data: [] }),
  'one counted up': (db) => db.numberCounter.update({ where: { kind: 'k1' }, data: { next: { increment: 4 } } }),
  'those among some': (db) => db.numberCounter.updateMany({ where: { kind: { in: ['k1', 'k3'] }, next: { gt: 3 } }, data: { next: 9 } }),
  'none of them': (db) => db.numberCounter.updateMany({ where: { kind: 'k8' }, data: { next: 9 } }),
  JSON: (db) => db.rulePack.create({ data: pack(uuid(1), { days: [1, '2'], none: null, said: 'it\'s "so"' }) }),
  'a row that is there, by two fields': (db) =>
    db.rulePack.upsert({
      where: { jurisdiction_versionDay: { jurisdiction: 'US-XX', versionDay: MAY } },
      create: pack(uuid(2), {}),
      update: {},
    }),
  'a row that is not there yet': (db) =>
    db.approvalLimit.upsert({
      where: { role: 'lead_inspector' },
      create: { role: 'lead_inspector', limitCents: null },
      update: { limitCents: 5 },
    }),
  'the same, which now is there': (db) =>
    db.approvalLimit.upsert({
      where: { role: 'lead_inspector' },
      create: { role: 'lead_inspector', limitCents: null },
      update: { limitCents: 5 },
    }),
  'a moment': (db) => db.storedFile.create({ data: file }),
  'what was before a moment and is not yet gone': (db) =>
    db.storedFile.updateMany({ where: { recordedAt: { lt: new Date(AT.getTime() + 1) }, erasedAt: null }, data: { erasedAt: AT } }),
  'what is gone': (db) => db.storedFile.updateMany({ where: { erasedAt: { not: null } }, data: { name: 'Gone' } }),
  'a row away': (db) => db.closedDay.delete({ where: { day: JUNE } }),
  'those of some days away': (db) => db.closedDay.deleteMany({ where: { day: { gte: MAY } } }),
};

const TELLS = /\.(?:update|delete)Many\(/;
const TABLES = ['closed_day', 'number_counter', 'rule_pack', 'approval_limit', 'stored_file'];
const STATE = `SELECT ${TABLES.map((table) => `(SELECT jsonb_agg(t ORDER BY t::text) FROM ${table} t) AS ${table}`).join(', ')}`;

/** What each write left, and answered where it tells how many rows it found; all undone at the end. */
async function left(begin: (work: (db: Writer) => Promise<void>) => Promise<unknown>): Promise<unknown[]> {
  const seen: unknown[] = [];
  const run = begin(async (db) => {
    for (const [name, write] of Object.entries(WRITES)) {
      const answer = await write(db);
      seen.push([name, TELLS.test(String(write)) && answer, await db.$queryRawUnsafe(STATE)]);
    }
    throw new Error('undone');
  });
  await expect(run).rejects.toThrow('undone');
  return seen;
}

const byPrisma = (text: string): boolean => text.includes('"public".');
const texts = (statements: readonly Statement[]) => statements.map(({ text }) => text);
const database = () => new URL(service.url).pathname.slice(1);

describe('the writes of a transaction', () => {
  it('leave what Prisma leaves, and none of them goes through it', async () => {
    const expected = await left((work) => prisma.$transaction((db) => work(db as unknown as Writer)));
    const { value, statements } = await statementsOf(database(), () => left((work) => service.database.transaction(({ db }) => work(db))));
    expect(value).toEqual(expected);
    expect(texts(statements).filter(byPrisma)).toEqual([]);
    expect(statements.filter(({ text }) => /^(?:INSERT|UPDATE|DELETE)/.test(text)).length).toBe(Object.keys(WRITES).length - 1);
  });

  it('are said by Prisma where they are more than one plain statement', async () => {
    const act = () =>
      service.database.transaction(({ db }) => db.numberCounter.deleteMany({ where: { NOT: { kind: { startsWith: 'k' } }, next: -1 } }));
    const { value, statements } = await statementsOf(database(), act);
    expect([value, texts(statements).some(byPrisma)]).toEqual([{ count: 0 }, true]);
  });

  it('say that there is no row to change or to remove', async () => {
    const change = service.database.transaction(({ db }) => db.closedDay.update({ where: { day: JUNE }, data: { name: 'None' } }));
    await expect(change).rejects.toMatchObject({ code: 'P2025' });
    const removal = service.database.transaction(({ db }) => db.closedDay.delete({ where: { day: JUNE } }));
    await expect(removal).rejects.toMatchObject({ code: 'P2025' });
  });
});
